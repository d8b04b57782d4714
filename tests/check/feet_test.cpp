// Feet against statics by hand. The answers are put together by hand too, except where a person's
// load is solved again without its factors.
#include <doctest/doctest.h>

#include <cmath>

#include "standtrue/check/feet.hpp"
#include "tests/check/hand_built.hpp"

namespace feet_test {

using namespace hand_built;
using check::Judgement;
using doctest::Approx;
using model::Leading;
using model::Purpose;

namespace {

solve::State feet_state(std::vector<double> down, double sideways = 0.0) {
  solve::State state;
  for (const double force : down) {
    state.support_forces.insert(state.support_forces.end(), {force, sideways, 0.0});
    state.touching.insert(state.touching.end(), 3, force > 0.0);
  }
  return state;
}

struct Answered {
  model::Model model;
  solve::Response response;
  explicit Answered(model::Parts parts) { model.parts = std::move(parts); }
  void add(const std::string& name, Purpose purpose, Leading leading,
           solve::OrRefusal<solve::State> state) {
    model.combinations.push_back(combination(name, purpose, leading, {}));
    response.states.push_back(std::move(state));
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

solve::OrRefusal<solve::State> refused() {
  return tl::unexpected(
      solve::Refusal{solve::Refusal::Why::tips, "the frame tips", "spread the feet", {}});
}

}  // namespace

TEST_CASE("check/foot_load: the worst foot in use against its rating and the floor") {
  Answered bench(four_feet());
  bench.add("service-permanent", Purpose::service, Leading::permanent,
            feet_state({300, 300, 400, 400}));
  bench.add("service-lean", Purpose::service, Leading::lean, feet_state({900, 300, 400, 300}));
  bench.add("strength", Purpose::strength, Leading::permanent, feet_state({9e9, 0, 0, 0}));
  bench.add("service-shove", Purpose::service, Leading::shove, refused());
  const auto findings = check::foot_load(bench.answers(), tables());
  const check::Finding* rating = find(findings, "foot/rating");
  const check::Finding* floor = find(findings, "foot/floor");
  REQUIRE(rating);
  REQUIRE(floor);
  CHECK(rating->demand == 900);
  CHECK(rating->limit == 1500);
  CHECK(rating->place == "front-left foot");
  CHECK(rating->combination == "service-lean");
  CHECK(rating->hand_check->value == Approx(0.5 * 1900));
  CHECK(rating->working.size() == 4);
  // 300 of 1400 N at rest
  CHECK(rating->working[0] == "front-left foot: 31 kg at rest (21 % of everything), 92 kg at most");
  CHECK(floor->limit == 4500);
  CHECK(floor->judgement == Judgement::satisfied);
}

TEST_CASE(
    "check/foot_load: the rating of each foot's own material; unlevelled feet by half of all") {
  model::Parts parts = four_feet();
  parts.bench.posts[0].foot.material = reference::FootMaterial::steel;
  parts.bench.posts[1].foot.material = reference::FootMaterial::rubber;
  parts.bench.posts[2].foot.material = reference::FootMaterial::timber;
  parts.bench.posts[3].foot.bare = true;
  Answered bench(parts);
  bench.add("service-permanent", Purpose::service, Leading::permanent,
            feet_state({2000, 1600, 5000, 900}));
  {
    const auto findings = check::foot_load(bench.answers(), tables());
    const check::Finding* rating = find(findings, "foot/rating");
    CHECK(rating->place == "front-right foot");  // 1600 of 1500, against 2000 of 8000
    CHECK(rating->judgement == Judgement::exceeded);
    CHECK_FALSE(rating->advice.empty());
    CHECK(find(findings, "foot/floor")->place == "back-right foot");
    CHECK(find(findings, "foot/floor")->judgement == Judgement::exceeded);
  }
  bench.model.parts.bench.floor.levelled = false;
  CHECK(find(check::foot_load(bench.answers(), tables()), "foot/rating")->demand ==
        Approx(0.5 * 9500));
  for (bench::Post& post : bench.model.parts.bench.posts) post.foot.bare = true;
  const auto bare = check::foot_load(bench.answers(), tables());
  CHECK_FALSE(find(bare, "foot/rating"));
  CHECK(find(bare, "foot/floor"));
}

TEST_CASE("check/foot_load: not judged without any answer of use; nothing without feet") {
  Answered bench(four_feet());
  bench.add("service-permanent", Purpose::service, Leading::permanent, refused());
  const auto findings = check::foot_load(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].judgement == Judgement::not_judged);
  CHECK(findings[0].why == "the frame tips");
  const Answered idle(four_feet());
  CHECK(check::foot_load(idle.answers(), tables()).at(0).why == "there are no loads of use");
  Answered none{model::Parts{}};
  CHECK(check::foot_load(none.answers(), tables()).empty());
}

TEST_CASE("check/foot_load: somebody stands, without the factors of strength") {
  model::Model m;
  m.parts = four_feet();
  m.parts.feet.resize(1);
  const model::NodeId foot = node(m, "foot", 0, 0, 0);
  const model::NodeId top = node(m, "top", 0, 0, 0.9);
  member(m, "post", foot, top, 0.089, 0.089);
  hold(m, foot);
  std::swap(m.supports[0], m.supports[2]);  // the upright one first: FootPlace::down is 0
  m.supports[0].press_only = true;
  m.supports[0].stiffness = 1e7;
  const std::size_t self = load_case(m, "self");
  m.cases[self].node_loads.push_back({top, force(0, 0, -300), {}, {}});
  const std::size_t gone = load_case(m, "machine");
  m.cases[gone].node_loads.push_back({top, force(0, 0, -7000), {}, {}});
  const std::size_t person = load_case(m, "person");
  m.cases[person].node_loads.push_back({top, force(0, 0, -1000), {}, {}});
  m.parts.persons.push_back({"middle", 0, metres(0), metres(0), person});
  model::Combination stand = combination("strength-stand-middle", Purpose::strength, Leading::stand,
                                         {{self, 1.35}, {gone, 0.0}, {person, 1.5}});
  stand.place = 0;
  m.combinations = {
      combination("service-permanent", Purpose::service, Leading::permanent, {{self, 1.0}}), stand};
  auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  const auto findings = check::foot_load({m, *response}, tables());
  CHECK(find(findings, "foot/rating")->demand == Approx(1300));
  CHECK(find(findings, "foot/rating")->combination == "somebody stands: middle");
  {
    model::Model lifted = m;  // a person who would lift the only foot: that loading has no answer
    lifted.cases[person].node_loads[0].force = force(0, 0, 1000);
    auto refused_state = solve::static_response(lifted);
    REQUIRE(refused_state.has_value());
    CHECK(find(check::foot_load({lifted, *refused_state}, tables()), "foot/rating")->demand ==
          Approx(300));
  }
  m.combinations[1].place.reset();  // a place that is not known is left out
  CHECK(find(check::foot_load({m, *response}, tables()), "foot/rating")->demand == Approx(300));
  m.combinations[1].place = 0;
  m.combinations[1].terms.push_back({person, 1.0});
  response->prepared[0].reset();
  CHECK(find(check::foot_load({m, *response}, tables()), "foot/rating")->demand == Approx(300));
}

TEST_CASE("check/lifting_feet: a foot that leaves the floor in use is named once") {
  Answered bench(four_feet());
  bench.add("strength", Purpose::strength, Leading::shove, feet_state({0, 100, 100, 100}));
  bench.add("service-permanent", Purpose::service, Leading::permanent,
            feet_state({300, 300, 400, 400}));
  bench.add("service-refused", Purpose::service, Leading::lean, refused());
  bench.add("service-lean", Purpose::service, Leading::lean, feet_state({300, 300, 400, 0}));
  bench.add("service-shove", Purpose::service, Leading::shove, feet_state({300, 300, 400, 0}));
  const auto findings = check::lifting_feet(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].id == "foot-lifts/back-left-foot");
  CHECK(findings[0].kind == check::Kind::caution);
  CHECK(findings[0].combination == "service-lean");
}

TEST_CASE("check/stem_bending: N/A + H e/W_pl of the thread's root") {
  model::Parts parts = four_feet();
  parts.bench.posts[1].foot.bare = true;
  Answered bench(parts);
  bench.add("service-permanent", Purpose::service, Leading::permanent,
            feet_state({9, 9, 9, 9}, 9e9));
  bench.add("strength-shove", Purpose::strength, Leading::shove,
            feet_state({150, 900, 200, 400}, 120));
  bench.add("strength-once", Purpose::strength, Leading::strong_shove, refused());
  const auto findings = check::stem_bending(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  const double W = std::pow(8.160e-3, 3) / 6;  // plastic, of a circle (any handbook)
  CHECK(findings[0].demand == Approx(400 / 58.0e-6 + 120 * 0.02 / W));
  CHECK(findings[0].limit == Approx(240e6));
  CHECK(findings[0].place == "back-left foot");
  CHECK(findings[0].judgement == Judgement::satisfied);
  CHECK(findings[0].advice.empty());
  bench.model.parts.bench.posts[3].foot.extension = metres(0.04);  // over the advised 25 mm
  CHECK_FALSE(check::stem_bending(bench.answers(), tables())[0].advice.empty());
  bench.model.parts.bench.posts[3].foot.extension = metres(0.2);
  CHECK(check::stem_bending(bench.answers(), tables())[0].sentence ==
        "The bare stem of the back-left foot bends for good under a shove.");
}

TEST_CASE(
    "check/stem_bending: M10 class 4.6 with 40 mm free yields first at about 320 N at the pad, of "
    "a "
    "circle W_pl/W_el = 16/(3 pi)") {
  model::Parts parts = four_feet();
  for (bench::Post& post : parts.bench.posts) {
    post.foot.extension = metres(0.04);
    post.foot.fixed = true;
  }
  Answered bench(parts);
  bench.add("strength-shove", Purpose::strength, Leading::shove, feet_state({0, 0, 0, 0}, 320));
  CHECK(check::stem_bending(bench.answers(), tables())[0].ratio ==
        Approx(3.0 * 3.14159265 / 16.0).epsilon(0.01));
}

TEST_CASE("check/stem_bending: a foot grips with no more than its weight, others take the rest") {
  Answered bench(four_feet());
  bench.add("strength-shove", Purpose::strength, Leading::shove,
            feet_state({100, 900, 200, 400}, 120));
  // Of 480 N the lightest holds 100 N; 20 N more go to the others by their 1500 N.
  const double H = 120.0 + 20.0 * 900.0 / 1500.0;
  const double W = std::pow(8.160e-3, 3) / 6;  // plastic, of a circle (any handbook)
  const check::Finding f = check::stem_bending(bench.answers(), tables()).at(0);
  CHECK(f.place == "front-right foot");
  CHECK(f.demand == Approx(900 / 58.0e-6 + H * 0.02 / W));
  bench.model.parts.bench.floor.friction = 1.3;  // the file's own is more: nothing slips
  CHECK(check::stem_bending(bench.answers(), tables())[0].demand ==
        Approx(900 / 58.0e-6 + 120 * 0.02 / W));
}

TEST_CASE(
    "check/stem_bending: the fall of the floor turns stems out, H e/W_pl with e = 20 + 72 mm") {
  Answered bench(four_feet());
  bench.add("strength-shove", Purpose::strength, Leading::shove,
            feet_state({400, 400, 400, 400}, 120));
  const double W = std::pow(8.160e-3, 3) / 6;  // plastic, of a circle (any handbook)
  const double level = check::stem_bending(bench.answers(), tables()).at(0).demand;
  CHECK(level == Approx(400 / 58.0e-6 + 120 * 0.02 / W));
  bench.model.parts.bench.floor.fall_x = 1.0 / 25.0;  // over 1.8 m
  const check::Finding f = check::stem_bending(bench.answers(), tables()).at(0);
  CHECK(f.demand == Approx(400 / 58.0e-6 + 120 * 0.092 / W));
  CHECK(f.place == "front-right foot");
  CHECK(f.advice.find("pack the feet up where the floor is low") == 0);
  bench.model.parts.bench.floor.levelled = false;  // nobody turns them out
  CHECK(check::stem_bending(bench.answers(), tables()).at(0).demand == Approx(level));
}

TEST_CASE("check/stem_bending: nothing to ask, or no answer") {
  Answered bench(four_feet());
  bench.add("service-permanent", Purpose::service, Leading::permanent, feet_state({9, 9, 9, 9}));
  CHECK(check::stem_bending(bench.answers(), tables()).empty());
  bench.add("service-shove", Purpose::service, Leading::shove, refused());
  const auto findings = check::stem_bending(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].judgement == Judgement::not_judged);
  CHECK(findings[0].why == "the frame tips");
  for (bench::Post& post : bench.model.parts.bench.posts) post.foot.bare = true;
  CHECK(check::stem_bending(bench.answers(), tables()).empty());
}

TEST_CASE("check/keep_off: the nearest pad to the nearest strip") {
  model::Parts parts = four_feet();
  const Rigid none(parts);
  CHECK(check::keep_off(none.answers(), tables()).empty());
  parts.bench.floor.edge_distance = metres(0.05);
  parts.bench.floor.keep_off.push_back({metres(0.6), metres(1.45), metres(-1), metres(2)});
  {
    const Rigid bench(parts);
    const check::Finding f = check::keep_off(bench.answers(), tables()).at(0);
    CHECK(f.place == "front-right foot");  // at 1.8: 0.35 from the strip
    CHECK(f.demand == Approx(0.35));
    CHECK(f.limit == Approx(0.05 + 0.025));
    CHECK(f.limit_is_least);
    CHECK(f.judgement == Judgement::satisfied);
    CHECK(f.sentence ==
          "The front-right foot stands 325 mm clear of a strip to keep off; 50 mm wanted.");
  }
  parts.bench.floor.keep_off.push_back({metres(-0.3), metres(-0.06), metres(-0.3), metres(-0.08)});
  {
    const Rigid bench(parts);
    const check::Finding f = check::keep_off(bench.answers(), tables()).at(0);
    CHECK(f.place == "front-left foot");  // 0.1 from a corner of the strip
    CHECK(f.demand == Approx(0.1));
    CHECK(f.judgement == Judgement::satisfied);
  }
  parts.bench.posts[0].foot.bare = true;  // half of the larger side of the post: 44.5 mm
  {
    const Rigid bench(parts);
    CHECK(check::keep_off(bench.answers(), tables()).at(0).limit == Approx(0.0945));
  }
  parts.bench.floor.keep_off.push_back({metres(1.7), metres(1.9), metres(0.5), metres(0.7)});
  const Rigid bench(parts);
  const check::Finding f = check::keep_off(bench.answers(), tables()).at(0);
  CHECK(f.sentence == "The back-right foot stands on a strip to keep off.");
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(std::isfinite(f.ratio));
}

}  // namespace feet_test
