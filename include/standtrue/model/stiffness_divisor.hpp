#pragma once

#include "standtrue/model/parts.hpp"
#include "standtrue/reference/tables.hpp"

/// What the stiffness of a frame is divided by where second order or buckling decides strength.
namespace standtrue::model {

/// The largest gamma_M of the timber of posts and rails; 1 without any.
/// Source (second hand): EN 1995-1-1, 2.2.2 and 2.4.1(2).
[[nodiscard]] reference::Sourced<double> stiffness_divisor(const Parts& parts,
                                                           const reference::Tables& tables);

}  // namespace standtrue::model
