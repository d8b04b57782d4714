#pragma once

#include <optional>
#include <vector>

#include "standtrue/check/finding.hpp"

/// Which findings a page shows, and in which order. Chooses; judges nothing.
namespace standtrue::report {

/// From the better to the worse end of the answers at soft, mean and stiff joints.
struct Range {
  double least = 0.0, greatest = 0.0;
};

/// Of the numbers that were computed (not NaN); nothing without any.
[[nodiscard]] std::optional<Range> ratios(const check::Finding& finding);
[[nodiscard]] std::optional<Range> demands(const check::Finding& finding);

/// Satisfied, exceeded or depends, with a ratio. A caution is never judged.
[[nodiscard]] bool is_judged(const check::Finding& finding);
/// Not judged though it should be: neither a caution nor outside this tool.
[[nodiscard]] bool is_left_unjudged(const check::Finding& finding);

/// Judged, and over its limit at some stiffness at least.
[[nodiscard]] bool is_over(const check::Finding& finding);

/// Safety exceeded, depending, not judged; then service; then what is satisfied and cautions; the
/// greater ratio first.
[[nodiscard]] std::vector<const check::Finding*> worst_first(
    const std::vector<check::Finding>& findings);

/// The worst judged finding of a group, or null.
[[nodiscard]] const check::Finding* governing(const std::vector<check::Finding>& findings,
                                              check::Group group);

}  // namespace standtrue::report
