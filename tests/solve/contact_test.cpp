// Press-only supports against rigid-body statics. Source: own statics, a rigid table on springs
// (F_i = W (1/4 + e_x x_i / sum x^2 + e_y y_i / sum y^2) while all touch, three-foot statics
// after).
#include <doctest/doctest.h>

#include <array>

#include "standtrue/solve/solve.hpp"

namespace contact_test {

using namespace standtrue;
using namespace standtrue::quantity;

namespace {

constexpr double x_foot = 0.6, y_foot = 0.3;

/// One master node; feet on it by stiff short members with rigid offsets, 400 N/mm each.
model::Model table(std::array<double, 4> gaps, double own_weight, double load_at, double x,
                   double y) {
  model::Model m;
  m.nodes.push_back({"top", {metres(0), metres(0), metres(1)}});
  const std::array<std::array<double, 2>, 4> places{
      {{-x_foot, -y_foot}, {x_foot, -y_foot}, {x_foot, y_foot}, {-x_foot, y_foot}}};
  for (std::size_t i = 0; i < 4; ++i) {
    m.nodes.push_back(
        {"foot" + std::to_string(i + 1), {metres(places[i][0]), metres(places[i][1]), metres(0)}});
    model::Member leg;
    leg.name = "leg" + std::to_string(i + 1);
    leg.start = i + 1;
    leg.end = 0;
    leg.end_offset = {metres(places[i][0]), metres(places[i][1]), metres(-0.5)};
    leg.elastic = {pascals(2e14), pascals(1e14), {}};
    leg.section = model::rectangle(metres(0.1), metres(0.1));
    m.members.push_back(leg);
    model::Support foot;
    foot.name = leg.name;
    foot.node = i + 1;
    foot.stiffness = 4e5;
    foot.press_only = true;
    foot.gap = gaps[i];
    m.supports.push_back(foot);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    for (const model::Direction along : {model::Direction{1, 0, 0}, model::Direction{0, 1, 0}}) {
      model::Support grip;
      grip.name = "grip";
      grip.node = i + 1;
      grip.along = along;
      grip.stiffness = 2e5;
      grip.rides_on = i;
      m.supports.push_back(grip);
    }
  }
  model::LoadCase load{.name = "load"};
  load.node_loads.push_back({0, {newtons(0), newtons(0), newtons(-own_weight)}, {}, {}});
  load.node_loads.push_back(
      {0, {newtons(0), newtons(0), newtons(-load_at)}, {}, {metres(x), metres(y), metres(0)}});
  m.cases.push_back(load);
  return m;
}

solve::OrRefusal<solve::State> answer(const model::Model& m) {
  const solve::OrRefusal<solve::Prepared> prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  return solve::respond(*prepared, {{{0, 1.0}}, {}});
}

void check_feet(const model::Model& m, std::array<double, 4> expected) {
  const auto state = answer(m);
  INFO((state ? "" : state.error().what));
  REQUIRE(state.has_value());
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(state->support_forces[i] == doctest::Approx(expected[i]).epsilon(1e-6));
  }
}

}  // namespace

TEST_CASE("solve/contact: eccentric load on four feet, inside and outside the kern") {
  check_feet(table({}, 500, 800, 0.3, 0.1), {158.3333, 358.3333, 491.6667, 291.6667});
  check_feet(table({}, 500, 800, 0.6, 0.3), {0.0, 250.0, 800.0, 250.0});
  check_feet(table({}, 500, 2500, 0.5, 0.25), {0.0, 458.3333, 2083.333, 458.3333});
}

TEST_CASE("solve/contact: a short foot hands its load to the other diagonal") {
  check_feet(table({0, 0, 0.5e-3, 0}, 0, 400, -0.1, -0.05), {83.33333, 150, 16.66667, 150});
  check_feet(table({0, 0, 2e-3, 0}, 0, 400, 0.1, 0.05), {0, 166.6667, 66.66667, 166.6667});
}

TEST_CASE("solve/contact: a load beyond the feet tips the frame, and says so") {
  const auto state = answer(table({}, 0, 400, 0.0, 0.31));
  REQUIRE_FALSE(state.has_value());
  CHECK(state.error().why == solve::Refusal::Why::tips);
}

}  // namespace contact_test
