#pragma once

#include <Eigen/Cholesky>
#include <array>
#include <memory>
#include <optional>
#include <vector>

#include "solve/substructure.hpp"
#include "standtrue/model/plate.hpp"
#include "standtrue/solve/solve.hpp"

/// A plate seen from its ties: its whole mesh is eliminated but the movements of the points where
/// ties hold it, (u_t, v_t, w) each, along the plate's own axes. Stiffness before creep; the
/// creeping plate is this divided by Plate::creep. All numbers SI.
namespace standtrue::solve {

/// Loads on the mesh nodes, five rows per node (u v w rx ry), one column per loading.
using PlateLoads = Panel;

/// What loads do while the tied points rest.
struct PlateAnswer {
  Panel in_plane, bending;  ///< movements of the mesh, tied nodes at rest
  Panel turns;              ///< load on the rotations of tied nodes
  Eigen::MatrixXd on_ties;  ///< 3 per tied node: what the rest of the frame feels
};

class CondensedPlate {
 public:
  explicit CondensedPlate(const model::Plate& plate);

  /// Why the plate can not be used, whatever it is tied to.
  [[nodiscard]] const std::optional<Refusal>& refusal() const { return refusal_; }
  /// Mesh nodes with ties, in the order of the condensed freedoms.
  [[nodiscard]] const std::vector<std::size_t>& tied() const { return tied_; }
  [[nodiscard]] Eigen::Index size() const { return 3 * static_cast<Eigen::Index>(tied_.size()); }
  [[nodiscard]] const Eigen::MatrixXd& stiffness() const { return S_; }

  /// Whether freedom `f` (u v w rx ry) of a mesh node can move: the plate is there and not held.
  [[nodiscard]] bool moves(std::size_t mesh_node, std::size_t f) const {
    return place_[mesh_node][f] >= 0;
  }

  [[nodiscard]] PlateAnswer answer(const PlateLoads& loads) const;
  /// Movements of the mesh (five rows per node) given those of the tied points, one column per
  /// loading. `creep` divides the stiffness.
  [[nodiscard]] Panel movements(const Panel& of_ties, const PlateAnswer& answer,
                                double creep) const;

  /// Load of a force (own axes: along x, y, normal) spread over a patch, consistent with the
  /// element's shape functions; what of the patch is not there carries nothing. Adds to a column.
  void press(PlateLoads& loads, Eigen::Index column, const model::Patch& patch,
             const std::array<double, 3>& force) const;
  [[nodiscard]] PlateLoads no_loads(Eigen::Index columns) const;
  [[nodiscard]] const model::Plate& plate() const { return plate_; }

 private:
  void number_freedoms();
  void assemble();
  void eliminate_turns();

  model::Plate plate_;
  std::optional<Refusal> refusal_;
  std::vector<std::size_t> tied_;
  std::vector<std::array<int, 5>> place_;  ///< per mesh node: in the plane (u v), bending (w rx ry)
  int n_in_plane_ = 0, n_bending_ = 0;
  std::optional<Substructure> in_plane_, bending_;
  Eigen::MatrixXd S_;
  Eigen::MatrixXd K_cr_;  ///< tied points against the rotations of their mesh nodes
  Eigen::LLT<Eigen::MatrixXd> K_rr_;
};

}  // namespace standtrue::solve
