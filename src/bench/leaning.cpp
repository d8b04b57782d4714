#include "standtrue/bench/leaning.hpp"

#include <cmath>

#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::bench {

std::array<double, 2> lean_of(const Bench& bench) {
  if (bench.floor.levelled || !bench.wall.empty()) return {0.0, 0.0};
  return {bench.floor.fall_x, bench.floor.fall_y};
}

bool leans(const Bench& bench) {
  const std::array<double, 2> lean = lean_of(bench);
  return lean[0] != 0.0 || lean[1] != 0.0;
}

std::string fall_in_words(const Bench& bench) {
  std::string words;
  const auto add = [&](double fall, const char* forth, const char* back) {
    if (fall == 0.0) return;
    if (!words.empty()) words += " and ";
    words += quantity::print(std::abs(fall), quantity::Kind::slope, bench.units) + " to the " +
             (fall > 0.0 ? forth : back);
  };
  add(bench.floor.fall_y, "back", "front");
  add(bench.floor.fall_x, "right", "left");
  return words;
}

}  // namespace standtrue::bench
