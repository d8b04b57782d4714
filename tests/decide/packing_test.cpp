#include "decide/packing.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <limits>
#include <numeric>
#include <random>

namespace packing_test {

using namespace standtrue;
using decide::Rectangle;

namespace {

/// Every assignment of pieces to bars, by counting: nothing clever, to hold the other against.
double exhaustive(const std::vector<double>& lengths, const std::vector<double>& stock,
                  double kerf) {
  const std::size_t n = lengths.size();
  std::vector<std::size_t> bar(n, 0);
  double best = std::numeric_limits<double>::infinity();
  while (true) {
    std::vector<double> need(n, -kerf);
    for (std::size_t i = 0; i < n; ++i) need[bar[i]] += lengths[i] + kerf;
    double bought = 0.0;
    for (const double length : need) {
      if (length < 0.0) continue;
      double shortest = std::numeric_limits<double>::infinity();
      for (const double s : stock) {
        if (s + 1e-9 >= length) shortest = std::min(shortest, s);
      }
      bought += shortest;
    }
    best = std::min(best, bought);
    std::size_t i = 0;
    while (i < n && ++bar[i] == n) bar[i++] = 0;
    if (i == n) return best;
  }
}

bool overlap(const decide::LaidPiece& a, const Rectangle& ra, const decide::LaidPiece& b,
             const Rectangle& rb) {
  return a.along < b.along + rb.along - 1e-9 && b.along < a.along + ra.along - 1e-9 &&
         a.across < b.across + rb.across - 1e-9 && b.across < a.across + ra.across - 1e-9;
}

void check_sound(const decide::SheetPlan& plan, const std::vector<Rectangle>& pieces,
                 Rectangle sheet) {
  std::vector<int> times(pieces.size(), 0);
  for (const auto& placed : plan.sheets) {
    for (std::size_t i = 0; i < placed.size(); ++i) {
      const Rectangle& r = pieces[placed[i].piece];
      ++times[placed[i].piece];
      CHECK(placed[i].along + r.along <= sheet.along + 1e-9);
      CHECK(placed[i].across + r.across <= sheet.across + 1e-9);
      for (std::size_t j = i + 1; j < placed.size(); ++j) {
        CHECK_FALSE(overlap(placed[i], r, placed[j], pieces[placed[j].piece]));
      }
    }
  }
  for (const std::size_t i : plan.too_large) ++times[i];
  CHECK(std::all_of(times.begin(), times.end(), [](int n) { return n == 1; }));
}

}  // namespace

TEST_CASE("decide/packing: bars are as few metres as any way of parting gives (exhaustive)") {
  std::mt19937 random(7);
  std::uniform_real_distribution<double> length(0.3, 2.2);
  for (int round = 0; round < 40; ++round) {
    std::vector<double> pieces(2 + static_cast<std::size_t>(round % 5));
    for (double& piece : pieces) piece = length(random);
    const decide::Cutting plan = decide::cut(pieces, {2.4, 3.0}, 0.003);
    CHECK(plan.exact);
    CHECK(plan.bought() == doctest::Approx(exhaustive(pieces, {2.4, 3.0}, 0.003)));
  }
}

TEST_CASE("decide/packing: every piece once, no bar overfull, many pieces near the least") {
  std::vector<double> pieces;
  for (int i = 0; i < 40; ++i) pieces.push_back(0.35 + 0.05 * (i % 17));
  const decide::Cutting plan = decide::cut(pieces, {2.4, 3.0}, 0.003);
  CHECK_FALSE(plan.exact);
  std::vector<int> times(pieces.size(), 0);
  for (const decide::Bar& bar : plan.bars) {
    double need = -0.003;
    for (const std::size_t i : bar.pieces) {
      ++times[i];
      need += pieces[i] + 0.003;
    }
    CHECK(need <= bar.stock + 1e-9);
  }
  CHECK(std::all_of(times.begin(), times.end(), [](int n) { return n == 1; }));
  // Best fit decreasing needs at most 11/9 of the least and a bar (Johnson 1973); the least is at
  // least the sum of the pieces.
  const double sum = std::accumulate(pieces.begin(), pieces.end(), 0.0);
  CHECK(plan.bought() <= 11.0 / 9.0 * sum + 3.0);
}

TEST_CASE("decide/packing: what is longer than any stock is told, not lost") {
  const decide::Cutting plan = decide::cut({3.2, 1.0}, {2.4, 3.0}, 0.003);
  REQUIRE(plan.too_long.size() == 1);
  CHECK(plan.too_long[0] == 0);
  REQUIRE(plan.bars.size() == 1);
  CHECK(plan.bars[0].stock == 2.4);
  // Two of 1.2 m and the kerf do not go into 2.4 m, nor two of 1.5 m into 3 m.
  CHECK(decide::cut({1.2, 1.2}, {2.4, 3.0}, 0.003).bought() == 3.0);
  CHECK(decide::cut({1.5, 1.5}, {2.4, 3.0}, 0.003).bought() == doctest::Approx(4.8));
}

TEST_CASE("decide/packing: sheets by hand") {
  const Rectangle sheet{2.44, 1.22};
  // Four quarters less the kerf go on one sheet; five need two.
  std::vector<Rectangle> pieces(4, {1.21, 0.60});
  decide::SheetPlan plan = decide::lay_out(pieces, sheet, 0.003);
  CHECK(plan.sheets.size() == 1);
  CHECK(plan.exact);
  check_sound(plan, pieces, sheet);
  pieces.push_back({1.21, 0.60});
  plan = decide::lay_out(pieces, sheet, 0.003);
  CHECK(plan.sheets.size() == 2);
  check_sound(plan, pieces, sheet);
  // Grain with grain: a piece is not turned, though it would fit turned.
  const std::vector<Rectangle> across = {{0.6, 1.5}};
  plan = decide::lay_out(across, sheet, 0.003);
  CHECK(plan.sheets.empty());
  CHECK(plan.too_large.size() == 1);
  // Largest first into the first place that fits would need two: 1.6 + 0.8 along, 2 x 0.6 across.
  const std::vector<Rectangle> mixed = {{1.6, 0.6}, {0.8, 0.6}, {1.6, 0.6}, {0.8, 0.6}};
  plan = decide::lay_out(mixed, sheet, 0.003);
  CHECK(plan.sheets.size() == 1);
  check_sound(plan, mixed, sheet);
}

TEST_CASE("decide/packing: random pieces lie on sheets without overlap, each once") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> along(0.3, 2.0), across(0.2, 1.0);
  for (int round = 0; round < 20; ++round) {
    std::vector<Rectangle> pieces(1 + static_cast<std::size_t>(round % 7));
    for (Rectangle& piece : pieces) piece = {along(random), across(random)};
    check_sound(decide::lay_out(pieces, {2.44, 1.22}, 0.003), pieces, {2.44, 1.22});
  }
}

}  // namespace packing_test
