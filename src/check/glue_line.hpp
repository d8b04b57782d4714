#pragma once

#include <string>

#include "standtrue/check/strength.hpp"

/// Two pieces glued over a rectangle, their grains square to each other. Doubles in SI.
namespace standtrue::check {

/// Of all faces together, characteristic.
struct GlueLine {
  double M_k = 0.0;  ///< N m, turning in the plane of the faces
  double F_k = 0.0;  ///< N, pushed in that plane
  std::string said;  ///< for the working
};

/// `faces` rectangles l x h. In torsion τ = M (b/2)/I_p, I_p = l h (l² + h²)/12, b the longer side,
/// against 2.5 N/mm² (cross-laminated spruce); in shear against the rolling shear strength, twice
/// f_t,90,k. Of both half is counted, for a glue line made by hand (ours).
/// Source (from memory): Blass and Görlacher 2002; EN 1995-1-1, 6.1.7(1), note.
[[nodiscard]] GlueLine glue_line(double l, double h, double faces, const model::Part& rail,
                                 const model::Part& post, const reference::Tables& tables);

}  // namespace standtrue::check
