#pragma once

#include "solve/plate_mass.hpp"
#include "solve/prepared.hpp"

/// A frame with everything that moves in it, nothing condensed: the own freedoms of its nodes, six
/// each, then five (u v w rx ry, own axes) of every mesh node of each plate. Rows of held freedoms
/// and of mesh nodes that are not there stay zero. All numbers SI.
namespace standtrue::solve {

class WholeFrame {
 public:
  /// `in` must outlive this.
  explicit WholeFrame(const Prepared::Inside& in);

  /// Adds axial forces' stiffness (geometric_matrix) and factorises anew; false if the frame then
  /// gives way.
  [[nodiscard]] bool press(SparseMatrix K_G);

  [[nodiscard]] Eigen::Index size() const { return size_; }
  [[nodiscard]] Eigen::Index of_nodes() const { return in_.freedoms.of_nodes(); }
  /// The first row of a plate.
  [[nodiscard]] Eigen::Index first(std::size_t plate) const { return first_[plate]; }
  [[nodiscard]] const Prepared::Inside& inside() const { return in_; }

  /// K^-1 f: loads on the mesh go to the tied points, the frame answers, the mesh follows.
  [[nodiscard]] Panel movements_under(const Panel& forces) const;
  /// K u, cell by cell, without the condensed plates: what the answers are held against.
  [[nodiscard]] Panel forces_of(const Panel& movements) const;
  /// The loads of one case; of those on members what their nodes feel.
  [[nodiscard]] Eigen::VectorXd load_of(model::CaseId load_case) const;
  /// Zeros in the rows of all that can not move.
  void hold(Panel& forces) const;

 private:
  [[nodiscard]] bool is_free(Eigen::Index own) const {
    return in_.freedoms.number[static_cast<std::size_t>(own)] >= 0;
  }
  void pull_mesh(std::size_t plate, const Panel& movements, Panel& forces) const;

  const Prepared::Inside& in_;
  std::vector<Eigen::Index> first_;
  Eigen::Index size_ = 0;
  std::vector<Eigen::MatrixXd>
      pattern_movements_;  ///< per plate, of its bodies' pads, ties at rest
  SparseMatrix K_G_;
  std::optional<Factor> pressed_;
};

/// The mass of all that: members, plates, point masses and bodies.
class WholeMass {
 public:
  explicit WholeMass(const WholeFrame& frame);

  /// Inertia forces per acceleration.
  [[nodiscard]] Panel times(const Panel& movements) const;
  /// Movements of each body's centre of mass, six rows each: B^T u.
  [[nodiscard]] Eigen::MatrixXd of_bodies(const Panel& movements) const {
    return bodies_.transpose() * movements;
  }

 private:
  const WholeFrame& frame_;
  SparseMatrix of_nodes_;  ///< own
  std::vector<PlateMass> plates_;
  Eigen::MatrixXd bodies_;       ///< B
  Eigen::VectorXd body_masses_;  ///< m m m I_x I_y I_z of each
};

}  // namespace standtrue::solve
