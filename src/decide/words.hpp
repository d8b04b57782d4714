#pragma once

#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"

/// Pieces of sentences.
namespace standtrue::decide {

/// "a", "a and b", "a, b and c".
[[nodiscard]] std::string joined(const std::vector<std::string>& words);

/// A value in SI, in the bench's units.
[[nodiscard]] std::string say(double value, quantity::Kind kind, const bench::Bench& bench);

}  // namespace standtrue::decide
