// How the twist of a bed is found: closed forms, two roads to one number, feet.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "check/bed.hpp"
#include "check/plate_answers.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/lathe_bench.hpp"
#include "tests/solve/plate_models.hpp"

namespace bed_twist_test {

using namespace standtrue;
using check::FootTurn;
using tests::close_to;

namespace {

using namespace lathe_bench;

// ---------------------------------------------------------------------------------------------
// A free plate under the pattern 1 N up, down, up, down at its corners twists evenly:
//     w = κ x y,  energy ½ D_66 (2 κ)² a b = ½ q,  q = κ a b        =>  Γ = a b/(4 D_66).
// Kirchhoff's plate (Timoshenko & Woinowsky-Krieger, pure twist; from memory; own derivation
// from the energy). The element holds this field exactly where shear strain is shut out.

constexpr double a = 0.6, b = 0.2, D_66 = 240.0;

model::Patch point(double x, double y) { return {x, x, y, y}; }

/// Held at three corners, which the pattern leaves without force. `k`: of a bed bolted to it.
model::Model twisted_plate(double weight, std::optional<double> k) {
  model::Model m;
  m.parts = hand_built::four_feet();
  m.parts.feet.clear();
  m.parts.bench.machines.resize(1);
  model::Plate plate;
  plate.name = "top";
  plate.x = tests::even(0.0, a, 6);
  plate.y = tests::even(0.0, b, 2);
  plate.stiffness = tests::orthotropic(9e9, 4e9, 0.0, 0.5e9, 0.5e9, 0.5e9, 0.018);
  plate.stiffness.D_66 = D_66;
  plate.stiffness.S_x = plate.stiffness.S_y = 1e11;
  for (const auto& [x, y] : {std::pair{0.0, 0.0}, {a, 0.0}, {0.0, b}}) {
    tests::hold(plate, point(x, y), {true, true, true, false, false});
  }
  model::BedPlace bed;
  bed.pads = {point(0, 0), point(a, 0), point(a, b), point(0, b)};
  bed.length = a;
  bed.breadth = b;
  bed.stiffness = k.value_or(70e3);
  bed.in_model = k.has_value();
  if (k) plate.bodies.push_back({"lathe", bed.pads, *k / (b * b)});
  m.plates.push_back(plate);
  hand_built::load_case(m, "weight");
  m.cases[0].patch_loads.push_back({0, point(a, b), {0.0, 0.0, -weight}});
  bed.load_case = hand_built::load_case(m, "warp");
  for (std::size_t p = 0; p < 4; ++p) {
    m.cases[1].patch_loads.push_back({0, bed.pads[p], {0.0, 0.0, p % 2 == 0 ? 1.0 : -1.0}});
  }
  m.parts.beds.push_back(bed);
  m.parts.plate_sheets.push_back(0);
  m.combinations.push_back(hand_built::combination("service-stored", model::Purpose::service,
                                                   model::Leading::stored, {{0, 1.0}}));
  return m;
}

/// A gap under the first foot at which one foot presses with a newton and no less. Forces change
/// evenly with the gap as long as all press.
double short_by(const model::Model& model) {
  const auto forces = [&model](double gap) {
    model::Model changed = model;
    changed.supports[model.parts.feet[0].down].gap = gap;
    const Solved bench(changed);
    std::array<double, 4> found{};
    for (std::size_t c = 0; c < changed.combinations.size(); ++c) {
      if (!check::is_at_rest(changed.combinations[c])) continue;
      for (std::size_t f = 0; f < 4; ++f) {
        found[f] = bench.response.states[c]->support_forces[changed.parts.feet[f].down];
      }
    }
    return found;
  };
  constexpr double little = 1e-5;
  const std::array<double, 4> full = forces(0.0), less = forces(little);
  double gap = 1.0;
  for (std::size_t f = 0; f < 4; ++f) {
    if (less[f] < full[f]) gap = std::min(gap, little * (full[f] - 1.0) / (full[f] - less[f]));
  }
  return gap;
}

bool all_press(const Solved& bench) {
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    const model::Combination& combination = bench.model.combinations[c];
    if (!check::is_at_rest(combination) && !check::is_leaned_on(combination)) continue;
    for (const model::FootPlace& foot : bench.model.parts.feet) {
      if (!bench.response.states[c]->touching[foot.down]) return false;
    }
  }
  return true;
}

}  // namespace

TEST_CASE("check/bed_twist: a plate twisted at its corners, Γ = a b/(4 D_66)") {
  const Solved bare(twisted_plate(0.0, std::nullopt));
  const check::Trials trials = check::trials_at_rest(bare.answers(), {0});
  REQUIRE(trials.shares.size() == 1);
  const double gamma = a * b / (4.0 * D_66);
  // What shear the huge stiffness leaves: D_66/(S h²) of the mesh, h = 0.1.
  CHECK(trials.shares[0].compliance == close_to(gamma, 1e-6));
  const double kappa = 70e3 / (b * b);
  CHECK(trials.shares[0].share == close_to(1.0 / (1.0 + kappa * gamma), 1e-6));
}

TEST_CASE("check/bed_twist: a bed in the model takes q_0/(1 + k Γ/b²) of the bare plate's warp") {
  for (const double k : {1e2, 30e3, 3e6}) {
    const double bare = Solved(twisted_plate(50.0, std::nullopt)).warp();
    const Solved bolted(twisted_plate(50.0, k));
    const double gamma = a * b / (4.0 * D_66);
    CHECK(bare < 0.0);  // pad 3 is pressed down
    CHECK(bolted.warp() == close_to(bare / (1.0 + k / (b * b) * gamma), 1e-6));
    // Γ of the bare plate, found with the bed resisting: 1 - kΓ_b/b² cancels figures where k is
    // large, (1 + kΓ/b²) roundings of 1e-10.
    const check::Trials trials = check::trials_at_rest(bolted.answers(), {0});
    REQUIRE(trials.shares.size() == 1);
    CHECK(trials.shares[0].compliance == close_to(gamma, 1e-6));
    CHECK(trials.shares[0].share == close_to(bolted.warp() / bare, 1e-6));
  }
}

TEST_CASE("check/bed_twist: tilting like a rigid body warps nothing and slopes as it tilts") {
  const model::Model m = twisted_plate(0.0, std::nullopt);
  const model::Plate& plate = m.plates[0];
  solve::PlateMovements movements =
      solve::PlateMovements::Zero(static_cast<Eigen::Index>(5 * plate.lines()), 1);
  constexpr double up = 2e-3, along = -0.7e-3, across = 1.9e-3;
  for (std::size_t j = 0; j < plate.y.size(); ++j) {
    for (std::size_t i = 0; i < plate.x.size(); ++i) {
      movements(static_cast<Eigen::Index>(5 * plate.node(i, j) + 2), 0) =
          up + along * plate.x[i] + across * plate.y[j];
    }
  }
  model::BedPlace bed = m.parts.beds[0];
  bed.pads = {model::Patch{0.05, 0.11, 0.01, 0.06},
              {0.43, 0.49, 0.01, 0.06},
              {0.43, 0.49, 0.13, 0.18},
              {0.05, 0.11, 0.13, 0.18}};
  CHECK(std::abs(check::warp_of(bed, plate, movements, 0)) < 1e-17);
  std::vector<check::MovedPoint> pads;
  for (const model::Patch& p : bed.pads) {
    pads.push_back(
        {0.5 * (p.x0 + p.x1), 0.5 * (p.y0 + p.y1), check::mean_w(plate, movements, p, 0)});
  }
  CHECK(check::slope_of(pads).x == close_to(along, 1e-12));
  CHECK(check::slope_of(pads).y == close_to(across, 1e-12));
  pads.resize(2);  // in a row along x: nothing is known across
  CHECK(check::slope_of(pads).x == close_to(along, 1e-12));
  CHECK(check::slope_of(pads).y == 0.0);
}

TEST_CASE("check/bed_twist: the least plane of a warped square is level, by symmetry") {
  const std::vector<check::MovedPoint> pads{
      {0, 0, 1e-3}, {0.4, 0, -1e-3}, {0.4, 0.2, 1e-3}, {0, 0.2, -1e-3}};
  CHECK(std::abs(check::slope_of(pads).x) < 1e-17);
  CHECK(std::abs(check::slope_of(pads).y) < 1e-17);
}

TEST_CASE("check/bed_twist: a bed that stands is judged as one that is bolted, by two roads") {
  // One road has the bed in the stiffness of the plate, the other a formula: they share no line.
  for (const bool turned : {false, true}) {
    Shop shop;
    if (turned) {
      shop.y = 290;
      shop.more = ", turned: yes";
    }
    const Solved standing = solved(shop);
    shop.mounting = "bolted";
    const Solved bolted = solved(shop);
    REQUIRE(all_press(standing));  // the theory is that of a linear bench
    REQUIRE(all_press(bolted));
    REQUIRE(bolted.model.parts.beds[0].in_model);
    CHECK(standing.finding().demand == close_to(bolted.finding().demand, 1e-6));
    CHECK(standing.finding().combination == bolted.finding().combination);
    const check::Trials a_road = check::trials_at_rest(standing.answers(), {0});
    const check::Trials b_road = check::trials_at_rest(bolted.answers(), {0});
    CHECK(a_road.shares[0].compliance == close_to(b_road.shares[0].compliance, 1e-6));
    // What is told of rails and sheet is the same by both as well.
    const std::vector<std::string> told = standing.finding().working;
    for (const std::string& line : bolted.finding().working) {
      if (line.rfind("of the worst", 0) != 0 && line.rfind("the bare top", 0) != 0) continue;
      CHECK(std::find(told.begin(), told.end(), line) != told.end());
    }
    CHECK(bolted.warp() == close_to(a_road.shares[0].share * standing.warp(), 1e-6));
    for (std::size_t f = 0; f < 4; ++f) {
      CHECK(standing.per_foot()[f] == close_to(bolted.per_foot()[f], 1e-6));
    }
  }
}

TEST_CASE("check/bed_twist: a mirrored bench twists the bed the other way, as much") {
  Shop shop;
  const Solved left = solved(shop);
  const double top =
      quantity::in_si(left.model.parts.bench.sheets[0].x1 - left.model.parts.bench.sheets[0].x0);
  shop.x = static_cast<int>(std::lround(top * 1e3)) - 600;
  const Solved right = solved(shop);
  CHECK(left.warp() == close_to(-right.warp(), 1e-6));
  CHECK(left.finding().demand == close_to(right.finding().demand, 1e-6));
  const std::array<double, 4> l = left.per_foot(), r = right.per_foot();
  // Feet by name: front-left stands where front-right stood.
  std::array<std::size_t, 4> other{};
  const auto& feet = left.model.parts.feet;
  for (std::size_t f = 0; f < 4; ++f) {
    std::string name = feet[f].name;
    const std::size_t at = name.find("left");
    name.replace(at != std::string::npos ? at : name.find("right"), at != std::string::npos ? 4 : 5,
                 at != std::string::npos ? "right" : "left");
    other[f] = static_cast<std::size_t>(
        std::find_if(feet.begin(), feet.end(), [&](const auto& p) { return p.name == name; }) -
        feet.begin());
  }
  for (std::size_t f = 0; f < 4; ++f) CHECK(l[f] == close_to(-r[other[f]], 1e-6));
}

TEST_CASE("check/bed_twist: setting feet: all alike or tilting does nothing, a diagonal most") {
  const Solved bench = solved({});
  const auto& parts = bench.model.parts;
  double sum = 0.0, along = 0.0, across = 0.0, most = 0.0;
  for (const FootTurn& turn : check::twist_per_foot(bench.answers())) {
    const bench::Post& post = parts.bench.posts[parts.feet[turn.foot].post];
    CHECK(turn.presses);
    sum += turn.per_metre;
    along += turn.per_metre * quantity::in_si(post.foot_x);
    across += turn.per_metre * quantity::in_si(post.foot_y);
    most = std::max(most, std::abs(turn.per_metre));
  }
  CHECK(most > 1e-3);
  CHECK(std::abs(sum) < 1e-6 * most);
  CHECK(std::abs(along) < 1e-6 * most);
  CHECK(std::abs(across) < 1e-6 * most);
  // So the four are alike but for their signs, which go round: of all ways to set feet by the same
  // height up or down, one diagonal up and the other down twists most.
  for (const FootTurn& turn : check::twist_per_foot(bench.answers())) {
    CHECK(std::abs(turn.per_metre) == close_to(most, 1e-6));
  }
  // A right back foot up: the right end of the bed leans to the front, which is positive.
  for (const FootTurn& turn : check::twist_per_foot(bench.answers())) {
    const std::string& name = parts.feet[turn.foot].name;
    const bool is_positive = name == "back-right foot" || name == "front-left foot";
    CHECK((turn.per_metre > 0.0) == is_positive);
  }
}

TEST_CASE("check/bed_twist: on three feet no foot twists the bed, the fourth hangs in the air") {
  // A foot 20 mm short: the bench tips onto three of its feet and stands there whatever they are
  // set to, turning like a rigid body.
  const double most = std::abs(solved({}).per_foot()[0]);
  model::Model model = model_of({});
  model.supports[model.parts.feet[1].down].gap = 20e-3;
  const Solved bench(std::move(model));
  int hanging = 0;
  for (const FootTurn& turn : check::twist_per_foot(bench.answers())) {
    hanging += turn.presses ? 0 : 1;
    CHECK(std::abs(turn.per_metre) < 1e-6 * most);
  }
  CHECK(hanging == 1);
  const std::vector<std::string> working = bench.finding().working;
  CHECK(std::any_of(working.begin(), working.end(), [](const std::string& line) {
    return line.find("hangs in the air") != std::string::npos;
  }));
}

TEST_CASE("check/bed_twist: a turn that soon lifts a foot is told, its slope that of small turns") {
  const std::array<double, 4> all_down = solved({}).per_foot();
  model::Model model = model_of({});
  model.supports[model.parts.feet[0].down].gap = short_by(model);
  const Solved bench(std::move(model));
  int lifting = 0;
  for (const FootTurn& turn : check::twist_per_foot(bench.answers())) {
    CHECK(turn.presses);
    lifting += turn.lifts_another ? 1 : 0;
    CHECK(turn.per_metre == close_to(all_down[turn.foot], 1e-5));
  }
  // A higher foot of the other diagonal takes the last newton off.
  CHECK(lifting == 2);
  const std::vector<std::string> working = bench.finding().working;
  CHECK(std::any_of(working.begin(), working.end(), [](const std::string& line) {
    return line.find("(until another foot lifts)") != std::string::npos;
  }));
}

}  // namespace bed_twist_test
