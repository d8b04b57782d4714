#pragma once

#include <cstddef>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// How level machines stand on their pads, and what the bench does to their beds. Doubles in SI:
/// slopes and twists in rad, which is m/m.
///
/// w_1 to w_4 are the movements of four pads in turn (m, upwards, the mean over each pad), a the
/// longer and b the shorter distance of their middles:
///     warp                q = w_1 - w_2 + w_3 - w_4
///     twist of the bed    q/b, the slope across the bed at its far end (the right one, or the
///                         back one of a turned machine) less that at its near end
///     slope               of the plane nearest to the pads (least squares), rising to the right
///                         and to the back
/// A bed of twisting stiffness k (N m/rad between its ends) pushes its pads with the pattern
/// k q/b² up, down, up, down; Γ is the warp of the bare top per unit of that pattern. So
///     q = q_0/(1 + k Γ/b²)        q_0 the warp of the bare top.
/// A bed that stands follows like one that is bolted down as long as all its pads press.
namespace standtrue::check {

class PlateAnswers;  // src/check/plate_answers.hpp

/// Twist of every precise bed (metal lathes): how much it changes when somebody leans, against the
/// bench at rest under its loads. The twist at rest is shimmed away. Not judged where the sheet
/// below is no plate. Other machines do not care: their slopes are told with the sag under them.
/// Source (ours): q = q_0/(1 + k Γ/b²), by the reciprocity of one elastic body on another.
/// Source (seen): Centre lathe test chart, bedways across, as the limit of a change.
[[nodiscard]] std::vector<Finding> bed_twist(const Answers& answers, const PlateAnswers& plates,
                                             const reference::Tables& tables);

/// What setting one foot does to one bed.
struct FootTurn {
  std::size_t machine = 0;     ///< place in Bench::machines
  std::size_t foot = 0;        ///< place in Parts::feet
  double per_metre = 0.0;      ///< twist of the bed per height of the foot, rad/m; up is positive
  bool presses = true;         ///< at rest; one that hangs in the air does nothing
  bool lifts_another = false;  ///< a tenth of a millimetre up changes which feet press
};

/// Of every machine on four pads on a plate, by machine, then foot; with the bench at rest under
/// its loads and which feet press as they do then. Empty where that has no answer.
/// Source (ours): small turns of one foot on the bench at rest.
[[nodiscard]] std::vector<FootTurn> twist_per_foot(const Answers& answers);

}  // namespace standtrue::check
