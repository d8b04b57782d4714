// Feet of raking legs at rest, by Coulomb's friction. The answers are put together by hand.
#include <doctest/doctest.h>

#include <limits>

#include "standtrue/check/stability.hpp"
#include "tests/check/hand_built.hpp"

namespace spreading_test {

using namespace hand_built;
using check::Judgement;
using doctest::Approx;

namespace {

/// Each foot presses with N and pushes outwards with H.
struct Resting {
  model::Model model;
  solve::Response response;

  Resting(double N, double H, model::Leading leading = model::Leading::stored) {
    model.parts = four_feet();
    for (bench::Post& post : model.parts.bench.posts) post.foot_x = post.x + metres(0.15);
    model.parts.bench.floor.friction = 0.3;
    model.combinations.push_back(
        combination("service-stored", model::Purpose::service, leading, {}));
    solve::State state;
    for (int i = 0; i < 4; ++i) {
      state.support_forces.insert(state.support_forces.end(), {N, 0.6 * H, 0.8 * H});
    }
    response.states.push_back(std::move(state));
  }
  [[nodiscard]] std::vector<check::Finding> found() const {
    return check::spreading({model, response}, tables());
  }
};

}  // namespace

TEST_CASE("check/spreading: what a raking leg pushes with against mu N, with the margin") {
  // mu N = 0.3 x 500 N = 150 N; over the margin of 1.5 (limits.sliding) 100 N.
  const auto good = Resting(500.0, 90.0).found();
  REQUIRE(good.size() == 1);
  CHECK(good[0].judgement == Judgement::satisfied);
  CHECK(good[0].demand == Approx(90.0));
  CHECK(good[0].limit == Approx(100.0));
  const auto bad = Resting(500.0, 110.0).found();
  REQUIRE(bad.size() == 1);
  CHECK(bad[0].judgement == Judgement::exceeded);
  CHECK(bad[0].ratio == Approx(1.1));
  CHECK_FALSE(bad[0].advice.empty());
}

TEST_CASE("check/spreading: the worst foot, and a fall of the floor takes from its friction") {
  Resting bench(500.0, 90.0);
  bench.response.states[0]->support_forces[3 * 2] = 300.0;
  bench.model.parts.bench.floor.fall_x = 0.05;
  const auto found = bench.found();
  REQUIRE(found.size() == 1);
  CHECK(found[0].limit == Approx((0.3 - 0.05) * 300.0 / 1.5));
  CHECK(found[0].place == "back-right foot");
}

TEST_CASE("check/spreading: upright posts, bolted feet and loads that go again do not count") {
  Resting upright(500.0, 400.0);
  for (bench::Post& post : upright.model.parts.bench.posts) post.foot_x = post.x;
  CHECK(upright.found().empty());
  Resting bolted(500.0, 400.0);
  for (bench::Post& post : bolted.model.parts.bench.posts) post.foot.fixed = true;
  CHECK(bolted.found().empty());
  // One bolted foot holds itself alone.
  bolted.model.parts.bench.posts[2].foot.fixed = false;
  const auto one = bolted.found();
  REQUIRE(one.size() == 1);
  CHECK(one[0].place == "back-right foot");
  CHECK(one[0].judgement == Judgement::exceeded);
  // Nothing presses and nothing pushes: nothing slides. What is no number is not good.
  CHECK(Resting(0.0, 0.0).found().at(0).judgement == Judgement::satisfied);
  CHECK(Resting(500.0, std::numeric_limits<double>::quiet_NaN()).found().at(0).judgement ==
        Judgement::not_judged);
  const auto leaned_on = Resting(500.0, 400.0, model::Leading::lean).found();
  REQUIRE(leaned_on.size() == 1);
  CHECK(leaned_on[0].judgement == Judgement::not_judged);
}

}  // namespace spreading_test
