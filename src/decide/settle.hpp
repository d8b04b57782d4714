#pragma once

#include <vector>

#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

/// Joint stiffness, as a share of the mean, at which a ratio that is known at soft, mean and stiff
/// joints passes 1: on straight lines between the three, both axes logarithmic. None if it does
/// not.
[[nodiscard]] std::optional<double> turning_point(const check::Finding& finding, double band);

/// For every finding that depends: where it turns and which measurement would settle it, of the
/// joints (the bench's own sway, or the droop of one joint) or of the timber (the sag of a loose
/// rail). Findings as merged.
void tell_what_settles(std::vector<check::Finding>& findings, const Assessment& assessment,
                       const reference::Tables& tables);

/// Two checks of safety of which one asks for stiffer joints than the other allows: whatever the
/// joints, one of the two is exceeded, and so both are told. Findings as `tell_what_settles` leaves
/// them; on the same lines, so that a narrow gap may be missed or imagined.
void tell_contradictions(std::vector<check::Finding>& findings);

}  // namespace standtrue::decide
