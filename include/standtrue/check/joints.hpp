#pragma once

#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// Strength of the joints at the ends of rails and bearers: EN 1995-1-1, section 8.
namespace standtrue::check {

class SectionForces;  // src/check/section_forces.hpp

/// One joint under one combination. A ductile mode yields and goes on carrying (a bracket's plate,
/// fasteners that bend); a brittle one lets go (screws pulled out, timber splitting).
struct JointRatio {
  std::size_t rail_end = 0;  ///< place in Parts::rail_ends
  std::size_t combination = 0;
  double ratio = 0.0;    ///< of the worst mode, bending in the upright plane included
  double force = 0.0;    ///< the same without that bending
  bool ductile = false;  ///< the mode of `ratio` is ductile
  std::string mode;      ///< what governs: "bending of the bracket's plate"
  std::string why;       ///< of a ratio that is not a number
};

/// Every joint under the loads that press down (all that no shove leads): bending with shear and
/// pull, elastically, the worst mode; and under shoves the shear and pull alone, as bending is
/// shared out there. One finding per rail end.
/// Source (second hand): EN 1995-1-1, 8.1.4, 8.2.2, 8.3 and 8.7.
/// Source (second hand): EN 1995-1-1, 8.2.3 and 8.5.
/// Source (from memory): EN 1993-1-1, 6.2.5, the plastic bending of a plate.
[[nodiscard]] std::vector<Finding> joints_under_gravity(const Answers& answers,
                                                        const SectionForces& forces,
                                                        const reference::Tables& tables);

/// For each way of shoving: the sum (with signs) of the bending moments of the joints in that plane
/// against the sum of their resistances, each in its sense: joints that yield share before the
/// frame folds. Joints whose strength is not judged are left out of the resistances; where the rest
/// is not enough the sum is not judged.
/// Source (second hand): EN 1995-1-1, 5.1(9), joints that yield.
/// Source (ours): the sum over joints.
[[nodiscard]] std::vector<Finding> joints_under_shove(const Answers& answers,
                                                      const SectionForces& forces,
                                                      const reference::Tables& tables);

/// Whether the fasteners of each joint may sit where they do: spacing, distances to ends and edges,
/// length in the wood. A joint that fails has no judged strength.
/// Source (second hand): EN 1995-1-1, Tables 8.2 and 8.6.
/// Source (second hand): EN 1995-1-1, Table 8.4.
/// Source (second hand): EN 1995-1-1, 8.3.1.2 and 8.7.2(3), length in the wood.
[[nodiscard]] std::vector<Finding> joint_fasteners(const Answers& answers,
                                                   const SectionForces& forces,
                                                   const reference::Tables& tables);

/// What fastens each end of each brace against its pull and its push: bolts or screws through it,
/// or, where it stands against the piece, pressure at an angle to the grain. One finding per end.
/// Source (second hand): EN 1995-1-1, 6.2.2, 8.1.4, 8.2.2 and 8.5.1.
[[nodiscard]] std::vector<Finding> brace_ends(const Answers& answers, const SectionForces& forces,
                                              const reference::Tables& tables);

/// One combination's ratios of all rail ends, in their order.
[[nodiscard]] std::vector<JointRatio> joint_ratios(const Answers& answers, std::size_t combination,
                                                   const reference::Tables& tables);

/// Names of the rail ends whose ductile bending mode is exceeded by the loads that press down while
/// the rest of the joint holds: their bending may be let go (Assumptions::released) and the frame
/// solved again.
[[nodiscard]] std::vector<std::string> overloaded_ductile_joints(const Answers& answers,
                                                                 const reference::Tables& tables);

}  // namespace standtrue::check
