#pragma once

#include <Eigen/SparseCore>

#include "solve/sparse_ldlt.hpp"
#include "standtrue/model/plate.hpp"

/// Mass of a plate on its mesh. All numbers SI.
namespace standtrue::solve {

/// Consistent mass of the four-node elements: every one of u v w rx ry is bilinear in a cell, with
/// mass m per area along the axes (with what it carries) and m t²/12 of its own about them. So one
/// matrix over the mesh nodes, ∫ N_i N_j dA, serves all five.
class PlateMass {
 public:
  explicit PlateMass(const model::Plate& plate);

  /// Inertia forces per acceleration: five rows per mesh node, any number of columns.
  [[nodiscard]] Panel times(const Panel& movements) const;
  /// ∫ N_i N_j dA over the mesh nodes.
  [[nodiscard]] const Eigen::SparseMatrix<double>& shares() const { return shares_; }
  [[nodiscard]] double per_area() const { return m_; }         ///< kg/m²
  [[nodiscard]] double rotary_per_area() const { return i_; }  ///< kg

 private:
  Eigen::SparseMatrix<double> shares_;
  double m_ = 0.0, i_ = 0.0;
};

}  // namespace standtrue::solve
