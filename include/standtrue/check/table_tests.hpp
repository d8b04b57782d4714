#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// Published tests of tables, a machine that is let down too fast, a bench that is dragged. All are
/// told and never change the verdict: no standard that could be read covers a home bench with metal
/// machines (EN 15372:2023 and EN 13150:2001 leave it out), so that the limits are borrowed. One
/// finding each, `told` where it holds and a caution where it does not; at mean joints alone.
namespace standtrue::check {

class PlateAnswers;  // src/check/plate_answers.hpp

/// Those that reference/tests.yaml names for the bench's duty, forces as their sources state them
/// and no factor on top:
///     table-test/edge       736 N on the worst corner of the empty top, by statics of a rigid body
///     table-test/stability  600 N down 50 mm from the edges and 300 N outwards, empty and as
///     planned table-test/static     1000 N 50 mm from the edges and in mid top: nothing over its
///     strength table-test/disc       1257 N on a disc of 304.8 mm: sinks 3.2 mm at most, no damage
///     table-test/racking    300 N at a corner with 100 kg on the top: nothing over its strength
/// Light duty has the disc of 90 kg, held to strength alone, and 200 N with 50 kg. Machines stand
/// on the bench at rest but for the edge; strengths are the design values for short-term loads
/// (instantaneous for the push). The disc is a square of its area.
/// Source (seen): Furniture Design, figures 6.108 and 6.109; DGUV Grundsatz 315-410, 2.6.1;
/// A-A-2122F, 4.8; A-A-2082D, 3.7.2.2. Which duty has which test is ours.
[[nodiscard]] std::vector<Finding> table_tests(const Answers& answers, const PlateAnswers& plates,
                                               const reference::Tables& tables);

/// drop/<machine>: the heaviest machine, from 15 kg on, let down h = 50 mm too fast. All energy
/// goes into the bench, whose own mass is left out (cautious):
///     n = 1 + √(1 + 2 h/d_st)
/// d_st what its pads sink under its weight at rest, mean joints, each by what it bears, the feet
/// and the floor under them too. Then n m g and the bench's weight against the strength of all that
/// carries them, gamma_M 1.0 and instantaneous k_mod.   Source (from memory): energy method of the
/// textbooks; (second hand): EN 1995-1-1, Table 2.3, accidental; (ours): the height, and from which
/// mass on.
[[nodiscard]] std::vector<Finding> drop(const Answers& answers, const PlateAnswers& plates,
                                        const reference::Tables& tables);

/// n of a body let fall from `height` onto what sinks by `sag` under it at rest.
/// Contract: height >= 0, sag > 0.
[[nodiscard]] double drop_factor(double height, double sag);

/// drag/<foot>: H = 300 N at one foot, along or across, the foot that stands it worst. Below its
/// lowest rail or brace in that plane the post is a cantilever, whatever the frame above it does:
///     M = H z, V = H        z the height of that rail's axis above the pad
/// with the foot's share of the weight; its stem by N/A + H e/W. Joints above are left to the
/// hard shove of 600 N, which puts as much into each of the two feet of a plane. None where the
/// bench is held, or for a foot that rolls.
/// Source (seen): Furniture Design, figure 6.109a, racking by moving; (second hand): SEFA 8-1999,
/// 9.1, most racking failures come from dragging an empty table. The statics are exact.
[[nodiscard]] std::vector<Finding> drag(const Answers& answers, const reference::Tables& tables);

}  // namespace standtrue::check
