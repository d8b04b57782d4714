#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// Strength of lying boards by strips: EN 1995-1-1 with panel values, which refer to the full
/// thickness. Layers that are not glued share a load; glued ones act as one. A board whose values
/// are not known, or that does not belong in the air of the shop, is not judged.
namespace standtrue::check {

class SectionForces;  // src/check/section_forces.hpp

/// Strips under the pads of machines: sigma_m = M/(W b) against f_m,d, and rolling shear
/// tau = 1.5 V/(t b) against f_r,d; grain along or across the span.
/// Source (second hand): EN 1995-1-1, 6.1.6, with panel values.
[[nodiscard]] std::vector<Finding> strip_bending(const Answers& answers,
                                                 const SectionForces& forces,
                                                 const reference::Tables& tables);
/// Rolling shear of the same strips.
/// Source (second hand): EN 1995-1-1, 6.1.7, with panel values.
[[nodiscard]] std::vector<Finding> strip_shear(const Answers& answers, const SectionForces& forces,
                                               const reference::Tables& tables);

/// The longest bay of a board under its own weight, what is stored on it and, where a person may
/// stand, a person in the middle: m = q a²/8 + P (a/4 - u/8)/b, simply supported, u the patch, b
/// the effective width of a load in mid-bay. In shear the patch stands one thickness clear of the
/// carrier, x from it, b = u + 2 x.
/// Source (second hand): EN 1995-1-1, 6.1.6 and 6.1.7, with panel values.
/// Source (ours): the width in shear.
[[nodiscard]] std::vector<Finding> board_between_carriers(const Answers& answers,
                                                          const reference::Tables& tables);

/// The free edge of a board under a standing person: the part of the patch beyond the carrier bends
/// and shears a strip of width b = 2 overhang + patch.
/// Source (second hand): EN 1995-1-1, 6.1.6 and 6.1.7, with panel values.
/// Source (ours): the width of the strip.
[[nodiscard]] std::vector<Finding> board_edge(const Answers& answers,
                                              const reference::Tables& tables);

/// Punching under the heaviest pad of each machine: tau = F/(u t), u = 4 (pad + t) the perimeter at
/// half the thickness away, against the rolling strength, the lower of both ways.
/// Source (ours): no clause of EN 1995-1-1 speaks of it; the rolling strength is the cautious
/// value.
/// Source (common practice): the perimeter at half the thickness, as for plates.
[[nodiscard]] std::vector<Finding> punching(const Answers& answers,
                                            const reference::Tables& tables);

}  // namespace standtrue::check
