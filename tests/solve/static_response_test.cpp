#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "standtrue/solve/solve.hpp"
#include "tests/solve/plate_models.hpp"

namespace static_response_test {

// When a whole model is answered by second order, and how a push that tips it is cut.

using namespace standtrue;
using model::Freedom;
using quantity::from_si;
using quantity::metres;
using quantity::newtons;
using tests::close_to;

namespace {

constexpr double width = 0.5;

void support(model::Model& m, const std::string& name, model::NodeId node, bool rotation,
             model::Direction along) {
  model::Support s;
  s.name = name;
  s.node = node;
  s.rotation = rotation;
  s.along = along;
  m.supports.push_back(s);
}

/// A portal of two posts on feet that press and grip; `pressed` on each head.
model::Model portal(double pressed) {
  model::Model m;
  m.nodes = {{"A", {metres(0), metres(0), metres(0)}},
             {"B", {metres(0), metres(0), metres(1)}},
             {"C", {metres(width), metres(0), metres(1)}},
             {"D", {metres(width), metres(0), metres(0)}}};
  for (const auto& [start, end] : {std::pair{0u, 1u}, {1u, 2u}, {3u, 2u}}) {
    model::Member member;
    member.name = m.nodes[start].name + m.nodes[end].name;
    member.start = start;
    member.end = end;
    member.elastic = {from_si<model::Stress>(11e9), from_si<model::Stress>(0.69e9), {}};
    member.section = model::rectangle(metres(0.06), metres(0.06));
    m.members.push_back(member);
  }
  for (model::NodeId node = 0; node < 4; ++node) {
    support(m, m.nodes[node].name + ".y", node, false, {0, 1, 0});
    support(m, m.nodes[node].name + ".rx", node, true, {1, 0, 0});
    support(m, m.nodes[node].name + ".rz", node, true, {0, 0, 1});
  }
  for (const model::NodeId foot : {0u, 3u}) {
    support(m, m.nodes[foot].name + ".z", foot, false, {0, 0, 1});
    m.supports.back().stiffness = 1e7;
    m.supports.back().press_only = true;
    const std::size_t presses = m.supports.size() - 1;
    support(m, m.nodes[foot].name + ".x", foot, false, {1, 0, 0});
    m.supports.back().stiffness = 1e7;
    m.supports.back().rides_on = presses;
  }
  model::LoadCase press, push;
  press.name = "press";
  for (const model::NodeId head : {1u, 2u}) {
    press.node_loads.push_back({head, {newtons(0), newtons(0), newtons(-pressed)}, {}, {}});
    push.node_loads.push_back({head, {newtons(0.5), newtons(0), newtons(0)}, {}, {}});
  }
  push.name = "push";
  m.cases = {press, push};
  const auto combine = [&](const char* name, double by) {
    model::Combination c;
    c.name = name;
    c.purpose = model::Purpose::strength;
    c.terms = {{0, 1.0}};
    if (by != 0.0) {
      c.terms.push_back({1, by});
      c.limited = 1;
    }
    m.combinations.push_back(c);
  };
  combine("rest", 0.0);
  combine("forth", 10.0 * pressed);  // twenty times what tips it
  combine("back", -10.0 * pressed);
  combine("asks", 0.0);
  m.combinations.back().second_order = true;
  m.combinations.back().lean = {1.0 / 200.0, 0.0};
  return m;
}

solve::Response answered(double pressed, double below = 10.0) {
  solve::PlateCache plates;
  const auto response = solve::static_response(portal(pressed), plates, below);
  REQUIRE(response.has_value());
  return *response;
}

bool is_moved(const solve::Response& response, std::size_t combination) {
  REQUIRE_MESSAGE(response.states[combination].has_value(),
                  response.states[combination].error().what);
  return !response.states[combination]->askew.empty();
}

}  // namespace

TEST_CASE(
    "solve/static_response: second order below the factor that is given, above for what asks") {
  const solve::Response soft = answered(8e3);
  CHECK(soft.stability->factor > 1.0);
  CHECK(soft.stability->factor < 10.0);
  CHECK(soft.second_order);
  for (std::size_t c = 0; c < 4; ++c) CHECK(is_moved(soft, c));
  const solve::Response firm = answered(1e3);
  CHECK(firm.stability->factor > 10.0);
  CHECK_FALSE(firm.second_order);
  for (std::size_t c = 0; c < 4; ++c) CHECK(is_moved(firm, c) == (c == 3));
  // Loads eight times as large: an eighth of the factor.
  CHECK(firm.stability->factor == close_to(8.0 * soft.stability->factor, 1e-6));
}

TEST_CASE(
    "solve/static_response: a frame that buckles keeps its first order, and its factor says so") {
  const solve::Response response = answered(60e3);
  CHECK(response.stability->factor < 1.0);
  CHECK_FALSE(response.second_order);
  for (std::size_t c = 0; c < 4; ++c) CHECK_FALSE(is_moved(response, c));
}

TEST_CASE("solve/static_response: a push is cut to what does not tip the frame, alike both ways") {
  for (const double pressed : {1e3, 8e3}) {
    CAPTURE(pressed);
    const solve::Response response = answered(pressed);
    const double forth = response.loadings[1].terms[1].factor;
    const double back = response.loadings[2].terms[1].factor;
    // Rigid statics: 2 P b/2 = H h, H = P b; what the frame has moved by takes some of it.
    const double tips = 2.0 * pressed * 0.5 * width;
    CHECK(forth > 0.5 * tips);
    CHECK(forth < tips);
    CHECK(forth == close_to(-back, 1e-9));
    REQUIRE(is_moved(response, 1) == is_moved(response, 2));
    CHECK(response.states[1]->at(1, Freedom::x) ==
          close_to(-response.states[2]->at(2, Freedom::x), 1e-6));
  }
}

TEST_CASE(
    "solve/respond: the ground of any support can be moved, one that lets go or one that does "
    "not") {
  const model::Model m = portal(1e3);
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  solve::Loading loading{{{0, 1.0}}, {}};
  const double before = solve::respond(*prepared, loading)->at(0, Freedom::z);
  for (std::size_t s = 0; s < m.supports.size(); ++s) {
    if (m.supports[s].name != "A.z" && m.supports[s].name != "D.z") continue;
    loading.grounds.push_back({s, 1e-3});
  }
  // Both feet a millimetre higher: the whole frame goes up by it.
  CHECK(solve::respond(*prepared, loading)->at(0, Freedom::z) - before == close_to(1e-3, 1e-9));
  loading.grounds = {{0, 1e-3}};  // A.y, held rigidly and alone moved: what holds the plane answers
  CHECK(solve::respond(*prepared, loading)->at(0, Freedom::y) == close_to(1e-3, 1e-9));
}

TEST_CASE("solve/prepare: a case that no combination names is answered when asked for, alike") {
  model::Model m = portal(1e3);
  m.combinations.clear();
  solve::PlateCache plates;
  const auto later = solve::prepare(m, model::SpringSet::gravity, plates);
  const auto at_once = solve::prepare(m, model::SpringSet::gravity, plates, solve::Together::all);
  REQUIRE(later.has_value());
  REQUIRE(at_once.has_value());
  for (model::CaseId c = 0; c < m.cases.size(); ++c) {
    CAPTURE(c);
    const solve::Loading loading{{{c, 1.0}}, {}};
    const auto a = solve::respond(*later, loading), b = solve::respond(*at_once, loading);
    REQUIRE(a.has_value() == b.has_value());
    if (!a) continue;
    CHECK(a->displacement == b->displacement);
    CHECK(a->support_forces == b->support_forces);
    CHECK(a->audit.residual == b->audit.residual);
  }
}

TEST_CASE("solve/static_response: a node that nothing keeps from turning is named, with its axis") {
  model::Model m = portal(100.0);
  for (const std::size_t freedom :
       {4u, 5u}) {  // both at C: an arch on three hinges, but for C itself
    m.members[1].end_springs[freedom] = m.members[2].end_springs[freedom] =
        model::EndSpring::free_end();
  }
  const auto prepared = solve::prepare(m);
  REQUIRE_FALSE(prepared.has_value());
  CHECK(prepared.error().why == solve::Refusal::Why::mechanism);
  CHECK(prepared.error().what == "node C can turn about y: nothing resists it");
  CHECK(prepared.error().node == 2u);
}

}  // namespace static_response_test
