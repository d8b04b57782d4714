#pragma once

#include <string>

#include "standtrue/bench/bench.hpp"

namespace standtrue::bench {

/// Timber as a bench file has it, and read from one the same: "C24 45 x 95 mm"; with the values
/// that a file gave instead of those of its class "{class: C24, section: 45 x 95 mm, E: 8500
/// N/mm2}". Sizes to the tenth of a millimetre.
[[nodiscard]] std::string stock_text(const Stock& stock);

}  // namespace standtrue::bench
