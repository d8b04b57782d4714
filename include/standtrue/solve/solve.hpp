#pragma once

#include <memory>
#include <span>
#include <tl/expected.hpp>

#include "standtrue/solve/response.hpp"

/// Statics with press-only supports, friction and second order. Factor once (`prepare`), answer
/// many loadings (`respond`). Every answer is audited; one that can not be stood behind is refused.
namespace standtrue::solve {

template <class T>
using OrRefusal = tl::expected<T, Refusal>;

/// Moves the ground of one support, m or rad, on top of what the model imposes.
struct GroundMove {
  std::size_t support = 0;
  double by = 0.0;
};

/// A loading: factored cases of the model, loads of its own, and how it is answered.
///
/// Second order: K u = f - K_G(N) (γ u + u_0), N the axial forces of the answer itself, u_0 the
/// lean, γ = stiffness_over; repeated with the factor of K until no movement changes by more than
/// 1e-9 of the largest. K_G is that of Engesser: N does work on the slope of the axis
/// (docs/method.md). Refused with `buckles` where K + γ K_G of the answer is not positive definite.
struct Loading {
  std::vector<model::Factored> terms;
  std::vector<model::NodeLoad> node_loads;
  std::vector<GroundMove> grounds = {};
  bool second_order = false;
  std::array<double, 2> lean{};  ///< slopes along x and y, second order only
  double stiffness_over = 1.0;   ///< second order only
  bool known_to_stand = false;   ///< the caller knows a buckling factor: not looked at again
  bool slides = false;           ///< supports with friction slide
};
/// What a combination of the model asks for.
[[nodiscard]] Loading loading_of(const model::Combination& combination);

/// Adds `stiffness` (N/m or N m/rad; may be negative) to one freedom of a node against the ground,
/// or between two nodes: (u_b - u_a) along `along`. What weights press with on ties that they alone
/// hold stays as it is without it.
struct StiffnessChange {
  model::NodeId a = 0;
  std::optional<model::NodeId> b;
  bool rotation = false;
  model::Direction along{0.0, 0.0, 1.0};
  double stiffness = 0.0;
};

/// Condensed plates, kept between calls of `prepare`: models whose plates differ only in their
/// ties' stiffness, in creep or not at all share the work. Give one cache to all bounds of a bench;
/// copies of it share what it holds and then go their own ways: one for each thread.
class PlateCache {
 public:
  struct Inside;
  PlateCache();
  [[nodiscard]] PlateCache copy() const;
  std::shared_ptr<Inside> inside;
};

/// Condenses the plates of a model and answers their loads, and keeps both: `prepare` of this
/// model, or of one that differs as said above, finds them. What is refused is refused there.
void condense_plates(const model::Model& model, PlateCache& plates);

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

/// Which load cases are answered together, many times as quick as one by one: those that the
/// combinations with these springs name, or all. The others are answered when first asked for.
enum class Together { named, all };

[[nodiscard]] OrRefusal<Prepared> prepare(const model::Model& model, model::SpringSet springs,
                                          PlateCache& plates, Together together = Together::named);
[[nodiscard]] OrRefusal<Prepared> prepare(const model::Model& model,
                                          model::SpringSet springs = model::SpringSet::gravity);
[[nodiscard]] OrRefusal<State> respond(const Prepared& prepared, const Loading& loading,
                                       std::span<const StiffnessChange> changes = {});

/// The lowest buckling load factor of the combinations that were looked at.
struct Stability {
  double factor = 0.0;  ///< infinite if nothing is pressed
  std::size_t combination = 0;
  Eigen::VectorXd shape;  ///< 6 per node, global; its largest movement is 1
};

/// The answers to all combinations of a model.
struct Response {
  std::array<std::optional<Prepared>, 2>
      prepared;                          ///< by SpringSet, where a combination asks for it
  std::vector<OrRefusal<State>> states;  ///< per combination of the model
  std::vector<Loading> loadings;         ///< per combination; a limited push at what it reached
  std::optional<Stability> stability;    ///< where `second_order_below` was asked for
  std::optional<Refusal> no_stability;   ///< why there is none, where it was
  bool second_order = false;             ///< all states are
  std::vector<double>
      growth;  ///< per combination: sideways movement over that of first order; 1 if none
};
/// All combinations; refused as a whole only when the frame itself can not be solved. With
/// `second_order_below` the lowest buckling factor is found, with sway springs, of all combinations
/// for strength (or as given). Where it lies between 1 and that number while all feet touch, every
/// combination is answered by second order; else those that ask for it, and those with a foot that
/// lifts whose own factor lies below. Below 1 the frame buckles, and all answers stay those of
/// first order.
[[nodiscard]] OrRefusal<Response> static_response(const model::Model& model, PlateCache& plates,
                                                  double second_order_below = 0.0);
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
