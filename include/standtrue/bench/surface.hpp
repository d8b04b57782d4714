#pragma once

#include "standtrue/bench/bench.hpp"

namespace standtrue::bench {

/// Of all layers of a sheet, as they measure and not as they are sold.
[[nodiscard]] Length thickness(const Sheet& sheet);
[[nodiscard]] bool lies(const Sheet& sheet);  ///< a top or a shelf
/// Height of the upper face of a lying sheet.
[[nodiscard]] Length surface_of(const Sheet& sheet);

}  // namespace standtrue::bench
