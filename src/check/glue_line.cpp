#include "check/glue_line.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "check/words.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

GlueLine glue_line(double l, double h, double faces, const model::Part& rail,
                   const model::Part& post, const reference::Tables& tables) {
  expects(l > 0.0 && h > 0.0 && faces > 0.0, "glue_line: sides must be positive");
  const double share = tables.constant("glue home share").value;
  const double f_tor = share * tables.constant("glue torsion").value;
  const double f_r = share * tables.constant("rolling shear of f_t_90").value *
                     in_si(std::min(rail.timber.f_t_90_k, post.timber.f_t_90_k));
  const double I_p = l * h * (l * l + h * h) / 12.0;
  GlueLine glue;
  glue.M_k = faces * f_tor * I_p / (0.5 * std::max(l, h));
  glue.F_k = faces * f_r * l * h;
  glue.said = fmt::format(
      "glue {:.0f} x {} x {}: M_Rk = f_tor I_p/(b/2) = {} with f_tor = {}; F_Rk = {} with f_r = "
      "{}; "
      "{:.2f} of published strengths, made by hand",
      faces, shown(quantity::metres(l)), shown(quantity::metres(h)),
      shown(quantity::newton_metres(glue.M_k)), shown(quantity::pascals(f_tor)),
      shown(quantity::newtons(glue.F_k)), shown(quantity::pascals(f_r)), share);
  return glue;
}

}  // namespace standtrue::check
