#pragma once

#include <memory>
#include <span>
#include <tl/expected.hpp>

#include "standtrue/solve/response.hpp"

/// Linear statics with press-only supports. Factor once (`prepare`), answer many loadings
/// (`respond`). Every answer is audited; one that can not be stood behind is refused.
namespace standtrue::solve {

template <class T>
using OrRefusal = tl::expected<T, Refusal>;

/// A loading: factored cases of the model, and loads of its own.
struct Loading {
  std::vector<model::Factored> terms;
  std::vector<model::NodeLoad> node_loads;
};

/// Adds `stiffness` (N/m or N m/rad; may be negative) to one freedom of a node against the ground,
/// or between two nodes: (u_b - u_a) along `along`.
struct StiffnessChange {
  model::NodeId a = 0;
  std::optional<model::NodeId> b;
  bool rotation = false;
  model::Direction along{0.0, 0.0, 1.0};
  double stiffness = 0.0;
};

/// Condensed plates, kept between calls of `prepare`: models whose plates differ only in their
/// ties' stiffness, in creep or not at all share the work. Give one cache to all bounds of a bench.
class PlateCache {
 public:
  struct Inside;
  PlateCache();
  std::shared_ptr<Inside> inside;
};

/// A model with its stiffness factorised for one set of end springs, and the answers to its own
/// load cases. Copies share the factorisation. Holds a copy of the model.
class Prepared {
 public:
  struct Inside;
  explicit Prepared(std::shared_ptr<const Inside> inside) : inside_(std::move(inside)) {}
  [[nodiscard]] const Inside& inside() const { return *inside_; }
  [[nodiscard]] const model::Model& model() const;
  /// Reciprocal condition of the diagonally scaled stiffness, estimated.
  [[nodiscard]] double reciprocal_condition() const;

 private:
  std::shared_ptr<const Inside> inside_;
};

[[nodiscard]] OrRefusal<Prepared> prepare(const model::Model& model, model::SpringSet springs,
                                          PlateCache& plates);
[[nodiscard]] OrRefusal<Prepared> prepare(const model::Model& model,
                                          model::SpringSet springs = model::SpringSet::gravity);
[[nodiscard]] OrRefusal<State> respond(const Prepared& prepared, const Loading& loading,
                                       std::span<const StiffnessChange> changes = {});

/// The answers to all combinations of a model.
struct Response {
  std::array<std::optional<Prepared>, 2>
      prepared;                          ///< by SpringSet, where a combination asks for it
  std::vector<OrRefusal<State>> states;  ///< per combination of the model
  std::vector<Loading> loadings;         ///< per combination; a limited push at what it reached
};
/// All combinations; refused as a whole only when the frame itself can not be solved.
[[nodiscard]] OrRefusal<Response> static_response(const model::Model& model, PlateCache& plates);
[[nodiscard]] OrRefusal<Response> static_response(const model::Model& model);

/// Exact diagrams of one member under the loading whose State is given.
[[nodiscard]] MemberDiagrams diagrams(const Prepared& prepared, model::MemberId member,
                                      const Loading& loading, const State& state);
[[nodiscard]] MemberDiagrams diagrams(const Response& response, std::size_t combination,
                                      model::MemberId member);
/// The internal forces alone; u, v and w stay empty.
[[nodiscard]] MemberDiagrams force_diagrams(const Prepared& prepared, model::MemberId member,
                                            const Loading& loading, const State& state);
[[nodiscard]] MemberDiagrams force_diagrams(const Response& response, std::size_t combination,
                                            model::MemberId member);

}  // namespace standtrue::solve
