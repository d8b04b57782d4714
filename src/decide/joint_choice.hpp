#pragma once

#include <optional>
#include <vector>

#include "standtrue/check/finding.hpp"

namespace standtrue::decide {

/// Where one check of safety wants stiffer joints than another allows, each alone depends on the
/// joints and both together fail with any. The finding of that: its ratio is the least that the
/// worse of them takes at any joints of the band, on the lines of `turning_point`. None where some
/// joints would do, or nothing depends on them. Findings as `tell_what_settles` leaves them.
[[nodiscard]] std::optional<check::Finding> joint_choice(
    const std::vector<check::Finding>& findings, double band);

}  // namespace standtrue::decide
