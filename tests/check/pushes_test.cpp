// Pushes at the worktop: rigid-body statics against the frame on its feet.
#include <doctest/doctest.h>

#include <cmath>
#include <filesystem>

#include "standtrue/check/pushes.hpp"
#include "standtrue/check/stability.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/solved_bench.hpp"

namespace pushes_test {

using namespace standtrue;
using check::Push;
using doctest::Approx;
using quantity::in_si;

namespace {

using bench_files::tables;

struct Solved : solved_bench::Solved {
  /// As if nothing crept.
  [[nodiscard]] check::Answers answers() const { return {model, response, &model, &response}; }
};

Solved solved(const std::string& text) { return {solved_bench::solved(text)}; }

std::string frame(const std::string& more) {
  return "standtrue: 1\n"
         "size: 1500 x 620 x 900 mm\n"
         "timber: C24 45 x 95 mm\n"
         "joints: two corner brackets\n"
         "top: {sheet: 21 mm spruce plywood, load: none}\n" +
         more;
}

double weight_of(const model::Model& model, bool as_planned) {
  double W = 0.0;
  for (const model::Weight& weight : model.parts.weights) {
    if (as_planned || weight.of == model::Weight::Of::bench) W += in_si(weight.force);
  }
  return W;
}

/// Both are statics of the same weights on the same feet, so they differ by what halving leaves:
/// the middle of a thousandth, and a margin as wide for weights that stand a little elsewhere.
constexpr double halving = 2e-3;

void check_agreement(const Solved& bench) {
  const std::vector<Push> all = check::pushes(bench.answers(), check::PushesBy::tipping);
  REQUIRE_FALSE(all.empty());
  for (const Push& push : all) {
    CAPTURE(push.where);
    CAPTURE(push.towards());
    CAPTURE(push.as_planned);
    CHECK(push.tips_at_frame == Approx(push.tips_at).epsilon(halving));
  }
}

const check::Finding* find(const std::vector<check::Finding>& findings, const std::string& id) {
  for (const check::Finding& f : findings) {
    if (f.id == id) return &f;
  }
  return nullptr;
}

bool tells(const check::Finding& f, const std::string& words) {
  for (const std::string& line : f.working) {
    if (line.find(words) != std::string::npos) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("check/pushes: the frame on its feet tips at the push of rigid-body statics") {
  check_agreement(solved(frame("machines: [{kind: bench grinder, at: [300 mm, 200 mm]}]\n")));
  check_agreement(solved(frame("shelf: {sheet: 12 mm spruce plywood, load: 30 kg}\n")));
  check_agreement(solved(frame("loads: [{at: [600 mm, 200 mm], down: 250 N}]\n")));
  const std::filesystem::path examples = std::filesystem::path(STANDTRUE_SOURCE_DIR) / "examples";
  for (const char* name : {"boiler-plinth.yaml", "too-slender.yaml", "turning-bench.yaml"}) {
    CAPTURE(name);
    check_agreement(solved(bench_files::file_text((examples / name).string())));
  }
}

TEST_CASE(
    "check/pushes: bare posts tip over their outer faces, W e/h after their middles; statics") {
  const Solved bench =
      solved(frame("shelf: {sheet: 12 mm spruce plywood, load: 30 kg}\nfeet: none\n"));
  const bench::Post& post = bench.model.parts.bench.posts.front();
  int asked = 0;
  for (const Push& push : check::pushes(bench.answers())) {
    CAPTURE(push.towards());
    CHECK_FALSE(std::isnan(push.slides_at));
    if (push.at_corner) continue;
    ++asked;
    const bool along = push.way == model::ShoveWay::along;
    const double e = 0.5 * in_si(along ? post.along_x : post.along_y);
    const double later = weight_of(bench.model, push.as_planned) * e / 0.9;
    CHECK(push.tips_at - later == Approx(push.tips_at_frame).epsilon(halving));
  }
  CHECK(asked == 8);
  const auto findings = check::tipping(bench.answers(), tables());
  CHECK(tells(*find(findings, "tipping/empty"),
              "; frame on its feet (on the middle of its posts' ends) "));
  const auto slides = check::sliding(bench.answers(), tables());
  CHECK(tells(*find(slides, "sliding/empty"),
              "frame model (on the middle of its posts' ends), push to the right: "));
}

TEST_CASE("check/pushes: empty and square it tips at W b/2h, by hand") {
  const Solved bench = solved(frame(""));
  const double W = weight_of(bench.model, false);
  const bench::Post& front = bench.model.parts.bench.posts.front();
  const bench::Post& back = bench.model.parts.bench.posts.back();
  const double b = in_si(back.foot_y - front.foot_y);
  for (const Push& push : check::pushes(bench.answers(), check::PushesBy::tipping)) {
    CHECK_FALSE(push.as_planned);
    if (push.way == model::ShoveWay::across) CHECK(push.tips_at == Approx(W * b / (2 * 0.9)));
  }
}

TEST_CASE(
    "check/pushes: a bench that leans tips earlier downhill, by sum(W z) fall/h; by statics") {
  const std::string posts = "feet: none\nfloor: {surface: concrete";
  const Solved upright = solved(frame(posts + "}\n"));
  const Solved leans = solved(frame(posts + ", fall: 1 in 15 to front}\n"));
  double W_z = 0.0;
  for (const model::Weight& weight : leans.model.parts.weights) {
    W_z += in_si(weight.force) * in_si(weight.z);
  }
  const std::vector<Push> level = check::pushes(upright.answers());
  const std::vector<Push> all = check::pushes(leans.answers());
  REQUIRE(all.size() == level.size());
  for (std::size_t i = 0; i < all.size(); ++i) {
    CAPTURE(all[i].where);
    const double downhill = all[i].way == model::ShoveWay::along ? 0.0 : -all[i].sense;
    CHECK(all[i].tips_at == Approx(level[i].tips_at - downhill * W_z / 15 / 0.9));
    CHECK(std::isinf(all[i].tips_at_frame));  // the model stands upright: it is not asked
    CHECK_FALSE(std::isnan(all[i].slides_at));
  }
  const auto findings = check::tipping(leans.answers(), tables());
  CHECK(tells(*find(findings, "tipping/empty"), "leans with its floor, 1 in 15 to the front"));
  CHECK_FALSE(tells(*find(findings, "tipping/empty"), "frame on its feet"));
}

TEST_CASE("check/pushes: spread it slides at mu W; at a corner earlier, and one foot first") {
  for (const double mu : {0.1, 0.2}) {  // below b/2h: it slides before it tips
    const Solved bench =
        solved(frame("machines: [{kind: bench grinder, at: [300 mm, 200 mm]}]\n"
                     "floor: {surface: concrete, friction: " +
                     std::to_string(mu) + "}\n"));
    int corners = 0;
    for (const Push& push : check::pushes(bench.answers())) {
      CAPTURE(push.where);
      CAPTURE(push.towards());
      const double most = mu * weight_of(bench.model, push.as_planned);
      CHECK(push.first_slips_at <= push.slides_at * 1.01);
      if (push.at_corner) {
        ++corners;
        CHECK(push.slides_at < most * 1.01);
        CHECK(push.slides_at > 0.3 * most);
      } else {
        CHECK(push.slides_at == Approx(most).epsilon(1e-2));  // found to a hundredth
      }
    }
    CHECK(corners == 16);
  }
}

TEST_CASE("check/pushes: the findings tell them, each way") {
  const Solved bench = solved(frame("machines: [{kind: bench grinder, at: [300 mm, 200 mm]}]\n"));
  const auto tips = check::tipping(bench.answers(), tables());
  for (const char* id : {"tipping/push", "tipping/empty"}) {
    const check::Finding* f = find(tips, id);
    REQUIRE(f);
    for (const char* way : {"to the right", "to the left", "to the back", "to the front"}) {
      CHECK(tells(*f, std::string("push ") + way + " that tips it: sum(W a)/h = "));
    }
  }
  const auto slides = check::sliding(bench.answers(), tables());
  for (const char* id : {"sliding/push", "sliding/empty"}) {
    const check::Finding* f = find(slides, id);
    REQUIRE(f);
    CHECK(tells(*f, "frame model, push to the right: "));
    CHECK(tells(*f, "which also turns it: "));
  }
}

TEST_CASE("check/pushes: a wall or bolts on every side hold it; bolts in front not forwards") {
  const Solved wall = solved(frame("wall: {rail: back top rail, at: [300 mm, 1100 mm]}\n"));
  for (const Push& push : check::pushes(wall.answers())) {
    CHECK(std::isinf(push.tips_at));
    CHECK(std::isinf(push.slides_at));
    CHECK(std::isinf(push.tips_at_frame));
  }
  REQUIRE(find(check::tipping(wall.answers(), tables()), "tipping/wall"));
  CHECK(check::sliding(wall.answers(), tables()).at(0).kind == check::Kind::told);
  const Solved bolted = solved(frame("feet: {fixed: yes}\n"));
  for (const Push& push : check::pushes(bolted.answers())) CHECK(std::isinf(push.tips_at));
  REQUIRE(find(check::tipping(bolted.answers(), tables()), "tipping/floor"));
  const Solved front = solved(
      frame("feet: {each: {front-left post: {fixed: yes}, front-right post: {fixed: yes}}}\n"));
  for (const Push& push : check::pushes(front.answers(), check::PushesBy::tipping)) {
    CAPTURE(push.towards());
    const bool forwards = push.way == model::ShoveWay::across && push.sense < 0.0;
    CHECK(std::isinf(push.tips_at) == !forwards);
    CHECK(std::isinf(push.tips_at_frame) == !forwards);
    if (forwards) CHECK(push.tips_at_frame == Approx(push.tips_at).epsilon(halving));
  }
}

TEST_CASE("check/pushes: a bench that tips by itself is a finding with its number") {
  // 200 kg on the front edge of a top that overhangs 300 mm
  const Solved bench = solved(
      "standtrue: 1\n"
      "size: 1500 x 700 x 900 mm\n"
      "timber: C24 45 x 95 mm\n"
      "joints: two corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none, overhang: {front: 300 mm, back: 0 mm, left: "
      "25 "
      "mm, right: 25 mm}}\n"
      "loads: [{at: [750 mm, 30 mm], mass: 200 kg, name: anvil}]\n");
  double W = 0.0, W_y = 0.0;
  for (const model::Weight& weight : bench.model.parts.weights) {
    W += in_si(weight.force);
    W_y += in_si(weight.force) * in_si(weight.y);
  }
  const double foot = in_si(bench.model.parts.bench.posts.front().foot_y);
  REQUIRE(W_y / W < foot);
  const std::string beyond = quantity::print(foot - W_y / W, quantity::Kind::length);
  const auto findings = check::tipping(bench.answers(), tables());
  const check::Finding* push = find(findings, "tipping/push");
  REQUIRE(push);
  CHECK(push->judgement == check::Judgement::exceeded);
  CHECK(push->ratio > 1.0);
  CHECK(push->sentence ==
        "As planned and loaded it falls over to the front by itself: its weight lies " + beyond +
            " beyond its feet.");
  for (const Push& p : check::pushes(bench.answers())) {
    if (!p.as_planned) continue;
    CHECK(p.tips_at == 0.0);
    CHECK(p.slides_at == 0.0);
    if (!p.at_corner) CHECK(p.tips_at_frame == 0.0);
  }
  const auto refused = check::unanswered(bench.answers(), tables());
  REQUIRE_FALSE(refused.empty());
  CHECK(refused.front().judgement == check::Judgement::exceeded);
  CHECK(tells(refused.front(), beyond + " beyond its feet, to the front"));
}

TEST_CASE("check/pushes: on castors nothing is said of sliding") {
  const Solved bench = solved(frame("feet: {castor: 75 mm}\n"));
  for (const Push& push : check::pushes(bench.answers())) {
    CHECK(std::isinf(push.slides_at));
    if (!push.at_corner) CHECK(push.tips_at_frame == Approx(push.tips_at).epsilon(halving));
  }
}

}  // namespace pushes_test
