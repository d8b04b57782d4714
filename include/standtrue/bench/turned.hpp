#pragma once

#include "standtrue/bench/bench.hpp"

namespace standtrue::bench {

/// The machine turned a quarter to the left about the middle of its pads: its pads, the middle of
/// its mass and its spindle go round.
[[nodiscard]] Machine turned_a_quarter(Machine machine);

}  // namespace standtrue::bench
