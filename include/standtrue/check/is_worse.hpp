#pragma once

#include <algorithm>
#include <cmath>

namespace standtrue::check {

/// True if `ratio` is worse than `so_far` by more than what rounding makes of two that are the
/// same, such as those of the two ends of a bench that is its own mirror image: of such the first
/// is told, whichever machine computes it. What exceeds the limit of 1 is worse than what holds it,
/// by however little. Below `small` nobody looks more closely: as it is, for a ratio to a limit;
/// smaller for metres or radians. Nothing is worse than what is no number.
[[nodiscard]] inline bool is_worse(double ratio, double so_far, double small = 0.01) {
  constexpr double rounding = 1e-7;  // ten times what the audit of a frame near buckling tells
  if (std::isnan(so_far)) return false;
  if (ratio > 1.0 && so_far <= 1.0) return true;
  return !(ratio <= so_far + rounding * std::max(std::abs(so_far), small));
}

/// A ratio to sort by: those that rounding alone holds apart are the same.
[[nodiscard]] inline double to_sort_by(double ratio) {
  constexpr double figures = 1e6;
  return std::round(ratio * figures) / figures;
}

}  // namespace standtrue::check
