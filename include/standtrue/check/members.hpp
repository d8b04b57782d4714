#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// Strength of rails, bearers, posts and braces: EN 1995-1-1, section 6. One finding per part and
/// limit state, the worst place and combination; combinations of Purpose::strength and as_given.
/// A part whose material has no k_mod in the bench's air is not judged.
namespace standtrue::check {

class SectionForces;  // src/check/section_forces.hpp

/// Bending about both axes together with tension or compression, without buckling.
/// Source (second hand): EN 1995-1-1, 6.1.6, 6.2.3 and 6.2.4, eq. (6.11) to (6.20).
[[nodiscard]] std::vector<Finding> bending(const Answers& answers, const SectionForces& forces,
                                           const reference::Tables& tables);

/// Shear of bending members, cracks counted.
/// Source (second hand): EN 1995-1-1, 6.1.7, eq. (6.13) and (6.13a).
[[nodiscard]] std::vector<Finding> shear(const Answers& answers, const SectionForces& forces,
                                         const reference::Tables& tables);

/// Twist: its largest stress against k_shape f_v.
/// Source (from memory): EN 1995-1-1, 6.1.8, eq. (6.14) and (6.15).
[[nodiscard]] std::vector<Finding> torsion(const Answers& answers, const SectionForces& forces,
                                           const reference::Tables& tables);

/// Buckling of posts and braces by effective length. A post is a cantilever (2.0 times its
/// free height) in each upright plane that no brace or fixed upright sheet holds; where the answers
/// are of second order its sway is in the moments, and it is held between its ends.
/// Source (second hand): EN 1995-1-1, 6.3.2, eq. (6.21) to (6.28).
/// Source (from memory): EN 1995-1-1, 5.4.4, posts held where sway is in the moments.
/// Source (ours): effective lengths of 2 and 1, by Euler's columns.
[[nodiscard]] std::vector<Finding> column_stability(const Answers& answers,
                                                    const SectionForces& forces,
                                                    const reference::Tables& tables);

/// The frame as a whole: its lowest buckling factor, at least gamma_M, as its stiffness is divided
/// by that. Tells the shape, whether second order is in the answers, and how
/// far the sway grows.
/// Source (second hand): EN 1995-1-1, 2.2.2(1) and 2.4.1(2), stiffness over gamma_M.
/// Source (from memory): EN 1993-1-1, 5.2.1, the factor of 10 above which second order is left out,
/// borrowed from steel.
[[nodiscard]] std::vector<Finding> frame_stability(const Answers& answers,
                                                   const reference::Tables& tables);

/// Rails and bearers tipping sideways or buckling under the push along them, between their ends,
/// bearers joined to them and, at their upper edge, a fixed sheet: where they sag that edge is
/// pressed, where they hog the lower one.
/// Source (second hand): EN 1995-1-1, 6.3.2 and 6.3.3, eq. (6.23), (6.24) and (6.30) to (6.35).
[[nodiscard]] std::vector<Finding> lateral_stability(const Answers& answers,
                                                     const SectionForces& forces,
                                                     const reference::Tables& tables);

/// Shear of rails that are cut out over their seats.
/// Source (second hand): EN 1995-1-1, 6.5.2, eq. (6.60) to (6.63).
[[nodiscard]] std::vector<Finding> notches(const Answers& answers, const SectionForces& forces,
                                           const reference::Tables& tables);

/// Pressure across the grain of rails and bearers that rest on a seat.
/// Source (second hand): EN 1995-1-1, 6.1.5, eq. (6.3) and (6.4).
[[nodiscard]] std::vector<Finding> seat_bearing(const Answers& answers, const SectionForces& forces,
                                                const reference::Tables& tables);

/// Pressure along the grain on the end of a post, by its foot or the floor.
/// Source (second hand): EN 1995-1-1, 6.1.4, eq. (6.2).
[[nodiscard]] std::vector<Finding> post_end_bearing(const Answers& answers,
                                                    const SectionForces& forces,
                                                    const reference::Tables& tables);

}  // namespace standtrue::check
