#pragma once

#include <Eigen/SparseCore>
#include <memory>

#include "solve/sparse_ldlt.hpp"

/// A sparse symmetric stiffness, scaled to a diagonal between a half and two, as L D L^T.
namespace standtrue::solve {

class Factor {
 public:
  /// K square and symmetric. A row without stiffness or a breakdown leaves `broke_down` true; then
  /// only `weakest` may be asked. `known` takes the layout of its pattern, or has it.
  Factor(const SparseMatrix& K, Layouts& known);

  [[nodiscard]] bool broke_down() const { return broke_down_; }
  /// Reciprocal condition of the scaled matrix in the 2-norm, estimated by power iterations; zero
  /// after a breakdown.
  [[nodiscard]] double reciprocal_condition() const { return reciprocal_condition_; }
  /// The movement that the least force resists: near the null vector of a mechanism. Unscaled.
  [[nodiscard]] const Eigen::VectorXd& weakest() const { return weakest_; }
  /// K^-1 f with one step of refinement.
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& f) const;
  /// The same without it.
  [[nodiscard]] Eigen::VectorXd solve_once(const Eigen::VectorXd& f) const;
  /// The same for many right-hand sides at once.
  [[nodiscard]] Panel solve(const Panel& F) const;
  /// The halves of a solve, K = C C^T: C^-1 f and C^-T y.   Contract: not broken down, pivots
  /// above zero.
  [[nodiscard]] Eigen::VectorXd first_half(const Eigen::VectorXd& f) const;
  [[nodiscard]] Eigen::VectorXd second_half(const Eigen::VectorXd& y) const;

 private:
  struct Inside;
  std::shared_ptr<const Inside> inside_;
  bool broke_down_ = false;
  double reciprocal_condition_ = 0.0;
  Eigen::VectorXd weakest_;
};

}  // namespace standtrue::solve
