// The condensed road against the whole system assembled here by itself; bodies that stand on
// plates; plates that can move.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <string>
#include <utility>

#include "standtrue/solve/plate_response.hpp"
#include "tests/solve/plate_frames.hpp"
#include "tests/solve/whole_system.hpp"

namespace plate_whole_test {

using namespace standtrue;
using namespace standtrue::tests;

namespace {

/// A small bench: four posts, four rails, an odd top with a hole on the rails (turned in its plane,
/// two ties at one of its mesh nodes, tied to rails beside and below), an upright back, two bodies.
model::Model small_bench() {
  model::Model m;
  const double X = 0.62, Y = 0.44, Z = 0.5;
  for (const double z : {0.0, Z}) {
    m.nodes.push_back(node("fl", 0.0, 0.0, z));
    m.nodes.push_back(node("fr", X, 0.0, z));
    m.nodes.push_back(node("br", X, Y, z));
    m.nodes.push_back(node("bl", 0.0, Y, z));
  }
  m.nodes.push_back(node("fm", 0.3, 0.0, Z));  // middles of front and back rail: 8, 9
  m.nodes.push_back(node("bm", 0.3, Y, Z));
  for (const std::size_t post : {0u, 1u, 2u, 3u}) {
    m.members.push_back(member(post, post + 4, 45.0, 70.0));
    hold_node(m, post, {0, 1, 2, 5});
  }
  for (const auto& [a, b] : {std::pair{4u, 8u}, {8u, 5u}, {5u, 6u}, {7u, 9u}, {9u, 6u}, {7u, 4u}}) {
    m.members.push_back(member(a, b, 45.0, 95.0));
    m.members.back().start_springs[4] = m.members.back().end_springs[4] =
        model::EndSpring::elastic(8e3);
  }
  m.supports[2].stiffness = 4e5;  // one soft foot
  model::Plate top = odd_plate();
  top.holds.clear();
  top.origin = {0.01, 0.01, Z + 0.06};
  top.tie_level = -0.009;
  top.creep = 1.4;
  top.ties = {{0, 0, 4, {3e5, 2e5, 9e6}}, {5, 0, 5, {3e5, 2e5, 9e6}}, {5, 4, 6, {3e5, 2e5, 9e6}},
              {0, 4, 7, {3e5, 2e5, 9e6}}, {2, 0, 8, {5e5, 4e5, 2e7}}, {3, 4, 9, {5e5, 4e5, 2e7}},
              {2, 0, 4, {1e4, 2e4, 3e4}}, {5, 2, 6, {1e5, 0.0, 3e5}}};
  top.bodies = {{"lathe",
                 {model::Patch{0.0, 0.1, 0.0, 0.08}, model::Patch{0.45, 0.6, 0.0, 0.08},
                  model::Patch{0.45, 0.6, 0.3, 0.42}, model::Patch{0.0, 0.1, 0.3, 0.42}},
                 2e5},
                {"saw",
                 {model::Patch{0.0, 0.25, 0.08, 0.3}, model::Patch{0.4, 0.6, 0.08, 0.3},
                  model::Patch{0.4, 0.6, 0.3, 0.42}, model::Patch{0.0, 0.25, 0.3, 0.42}},
                 7e5}};
  model::Plate back = plate(0.62, 0.4, 4, 3, isotropic(2.5e9, 0.25, 0.009));
  back.name = "back";
  back.x_axis = {1.0, 0.0, 0.0};
  back.y_axis = {0.0, 0.0, 1.0};
  back.origin = {0.0, Y + 0.03, 0.1};
  back.tie_level = 0.0045;  // its normal looks to the front
  back.creep = 2.0;
  hold(back, {0.155, 0.155, 0.0, 0.0}, {false, true, false, false, false});
  back.ties = {{0, 0, 3, {2e5, 3e5, 4e5}},
               {4, 0, 2, {2e5, 3e5, 4e5}},
               {0, 3, 7, {2e5, 3e5, 4e5}},
               {4, 3, 6, {2e5, 3e5, 4e5}},
               {2, 3, 9, {2e5, 3e5, 4e5}}};
  m.plates = {top, back};
  m.cases.resize(1);
  m.cases[0].patch_loads = {{0, {0.4, 0.6, 0.08, 0.2}, {30.0, -20.0, -700.0}},
                            {0, {0.0, 0.25, 0.0, 0.42}, {0.0, 10.0, -90.0}},
                            {1, {0.31, 0.62, 0.0, 0.4}, {5.0, -60.0, -8.0}}};
  return m;
}
std::vector<model::NodeLoad> shove() {
  model::NodeLoad load;
  load.node = 5;
  load.force = {newtons(200.0), newtons(-50.0), newtons(10.0)};
  return {load};
}

double largest_difference(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return (a - b).cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
}

/// Mean of w over a patch: w is bilinear in a cell, so its mean over a rectangle there is the value
/// at that rectangle's middle.
double mean_w(const model::Plate& p, const solve::PlateMovements& movements,
              const model::Patch& patch) {
  double sum = 0.0, area = 0.0;
  for (std::size_t j = 0; j + 1 < p.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < p.x.size(); ++i) {
      const double x0 = std::max(patch.x0, p.x[i]), x1 = std::min(patch.x1, p.x[i + 1]);
      const double y0 = std::max(patch.y0, p.y[j]), y1 = std::min(patch.y1, p.y[j + 1]);
      if (x1 <= x0 || y1 <= y0 || !p.has_cell(i, j)) continue;
      const double a = (x1 - x0) * (y1 - y0);
      sum += a * solve::plate_w(p, movements, 0.5 * (x0 + x1), 0.5 * (y0 + y1), 0);
      area += a;
    }
  }
  return sum / area;
}
double warp(const model::Plate& p, const solve::PlateMovements& movements,
            const model::PlateBody& body) {
  return mean_w(p, movements, body.pads[0]) - mean_w(p, movements, body.pads[1]) +
         mean_w(p, movements, body.pads[2]) - mean_w(p, movements, body.pads[3]);
}

}  // namespace

TEST_CASE("solve/plate_whole: the condensed answer is that of the whole system") {
  // Under weight and under a shove: joints of another stiffness, and ties that only weight holds.
  model::Model m = small_bench();
  m.plates[0].ties[4].gravity_only = m.plates[1].ties[4].gravity_only = true;
  for (model::Member& member : m.members) member.start_springs[4].sway *= 0.5;
  for (const model::SpringSet springs : {model::SpringSet::gravity, model::SpringSet::sway}) {
    const Response response = answer(m, shove(), {}, springs);
    const Whole whole(m, springs);
    const Eigen::VectorXd u = whole.solve(shove());
    // Rounding (1e-16) by the condition of a frame on plates, some 1e6.
    CHECK(largest_difference(response.state.displacement, u.head(whole.of_nodes())) < 1e-9);
    for (const std::size_t p : {0u, 1u}) {
      const solve::PlateMovements movements = response.movements(p);
      CHECK(largest_difference(movements.col(0), u.segment(whole.at(p, 0), movements.rows())) <
            1e-9);
      const std::array<double, 3> by_weight =
          solve::tie_forces(*response.prepared, p, response.state)[4];
      CHECK((by_weight[2] == 0.0) == (springs == model::SpringSet::sway));
    }
    CHECK(response.state.audit.equilibrium < 1e-10);
  }
}

TEST_CASE(
    "solve/plate_whole: with sway springs a weight presses on what holds by weight, a shove not") {
  // The sum of two whole systems: the weight on one with these ties, the shove on one without.
  model::Model m = small_bench();
  m.plates[0].ties[4].gravity_only = m.plates[1].ties[4].gravity_only = true;
  m.plates[0].ties[2].gravity_only = true;
  m.plates[0].ties[2].stiffness = {0.0, 0.0, 9e6};
  m.cases[0].weight = true;
  for (model::Member& member : m.members) member.start_springs[4].sway *= 0.5;
  const Response response = answer(m, shove(), {}, model::SpringSet::sway);
  model::Model shoved = m;
  shoved.cases[0].patch_loads.clear();
  const Whole seated(m, model::SpringSet::sway, true), bare(shoved, model::SpringSet::sway);
  const Eigen::VectorXd by_weight = seated.solve({});
  const Eigen::VectorXd u = by_weight + bare.solve(shove());
  CHECK(largest_difference(response.state.displacement, u.head(bare.of_nodes())) < 1e-9);
  for (const std::size_t p : {0u, 1u}) {
    const solve::PlateMovements movements = response.movements(p);
    CHECK(largest_difference(movements.col(0), u.segment(bare.at(p, 0), movements.rows())) < 1e-9);
  }
  CHECK(response.state.audit.residual < 1e-10);
  CHECK(response.state.audit.equilibrium < 1e-10);
  const Response weight = answer(m, {}, {}, model::SpringSet::sway);
  for (const std::size_t p : {0u, 1u}) {
    const auto all = solve::tie_forces(*response.prepared, p, response.state);
    const auto under_weight = solve::tie_forces(*weight.prepared, p, weight.state);
    for (std::size_t t = 0; t < all.size(); ++t) {
      if (!m.plates[p].ties[t].gravity_only) continue;
      for (std::size_t axis = 0; axis < 3; ++axis) {
        CHECK(std::abs(all[t][axis] - under_weight[t][axis]) < 1e-9);  // N
      }
    }
  }
}

TEST_CASE(
    "solve/plate_whole: of two springs side by side that by weight takes its share of weights") {
  // Each post top holds the plate by a spring k and, by weight alone, by 3 k: of a weight a quarter
  // goes through the first, of what is no weight all. Springs side by side.
  model::Model m = OnPosts{}.model(isotropic(8e9, 0.3, 0.018));
  model::Plate& p = m.plates[0];
  const std::vector<model::PlateTie> ties = p.ties;
  for (model::PlateTie tie : ties) {
    tie.stiffness = {0.0, 0.0, 3.0 * tie.stiffness[2]};
    tie.gravity_only = true;
    p.ties.push_back(tie);
  }
  m.cases.resize(1);
  m.cases[0].patch_loads = {{0, {0.1, 0.7, 0.1, 0.5}, {0.0, 0.0, -800.0}}};
  for (const bool is_weight : {true, false}) {
    CAPTURE(is_weight);
    m.cases[0].weight = is_weight;
    const Response response = answer(m, {}, {}, model::SpringSet::sway);
    const auto forces = solve::tie_forces(*response.prepared, 0, response.state);
    double fixed = 0.0, seats = 0.0;
    for (std::size_t t = 0; t < forces.size(); ++t) {
      (t < ties.size() ? fixed : seats) += forces[t][2];
    }
    CHECK(-fixed == close_to(is_weight ? 200.0 : 800.0, 1e-9));
    CHECK(-seats == (is_weight ? close_to(600.0, 1e-9) : doctest::Approx(0.0)));
  }
}

TEST_CASE("solve/plate_whole: a body pushes its pads with k q") {
  model::Model m = small_bench();
  m.plates[0].bodies.pop_back();
  const model::PlateBody body = m.plates[0].bodies[0];
  const Response with = answer(m, shove());
  const double q = warp(m.plates[0], with.movements(), body);
  model::Model pushed = m;
  pushed.plates[0].bodies.clear();
  double sign = -1.0;
  for (const model::Patch& pad : body.pads) {
    pushed.cases[0].patch_loads.push_back({0, pad, {0.0, 0.0, sign * body.stiffness * q}});
    sign = -sign;
  }
  const Response by_hand = answer(pushed, shove());
  CHECK(largest_difference(with.state.displacement, by_hand.state.displacement) < 1e-10);
  CHECK(largest_difference(with.movements().col(0), by_hand.movements().col(0)) < 1e-10);
}

TEST_CASE("solve/plate_whole: a body from nothing to rigid") {
  model::Model m = small_bench();
  m.plates[0].bodies.pop_back();
  model::Model without = m;
  without.plates[0].bodies.clear();
  const Response none = answer(without, shove());
  const auto q_at = [&](double k) {
    m.plates[0].bodies[0].stiffness = k;
    return warp(m.plates[0], answer(m, shove()).movements(), m.plates[0].bodies[0]);
  };
  const double q_0 = warp(m.plates[0], none.movements(), m.plates[0].bodies[0]);
  m.plates[0].bodies[0].stiffness = 1e-6;
  const Response soft = answer(m, shove());
  CHECK(largest_difference(soft.movements().col(0), none.movements().col(0)) < 1e-9);
  // A spring on a linear structure: q = q_0/(1 + k c), whatever k.
  const double c = (q_0 / q_at(2e5) - 1.0) / 2e5;
  CHECK(q_at(1e4) == close_to(q_0 / (1.0 + 1e4 * c), 1e-9));
  CHECK(q_at(3e7) == close_to(q_0 / (1.0 + 3e7 * c), 1e-6));
  CHECK(std::abs(q_at(1e12)) < 1e-6 * std::abs(q_0));
}

TEST_CASE("solve/plate_whole: models that share condensed plates answer as by themselves") {
  const model::Model m = small_bench();
  std::vector<model::Model> models(9, m);
  for (model::PlateTie& tie : models[1].plates[0].ties) tie.stiffness[0] *= 0.3;
  models[2].plates[0].creep = 3.0;
  models[3].plates[0].bodies[1].stiffness *= 10.0;
  models[4].plates[1].ties.pop_back();                  // another set of tied nodes
  models[5].plates[0].tie_level = 0.009;                // condensed otherwise
  models[6].cases[0].patch_loads[0].force[2] = -100.0;  // other loads
  models[7].plates[0].holes.clear();                    // another mesh
  models[8].plates[1].holds[0].freedoms[0] = true;      // held in more ways
  solve::PlateCache cache;
  for (int twice = 0; twice < 2; ++twice) {
    for (const model::Model& each : models) {
      const Response shared = answer(each, shove(), cache);
      const Response alone = answer(each, shove());
      CHECK((shared.state.displacement - alone.state.displacement).isZero(0.0));
      CHECK((shared.movements(0) - alone.movements(0)).isZero(0.0));
      CHECK((shared.movements(1) - alone.movements(1)).isZero(0.0));
    }
  }
}

TEST_CASE("solve/plate_whole: a stiffness change is the frame prepared with that stiffness") {
  const model::Model m = small_bench();
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  const solve::Loading loading{{{0, 1.0}}, shove()};
  // A spring between the rails, one from a rail to the ground, and the soft foot made softer.
  const std::vector<solve::StiffnessChange> changes{{8, 9, false, {0.0, 1.0, 0.0}, 2e4},
                                                    {8, std::nullopt, false, {1.0, 0.0, 0.0}, 6e4},
                                                    {0, std::nullopt, false, {0, 0, 1}, -3e5}};
  const auto changed = solve::respond(*prepared, loading, changes);
  REQUIRE(changed.has_value());
  model::Model stiff = m;
  model::Support spring;
  spring.node = 8;
  spring.along = {1.0, 0.0, 0.0};
  spring.stiffness = 6e4;
  stiff.supports.push_back(spring);
  stiff.ties.push_back({"between", 8, 9, {0.0, 2e4, 0.0, 0.0, 0.0, 0.0}});
  *stiff.supports[2].stiffness -= 3e5;
  const Response again = answer(stiff, shove());
  CHECK(largest_difference(changed->displacement, again.state.displacement) < 1e-9);
  CHECK(largest_difference(changed->tied_points, again.state.tied_points) < 1e-9);
  const solve::Answered one{&loading, &*changed};
  for (const std::size_t p : {0u, 1u}) {
    const solve::PlateMovements movements = solve::plate_movements(*prepared, p, {&one, 1});
    CHECK(largest_difference(movements.col(0), again.movements(p).col(0)) < 1e-9);
  }
}

TEST_CASE("solve/plate_whole: a plate that can move is named") {
  const auto refusal = [](const model::Model& m) {
    const auto prepared = solve::prepare(m);
    REQUIRE_FALSE(prepared.has_value());
    CHECK(prepared.error().why == solve::Refusal::Why::mechanism);
    return prepared.error().what + " | " + prepared.error().instead;
  };
  // Where a place is named, any place of what moves would be right.
  const auto starts = [&](const model::Model& m, const std::string& with) {
    const std::string what = refusal(m);
    CAPTURE(what);
    CHECK(what.compare(0, with.size(), with) == 0);
    CHECK(what.find("nothing resists it") != std::string::npos);
  };
  const OnPosts posts;
  const model::Model whole = posts.model(isotropic(9e9, 0.3, 0.018));
  CHECK(solve::prepare(whole).has_value());

  model::Model changed = whole;
  changed.plates[0].ties.clear();
  starts(changed, "the plate can lift or sink near (");
  changed.plates[0].ties = {whole.plates[0].ties[0]};  // turns about it
  starts(changed, "the plate can slide near (");
  for (const auto& [a, b] :
       {std::pair{0u, 1u}, {0u, 2u}, {1u, 2u}, {1u, 3u}}) {  // two make a hinge
    changed.plates[0].ties = {whole.plates[0].ties[a], whole.plates[0].ties[b]};
    CHECK(refusal(changed) ==
          "the plate can turn about what it is tied to | tie it to more of the frame");
  }

  changed = whole;
  for (model::PlateTie& tie : changed.plates[0].ties) tie.stiffness[0] = 0.0;
  CHECK(refusal(changed) ==
        "the plate can slide along x: nothing resists it | "
        "screw or glue the plate to what carries it");
  for (model::PlateTie& tie : changed.plates[0].ties) tie.stiffness[1] = 0.0;
  starts(changed, "the plate can slide along (");  // any way
  changed = whole;
  for (model::PlateTie& tie : changed.plates[0].ties) tie.stiffness[2] = 0.0;
  CHECK(refusal(changed) ==
        "the plate can slide along z: nothing resists it | "
        "screw or glue the plate to what carries it");

  // A hole cuts it in two; the ties hold the right half only.
  changed = whole;
  changed.plates[0].holes = {{0.2, 0.3, 0.0, 0.6}};
  changed.plates[0].ties = {
      whole.plates[0].ties[1], whole.plates[0].ties[2], {4, 2, 1, {1e6, 1e6, 1e6}}};
  changed.members.pop_back();
  changed.nodes.resize(6);
  changed.supports.resize(18);
  starts(changed, "the plate can ");
}

}  // namespace plate_whole_test
