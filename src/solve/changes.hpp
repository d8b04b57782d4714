#pragma once

#include <Eigen/LU>
#include <span>

#include "solve/prepared.hpp"

/// A factorised frame with a few stiffnesses changed. All numbers SI.
namespace standtrue::solve {

/// Stiffness changes as k a a^T with `a` over own freedoms, by Woodbury's formula:
///     u' = u - Z (1/k + a^T Z)^-1 a^T u,   Z = K^-1 a.
class Changes {
 public:
  static OrRefusal<Changes> make(const Prepared::Inside& in,
                                 std::span<const StiffnessChange> changes);

  [[nodiscard]] bool none() const { return k_.size() == 0; }
  /// The own movement that the same forces bring about with the changes.
  [[nodiscard]] Eigen::VectorXd correct(const Eigen::VectorXd& movement) const;
  /// Own forces with which the changes resist a movement.
  [[nodiscard]] Eigen::VectorXd pull(const Eigen::VectorXd& movement) const;

 private:
  Eigen::MatrixXd a_, Z_;
  Eigen::VectorXd k_, scale_;
  Eigen::FullPivLU<Eigen::MatrixXd> lu_;
};

}  // namespace standtrue::solve
