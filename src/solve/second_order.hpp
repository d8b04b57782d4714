#pragma once

#include <vector>

#include "solve/prepared.hpp"

/// The push of axial forces on members that have moved out of their line. All numbers SI.
namespace standtrue::solve {

class SecondOrder {
 public:
  /// `lean` and `stiffness_over` as in Loading.
  SecondOrder(const Prepared::Inside& in, const Loading& loading);

  /// The push that goes with the axial forces and the shape of an answer; `f` is what loads each
  /// member in it. 12 per member, local.
  [[nodiscard]] Eigen::VectorXd push_of(const State& state, const std::vector<Vector12>& f);
  /// A push as own loads, and added to the sum of all loads.
  [[nodiscard]] Eigen::VectorXd own_load(const Eigen::VectorXd& push, Resultant& resultant) const;
  [[nodiscard]] std::vector<State::Askew> askew(const Eigen::VectorXd& push) const;
  /// Whether K + γ K_G is positive definite with the axial forces of the last answer, supports that
  /// are open in it let go.
  [[nodiscard]] bool stands(const State& state) const;

 private:
  /// With these axial forces, and these springs of supports lifted.
  [[nodiscard]] bool holds(const std::vector<double>& N, const std::vector<bool>& lifted) const;

  const Prepared::Inside& in_;
  std::vector<Vector12> lean_;  ///< per member: how its ends stand askew, local
  std::vector<double> N_;
  double times_ = 1.0;  ///< γ
};

/// Speeds up a repetition x = g(x) that changes by about the same few shapes each time: the next x
/// is the mix of the last answers that would have repeated best.
/// Source (from memory): Anderson, J. ACM 12 (1965), 547.
class Repetition {
 public:
  /// The next x, given the last one and what came of it.
  [[nodiscard]] Eigen::VectorXd next(const Eigen::VectorXd& x, const Eigen::VectorXd& g);

 private:
  std::vector<Eigen::VectorXd> g_, r_;  ///< last answers, and their changes
};

/// Per support, whether it is open in the answer and has a spring. A rigid one stays: it can not be
/// taken away without other unknowns.
[[nodiscard]] std::vector<bool> lifted_springs(const Prepared::Inside& in, const State& state);
/// Less the springs of supports that are lifted.
void take_away(SparseMatrix& K, const Prepared::Inside& in, const std::vector<bool>& lifted);

/// Tension of a member between its ends: the mean of both.
[[nodiscard]] double axial_force(const State& state, model::MemberId member);

/// What a unit of tension in each member, times N, adds to the stiffness, over all own freedoms.
[[nodiscard]] SparseMatrix geometric_matrix(const Prepared::Inside& in,
                                            const std::vector<double>& N);

}  // namespace standtrue::solve
