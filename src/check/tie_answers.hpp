#pragma once

#include <array>
#include <vector>

#include "standtrue/check/check_all.hpp"

namespace standtrue::check {

/// Forces of all ties of a plate under one combination, by solve::tie_forces.
struct TieAnswer {
  std::size_t combination = 0;
  std::vector<std::array<double, 3>> ties;
};

/// Of every answered combination for strength in which the sheet takes part.
[[nodiscard]] std::vector<TieAnswer> tie_answers(const Answers& answers, std::size_t plate);

}  // namespace standtrue::check
