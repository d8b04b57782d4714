#include "standtrue/decide/odds.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "decide/bounded.hpp"
#include "decide/ratio_surface.hpp"
#include "tests/bench/bench_files.hpp"

namespace odds_test {

using namespace standtrue;
using bench_files::tables;
using decide::Drawn;
using decide::Odds;
using decide::Population;
using doctest::Approx;

namespace {

/// Phi, the normal distribution.
double below(double z) { return 0.5 * std::erfc(-z / std::sqrt(2.0)); }

/// Five deviations of a count of n with probability p: one run in a million strays further.
double strays(double p, std::size_t n) {
  return 5.0 * std::sqrt(p * (1.0 - p) / static_cast<double>(n));
}

double of(const decide::Share& share, const Odds& odds) {
  return static_cast<double>(share.count) / static_cast<double>(odds.drawn);
}

const decide::Failing* failing(const Odds& odds, const std::string& id) {
  const auto found = std::find_if(odds.failing.begin(), odds.failing.end(),
                                  [&](const auto& f) { return f.finding.id == id; });
  return found == odds.failing.end() ? nullptr : &*found;
}

/// Pinned rails between braced posts: the sag of the front one goes with its own E, and a hundredth
/// of it with what gives in the joints.
bench::Bench pinned() {
  return bench_files::sound(
      "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C24 45 x 95 mm\njoints: pinned\n"
      "rails: {lower: none}\nbraces: [{side: back}, {side: front}, {side: left}, {side: right}]\n"
      "top: {sheet: 18 mm spruce plywood, load: 560 kg/m2}\nanalysis: {sheets: none}\n");
}

/// Quick to solve, and swaying near its limit.
bench::Bench swaying() {
  return bench_files::sound(
      "standtrue: 1\nsize: 1200 x 600 x 860 mm\ntimber: C24 45 x 95 mm\njoints: bolts\n"
      "top: 18 mm spruce plywood\nanalysis: {sheets: none}\nduty: light\n");
}

}  // namespace

TEST_CASE("decide/odds: drawn stiffness has the mean and the deviations of its sources (JCSS)") {
  const Population all(bench_files::sound(bench_files::small_bench("")), tables());
  REQUIRE(all.pieces.size() == all.deviations.size());
  CHECK(all.deviations.front() == Approx(std::sqrt(std::log(1.0 + 0.13 * 0.13))));
  boost::random::mt19937_64 random(7);
  constexpr int n = 20000;
  double E = 0.0, E2 = 0.0, joints = 0.0, joints2 = 0.0, both = 0.0, apart = 0.0;
  for (int k = 0; k < n; ++k) {
    const Drawn own = all.draw(random, false);
    apart += own.pieces[0] * own.pieces[1] / n;
    const model::Scales scales = all.scales(own);
    E += scales.pieces.at(all.pieces[0]) / n;
    E2 += std::pow(scales.pieces.at(all.pieces[0]), 2) / n;
    const Drawn alike = all.draw(random, true);
    CHECK_MESSAGE(alike.pieces[0] == alike.pieces[1], "all of one bench");
    const double ln = all.joints * alike.joints;
    joints += ln / n;
    joints2 += ln * ln / n;
    both += ln * alike.pieces[0] / n;
  }
  const double far = 5.0 / std::sqrt(n);
  CHECK(E == Approx(1.0).epsilon(0.13 * far));
  CHECK(std::sqrt(E2 - E * E) == Approx(0.13).epsilon(far));
  CHECK(std::abs(apart) < far);
  // ln k = N(0, s_j) + 1.5 ln rho, and E goes with rho by 0.6
  const double spread = std::hypot(all.joints, 1.5 * 0.10);
  CHECK(std::sqrt(joints2 - joints * joints) == Approx(spread).epsilon(far));
  CHECK(std::abs(both - 0.6 * 1.5 * 0.10) < far * spread);
}

TEST_CASE("decide/ratio_surface: what is made of its terms comes back (closed form)") {
  const auto ln_r = [](const Drawn& d) {
    const double x = d.joints, s = d.screws, t = (d.pieces[0] + d.pieces[1]) / 2.0;
    const double a = 0.3 - 0.4 * x, b = -0.1 + 0.02 * x - 0.01 * x * x;
    return a + b * t + (0.01 + 0.004 * x) * t * t + (0.05 - 0.03 * x) * s + 0.02 * s * s +
           0.015 * t * s;
  };
  std::vector<double> logs;
  for (const Drawn& point : decide::points_of_surface(2)) logs.push_back(ln_r(point));
  const decide::RatioSurface surface(logs, 2);
  for (const Drawn& d : {Drawn{{1.3, 1.3}, 0.7, -1.1}, Drawn{{-2.0, -2.0}, -2.6, 1.7},
                         Drawn{{0.4, 0.4}, 2.9, 0.2}}) {
    CHECK(surface.log_at(d) == Approx(ln_r(d)).epsilon(1e-12));
  }
  // Past the outermost points of joints it stays.
  CHECK(surface.log_at({{0.0, 0.0}, 5.0, 0.0}) == surface.log_at({{0.0, 0.0}, 3.0, 0.0}));
}

TEST_CASE("decide/ratio_surface: a piece counts by itself (closed form)") {
  const auto ln_r = [](const Drawn& d) { return 0.1 - 0.3 * d.pieces[0] + 0.05 * d.pieces[2]; };
  std::vector<double> logs;
  for (const Drawn& point : decide::points_of_surface(3)) logs.push_back(ln_r(point));
  const decide::RatioSurface surface(logs, 3);
  const Drawn d{{-1.2, 0.8, 2.1}, 0.5, -0.5};
  CHECK(surface.log_at(d) == Approx(ln_r(d)).epsilon(1e-12));
}

TEST_CASE("decide/odds: a pinned rail sags too much with Phi((ln r + s^2/2)/s) (lognormal E)") {
  const bench::Bench bench = pinned();
  const Odds odds = decide::odds(bench, {}, tables(), decide::Work::plain());
  REQUIRE(odds.why_none.empty());
  const decide::Failing* sag = failing(odds, "sag/front-top-rail");
  REQUIRE(sag != nullptr);
  const double s = std::sqrt(std::log(1.0 + 0.13 * 0.13));
  const double p = below((std::log(sag->finding.ratio) + 0.5 * s * s) / s);
  CAPTURE(sag->finding.ratio);
  REQUIRE(p > 0.1);
  REQUIRE(p < 0.9);
  CHECK(std::abs(of(sag->share, odds) - p) < strays(p, odds.drawn));
  CHECK(sag->share.low < p);
  CHECK(sag->share.high > p);
}

TEST_CASE("decide/odds: as many sway too much as when each bench is solved (brute force)") {
  const bench::Bench bench = swaying();
  const Odds odds = decide::odds(bench, {}, tables(), decide::Work::plain());
  REQUIRE(odds.why_none.empty());
  const decide::Failing* sway = failing(odds, "sway/across");
  REQUIRE(sway != nullptr);
  const Population all(bench, tables());
  boost::random::mt19937_64 random(99);
  constexpr std::size_t n = 100;
  std::size_t failed = 0;
  for (std::size_t k = 0; k < n; ++k) {
    solve::PlateCache plates;
    model::Assumptions assumptions;
    assumptions.scales = all.scales(all.draw(random, false));
    const decide::Bounded at = decide::solved(bench, tables(), assumptions, plates);
    for (const check::Finding& f : decide::judged(at, {}, false, tables())) {
      if (f.id == "sway/across" && f.ratio > 1.0) ++failed;
    }
  }
  const double p = static_cast<double>(failed) / n;
  CAPTURE(p);
  CHECK(p > 0.05);
  CHECK(p < 0.95);
  CHECK(std::abs(of(sway->share, odds) - p) < strays(p, n));
}

TEST_CASE(
    "decide/odds: the same by one thread, by many and in any order; another seed is another") {
  const bench::Bench bench = pinned();
  decide::Work backwards = decide::Work::plain();
  backwards.for_each = [](std::size_t n, const std::function<void(std::size_t)>& f) {
    for (std::size_t k = n; k > 0; --k) f(k - 1);
  };
  const Odds a = decide::odds(bench, {}, tables(), decide::Work::plain(), 2000);
  const Odds b = decide::odds(bench, {}, tables(), backwards, 2000);
  const Odds c = decide::odds(bench, {}, tables(), backwards, 2000, 2);
  CHECK(a.outcomes.stand.count == b.outcomes.stand.count);
  CHECK(a.fit.typical == b.fit.typical);
  REQUIRE(a.failing.size() == b.failing.size());
  for (std::size_t i = 0; i < a.failing.size(); ++i) {
    CHECK(a.failing[i].ratio_median == b.failing[i].ratio_median);
  }
  const auto sag = [](const Odds& odds) {
    const decide::Failing* f = failing(odds, "sag/front-top-rail");
    return f ? f->ratio_median : 0.0;
  };
  CHECK(sag(a) > 0.0);
  CHECK(sag(c) != sag(a));
  const auto sum = [](const decide::Outcomes& o) {
    return o.stand.count + o.carry_but.count + o.do_not_load.count;
  };
  CHECK(sum(a.outcomes) == 2000);
  CHECK(sum(a.alike) == 2000);
}

TEST_CASE("decide/odds: stopped, it gives no numbers; a frame that can move has no odds") {
  decide::Work work = decide::Work::plain();
  work.keep_going = [](std::size_t done, std::size_t) { return done < 3; };
  CHECK_FALSE(decide::odds(swaying(), {}, tables(), work).complete);
  const bench::Bench loose = bench_files::sound(
      "standtrue: 1\nsize: 1500 x 600 x 860 mm\ntimber: C24 45 x 95 mm\njoints: pinned\n"
      "top: 18 mm spruce plywood\nanalysis: {sheets: none}\n");
  CHECK_FALSE(decide::odds(loose, {}, tables(), decide::Work::plain()).why_none.empty());
}

}  // namespace odds_test
