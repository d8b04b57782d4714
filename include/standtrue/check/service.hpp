#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// How a bench gives in use: sag of what spans and sway of what stands. Combinations of
/// Purpose::service and Purpose::sway, all factors one.
namespace standtrue::check {

/// Sag of every rail, bearer and strip under what stands on it and what is stored.
///     at once:  w_inst <= span/300        for good: w_fin <= span/250        neither below 1.5 mm
/// w_fin is the answer of the model after creep to the combination named "final". Rails are
/// measured below the line between the tops of their posts, bearers below the line between their
/// own ends, strips twice: below the carriers beside them (span: the bay), and below the plane of
/// the post tops (span: the longest of what carries them). A leaning person's sag is told and not
/// judged. The hand check is the same rail or bearer simply supported under the loads that its
/// shear force shows.
/// Source (second hand): EN 1995-1-1, 2.2.3, creep.
/// Source (second hand): EN 1995-1-1, 7.2, Table 7.2.
/// Source (ours): no less than 1.5 mm is judged, and the spans.
[[nodiscard]] std::vector<Finding> sag(const Answers& answers, const reference::Tables& tables);

/// Sag of a lying board between its carriers under its own weight and what is stored, as a simply
/// supported strip of unit width: 5 q a⁴/384 E I + q a²/8 G A_s; creep multiplies it by 1 + k_def.
/// Source (second hand): EN 1995-1-1, 2.2.3, creep.
/// Source (second hand): EN 1995-1-1, 7.2, Table 7.2.
[[nodiscard]] std::vector<Finding> sag_of_boards(const Answers& answers,
                                                 const reference::Tables& tables);

/// Sag of the free edge of a lying board under a leaning person, by a strip of width
/// b = 2 overhang + patch held at the outer carrier:
///     F c_a²(3 c - c_a)/6 E I b + F c_a/G A_s b + c M a/3 E I b_a
/// c the overhang, F the share of the force that lies beyond the carrier, c_a its arm, M = F c_a;
/// the last term is the board's turning over its carrier, its bay a bending with the width b_a of a
/// load in mid-bay. Limit c/150, not below 1 mm.
/// Source (second hand): EN 1995-1-1, 7.2, Table 7.2, cantilevers.
/// Source (ours): the width of the strip; no less than 1 mm is judged.
[[nodiscard]] std::vector<Finding> sag_of_overhangs(const Answers& answers,
                                                    const reference::Tables& tables);

/// Sway stiffness of the top, along and across: the shove of use over the movement of the worst top
/// corner in its direction, counted from the bench at rest under its loads. The limit is that of
/// the duty.
/// Source (ours): no standard judges the sway of a bench.
[[nodiscard]] std::vector<Finding> sway(const Answers& answers, const reference::Tables& tables);

}  // namespace standtrue::check
