#include <doctest/doctest.h>
#include <fmt/format.h>

#include <cmath>
#include <functional>

#include "check/unbalance.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/vibration.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace vibration_test {

// A bench of our own with a wood lathe; shapes made by hand, answers of one freedom in closed form.

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using doctest::Approx;
using quantity::in_si;

namespace {

model::Model bench_with(const std::string& machine, const std::string& more = "") {
  const std::string text = R"(
standtrue: 1
size: 1600 x 640 x 860 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 18 mm spruce plywood
shelf: 12 mm spruce plywood
analysis: {mesh: 200 mm}
machines:
  - {kind: )" + machine + ", at: middle}\n" +
                           more;
  model::Idealisation made = model::idealise(bench_files::sound(text), tables(), {});
  REQUIRE(made.model);
  return *made.model;
}

using Field = std::function<std::array<double, 3>(double x, double y, double z)>;

/// A mode in which everything moves by a field of place, bodies tilting by `tilt` (rx, ry) beside.
solve::Mode shaped(const model::Model& m, const Field& field,
                   std::array<double, 2> tilt = {0.0, 0.0}) {
  solve::Mode mode;
  mode.frequency = 5.0;
  mode.displacement = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(6 * m.nodes.size()));
  for (model::NodeId n = 0; n < m.nodes.size(); ++n) {
    const model::Point& at = m.nodes[n].at;
    const auto u = field(in_si(at.x), in_si(at.y), in_si(at.z));
    for (std::size_t i = 0; i < 3; ++i)
      mode.displacement(static_cast<Eigen::Index>(6 * n + i)) = u[i];
  }
  for (const model::Plate& plate : m.plates) {
    solve::PlateMovements moves =
        solve::PlateMovements::Zero(static_cast<Eigen::Index>(5 * plate.lines()), 1);
    for (std::size_t n = 0; n < plate.lines(); ++n) {
      const double x = plate.x[n % plate.x.size()], y = plate.y[n / plate.x.size()];
      const auto u = field(plate.origin[0] + x, plate.origin[1] + y, plate.origin[2]);
      // Lying sheets: own axes are the global ones.
      for (std::size_t i = 0; i < 3; ++i) moves(static_cast<Eigen::Index>(5 * n + i), 0) = u[i];
    }
    mode.plates.push_back(moves);
  }
  for (std::size_t b = 0; b < m.bodies.size(); ++b) {
    const bench::Machine& machine = m.parts.bench.machines[b];
    const auto u = field(in_si(machine.x), in_si(machine.y), 0.9);
    const double h = in_si(machine.cg_height);
    mode.bodies.push_back({u[0] + tilt[1] * h, u[1] - tilt[0] * h, u[2], tilt[0], tilt[1], 0.0});
  }
  return mode;
}

std::array<double, 3> nothing(double, double, double) { return {}; }

const Finding& of(const std::vector<Finding>& findings, const std::string& id) {
  for (const Finding& f : findings) {
    if (f.id == id) return f;
  }
  FAIL("no finding " << id);
  return findings.front();
}

}  // namespace

TEST_CASE("check/vibration: shapes are named by where their kinetic energy is") {
  const model::Model m = bench_with("wood lathe");
  const auto named = [&](const Field& field, std::array<double, 2> tilt = {0.0, 0.0}) {
    return check::words_of(m, shaped(m, field, tilt));
  };
  const auto along = named([](double, double, double z) { return std::array{z, 0.0, 0.0}; });
  CHECK(along.shape == "sways along");
  CHECK(along.share == Approx(1.0).epsilon(0.02));
  CHECK(named([](double, double, double z) {
          return std::array{0.0, -z, 0.0};
        }).shape == "sways across");
  CHECK(named([](double x, double y, double z) {
          return std::array{-z * (y - 0.32), z * (x - 0.8), 0.0};
        }).shape == "twists");
  CHECK(named([](double, double, double) {
          return std::array{0.0, 0.0, 1.0};
        }).shape == "the bench goes up and down on its feet");
  // A full wave over the length: as much goes up as down, and the top with its lathe holds more.
  CHECK(named([](double x, double, double z) {
          return std::array{0.0, 0.0, z > 0.7 ? std::cos(3.14159 * x / 1.6) : 0.0};
        }).shape == "the top goes up and down");
  CHECK(named([](double x, double, double z) {
          return std::array{0.0, 0.0, z < 0.4 ? std::cos(3.14159 * x / 1.6) : 0.0};
        }).shape == "the shelf goes up and down");
  CHECK(named(nothing, {0.0, 1.0}).shape == "the wood lathe rocks along");
  CHECK(named(nothing, {1.0, 0.0}).shape == "the wood lathe rocks across");
  CHECK(named([](double, double, double z) {
          return std::array{z, 0.9 * z, 0.0};
        }).shape == "mixed");
}

TEST_CASE("check/vibration: one freedom answers an unbalance as the textbook says") {
  // m e/M r²/√((1 - r²)² + (2 ζ r)²): Thomson, Theory of Vibration, 3.2 (from memory). Everything
  // of mass M moves across alike; the lathe's spindle lies along, so it pushes across and up.
  const model::Model m = bench_with("wood lathe");
  solve::Mode mode = shaped(m, [](double, double, double) { return std::array{0.0, 1.0, 0.0}; });
  const double M = 240.0, f = 5.0;
  mode.displacement /= std::sqrt(M);
  for (auto& plate : mode.plates) plate /= std::sqrt(M);
  for (auto& body : mode.bodies) {
    for (double& u : body) u /= std::sqrt(M);
  }
  const std::vector<solve::Mode> modes{mode};
  const check::Unbalance unbalance{3.0, 5e-3, 1.0, 20.0};
  const check::Shaker shaker(m, 0, modes, unbalance);
  for (const double r : {0.3, 0.8, 1.0, 1.4, 3.0}) {
    for (const double zeta : {0.02, 0.06}) {
      const double expected = 3.0 * 5e-3 / M * r * r /
                              std::sqrt(std::pow(1.0 - r * r, 2) + std::pow(2.0 * zeta * r, 2));
      const check::Shaking shaking = shaker.at(r * f, zeta);
      CHECK(shaking.amplitude == Approx(expected).epsilon(1e-12).scale(0.0));
      CHECK(shaking.velocity() == Approx(2.0 * 3.14159265358979 * r * f * expected / std::sqrt(2.0))
                                      .epsilon(1e-12)
                                      .scale(0.0));
    }
  }
  CHECK(shaker.at_resonance(0, 0.02) == Approx(3.0 * 5e-3 / M / 0.04).epsilon(1e-12).scale(0.0));
}

TEST_CASE("check/vibration: a spindle that lies along does not push along") {
  const model::Model m = bench_with("wood lathe");
  const model::Model turned = bench_with("bench grinder, turned: yes");
  const solve::Mode along = shaped(m, [](double, double, double) {
    return std::array{0.1, 0.0, 0.0};
  });
  const std::vector<solve::Mode> modes{along};
  CHECK(check::Shaker(m, 0, modes, {3.0, 5e-3, 1.0, 20.0}).at(5.0, 0.02).amplitude == 0.0);
  CHECK(turned.parts.bench.machines[0].spindle == bench::Machine::Axis::y);
}

TEST_CASE("check/vibration: a whole bench tells its modes, its speeds and a blank's") {
  const model::Model m = bench_with("wood lathe");
  solve::PlateCache plates;
  const auto response = solve::static_response(m, plates, tables().limits.buckling.value);
  REQUIRE(response.has_value());
  const check::Answers answers{m, *response};
  const std::vector<Finding> found = check::vibration(answers, tables());
  const Finding& modes = of(found, "hum/modes");
  CHECK(modes.kind == check::Kind::told);
  CHECK(modes.working.size() >= 12);
  const Finding& running = of(found, "hum/wood-lathe");
  CHECK(running.kind == check::Kind::service);
  CHECK(running.ratio > 0.0);
  const Finding& blank = of(found, "hum/wood-lathe-untrue");
  CHECK(blank.kind == check::Kind::caution);
  CHECK(blank.sentence.find("Keep off") != std::string::npos);
  // The factor at which it buckles stands beside: told with its shape.
  const std::vector<Finding> stable = check::frame_stability(answers, tables());
  REQUIRE(stable.size() == 1);
  CHECK(stable[0].demand == Approx(response->stability->factor));
  CHECK(stable[0].limit == Approx(1.3));  // EN 1995-1-1, Table 2.3, solid timber
  CHECK(stable[0].ratio == Approx(1.3 / response->stability->factor));
}

TEST_CASE("check/vibration: what does not turn does not shake") {
  const model::Model m = bench_with("vice");
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  const std::vector<Finding> found = check::vibration({m, *response}, tables());
  CHECK(found.size() == 1);
  CHECK(found[0].id == "hum/modes");
}

TEST_CASE("check/vibration: half of the speeds of a dial shake less than what is judged") {
  const model::Model m = bench_with("drill press");
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  const Finding f = of(check::vibration({m, *response}, tables()), "hum/drill-press");
  const auto modes = solve::modes(*response->prepared[1]);
  REQUIRE(modes.has_value());
  // 2 kg and 0.05 mm of its record, 600 (where the zones begin) to 2700 rpm.
  const check::Shaker shaker(m, 0, *modes, {2.0, 0.05e-3, 10.0, 45.0});
  const double zeta = std::sqrt(0.02 * 0.06);
  int less = 0, all = 0;
  for (const double speed : shaker.speeds(10.0, 45.0)) {
    ++all;
    if (shaker.at(speed, zeta).velocity() / tables().limits.vibration.value < f.demand) ++less;
  }
  CHECK(less == all / 2);
  CHECK(f.ratio_stiff <= f.ratio);
  CHECK(f.ratio <= f.ratio_soft);
}

TEST_CASE("check/vibration: one speed has a range; what goes to and fro is told") {
  const model::Model m =
      bench_with("bench grinder", "  - {kind: scroll saw, at: [300 mm, 320 mm]}\n");
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  const std::vector<Finding> found = check::vibration({m, *response}, tables());
  const Finding& grinder = of(found, "hum/bench-grinder");
  CHECK(grinder.kind == check::Kind::service);
  CHECK(grinder.ratio_stiff < grinder.ratio);
  CHECK(grinder.ratio < grinder.ratio_soft);
  const Finding& saw = of(found, "hum/scroll-saw");
  CHECK(saw.kind == check::Kind::told);
  CHECK(std::isnan(saw.ratio));
  CHECK(saw.sentence.find("to and fro") != std::string::npos);
}

TEST_CASE("check/vibration: a blank is turned no slower than the lathe can") {
  // Slowest 1200 rpm, above the 1000 rpm to which such a blank is turned.
  const model::Model m = bench_with("wood lathe, speeds: [1200 rpm, 3000 rpm]");
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  const Finding blank = of(check::vibration({m, *response}, tables()), "hum/wood-lathe-untrue");
  REQUIRE_FALSE(blank.working.empty());
  CHECK(blank.working.back().find("at 1200 rpm") == 0);
}

TEST_CASE("check/vibration: a brace swings by itself, between pinned and clamped") {
  // Euler and Bernoulli, from memory: f = λ²/(2π L²) √(EI/m), λ = π and 4.730. By hand for C24 of
  // 19 x 89 mm, E = 11 GPa and 420 kg/m³ (EN 338): EI/m = E t²/(12 ρ) = 787.9 m⁴/s², so that
  // f L² = 44.09 and 99.95 m²/s.
  const model::Model m =
      bench_with("bench grinder", "braces: [{side: back, kind: diagonal, section: 19 x 89 mm}]\n");
  const solve::Response none;
  check::Answers answers{m, none};
  const std::vector<Finding> found = check::brace_swings(answers);
  REQUIRE(found.size() == 1);
  const model::Member& brace = m.members[m.parts.brace_ends.front().member];
  const double L = in_si(model::member_frame(m, brace).length);
  CHECK(found[0].demand == Approx(44.09 / (L * L)).epsilon(1e-3));
  CHECK(found[0].working.at(0).find(fmt::format("to {:.1f} Hz", 99.95 / (L * L))) !=
        std::string::npos);
  CHECK(found[0].sentence.find("bench grinder") != std::string::npos);
  answers.at_mean = false;
  CHECK(check::brace_swings(answers).empty());
  CHECK(check::brace_swings({bench_with("bench grinder"), none}).empty());
}

}  // namespace vibration_test
