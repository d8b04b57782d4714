// Sway against a cantilever: k = 1/(H³/3EI + H/GA_s).
#include <doctest/doctest.h>

#include <utility>

#include <cmath>

#include "standtrue/check/service.hpp"
#include "tests/check/hand_built.hpp"

namespace sway_test {

using namespace hand_built;
using check::Judgement;
using doctest::Approx;

namespace {

constexpr double H = 0.9;

/// One post held at its foot, `width` across (along y) and `depth` along x.
struct Post {
  model::Model model;
  solve::Response response;

  Post(double width, double depth, double rest = 0.0, double shove = 200.0) {
    model.parts = four_feet();
    const model::NodeId foot = node(model, "foot", 0, 0, 0);
    const model::NodeId top = node(model, "front-left-880", 0, 0, H);
    hold(model, foot);
    model.members.at(member(model, "post", foot, top, width, depth)).depth =
        model::Direction{1, 0, 0};
    model.parts.top_corners = {top};
    const std::size_t leans = load_case(model, "rest");
    model.cases[leans].node_loads.push_back({top, force(rest, rest, -100), {}, {}});
    model.combinations.push_back(
        combination("sway-rest", model::Purpose::sway, model::Leading::permanent, {{leans, 1.0}}));
    for (const bool along : {true, false}) {
      const std::size_t c = load_case(model, along ? "along" : "across");
      model.cases[c].node_loads.push_back({top, force(along, !along, 0), {}, {}});
      model.parts.shoves.push_back({along ? "along, spread" : "across, spread",
                                    along ? model::ShoveWay::along : model::ShoveWay::across, c,
                                    c});
      for (const double sense : {1.0, -1.0}) {
        model::Combination shoved =
            combination("service-shove", model::Purpose::service, model::Leading::shove,
                        {{leans, 1.0}, {c, sense * shove}});
        shoved.place = model.parts.shoves.size() - 1;
        model.combinations.push_back(shoved);
      }
    }
    auto solved = solve::static_response(model);
    REQUIRE(solved.has_value());
    response = std::move(*solved);
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
};

double cantilever(double width, double depth) {
  const double I = width * depth * depth * depth / 12.0;
  return 1.0 / (H * H * H / (3.0 * E * I) + H / (G * width * depth * 5.0 / 6.0));
}

}  // namespace

TEST_CASE("check/sway: stiffness of a cantilever along and across, counted from rest") {
  for (const double rest : {0.0, 50.0}) {
    const Post post(0.06, 0.09, rest);
    const auto findings = check::sway(post.answers(), tables());
    REQUIRE(findings.size() == 2);
    CHECK(findings[0].id == "sway/along");
    CHECK(findings[0].demand == Approx(cantilever(0.06, 0.09)).epsilon(1e-6));
    CHECK(findings[1].demand == Approx(cantilever(0.09, 0.06)).epsilon(1e-6));
    CHECK(findings[0].limit == Approx(20e3));
    CHECK(findings[0].limit_is_least);
    CHECK(findings[0].ratio == Approx(20e3 / findings[0].demand));
    CHECK(findings[0].kind == check::Kind::service);
    CHECK(findings[0].place == "the top, along the bench, at front-left-880");
    CHECK(findings[1].place == "the top, across the bench, at front-left-880");
  }
}

TEST_CASE("check/sway: the corner is called by its post") {
  Post post(0.06, 0.06);
  model::Part rail, stands;
  rail.role = model::Role::rail;
  rail.members = stands.members = {0};
  stands.name = "front-left post";
  stands.role = model::Role::post;
  post.model.parts.parts = {rail, stands};
  CHECK(check::sway(post.answers(), tables())[0].place ==
        "the top, along the bench, at the front-left post");
  std::swap(post.model.members[0].start, post.model.members[0].end);
  CHECK(check::sway(post.answers(), tables())[0].place ==
        "the top, along the bench, at the front-left post");
}

TEST_CASE("check/sway: the words for how it feels, and the duty's limit") {
  const auto feel = [](double side) {
    const Post post(side, side);
    return check::sway(post.answers(), tables()).at(0).sentence;
  };
  CHECK(feel(0.12).find("it is firm") != std::string::npos);
  CHECK(feel(0.07).find("it gives a little") != std::string::npos);
  CHECK(feel(0.055).find("it sways") != std::string::npos);
  CHECK(feel(0.05).find("it rocks") != std::string::npos);
  Post post(0.07, 0.07);
  post.model.parts.bench.duty = *tables().duty("planing");
  const auto findings = check::sway(post.answers(), tables());
  CHECK(findings[0].judgement == Judgement::exceeded);
  CHECK(findings[0].advice == "a diagonal or a panel in the back");
  CHECK(findings[1].advice == "a diagonal or a panel in each end");
  // Where it has one already, another is no cure.
  post.model.parts.bench.braces.push_back({.name = "back brace"});
  const auto braced = check::sway(post.answers(), tables());
  CHECK(braced[0].advice.find("harder pads") == 0);
  CHECK(braced[1].advice == "a diagonal or a panel in each end");
}

TEST_CASE("check/sway: not judged without rest, without an answer, without movement") {
  const solve::Refusal tips{solve::Refusal::Why::tips, "the frame tips", "spread the feet", {}};
  Post shoves_refused(0.06, 0.06);
  for (std::size_t c = 1; c < 5; ++c) shoves_refused.response.states[c] = tl::unexpected(tips);
  for (const check::Finding& f : check::sway(shoves_refused.answers(), tables())) {
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(f.why == "the frame tips");
  }
  Post no_rest(0.06, 0.06);
  no_rest.response.states[0] = tl::unexpected(tips);
  CHECK(check::sway(no_rest.answers(), tables())[0].judgement == Judgement::not_judged);
  const Post no_force(0.06, 0.06, 0.0, 0.0);
  CHECK(check::sway(no_force.answers(), tables())[0].why ==
        "no corner of the top moves with the shove");
  Post none(0.06, 0.06);
  none.model.combinations.resize(1);
  CHECK(check::sway(none.answers(), tables()).empty());
}

}  // namespace sway_test
