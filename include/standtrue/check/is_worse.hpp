#pragma once

#include <algorithm>
#include <cmath>

namespace standtrue::check {

/// True if `ratio` is worse than `so_far` by more than what rounding makes of two that are the
/// same, such as those of the two ends of a bench that is its own mirror image: of such the first
/// is told, whichever machine computes it. Below `small` nobody looks more closely: as it is, for a
/// ratio to a limit; smaller for metres or radians. Nothing is worse than what is no number.
[[nodiscard]] inline bool is_worse(double ratio, double so_far, double small = 0.01) {
  constexpr double rounding = 1e-7;  // ten times what the audit of a frame near buckling tells
  return !std::isnan(so_far) && !(ratio <= so_far + rounding * std::max(std::abs(so_far), small));
}

}  // namespace standtrue::check
