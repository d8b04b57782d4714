#pragma once

#include "standtrue/quantity/quantity.hpp"

namespace standtrue::bench {

/// A board as it is bought, along and across its face grain.
struct UsualSheet {
  quantity::Length along, across;
};
/// 2440 x 1220 mm, or 8 x 4 ft, as dealers list them (common practice, no source).
[[nodiscard]] inline UsualSheet usual_sheet(quantity::UnitSystem units) {
  const double foot = units == quantity::UnitSystem::imperial ? 304.8 : 305.0;
  return {quantity::millimetres(8.0 * foot), quantity::millimetres(4.0 * foot)};
}

}  // namespace standtrue::bench
