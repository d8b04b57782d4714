#include "check/mode_reach.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "standtrue/check/vibration.hpp"
#include "tests/check/solved_bench.hpp"

namespace mode_reach_test {

// Own benches; numbers by hand.

using namespace standtrue;
using bench_files::tables;
using doctest::Approx;

namespace {

/// On concrete, whose feet give by 5, 15 or 50 kN/mm (reference/feet.yaml).
const char* const saw = R"(
standtrue: 1
size: 1200 x 600 x 900 mm
timber: C24 70 x 120 mm
joints: ribbed corner brackets
top: 24 mm birch plywood
feet: {thread: M12, material: plastic}
analysis: {mesh: 200 mm}
braces: [{side: back, kind: cross}, {side: left, kind: diagonal}, {side: right, kind: diagonal}, {side: front, kind: cross}]
machines:
  - {kind: band saw, at: middle, mounting: bolted, speeds: 1034 rpm}
)";

solve::Mode with_shares(double ends, double slip, double supports) {
  solve::Mode mode;
  mode.in_springs = {ends, slip, supports};
  return mode;
}

/// Everything of 1 kg moves along alike, at 5 Hz; the spindle of the saw lies across.
solve::Mode along(const model::Model& m) {
  solve::Mode mode;
  mode.frequency = 5.0;
  mode.displacement = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(6 * m.nodes.size()));
  for (std::size_t n = 0; n < m.nodes.size(); ++n) {
    mode.displacement(static_cast<Eigen::Index>(6 * n)) = 1.0;
  }
  for (const model::Plate& plate : m.plates) {
    solve::PlateMovements moves =
        solve::PlateMovements::Zero(static_cast<Eigen::Index>(5 * plate.lines()), 1);
    for (std::size_t n = 0; n < plate.lines(); ++n) {
      moves(static_cast<Eigen::Index>(5 * n), 0) = 1.0;
    }
    mode.plates.push_back(moves);
  }
  mode.bodies = {{1.0, 0.0, 0.0, 0.0, 0.0, 0.0}};
  return mode;
}

/// m e ω/√2 r²/√((1 - r²)² + (2 ζ r)²) of 1 kg: Thomson, Theory of Vibration, 3.2 (from memory).
double velocity(double m_e, double speed, double f, double zeta) {
  const double r = speed / f;
  return m_e * 2.0 * std::numbers::pi * speed / std::sqrt(2.0) * r * r /
         std::hypot(1.0 - r * r, 2.0 * zeta * r);
}

}  // namespace

TEST_CASE("check/mode_reach: how far joints, feet and all else move a mode (ours, by hand)") {
  model::Model m = solved_bench::idealised(saw);
  // Nothing in springs: a fifth.
  const check::ModeReach stiff = check::reach_of(with_shares(0.0, 0.0, 0.0), m, tables());
  CHECK(stiff.down == Approx(1.2));
  CHECK(stiff.up == Approx(1.2));
  // s = 0.45: √(0.55 + 1.35) = 1.3784 and 1/√(0.55 + 0.15) = 1.1952; with 1.2, e to the 0.36911
  // and 0.25503.
  const check::ModeReach joints = check::reach_of(with_shares(0.3, 0.15, 0.0), m, tables());
  CHECK(joints.down == Approx(1.4464).epsilon(1e-4));
  CHECK(joints.up == Approx(1.2905).epsilon(1e-4));
  // Feet on concrete, 0.4: √(0.6 + 1.2) = 1.3416 and 1/√(0.6 + 0.12) = 1.1785; with 1.2.
  const check::ModeReach feet = check::reach_of(with_shares(0.0, 0.0, 0.4), m, tables());
  CHECK(feet.down == Approx(1.4131).epsilon(1e-4));
  CHECK(feet.up == Approx(1.2783).epsilon(1e-4));
  m.parts.bench.floor.down = quantity::from_si<quantity::LinearStiffness>(15e6);
  CHECK(check::reach_of(with_shares(0.0, 0.0, 0.4), m, tables()).down == Approx(1.2));
  // All joints: √3, with 1.2.
  CHECK(check::reach_of(with_shares(1.0, 0.0, 0.0), m, tables()).down ==
        Approx(check::farthest_down(tables())));
}

TEST_CASE("check/mode_reach: one speed meets a mode within its reach, and misses it by all of it") {
  const model::Model m = solved_bench::idealised(saw);
  const std::vector<solve::Mode> modes{along(m)};
  const check::Shaker shaker(m, 0, modes, {2.0, 1e-3, 1.0, 20.0});
  const std::vector<check::ModeReach> reaches{{1.4, 1.2}};  // 3.571 to 6 Hz
  const check::Shaken met = check::shaken(shaker, reaches, {4.0, 4.0}, {0.02, 0.06});
  CHECK(met.liveliest == Approx(velocity(2e-3, 4.0, 4.0, 0.02)));
  CHECK(met.calmest == Approx(velocity(2e-3, 4.0, 6.0, 0.06)));
  const check::Shaken slower = check::shaken(shaker, reaches, {3.0, 3.0}, {0.02, 0.06});
  CHECK(slower.liveliest == Approx(velocity(2e-3, 3.0, 5.0 / 1.4, 0.02)));
  // A stretch of speeds always holds the mode here: calmest where that is met slowest.
  const check::Shaken stretch = check::shaken(shaker, reaches, {3.5, 6.1}, {0.02, 0.06});
  CHECK(stretch.liveliest >= velocity(2e-3, 6.0, 6.0, 0.02) * (1.0 - 1e-12));
  CHECK(stretch.calmest == Approx(velocity(2e-3, 6.1, 5.0 / 1.4, 0.06)).epsilon(0.5));
}

TEST_CASE("check/vibration: a saw whose soft joints bring a mode to its speed depends on them") {
  const solved_bench::Solved solved = solved_bench::solved(saw);
  const std::vector<check::Finding> found = check::vibration(solved.answers(), tables());
  const auto hum = std::find_if(found.begin(), found.end(),
                                [](const check::Finding& f) { return f.id == "hum/band-saw"; });
  REQUIRE(hum != found.end());
  CHECK(hum->ratio < 1.0);
  CHECK(hum->ratio_stiff < hum->ratio);
  CHECK(hum->ratio_soft > 1.0);
  // So it is: the soft bench, solved, shakes more than the limit within a twentieth of that speed.
  const auto soft = model::idealise(bench_files::sound(saw), tables(), {model::Bound::soft});
  REQUIRE(soft.model);
  const auto prepared = solve::prepare(*soft.model, model::SpringSet::sway);
  REQUIRE(prepared);
  const auto modes = solve::modes(*prepared);
  REQUIRE(modes);
  const double speed = 1034.0 / 60.0;
  const check::Shaker shaker(*soft.model, 0, *modes,
                             {2.0, 0.016 / (2.0 * std::numbers::pi * speed), speed, speed});
  double most = 0.0;
  for (const double at : shaker.speeds(speed / 1.05, speed * 1.05)) {
    most = std::max(most, shaker.at(at, 0.02).velocity());
  }
  CHECK(most > tables().limits.vibration.value);
}

}  // namespace mode_reach_test
