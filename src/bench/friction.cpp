#include "standtrue/bench/friction.hpp"

#include <algorithm>
#include <cmath>

namespace standtrue::bench {

std::optional<double> friction(const Floor& floor, const Foot& foot) {
  if (foot.castor) return std::nullopt;
  const reference::FootMaterial touches =
      foot.bare ? reference::FootMaterial::timber : foot.material;
  const double mu = floor.friction.value_or(floor.surface.friction(touches));
  return std::max(0.0, mu - std::hypot(floor.fall_x, floor.fall_y));
}

}  // namespace standtrue::bench
