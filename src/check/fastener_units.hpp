#pragma once

#include <numbers>

#include "standtrue/quantity/quantity.hpp"

/// Sizes and angles as the printed formulas of fasteners want them.
namespace standtrue::check {

inline constexpr double right_angle = std::numbers::pi / 2.0;

[[nodiscard]] inline double in_mm(quantity::Length l) { return 1e3 * quantity::in_si(l); }

}  // namespace standtrue::check
