#pragma once

#include "standtrue/model/parts.hpp"

namespace standtrue::check {

/// Cut out of the underside of a rail or bearer over its seats; zero of others.
[[nodiscard]] quantity::Length notch_of(const model::Parts& parts, const model::Part& part);

}  // namespace standtrue::check
