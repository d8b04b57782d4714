#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// Sheets as plates: strength, screws, glue and sag where the model holds them as such. The strip
/// of sheets.hpp stands beside each as its hand check. Forces per width are those of
/// solve/plate_response.hpp; stresses refer to the full thickness, as the panel's values do.
namespace standtrue::check {

class PlateAnswers;  // src/check/plate_answers.hpp

/// Three limit states of every sheet, each where it is worst:
///     bending, in each of its two ways, with what the sheet takes in its plane:
///         |M|/(W f_m) + |N|/(t f_t) <= 1     (f_c where it is pressed), at every mesh node
///     rolling shear: 1.5 |Q|/t <= f_r in each way, in the middle of every cell; under a pad and
///     one
///         thickness round it punching is judged instead
///     panel shear, of twisting and of holding the frame square: |M_xy|/W + |N_xy|/t <= f_v
/// W = t²/6 per width. Where the strength in the plane is not known half of that in bending stands
/// for it.
/// Source (second hand): EN 1995-1-1, 6.2.3, 6.2.4 and 6.1.7, with panel values.
/// Source (ours): half of the strength in bending for one in the plane that is not known.
[[nodiscard]] std::vector<Finding> plate_strength(const Answers& answers,
                                                  const PlateAnswers& plates,
                                                  const reference::Tables& tables);

/// The screw with the most to bear of each sheet, shear flow and pull of its seam over one spacing.
/// Upright sheets, which hold the frame square:
///     √((F_ax/F_ax,Rd)² + (F_v/F_v,Rd)²) <= 1,
/// F_ax,R the lesser of withdrawal and pulling the head through. Of lying ones the pull alone, as a
/// matter of service: they lie on their rails anyway, unless they would tip over them (as a loose
/// sheet does, stability.hpp), and screws that slip only leave the rail to itself (the soft bound).
/// A loose sheet that something would lift is told.
/// Source (second hand): EN 1995-1-1, 8.2.2, 8.3.3 and 8.7.
/// Source (ours): of lying sheets a matter of service.
[[nodiscard]] std::vector<Finding> plate_screws(const Answers& answers,
                                                const reference::Tables& tables);

/// The glue with the most to bear of each glued sheet, on the rails, bearers and posts that it is
/// glued to. What it does for them is counted on, so this is a matter of safety:
///     √((τ_along/f_along)² + (τ_across/f_across)²) + σ_pull/f_pull <= 1
/// with the strengths of src/check/glued_seam.hpp. Stresses are means over the width of the glue,
/// and along it over the depth of the carrier: nearer to an end or a load than that a member which
/// is a line does not know how its stress spreads, and a peak there would grow as the mesh gets
/// finer. What turns the sheet about its carrier is not counted: ties pass on forces alone.
/// Source (from memory): EN 1995-1-1, 9.1.2(6) and (7), the mean stress of the glue line.
/// Source (ours): the length for the mean.
[[nodiscard]] std::vector<Finding> plate_glue(const Answers& answers,
                                              const reference::Tables& tables);

/// Sag of a lying sheet below what carries it, anywhere between its carriers, and under each
/// machine below the plane of the post tops, at once and after years. Limits as for `sag` in
/// service.hpp.
/// Source (second hand): EN 1995-1-1, 2.2.3.
/// Source (second hand): EN 1995-1-1, 7.2, Table 7.2.
[[nodiscard]] std::vector<Finding> sag_of_plates(const Answers& answers, const PlateAnswers& plates,
                                                 const reference::Tables& tables);

/// The same with the answers after creep found already; null where there are none.
[[nodiscard]] std::vector<Finding> sag_of_plates(const Answers& answers, const PlateAnswers& plates,
                                                 const PlateAnswers* crept,
                                                 const reference::Tables& tables);

/// Sag of the free edge of a top under a leaning person, below what carries it there. Limit c/150,
/// not below 1 mm.
/// Source (second hand): EN 1995-1-1, 7.2, Table 7.2, cantilevers.
/// Source (ours): no less than 1 mm is judged.
[[nodiscard]] std::vector<Finding> sag_of_plate_edges(const Answers& answers,
                                                      const PlateAnswers& plates,
                                                      const reference::Tables& tables);

}  // namespace standtrue::check
