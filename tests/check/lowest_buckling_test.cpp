// The buckling factor that decides whether second order counts is the lowest of all combinations
// of the largest loads, wherever people stand: against the factor of each of them, one by one.
#include <doctest/doctest.h>

#include <algorithm>
#include <limits>
#include <string>

#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/buckling.hpp"
#include "tests/bench/bench_files.hpp"

namespace lowest_buckling_test {

using namespace standtrue;

namespace {

/// Of all combinations for strength that are answered by first order.
double lowest_of_all(const model::Model& model) {
  solve::PlateCache plates;
  const auto first = solve::static_response(model, plates, 0.0);
  REQUIRE(first.has_value());
  const auto sway = solve::prepare(model, model::SpringSet::sway, plates);
  REQUIRE(sway.has_value());
  double lowest = std::numeric_limits<double>::infinity();
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    if (model.combinations[c].purpose != model::Purpose::strength || !first->states[c]) continue;
    solve::Loading loading = first->loadings[c];
    loading.second_order = false;
    const auto state = solve::respond(*sway, loading);
    if (!state) continue;
    const auto modes = solve::buckling(*sway, *state);
    REQUIRE(modes.has_value());
    if (!modes->empty()) lowest = std::min(lowest, modes->front().factor);
  }
  return lowest;
}

}  // namespace

TEST_CASE("check/lowest_buckling: no combination has a lower factor than the one that is told") {
  const std::string head = "standtrue: 1\n";
  const std::string sheets =
      "top: {sheet: 18 mm spruce plywood, load: none}\n"
      "analysis: {sheets: strip}\n";
  for (const std::string& words :
       {std::string("size: 1600 x 700 x 900 mm\ntimber: C24 45 x 95 mm\n"
                    "joints: two corner brackets\nfeet: {fixed: yes}\n"),
        std::string("size: 1600 x 700 x 900 mm\ntimber: C24 45 x 95 mm\n"
                    "joints: two corner brackets\n"),
        std::string("size: 2400 x 600 x 1000 mm\ntimber: C16 38 x 89 mm\njoints: corner brackets\n"
                    "machines: [{kind: drill press, mass: 120 kg, at: [400 mm, 300 mm]}]\n"),
        std::string("size: 1200 x 800 x 850 mm\ntimber: C16 38 x 63 mm\njoints: corner brackets\n"
                    "shelf: {sheet: 18 mm spruce plywood, load: 120 kg/m2}\n")}) {
    CAPTURE(words);
    const bench::Bench bench = bench_files::sound(head + words + sheets);
    for (const model::Bound bound : {model::Bound::soft, model::Bound::mean}) {
      model::Assumptions assumptions;
      assumptions.bound = bound;
      const auto made = model::idealise(bench, bench_files::tables(), assumptions);
      REQUIRE(made.model);
      solve::PlateCache plates;
      const auto told = solve::static_response(*made.model, plates, 10.0);
      REQUIRE(told.has_value());
      REQUIRE(told->stability);
      const double lowest = lowest_of_all(*made.model);
      CHECK(told->stability->factor >= lowest * (1.0 - 1e-6));
      CHECK(told->stability->factor <= lowest * 1.02);
    }
  }
}

}  // namespace lowest_buckling_test
