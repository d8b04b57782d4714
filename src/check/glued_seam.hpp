#pragma once

#include <array>
#include <vector>

#include "standtrue/check/strength.hpp"
#include "standtrue/model/model.hpp"

/// The glue between a sheet and one of its carriers. Doubles in SI.
namespace standtrue::check {

/// Forces per length of glue, N/m.
struct GlueFlow {
  double along = 0.0, across = 0.0;  ///< in the glue line, of the carrier
  double pull = 0.0;                 ///< opens it; negative: pressed
  double at = 0.0;                   ///< along the seam, own coordinate of the plate
};

/// Glue that goes on past the first and last tie of a seam, m: ties under lying sheets are kept
/// clear of posts, as screws are, and glue is not.
struct GlueBeyond {
  double start = 0.0, end = 0.0;
};
[[nodiscard]] GlueBeyond glue_beyond(const model::Parts& parts, const model::Plate& plate,
                                     const model::Seam& seam);

/// Means over `reach` of glue with what each tie stands for in its middle, or as near as the ends
/// allow; over all of a shorter line. `ties` by solve::tie_forces, each spread over its length, the
/// outer ones over what is beyond them too.
[[nodiscard]] std::vector<GlueFlow> glue_flows(const model::Plate& plate, const model::Seam& seam,
                                               const std::vector<std::array<double, 3>>& ties,
                                               double reach, GlueBeyond beyond = {});

/// What of the carrier's side the sheet covers, m.
[[nodiscard]] double glue_width(const model::Parts& parts, const model::Plate& plate,
                                const model::Seam& seam);

/// Design strengths of a glue line, Pa.
struct GlueStrengths {
  double along = 0.0, across = 0.0, pull = 0.0;
  double f_r = 0.0;     ///< rolling shear of the sheet, reduced for the width
  double spread = 1.0;  ///< that reduction
  double k_mod = 0.0;   ///< of the sheet
};

/// What glue holds between a carrier and a sheet of thickness h_f, on a line b wide. The lesser of:
///     along the carrier   f_v,90 min(1, (n h_f/b)^0.8)    share k_cr f_v
///     across it           the same                        share 2 f_t,90
///     pulled off                                          share f_t,90
/// f_v,90 is rolling shear of the sheet, the lesser of its two ways, for either its face ply rolls
/// or the ply under that; n = 8 for a bearer, with the sheet on both sides of it, 4 for others,
/// which lie at its edge. f_v and f_t,90 are the carrier's, of which glue made by hand holds the
/// share (a half) that it has in glue_line.hpp. The sheet's own plies were glued in a factory: of
/// those, which are what gives first under spruce, nothing is taken off.
/// Source (from memory): EN 1995-1-1, 9.1.2(6) and (7).
/// Source (from memory): EN 1995-1-1, 6.1.7(1), note, rolling shear of the carrier.
/// Source (ours): half of the carrier's strengths, for glue made by hand without control (10.3).
[[nodiscard]] OrWhy<GlueStrengths> glue_strengths(const bench::Bench& bench,
                                                  const bench::Sheet& sheet,
                                                  const model::Part& carrier, double b,
                                                  reference::Duration duration,
                                                  const reference::Tables& tables);

/// √((τ_along/f_along)² + (τ_across/f_across)²) + σ/f_pull, σ the pull; pressed adds nothing.
/// Source (ours): pull is added as in glued laps, shears as vectors.
[[nodiscard]] double glue_ratio(const GlueFlow& flow, double b, const GlueStrengths& f);

}  // namespace standtrue::check
