#include "standtrue/bench/let_in.hpp"

#include <algorithm>

#include "bench/plan.hpp"

namespace standtrue::bench {

namespace {

/// What a rail takes of its post's side across it; nothing if it only lies against the post.
Range taken(const Bench& bench, const Rail& rail, const Post& post, bool is_lap) {
  const Length side = rail.along_x ? post.along_y : post.along_x;
  const Length middle = rail_line(bench, rail) - (rail.along_x ? post.y : post.x);
  if (is_lap) return middle > Length{} ? Range{{}, side / 2.0} : Range{-side / 2.0, {}};
  const Range own = around(middle, rail.width);
  return {std::max(own.low, -side / 2.0), std::min(own.high, side / 2.0)};
}

/// How much of a side the cuts through it take, each place once.
Length taken_of(std::vector<Range> cuts) {
  std::sort(cuts.begin(), cuts.end(), [](const Range& a, const Range& b) { return a.low < b.low; });
  Length sum{};
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    if (i > 0) {
      cuts[i].low = std::max(cuts[i].low, cuts[i - 1].high);
      cuts[i].high = std::max(cuts[i].high, cuts[i - 1].high);
    }
    sum += cuts[i].high - cuts[i].low;
  }
  return sum;
}

}  // namespace

std::vector<LetIn> let_into(const Bench& bench, std::size_t post) {
  std::vector<LetIn> cuts;
  for (std::size_t r = 0; r < bench.rails.size(); ++r) {
    const Rail& rail = bench.rails[r];
    if (rail.on_wall || (rail.from != post && rail.to != post)) continue;
    const Joint& joint = rail.from == post ? rail.start : rail.end;
    const bool is_lap = joint.kind.fastening == reference::Fastening::half_lap;
    if (!is_lap && rail.seat != Seat::notched) continue;
    const Range across = taken(bench, rail, bench.posts.at(post), is_lap);
    if (across.high - across.low <= Range::slack()) continue;
    const Range upright = heights(rail);
    cuts.push_back({r, rail.along_x, is_lap, upright.low + rail.notch, upright.high, rail.height,
                    across.low, across.high});
  }
  return cuts;
}

SidesLeft sides_left(const Post& post, const std::vector<LetIn>& cuts, Length height) {
  const Length rounding = quantity::millimetres(1e-3);
  std::vector<Range> of_x, of_y;
  for (const LetIn& cut : cuts) {
    if (height < std::min(cut.low, cut.axis) - rounding || height > cut.high + rounding) continue;
    (cut.along_x ? of_y : of_x).push_back({cut.from, cut.to});
  }
  return {post.along_x - taken_of(of_x), post.along_y - taken_of(of_y)};
}

bool is_crossed_lap(const Bench& bench, std::size_t post, std::size_t rail) {
  const std::vector<LetIn> cuts = let_into(bench, post);
  for (const LetIn& own : cuts) {
    for (const LetIn& other : cuts) {
      if (own.rail != rail || own.along_x == other.along_x || !other.is_lap) continue;
      if (Range{own.low, own.high}.meets({other.low, other.high})) return true;
    }
  }
  return false;
}

}  // namespace standtrue::bench
