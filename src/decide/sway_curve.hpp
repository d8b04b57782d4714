#pragma once

#include <vector>

#include "standtrue/decide/picture.hpp"

namespace standtrue::decide {

/// Sway over the stiffness of all joints, from a tenth to ten times the mean; points without an
/// answer are left out. Only pushes are solved.
[[nodiscard]] std::vector<SwayPoint> sway_curve(const Assessment& assessment,
                                                const reference::Tables& tables);

}  // namespace standtrue::decide
