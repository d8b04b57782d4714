// Feet that hold by friction, against Coulomb's law and statics by hand.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <random>
#include <string>

#include "standtrue/solve/growing.hpp"
#include "standtrue/solve/solve.hpp"

namespace friction_test {

using namespace standtrue;
using namespace standtrue::quantity;
using doctest::Approx;

namespace {

struct FootAt {
  double x = 0.0, y = 0.0, friction = 0.5;
};

/// A rigid body, its node 1 m above the floor, on feet with 400 N/mm down and 200 N/mm sideways;
/// supports: per foot down, x, y. Cases: 1 N down at (x, y); then 1 N along x and along y and
/// 1 N m about z at height h.
struct OnFeet {
  model::Model m;
  OnFeet(const std::vector<FootAt>& feet, double weight_x, double weight_y, double push_height,
         double leg_side = 0.1, double leg_E = 2e14) {
    m.nodes.push_back({"body", {metres(0), metres(0), metres(1)}});
    for (const FootAt& foot : feet) {
      const model::NodeId node = m.nodes.size();
      m.nodes.push_back(
          {"foot" + std::to_string(node), {metres(foot.x), metres(foot.y), metres(0)}});
      model::Member leg;
      leg.name = "leg" + std::to_string(node);
      leg.start = node;
      leg.end = 0;
      leg.end_offset = {metres(foot.x), metres(foot.y), metres(-0.5)};
      leg.elastic = {pascals(leg_E), pascals(0.5 * leg_E), {}};
      leg.section = model::rectangle(metres(leg_side), metres(leg_side));
      m.members.push_back(leg);
      const std::size_t down = m.supports.size();
      model::Support press;
      press.name = leg.name;
      press.node = node;
      press.stiffness = 4e5;
      press.press_only = true;
      m.supports.push_back(press);
      for (const model::Direction along : {model::Direction{1, 0, 0}, model::Direction{0, 1, 0}}) {
        model::Support grip;
        grip.name = "grip";
        grip.node = node;
        grip.along = along;
        grip.stiffness = 2e5;
        grip.rides_on = down;
        grip.friction = foot.friction;
        m.supports.push_back(grip);
      }
    }
    add_case({newtons(0), newtons(0), newtons(-1)}, {}, weight_x, weight_y, 0.0);
    add_case({newtons(1), newtons(0), newtons(0)}, {}, 0, 0, push_height - 1.0);
    add_case({newtons(0), newtons(1), newtons(0)}, {}, 0, 0, push_height - 1.0);
    add_case({}, {newton_metres(0), newton_metres(0), newton_metres(1)}, 0, 0, 0.0);
  }
  void add_case(model::ForceVector force, model::MomentVector moment, double x, double y,
                double up) {
    model::LoadCase load{.name = "case" + std::to_string(m.cases.size())};
    load.node_loads.push_back({0, force, moment, {metres(x), metres(y), metres(up)}});
    m.cases.push_back(load);
  }
  void hold(model::Freedom freedom, std::optional<double> stiffness = std::nullopt) {
    const auto i = static_cast<std::size_t>(freedom);
    model::Support support;
    support.name = "hold";
    support.node = 0;
    support.rotation = i >= 3;
    support.along = {i % 3 == 0 ? 1.0 : 0.0, i % 3 == 1 ? 1.0 : 0.0, i % 3 == 2 ? 1.0 : 0.0};
    support.stiffness = stiffness;
    m.supports.push_back(support);
  }
  /// Two feet stand in a plane.
  void hold_plane() {
    for (const model::Freedom f : {model::Freedom::y, model::Freedom::rx, model::Freedom::rz})
      hold(f);
  }
};

solve::OrRefusal<solve::State> under(const solve::Prepared& prepared,
                                     std::vector<model::Factored> terms) {
  solve::Loading loading;
  loading.terms = std::move(terms);
  loading.slides = true;
  return solve::respond(prepared, loading);
}

solve::Prepared prepared(const model::Model& m) {
  const auto made = solve::prepare(m);
  REQUIRE(made.has_value());
  return *made;
}

/// Force with which a foot holds the frame, and how its ground would have to follow it.
struct Grip {
  double N, t_x, t_y, slip_x, slip_y;
  [[nodiscard]] double t() const { return std::hypot(t_x, t_y); }
};

Grip grip_of(const model::Model& m, const solve::State& state, std::size_t foot) {
  const auto& f = state.support_forces;
  const model::NodeId node = m.supports[3 * foot].node;
  const double k = 2e5;
  return {f[3 * foot], f[3 * foot + 1], f[3 * foot + 2],
          state.at(node, model::Freedom::x) + f[3 * foot + 1] / k,
          state.at(node, model::Freedom::y) + f[3 * foot + 2] / k};
}

}  // namespace

TEST_CASE("solve/friction: two feet with 400 and 600 N, pushed at the floor, one slides first") {
  // N = 1000 (1/2 -+ 0.12/1.2). Each takes half of the push H until 0.5 x 400 = H/2; from then on
  // the lighter foot keeps 200 N; the frame slides at 0.5 x 1000 N.
  OnFeet body({{-0.6, 0, 0.5}, {0.6, 0, 0.5}}, 0.12, 0, 0.0);
  body.hold_plane();
  const solve::Prepared ready = prepared(body.m);
  const auto before = under(ready, {{0, 1000}, {1, 398}});
  REQUIRE(before.has_value());
  CHECK(before->support_forces[0] == Approx(400).epsilon(1e-6));
  CHECK(before->support_forces[1] == Approx(-199).epsilon(1e-6));
  CHECK(before->support_forces[4] == Approx(-199).epsilon(1e-6));
  CHECK_FALSE(before->sliding[1]);
  const auto between = under(ready, {{0, 1000}, {1, 450}});
  REQUIRE(between.has_value());
  CHECK(between->support_forces[1] == Approx(-200).epsilon(1e-6));
  CHECK(between->support_forces[4] == Approx(-250).epsilon(1e-6));
  CHECK(between->sliding[1]);
  CHECK_FALSE(between->sliding[4]);
  CHECK(between->at(2, model::Freedom::x) == Approx(250 / 2e5).epsilon(1e-6));
  CHECK(under(ready, {{0, 1000}, {1, 499.9}}).has_value());
  CHECK(under(ready, {{0, 1000}, {1, -499.9}}).has_value());
  const auto above = under(ready, {{0, 1000}, {1, 500.1}});
  REQUIRE_FALSE(above.has_value());
  CHECK(above.error().why == solve::Refusal::Why::slides);
  // As if every foot gripped: without `slides` friction does not count.
  CHECK(solve::respond(ready, {{{0, 1000}, {1, 5000}}, {}}).has_value());
}

TEST_CASE("solve/friction: a push at height moves weight from foot to foot while they slide") {
  // H at 0.6 m: N = 400 - H/2 and 600 + H/2. The first slips at H/2 = 0.5 (400 - H/2), 266.67 N;
  // at 400 N it holds 100, the other 300 of at most 400 N; both slide at 0.5 x 1000 N.
  OnFeet body({{-0.6, 0, 0.5}, {0.6, 0, 0.5}}, 0.12, 0, 0.6);
  body.hold_plane();
  const solve::Prepared ready = prepared(body.m);
  CHECK_FALSE(under(ready, {{0, 1000}, {1, 266}})->sliding[1]);
  CHECK(under(ready, {{0, 1000}, {1, 267.5}})->sliding[1]);
  const auto state = under(ready, {{0, 1000}, {1, 400}});
  REQUIRE(state.has_value());
  CHECK(state->support_forces[0] == Approx(200).epsilon(1e-6));
  CHECK(state->support_forces[1] == Approx(-100).epsilon(1e-6));
  CHECK(state->support_forces[3] == Approx(800).epsilon(1e-6));
  CHECK(state->support_forces[4] == Approx(-300).epsilon(1e-6));
  CHECK(under(ready, {{0, 1000}, {1, 499.5}}).has_value());
  CHECK(under(ready, {{0, 1000}, {1, 500.5}}).error().why == solve::Refusal::Why::slides);
  const auto let_go = solve::lets_go(ready, {{{0, 1000}}, {}}, {1, 1.0, 2000});
  REQUIRE(let_go.has_value());
  CHECK(let_go->first_slips == Approx(266.667).epsilon(2e-3));
  CHECK(let_go->slides == Approx(500).epsilon(1e-2));
  // H h = N2-side lever: tips about the right foot at 1000 (0.6 - 0.12)/0.6
  CHECK(let_go->tips == Approx(800).epsilon(2e-3));
  // To the left it tips at 1000 (0.6 + 0.12)/0.6, and slides at the same push.
  const auto back = solve::lets_go(ready, {{{0, 1000}}, {}}, {1, -1.0, 2000});
  CHECK(back->tips == Approx(1200).epsilon(2e-3));
  CHECK(back->slides == Approx(500).epsilon(1e-2));
  CHECK(std::isinf(solve::lets_go(ready, {{{0, 1000}}, {}}, {1, 1.0, 100})->first_slips));
}

TEST_CASE("solve/friction: what tips is said to tip, and a weight that lifts itself is refused") {
  OnFeet body({{-0.6, 0, 0.9}, {0.6, 0, 0.9}}, 0.0, 0, 1.0);
  body.hold_plane();
  const solve::Prepared ready = prepared(body.m);  // tips at W 0.6/1.0, slides at 0.9 W
  const auto state = under(ready, {{0, 1000}, {1, 605}});
  REQUIRE_FALSE(state.has_value());
  CHECK(state.error().why == solve::Refusal::Why::tips);
  const auto let_go = solve::lets_go(ready, {{{0, 1000}}, {}}, {1, 1.0, 2000});
  CHECK(let_go->tips == Approx(600).epsilon(2e-3));
  CHECK(std::isinf(let_go->slides));  // it tips before
  CHECK_FALSE(solve::lets_go(ready, {{{0, -1}}, {}}, {1, 1.0, 2000}).has_value());
}

TEST_CASE("solve/friction: a foot slides in plan against its slip, whatever holds beside it") {
  // One foot, free to move against springs of 30 and 90 N/mm: pushed askew it slides askew.
  for (const double degrees : {0.0, 20.0, 45.0, 80.0, 200.0}) {
    OnFeet body({{0, 0, 0.4}}, 0, 0, 0.0);
    for (const model::Freedom f : {model::Freedom::rx, model::Freedom::ry, model::Freedom::rz})
      body.hold(f);
    body.hold(model::Freedom::x, 3e4);
    body.hold(model::Freedom::y, 9e4);
    const solve::Prepared ready = prepared(body.m);
    const double a = degrees * 3.14159265358979 / 180.0;
    const auto state = under(ready, {{0, 1000}, {1, 900 * std::cos(a)}, {2, 900 * std::sin(a)}});
    REQUIRE(state.has_value());
    const Grip g = grip_of(body.m, *state, 0);
    CHECK(state->sliding[1]);
    CHECK(g.N == Approx(1000).epsilon(1e-6));
    CHECK(g.t() == Approx(400).epsilon(1e-6));
    const double slip = std::hypot(g.slip_x, g.slip_y);
    CHECK(slip > 1e-4);
    CHECK(g.t_x / g.t() == Approx(-g.slip_x / slip).epsilon(1e-6));
    CHECK(g.t_y / g.t() == Approx(-g.slip_y / slip).epsilon(1e-6));
  }
}

TEST_CASE("solve/friction: four feet turned about the vertical hold mu W r") {
  OnFeet body({{-0.6, -0.3, 0.4}, {0.6, -0.3, 0.4}, {0.6, 0.3, 0.4}, {-0.6, 0.3, 0.4}}, 0, 0, 0.0);
  const solve::Prepared ready = prepared(body.m);
  const double most = 0.4 * 800 * std::hypot(0.6, 0.3);
  CHECK_FALSE(under(ready, {{0, 800}, {3, 0.999 * most}})->sliding[1]);
  CHECK(under(ready, {{0, 800}, {3, 1.001 * most}}).error().why == solve::Refusal::Why::slides);
}

TEST_CASE("solve/friction: pushed at a corner it turns, at the least work of all centres") {
  // At the floor the feet keep W/4 each. A table that turns about a centre c rubs off mu N sum|r_i
  // - c| per angle, which the push at x_F does with |x_F - c|: the smallest push of all centres is
  // the limit (kinematic theorem of plasticity; it is exact while N does not change).
  OnFeet body({{-0.6, -0.3, 0.4}, {0.6, -0.3, 0.4}, {0.6, 0.3, 0.4}, {-0.6, 0.3, 0.4}}, 0, 0, 0.0);
  body.add_case({newtons(0), newtons(1), newtons(0)}, {}, 0.6, 0, -1.0);
  double least = 1e9;
  for (double x = -3.0; x < 0.5; x += 1e-3) {  // by symmetry the centre lies on y = 0
    double rubbed = 0.0;
    for (const double foot : {-0.6, 0.6}) rubbed += 2 * 0.4 * 200 * std::hypot(foot - x, 0.3);
    least = std::min(least, rubbed / (0.6 - x));
  }
  const auto let_go = solve::lets_go(prepared(body.m), {{{0, 800}}, {}}, {4, 1.0, 400});
  REQUIRE(let_go.has_value());
  CHECK(let_go->slides == Approx(least).epsilon(1e-2));
  CHECK(least < 0.7 * 0.4 * 800);
}

TEST_CASE("solve/friction: a foot without friction holds nothing, one that rolls nowhere does") {
  OnFeet body({{-0.6, 0, 0.0}, {0.6, 0, 0.5}}, 0.12, 0, 0.0);
  body.hold_plane();
  const solve::Prepared ready = prepared(body.m);
  const auto state = under(ready, {{0, 1000}, {1, 299}});
  REQUIRE(state.has_value());
  CHECK(state->support_forces[1] == Approx(0.0));
  CHECK(state->support_forces[4] == Approx(-299).epsilon(1e-6));
  CHECK_FALSE(under(ready, {{0, 1000}, {1, 301}}).has_value());
  body.m.supports[1].friction.reset();  // friction that is not known does not give way
  body.m.supports[2].friction.reset();
  CHECK(under(prepared(body.m), {{0, 1000}, {1, 2000}}).has_value());
}

TEST_CASE("solve/friction: Coulomb's law on many tables, and none is refused below what it bears") {
  std::mt19937 random(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
  };
  int sliding = 0, answered = 0;
  for (int table = 0; table < 60; ++table) {
    const double x = between(0.4, 1.1), y = between(0.2, 0.45), mu = between(0.2, 0.6);
    const bool alike = table % 2 == 0;
    const auto friction = [&] { return alike ? mu : between(0.2, 0.6); };
    // legs so slender that the frame gives as much as its feet or more
    OnFeet body(
        {{-x, -y, friction()}, {x, -y, friction()}, {x, y, friction()}, {-x, y, friction()}},
        between(-0.2, 0.2), between(-0.1, 0.1), between(0.1, 0.9), 0.03, 1e10);
    const solve::Prepared ready = prepared(body.m);
    const double a = between(0, 6.283), turn = table % 3 == 0 ? between(-1, 1) : 0.0;
    bool bears = false;
    for (int step = 24; step >= 0; --step) {
      const double H = 0.66 * 1000 * step / 24.0;
      const auto state =
          under(ready, {{0, 1000}, {1, H * std::cos(a)}, {2, H * std::sin(a)}, {3, H * turn}});
      if (!state) {
        CHECK_FALSE(bears);  // a smaller push is borne wherever a larger one is
        continue;
      }
      bears = true;
      ++answered;
      for (std::size_t foot = 0; foot < 4; ++foot) {
        const Grip g = grip_of(body.m, *state, foot);
        const double holds = *body.m.supports[3 * foot + 1].friction * g.N;
        CHECK(g.N >= 0.0);
        CHECK(g.t() <= holds + 1e-5);
        if (!state->sliding[3 * foot + 1]) continue;
        ++sliding;
        CHECK(g.t() == Approx(holds).epsilon(1e-6));
        CHECK(g.t_x * g.slip_x + g.t_y * g.slip_y ==
              Approx(-g.t() * std::hypot(g.slip_x, g.slip_y)).epsilon(1e-6));
      }
    }
    CHECK(bears);
  }
  CHECK(answered > 500);
  CHECK(sliding > 300);
}

TEST_CASE("solve/growing: what lets go by halving is what `respond` refuses just above") {
  std::mt19937 random(11);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(random()) / 4294967296.0;
  };
  for (int table = 0; table < 20; ++table) {
    const double x = between(0.4, 1.1), y = between(0.2, 0.45), mu = between(0.2, 0.6);
    OnFeet body({{-x, -y, mu}, {x, -y, mu}, {x, y, mu}, {-x, y, mu}}, between(-0.2, 0.2),
                between(-0.1, 0.1), 0.9, 0.03, 1e10);
    const solve::Prepared ready = prepared(body.m);
    const model::CaseId push = table % 2 == 0 ? 1 : 2;
    const auto let_go = solve::lets_go(ready, {{{0, 1000}}, {}}, {push, 1.0, 5000});
    REQUIRE(let_go.has_value());
    const auto stands = [&](double H) {
      return solve::respond(ready, {{{0, 1000}, {push, H}}, {}}).has_value();
    };
    CHECK(stands(0.998 * let_go->tips));
    CHECK_FALSE(stands(1.002 * let_go->tips));
    const auto any_slides = [&](double H) {
      const auto state = under(ready, {{0, 1000}, {push, H}});
      REQUIRE(state.has_value());
      return std::count(state->sliding.begin(), state->sliding.end(), true) > 0;
    };
    if (let_go->first_slips > 1.0 && std::isfinite(let_go->first_slips)) {
      CHECK_FALSE(any_slides(0.998 * let_go->first_slips));
      if (1.002 * let_go->first_slips < let_go->slides)
        CHECK(any_slides(1.002 * let_go->first_slips));
    }
    if (std::isinf(let_go->slides)) continue;
    CHECK(under(ready, {{0, 1000}, {push, 0.988 * let_go->slides}}).has_value());
    CHECK_FALSE(under(ready, {{0, 1000}, {push, 1.012 * let_go->slides}}).has_value());
  }
}

}  // namespace friction_test
