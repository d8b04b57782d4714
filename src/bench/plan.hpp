#pragma once

#include <algorithm>

#include "standtrue/bench/bench.hpp"
#include "standtrue/bench/surface.hpp"

/// Where parts lie in plan and height, for the reader and its geometry checks.
namespace standtrue::bench {

struct Range {
  Length low, high;
  [[nodiscard]] bool meets(const Range& other) const {
    return low + slack() < other.high && other.low + slack() < high;
  }
  [[nodiscard]] bool holds(Length at) const { return low - slack() <= at && at <= high + slack(); }
  [[nodiscard]] static Length slack() { return quantity::millimetres(0.5); }
};

struct Plan {
  Range x, y;
  [[nodiscard]] bool meets(const Plan& other) const { return x.meets(other.x) && y.meets(other.y); }
};

[[nodiscard]] inline Range around(Length middle, Length width) {
  return {middle - width / 2.0, middle + width / 2.0};
}
[[nodiscard]] inline Range span(Length a, Length b) { return {std::min(a, b), std::max(a, b)}; }

[[nodiscard]] inline bool near(Length a, Length b) {
  const Length off = a - b;
  return off <= quantity::millimetres(1.0) && off >= quantity::millimetres(-1.0);
}

[[nodiscard]] Plan plan_at_top(const Post& post);
[[nodiscard]] Plan plan_at_foot(const Post& post);
[[nodiscard]] Plan plan_of(const Bench& bench, const Rail& rail);  ///< from post axis to post axis
[[nodiscard]] Plan plan_of(const Bench& bench, const Bearer& bearer);
[[nodiscard]] Plan plan_of(const Sheet& sheet);
[[nodiscard]] Range heights(const Rail& rail);
[[nodiscard]] Range heights(const Bearer& bearer);
[[nodiscard]] Length rail_line(const Bench& bench, const Rail& rail);  ///< its y, or x if along y
/// The clear length of a rail between the faces of its posts.
[[nodiscard]] Length clear_length(const Bench& bench, const Rail& rail);
[[nodiscard]] Length top_of_lower_rails(const Bench& bench);  ///< the highest of them

}  // namespace standtrue::bench
