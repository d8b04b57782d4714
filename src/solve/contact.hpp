#pragma once

#include <Eigen/Core>
#include <vector>

#include "standtrue/solve/solve.hpp"

/// Which press-only supports touch. All numbers SI.
namespace standtrue::solve {

/// Supports that can let go, with everything closed: `force` each, and `change(i, j)` of force i
/// for a unit movement of ground j (positive semi-definite: a rising ground loads). `stiffness` is
/// what force(i) would change by if the frame stayed at rest: the scale of row i. `press_only`
/// marks those that decide; the others follow `rides_on` (place in this list). `lifts` are the
/// movements that nothing resists but what presses (free_lifts), a row for each press-only support;
/// empty if not known.
struct ContactProblem {
  Eigen::VectorXd force;
  Eigen::MatrixXd change;
  Eigen::VectorXd stiffness;
  std::vector<bool> press_only;
  std::vector<std::size_t> rides_on;
  Eigen::MatrixXd lifts = {};
  /// What is no more than that beside a support's own stiffness is nothing.
  double rounding = 1e-9;
};

/// Ground movements that leave no pull: zero where closed; where open the ground follows the frame,
/// so that the force vanishes and the movement is the gap that has opened. Where `slipping`, a
/// support touches and what rides on it follows the frame.
struct ContactSolution {
  Eigen::VectorXd ground;
  std::vector<bool> open, slipping;
};

/// By active set, the worst violation changing sides each round; once that goes in a circle, the
/// first one; and if that does too, a foot that would be lifted there slips instead. Where a set
/// can not hold the frame and statics does not say that it tips, every other set is tried (up to
/// twelve feet) before it is said to. A frame that stands only on supports without force rocks,
/// which counts as tipping. Refuses with `tips`, or `contact_unsettled` when the set never settles.
[[nodiscard]] OrRefusal<ContactSolution> solve_contact(const ContactProblem& problem);

}  // namespace standtrue::solve
