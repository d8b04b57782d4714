#pragma once

#include <vector>

#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

/// Of a ratio or a movement known at soft, mean and stiff joints, its value at joints that are `x`
/// times the mean: on straight lines between the three, both axes logarithmic.
[[nodiscard]] double height(double band, double soft, double mean, double stiff, double x);

/// Joint stiffness, as a share of the mean, at which a ratio that is known at soft, mean and stiff
/// joints passes 1, on the same lines. None if it does not.
[[nodiscard]] std::optional<double> turning_point(const check::Finding& finding, double band);

/// For every finding that depends: where it turns and which measurement would settle it, of the
/// joints (the bench's own sway, or the droop of one joint) or of the timber (the sag of a loose
/// rail). Findings as merged.
void tell_what_settles(std::vector<check::Finding>& findings, const Assessment& assessment,
                       const reference::Tables& tables);

}  // namespace standtrue::decide
