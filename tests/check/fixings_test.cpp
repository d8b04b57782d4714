// What a fixed bench asks of its fixings, and the load at which a foot lifts.
#include <doctest/doctest.h>

#include <cmath>

#include "standtrue/check/feet.hpp"
#include "standtrue/check/service.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/solved_bench.hpp"

namespace fixings_test {

using namespace hand_built;
using doctest::Approx;
using model::Leading;
using model::Purpose;
using solved_bench::Solved;

namespace {

Solved solved(const std::string& more) {
  return solved_bench::solved(
      "standtrue: 1\n"
      "size: 1500 x 620 x 900 mm\n"
      "timber: C24 45 x 95 mm\n"
      "joints: two corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n" +
      more);
}

double sways_across(const Solved& bench) {
  const auto findings = check::sway(bench.answers(), tables());
  REQUIRE(find(findings, "sway/across"));
  return find(findings, "sway/across")->demand;
}

/// Four feet by hand, then one screw into the wall at supports 12 (x), 13 (y), 14 (z).
struct ByHand {
  model::Model model;
  solve::Response response;
  explicit ByHand(double rail_y) {
    model.parts = four_feet();
    bench::Rail rail;
    rail.name = "rail";
    rail.from = 0;
    rail.to = 1;
    rail.aside = metres(rail_y);
    model.parts.bench.rails.push_back(rail);
    model.parts.bench.wall.push_back({"rail", metres(0.9)});
    model.parts.wall.push_back({"rail, 900 mm on", 12, 13, 14});
  }
  void add(const std::string& name, Purpose purpose, std::array<double, 3> screw,
           double down = 100.0, double sideways = 0.0) {
    model.combinations.push_back(combination(name, purpose, Leading::permanent, {}));
    solve::State state;
    for (int foot = 0; foot < 4; ++foot) {
      state.support_forces.insert(state.support_forces.end(), {down, sideways, 0.0});
    }
    state.support_forces.insert(state.support_forces.end(), screw.begin(), screw.end());
    state.touching.assign(15, true);
    response.states.emplace_back(std::move(state));
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

}  // namespace

TEST_CASE("check/fixings: the largest pull away from the wall, and the largest force across") {
  ByHand bench(0.6);  // its rail at the back: the wall is behind it
  bench.add("service-permanent", Purpose::service, {0, -90, 0});
  bench.add("strength-shove", Purpose::strength, {30, 250, -40});
  bench.add("service-lean", Purpose::service, {-60, 10, 80});
  bench.add("sway-rest", Purpose::sway, {900, 900, 900});
  const auto findings = check::fixings(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  const check::Finding& f = findings[0];
  CHECK(f.id == "fixing/wall");
  CHECK(f.kind == check::Kind::caution);
  CHECK(f.judgement == check::Judgement::not_judged);
  CHECK(f.demand == 250.0);
  CHECK(f.combination == "strength-shove");
  CHECK(f.sentence ==
        "A screw into the wall is pulled with up to 250 N (25 kg), and pushed sideways with up to "
        "100 N (10 kg); the wall itself is not judged.");
  CHECK(f.working.back() == "largest sideways: rail, 900 mm on, under service-lean");
  ByHand front(0.0);  // the wall in front of it pulls the other way
  front.add("service-permanent", Purpose::service, {0, -90, 0});
  CHECK(check::fixings(front.answers(), tables())[0].demand == 90.0);
  front.response.states[0] = tl::unexpected(
      solve::Refusal{solve::Refusal::Why::tips, "the frame tips", "spread the feet", {}});
  CHECK(check::fixings(front.answers(), tables())[0].sentence ==
        "What the wall must hold is not known.");
}

TEST_CASE("check/fixings: a bolted foot is pulled by what would lift it; others are left out") {
  ByHand bench(0.6);
  bench.model.parts.bench.wall.clear();
  bench.model.parts.wall.clear();
  CHECK(check::fixings(bench.answers(), tables()).empty());
  bench.model.parts.bench.posts[1].foot.fixed = true;
  bench.add("service-permanent", Purpose::service, {}, 100.0, -30.0);
  {
    const check::Finding f = check::fixings(bench.answers(), tables()).at(0);
    CHECK(f.id == "fixing/floor");
    CHECK(f.demand == 0.0);
    CHECK(f.sentence ==
          "A bolted foot is never pulled, and pushed sideways with up to 30 N (3.06 kg); the floor "
          "itself is not judged.");
  }
  bench.add("strength-shove", Purpose::strength, {}, -75.0);
  const check::Finding f = check::fixings(bench.answers(), tables()).at(0);
  CHECK(f.demand == 75.0);
  CHECK(f.place == "front-right foot");
}

TEST_CASE("check/fixings: a bench on a wall sways less, and the wall takes what statics says") {
  const Solved alone = solved("");
  const Solved wall = solved("wall: {rail: back top rail, at: [200 mm, 1200 mm]}\n");
  CHECK(sways_across(wall) > 3.0 * sways_across(alone));
  const auto findings = check::fixings(wall.answers(), tables());
  const check::Finding* f = find(findings, "fixing/wall");
  REQUIRE(f);
  CHECK(f->demand > 0.0);
  // Whatever is shoved goes to the floor and the screws.
  int shoves = 0;
  for (std::size_t c = 0; c < wall.model.combinations.size(); ++c) {
    const model::Combination& combination = wall.model.combinations[c];
    const solve::OrRefusal<solve::State>& state = wall.response.states[c];
    if (!combination.limited || !state) continue;
    const model::ShovePlace& place = wall.model.parts.shoves.at(*combination.place);
    if (place.way != model::ShoveWay::across) continue;
    const double shove = wall.response.loadings[c].terms.at(*combination.limited).factor;
    double held = 0.0;
    for (const model::FootPlace& foot : wall.model.parts.feet) {
      held += state->support_forces[foot.grip_y];
    }
    for (const model::WallPlace& screw : wall.model.parts.wall) {
      held += state->support_forces[screw.y];
    }
    CHECK(held == Approx(-shove).epsilon(1e-6));
    ++shoves;
  }
  CHECK(shoves > 0);
  const Solved bolted = solved("feet: {fixed: yes}\n");
  REQUIRE(find(check::fixings(bolted.answers(), tables()), "fixing/floor"));
  CHECK(check::lifting_feet(bolted.answers(), tables()).empty());
}

TEST_CASE("check/lifting_feet: a foot lifts at the load with which it presses no more") {
  // A bar from a foot to a clamp; 300 N on the foot's end, and a person who lifts that end by 500
  // N: whatever the stiffnesses, the foot is free at 300 N.
  model::Model m;
  m.parts = four_feet();
  m.parts.feet.resize(1);
  const model::NodeId foot = node(m, "foot", 0, 0, 0);
  const model::NodeId clamp = node(m, "clamp", 1, 0, 0);
  member(m, "bar", foot, clamp, 0.05, 0.05);
  model::Support press;
  press.name = "foot";
  press.node = foot;
  press.press_only = true;
  press.stiffness = 1e5;
  m.supports.push_back(press);
  for (int i = 0; i < 2; ++i) m.supports.push_back(m.supports[0]);  // grips that nothing asks of
  m.supports[1].press_only = m.supports[2].press_only = false;
  m.supports[1].along = {1, 0, 0};
  m.supports[2].along = {0, 1, 0};
  m.supports[1].rides_on = m.supports[2].rides_on = 0;
  hold(m, clamp);
  const std::size_t self = load_case(m, "self");
  m.cases[self].node_loads.push_back({foot, force(0, 0, -300), {}, {}});
  const std::size_t person = load_case(m, "person");  // of 1 kN
  m.cases[person].node_loads.push_back({foot, force(0, 0, 1000), {}, {}});
  m.parts.persons.push_back({"front edge, middle", 0, metres(0), metres(0), person});
  m.parts.shoves.push_back({"across, at the left end", model::ShoveWay::across, person, person});
  model::Combination lean =
      combination("service-lean", Purpose::service, Leading::lean, {{self, 1.0}, {person, 0.5}});
  lean.place = 0;
  model::Combination shove = lean;
  shove.name = "service-shove";
  shove.leading = Leading::shove;
  m.parts.stored_cases = {person};
  model::Combination stored = lean;
  stored.name = "service-stored";
  stored.leading = Leading::stored;
  stored.place.reset();
  model::Combination rest = stored;
  rest.name = "service-permanent";
  rest.title = "bench and machines";
  rest.leading = Leading::permanent;
  const auto told = [&](const model::Combination& combination) {
    m.combinations = {combination};
    const auto response = solve::static_response(m);
    REQUIRE(response.has_value());
    const auto findings = check::lifting_feet({m, *response}, tables());
    REQUIRE(findings.size() == 1);
    return findings[0];
  };
  CHECK(told(lean).sentence ==
        "The front-left foot leaves the floor in use, when somebody leans on it with 31 kg (front "
        "edge, middle).");  // 300 N
  CHECK(told(lean).why == "first under service-lean, at 60 % of its load");
  CHECK(told(stored).sentence ==
        "The front-left foot leaves the floor in use, with 60 % of what is stored on it.");
  CHECK(told(rest).sentence == "The front-left foot does not press on the floor at rest.");
  for (const auto& [kilonewtons, at] : {std::pair{0.31, "97 %"},
                                        {0.75, "at 40 %"},
                                        {0.9, "at 33 %"},
                                        {2.0, "at 15 %"},
                                        {6.1, "at 5 %"}}) {
    model::Combination more = lean;
    more.terms[1].factor = kilonewtons;
    CHECK(told(more).why.find(at) != std::string::npos);  // 300 N of them
  }
  m.cases[person].node_loads[0].force = force(0, 0, 1);  // of a shove the case is 1 N
  shove.terms[1].factor = 500;
  CHECK(
      told(shove).sentence ==
      "The front-left foot leaves the floor in use, at a push of 300 N (across, at the left end).");
}

}  // namespace fixings_test
