// The largest mass on a patch. Sources: lines whose limit is known, and benches solved anew.
#include "decide/load_plan.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <vector>

#include "decide/placing.hpp"
#include "tests/decide/placed_benches.hpp"

namespace load_plan_test {

using namespace standtrue;
using bench_files::tables;
using placed_benches::held;
using placed_benches::plated;

namespace {

/// The worst of safety at any bound, solved anew with that on the top for years; a patch of the
/// same size on a mesh of its own.
double worst_with(const bench::Bench& bench, const decide::Elsewhere::Patch& patch,
                  double kilograms) {
  bench::Bench loaded = bench;
  bench::FreeLoad stored{"stored", bench.machines[0].sheet, patch.x, patch.y, {}, {}, {}, {}};
  stored.fz = quantity::newtons(-kilograms * quantity::in_si(quantity::standard_gravity()));
  stored.duration = reference::Duration::long_term;
  loaded.loads.push_back(stored);
  const decide::AtBounds found = decide::judged_directly(loaded, tables(), true);
  double worst = 0.0;
  for (const auto* bound : {&found.soft, &found.mean, &found.stiff, &found.poor}) {
    worst = std::max(worst, decide::safety_ratio(*bound));
  }
  return worst;
}

/// Some of the masses that a bound other than mean joints decides.
void hold_what_is_told(const bench::Bench& bench, std::size_t every) {
  const decide::PlacePlan plan =
      decide::place(bench, *decide::machine_on_top(bench), tables(), decide::Work::plain());
  REQUIRE(plan.none.empty());
  const decide::LoadPlan& loads = plan.loads;
  REQUIRE(loads.none.empty());
  const bench::Sheet& top = bench.sheets[bench.machines[0].sheet];
  std::size_t turned = 0, tried = 0;
  for (std::size_t cell = 0; cell < loads.mass.size(); ++cell) {
    CAPTURE(cell);
    const double mass = loads.mass[cell];
    CHECK(mass <= loads.mean[cell]);
    if (!(mass < loads.mean[cell]) || mass == 0.0) continue;
    ++turned;
    if ((turned - 1) % every != 0) continue;
    ++tried;
    const decide::Elsewhere::Patch patch = decide::load_patch(loads, top, cell);
    constexpr double mesh = 0.03;
    CHECK(worst_with(bench, patch, mass) <= 1.0 + mesh);
    CHECK(worst_with(bench, patch, 1.2 * mass + 5.0) > 1.0 - mesh);
  }
  CHECK(tried > 0);
}

}  // namespace

TEST_CASE("decide/load_plan: the largest mass is found from below, on lines that bend upwards") {
  // 0.2 at rest, then the steeper of two lines: 1 at 100 kg.
  std::size_t asked = 0;
  const auto bent = [&asked](double m) {
    ++asked;
    return decide::Governing{std::max(0.2 + 0.004 * m, 0.01 * m), "it"};
  };
  const decide::LargestMass found = decide::largest_mass(bent, bent(0.0), 40.0, 300.0);
  CHECK(found.mass <= 100.0);
  CHECK(found.mass > 97.4);
  CHECK(found.why == "it");
  CHECK(asked < 12);
  const auto flat = [](double) { return decide::Governing{0.4, "other"}; };
  CHECK(decide::largest_mass(flat, flat(0.0), 40.0, 300.0).mass == 300.0);
  CHECK(decide::largest_mass(flat, flat(0.0), 40.0, 300.0).why.empty());
  const auto over = [](double m) { return decide::Governing{1.2 + m, "before"}; };
  CHECK(decide::largest_mass(over, over(0.0), 40.0, 300.0).mass == 0.0);
  CHECK(decide::largest_mass(over, over(0.0), 40.0, 300.0).why == "before");
  // It tips from 30 kg on.
  const auto tips = [](double m) {
    return decide::Governing{m < 30.0 ? 0.1 : std::numeric_limits<double>::infinity(), "tips"};
  };
  const double tipping = decide::largest_mass(tips, tips(0.0), 60.0, 300.0).mass;
  CHECK(tipping < 30.0);
  CHECK(tipping > 27.0);
}

TEST_CASE("decide/load_plan: rounding at the limit does not move the mass") {
  // A line that a secant ends on exactly, 100 kg, whichever way rounding has its last digit.
  for (const double rounding : {-1e-14, 0.0, 1e-14}) {
    CAPTURE(rounding);
    const auto line = [rounding](double m) {
      return decide::Governing{0.2 + 0.008 * m + (m > 0.0 ? rounding : 0.0), "it"};
    };
    CHECK(std::abs(decide::largest_mass(line, line(0.0), 40.0, 300.0).mass - 100.0) < 1e-9);
  }
}

TEST_CASE("decide/load_plan: what it allows is carried however joints turn out, and little more") {
  hold_what_is_told(held(bench_files::sound(plated)), 5);
}

TEST_CASE("decide/load_plan: the bed of a bolted machine hands on what is stored beside it") {
  // Reckoned without it, twice what is carried was told at the back corners.
  hold_what_is_told(held(bench_files::sound(placed_benches::frame + R"(
top: {sheet: 18 mm spruce plywood, load: 10 kg}
bearers: {every: 300 mm, joint: {resistance: {moment: 60 N m, shear: 3 kN}, stiffness: {bend: 0.5 kN m/rad}}}
machines:
  - {kind: machine, name: press, mass: 30 kg, at: [375 mm, 375 mm], pads: 300 x 300 mm, pad: 40 mm, mounting: bolted, bed_twist: 300 kN m/rad}
)")),
                    1);
}

TEST_CASE("decide/load_plan: no bound is in the way of what is told, and each bound counts") {
  const bench::Bench bench = bench_files::sound(
      bench_files::file_text(STANDTRUE_SOURCE_DIR "/examples/boiler-plinth.yaml"));
  decide::Elsewhere elsewhere;
  elsewhere.machine = *decide::machine_on_top(bench);
  elsewhere.places = {bench.machines[elsewhere.machine]};
  const bench::Sheet& top = bench.sheets[elsewhere.places[0].sheet];
  decide::LoadPlan plan = decide::empty_load_plan(top);
  std::vector<std::size_t> cells;  // along the back
  for (std::size_t cell = (plan.ny - 1) * plan.nx; cell < plan.ny * plan.nx; ++cell) {
    cells.push_back(cell);
    elsewhere.patches.push_back(decide::load_patch(plan, top, cell));
  }
  const decide::Work alone = decide::Work::plain();
  const auto bounds = decide::InfluenceBounds::make(bench, tables(), elsewhere, alone).value();
  const auto others = decide::OtherBounds::make(bench, tables(), elsewhere, bounds, alone).value();
  decide::fill_load_plan(plan, {bounds, others, 0}, cells, tables(), alone);
  std::set<decide::OtherBound> in_the_way;
  for (std::size_t patch = 0; patch < cells.size(); ++patch) {
    for (const decide::OtherBound bound : decide::other_bounds) {
      CAPTURE(patch);
      CAPTURE(static_cast<int>(bound));
      const auto ratio = [&](double mass) {
        return decide::safety_ratio(decide::superposed_at(
            others, bound, 0, decide::Influence::Stored{patch, mass}, tables()));
      };
      const double mass = plan.mass[cells[patch]], mean = plan.mean[cells[patch]];
      CHECK(ratio(mass) <= 1.0 + 1e-9);
      if (mass < mean && ratio(mean) > 1.0) in_the_way.insert(bound);
    }
  }
  CHECK(in_the_way.size() > 1);
}

}  // namespace load_plan_test
