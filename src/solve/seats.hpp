#pragma once

#include <Eigen/Cholesky>

#include "solve/assembly.hpp"
#include "standtrue/solve/solve.hpp"

/// Contact by weight under a stiffness that leaves it out. All numbers SI.
namespace standtrue::solve {

/// The springs k on gaps a^T u of all ties that hold by weight alone, in the order of plates, ties
/// and axes. What weights press on them with, were they in K, is put on the frame as a load -a s:
///     (1/k + a^T K^-1 a) s = a^T K^-1 f      so that      K u = f - a s, s = k a^T u
/// and u is what the frame with these springs does under f (Woodbury's formula). A push on top of
/// the weights then neither loads the seats nor relieves them.
class Seats {
 public:
  /// Gaps (a column each, over own freedoms), stiffnesses, and the first of each plate.
  struct Springs {
    SparseMatrix gaps;
    Eigen::VectorXd stiffness;
    std::vector<Eigen::Index> first;
  };
  [[nodiscard]] static Springs springs(const model::Model& model, const Freedoms& freedoms,
                                       const std::vector<PreparedPlate>& plates);

  /// None, as of a K that has these springs.
  Seats() = default;
  /// `solved`: K^-1 a, a column each.
  Seats(Springs springs, Eigen::MatrixXd solved);

  [[nodiscard]] Eigen::Index count() const { return springs_.stiffness.size(); }
  [[nodiscard]] bool none() const { return count() == 0; }
  [[nodiscard]] Eigen::Index first_of(std::size_t plate) const { return springs_.first[plate]; }
  /// s of an own load that is a weight.
  [[nodiscard]] Eigen::VectorXd forces(const Eigen::VectorXd& own_load) const;
  /// -a s
  [[nodiscard]] Eigen::VectorXd own_load(const Eigen::VectorXd& forces) const;

 private:
  Springs springs_;
  Eigen::MatrixXd solved_;
  Eigen::LLT<Eigen::MatrixXd> compliance_;
};

}  // namespace standtrue::solve
