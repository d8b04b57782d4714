#pragma once

#include <Eigen/SparseCore>
#include <memory>

#include "solve/sparse_ldlt.hpp"

/// A sparse symmetric stiffness, scaled to a unit diagonal, as L D L^T.
namespace standtrue::solve {

class Factor {
 public:
  /// K square and symmetric. A row without stiffness or a breakdown leaves `broke_down` true; then
  /// only `weakest` may be asked.
  explicit Factor(const SparseMatrix& K);

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

 private:
  struct Inside;
  std::shared_ptr<const Inside> inside_;
  bool broke_down_ = false;
  double reciprocal_condition_ = 0.0;
  Eigen::VectorXd weakest_;
};

}  // namespace standtrue::solve
