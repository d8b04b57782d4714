#include "standtrue/bench/leaning.hpp"

#include <algorithm>
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

Length free_stem(const Bench& bench, const Post& post) {
  const Foot& foot = post.foot;
  if (!bench.floor.levelled || foot.bare || foot.castor || foot.fixed) return foot.extension;
  const auto falls_by = [&bench](const Post& p) {
    return bench.floor.fall_x * p.foot_x + bench.floor.fall_y * p.foot_y;
  };
  Length highest = falls_by(post);
  for (const Post& other : bench.posts) {
    if (!other.on_wall) highest = std::min(highest, falls_by(other));
  }
  return foot.extension + (falls_by(post) - highest);
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
