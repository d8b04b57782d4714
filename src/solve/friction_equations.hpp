#pragma once

#include "solve/friction.hpp"

/// The equations of friction.hpp and Newton's step towards their solution. All numbers SI.
namespace standtrue::solve {

[[nodiscard]] inline Eigen::Index at(std::size_t i) { return static_cast<Eigen::Index>(i); }

class FrictionEquations {
 public:
  FrictionEquations(const ContactProblem& problem, const std::vector<Grip>& grips);

  /// At some movement of the grounds.
  void look(const Eigen::VectorXd& ground);
  [[nodiscard]] bool are_met() const;
  /// Grounds so far away that the rounding of `change` (1e-9 of the floor) makes forces of its own
  /// answer nothing: the frame has slid off.
  [[nodiscard]] bool is_near() const;
  [[nodiscard]] const FrictionSolution& now() const { return now_; }

  /// What the grounds have to move further by.
  [[nodiscard]] Eigen::VectorXd step() const;

 private:
  [[nodiscard]] std::size_t presses(std::size_t i) const {
    return problem_.press_only[i] ? i : problem_.rides_on[i];
  }
  void carries(std::size_t i, double force);
  void rests(std::size_t i);
  void slip(const Grip& grip);
  [[nodiscard]] std::vector<Eigen::Index> moving() const;

  const ContactProblem& problem_;
  const std::vector<Grip>& grips_;
  FrictionSolution now_;
  Eigen::VectorXd force_, trial_, residual_;
  Eigen::MatrixXd slope_;  ///< of the residual by the grounds
  double scale_ = 0.0;
};

}  // namespace standtrue::solve
