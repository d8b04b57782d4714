#pragma once

#include <nlohmann/json.hpp>

#include "standtrue/decide/assess.hpp"

namespace standtrue::report {

/// Keys stay in the order in which they are written.
using Json = nlohmann::ordered_json;

/// A number, or null for what is not finite.
[[nodiscard]] Json number(double value);

/// The answers at one bound of stiffness, SI, under stable keys.
[[nodiscard]] Json bounded_json(const decide::Bounded& bounded);

}  // namespace standtrue::report
