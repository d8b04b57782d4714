// A bench as a rigid body against moments by hand.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "check/footprint.hpp"
#include "check/overturning.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/check/stability.hpp"
#include "tests/check/hand_built.hpp"

namespace tipping_test {

using namespace hand_built;
using check::Judgement;
using check::Kind;
using doctest::Approx;
using Of = model::Weight::Of;

namespace {

/// 1.8 x 0.6 m between feet, 900 N of bench in its middle, top surface at 0.9 m or so.
model::Parts bench_of(double own = 900) {
  model::Parts parts = four_feet();
  parts.bench.sheets.push_back(sheet("top", bench::SheetPlace::top, "birch plywood", 18));
  parts.weights.push_back(weight(Of::bench, "front top rail", own, 0.9, 0.3));
  return parts;
}

bench::Machine drill(double mass) {
  bench::Machine machine;
  machine.name = "drill press";
  machine.kind = *tables().machine("drill press");
  machine.mass = quantity::kilograms(mass);
  machine.x = metres(0.9);
  machine.y = metres(0.3);
  return machine;
}

double h_top() { return 0.88 + 0.0176; }

}  // namespace

TEST_CASE("check/tipping: outline of points is convex, anticlockwise, without points in a row") {
  const auto outline = check::convex_outline({{0, 0}, {1, 0}, {2, 0}, {2, 1}, {1, 0.5}, {0, 1}});
  REQUIRE(outline.size() == 4);
  double area = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    const auto& a = outline[i];
    const auto& b = outline[(i + 1) % 4];
    area += 0.5 * (a.x * b.y - a.y * b.x);
  }
  CHECK(area == Approx(2.0));
  CHECK(check::convex_outline({{0, 0}, {1, 1}, {2, 2}}).size() < 3);
  CHECK(check::convex_outline({}).empty());
  CHECK(check::convex_outline({{1, 2}}).size() == 1);
}

TEST_CASE("check/tipping: empty, it tips at W b/2h across, told and not judged") {
  const Rigid bench(bench_of());
  const auto findings = check::tipping(bench.answers(), tables());
  const check::Finding* empty = find(findings, "tipping/empty");
  REQUIRE(empty);
  CHECK(empty->kind == Kind::caution);
  // 900 x 0.3 / 0.8976 = 300.8 N = 31 kg
  CHECK(empty->sentence ==
        "Empty, it tips at 31 kg of push across (301 N at the worktop, to the front).");
  CHECK(empty->demand == Approx(1.5 * 200 * h_top()));
  CHECK(empty->limit == Approx(0.9 * 900 * 0.3));
  CHECK(empty->judgement == Judgement::exceeded);
  CHECK_FALSE(find(findings, "tipping/push"));  // nothing is planned on it
  CHECK_FALSE(find(findings, "tipping/machine-top"));
}

TEST_CASE("check/tipping: a bench that leans tips as if its weights stood fall x height downhill") {
  model::Parts parts = bench_of();
  parts.bench.machines.push_back(drill(60));
  parts.weights.push_back(weight(Of::machine, "drill press", 600, 0.9, 0.3, 1.2));
  parts.bench.floor.fall_y = -1.0 / 15.0;  // to the front
  const auto limit = [](const model::Parts& of, const char* id) {
    const Rigid bench(of);
    return find(check::tipping(bench.answers(), tables()), id)->limit;
  };
  // Feet that are set for the fall take it out.
  CHECK(limit(parts, "tipping/push") == Approx(0.9 * 1500 * 0.3));
  parts.bench.floor.levelled = false;
  // 900 N at 0.5 m and 600 N at 1.2 m lie 0.0333 m and 0.08 m nearer to the front feet.
  const double holds = 0.9 * (900 * (0.3 - 0.5 / 15) + 600 * (0.3 - 1.2 / 15));
  CHECK(limit(parts, "tipping/push") == Approx(holds));
  CHECK(limit(parts, "tipping/machine-top") == Approx(holds));
  CHECK(limit(parts, "tipping/empty") == Approx(0.9 * 900 * (0.3 - 0.5 / 15)));
  const Rigid leaning(parts);
  const auto findings = check::tipping(leaning.answers(), tables());
  CHECK(find(findings, "tipping/push")->place == "over the feet to the front");
  // 25 mm inside on the level; downhill by the height of the top over 15.
  CHECK(find(findings, "tipping/person")->demand ==
        Approx(1.5 * (100 * h_top() + 1000 * (h_top() / 15 - 0.025))));
  parts.bench.wall.push_back({"back top rail", metres(0.9)});
  CHECK_FALSE(bench::leans(parts.bench));
}

TEST_CASE("check/tipping: weights that lean past the feet fall over by themselves") {
  model::Parts parts = bench_of();
  parts.bench.floor.levelled = false;
  parts.bench.floor.fall_x = 0.2;
  parts.weights.front().z = metres(5.0);  // 0.9 + 0.2 x 5 = 1.9 m, 100 mm past 1.8 m
  const Rigid bench(parts);
  CHECK(find(check::tipping(bench.answers(), tables()), "tipping/empty")->sentence ==
        "Empty, it falls over to the right by itself: its weight lies 100 mm beyond its feet.");
}

TEST_CASE("check/tipping: a machine inside the feet helps with 0.9, outside harms with 1.1") {
  model::Parts parts = bench_of();
  parts.bench.machines.push_back(drill(60));
  parts.weights.push_back(weight(Of::machine, "drill press", 600, 0.9, 0.4));
  const Rigid inside(parts);
  const auto findings = check::tipping(inside.answers(), tables());
  const check::Finding* push = find(findings, "tipping/push");
  REQUIRE(push);
  CHECK(push->kind == Kind::safety);
  // to the back: 900 x 0.3 + 600 x 0.2
  CHECK(push->limit == Approx(0.9 * (900 * 0.3 + 600 * 0.2)));
  CHECK(push->place == "over the feet to the back");
  CHECK(push->judgement == Judgement::satisfied);

  parts.weights.back().y = metres(0.7);
  const Rigid outside(parts);
  const auto beyond = check::tipping(outside.answers(), tables());
  push = find(beyond, "tipping/push");
  REQUIRE(push);
  CHECK(push->limit == Approx(0.9 * 900 * 0.3));
  CHECK(push->demand == Approx(1.5 * 200 * h_top() + 1.1 * 600 * 0.1));
  CHECK(push->judgement == Judgement::exceeded);
  CHECK_FALSE(push->advice.empty());

  parts.weights.back().y = metres(2.0);  // 600 x 1.4 > 900 x 0.3: it falls over by itself
  const Rigid falls(parts);
  const auto over = check::tipping(falls.answers(), tables());
  CHECK(find(over, "tipping/push")->sentence ==
        // (900 x 0.3 + 600 x 2.0)/1500 - 0.6
        "As planned and loaded it falls over to the back by itself: its weight lies 380 mm beyond "
        "its feet.");
}

TEST_CASE("check/tipping: stored loads count only where the file gives them") {
  model::Parts parts = bench_of();
  parts.bench.sheets.push_back(sheet("shelf", bench::SheetPlace::shelf, "birch plywood", 18));
  parts.weights.push_back(weight(Of::stored, "shelf", 500, 0.9, 0.3));
  parts.bench.sheets.back().stored = quantity::pascals(500);
  parts.bench.sheets.back().stored_assumed = true;
  {
    const Rigid bench(parts);
    CHECK_FALSE(find(check::tipping(bench.answers(), tables()), "tipping/push"));
  }
  parts.bench.sheets.back().stored_assumed = false;
  const Rigid bench(parts);
  const auto findings = check::tipping(bench.answers(), tables());
  REQUIRE(find(findings, "tipping/push"));
  CHECK(find(findings, "tipping/push")->limit == Approx(0.9 * 1400 * 0.3));
  CHECK(find(findings, "tipping/empty")->limit == Approx(0.9 * 900 * 0.3));
  // beyond the feet what is stored is a variable load
  parts.weights.back().y = metres(-0.1);
  const Rigid beyond(parts);
  const auto harmed = check::tipping(beyond.answers(), tables());
  CHECK(find(harmed, "tipping/push")->demand == Approx(1.5 * 200 * h_top() + 1.5 * 500 * 0.1));
}

TEST_CASE("check/tipping: a person on the edge, one factor on both parts of one body") {
  model::Parts parts = bench_of();
  parts.bench.sheets[0].y0 = metres(-0.15);  // the patch is 0.10 m in front of the feet
  const Rigid bench(parts);
  const auto findings = check::tipping(bench.answers(), tables());
  const check::Finding* person = find(findings, "tipping/person");
  REQUIRE(person);
  CHECK(person->demand == Approx(1.5 * (100 * h_top() + 1000 * 0.10)));
  CHECK(person->judgement == Judgement::exceeded);
  CHECK(person->sentence == "Somebody standing on the edge of the top can tip it to the front.");
  const Rigid narrow(bench_of(2000));  // the edge 25 mm out, the person 50 mm in: 25 mm inside
  const auto held = check::tipping(narrow.answers(), tables());
  CHECK(find(held, "tipping/person")->demand == Approx(1.5 * (100 * h_top() - 1000 * 0.025)));
  CHECK(find(held, "tipping/person")->judgement == Judgement::satisfied);
}

TEST_CASE("check/tipping: a shove at the top of the tallest machine") {
  model::Parts parts = bench_of();
  parts.bench.machines = {drill(60), drill(20)};
  parts.bench.machines[1].name = "grinder";
  parts.bench.machines[1].kind = *tables().machine("bench grinder");
  for (bench::Machine& machine : parts.bench.machines) machine.bolted = true;
  parts.weights.push_back(weight(Of::machine, "drill press", 600, 0.9, 0.3));
  const Rigid bench(parts);
  const auto findings = check::tipping(bench.answers(), tables());
  const check::Finding* top = find(findings, "tipping/machine-top");
  REQUIRE(top);
  CHECK(top->demand == Approx(1.5 * 200 * (h_top() + 1.0)));
  CHECK(top->limit == Approx(0.9 * 1500 * 0.3));
  CHECK(top->sentence.find("A shove at the top of the drill press, ") == 0);
  CHECK(top->sentence.find("topples") == std::string::npos);
}

TEST_CASE("check/tipping: a loose machine passes a shove on no higher than m g a/F; statics") {
  model::Parts parts = bench_of();
  bench::Machine loose = drill(60);
  loose.pads_x = metres(0.3);
  loose.pads_y = metres(0.2);
  loose.pad = metres(0.04);
  parts.bench.machines = {loose};
  parts.weights.push_back(weight(Of::machine, "drill press", 60 * 9.80665, 0.9, 0.3));
  const auto of = [](const model::Parts& of_parts) {
    const Rigid bench(of_parts);
    return *find(check::tipping(bench.answers(), tables()), "tipping/machine-top");
  };
  // a = 0.12 m: 588.4 N x 0.12 m = 70.6 N m hold 200 N up to 353 mm, and 70.6 N at 1 m.
  const check::Finding across = of(parts);
  CHECK(across.demand == Approx(1.5 * (200 * h_top() + 60 * 9.80665 * 0.12)));
  CHECK(across.limit == Approx(0.9 * (900 + 60 * 9.80665) * 0.3));
  CHECK(across.sentence.find("A shove at the drill press, ") == 0);
  CHECK(across.sentence.find(" Higher up the drill press topples first: at 70.6 N at its top, not "
                             "bolted.") != std::string::npos);
  // Its mass 50 mm nearer to the front holds more, a = 0.17 m, against the back: 419/428 N m there,
  // 331/375 N m to the front.
  parts.bench.machines[0].cg_y = metres(-0.05);
  parts.weights.back().y = metres(0.25);
  CHECK(of(parts).place == "over the feet to the back");
  CHECK(of(parts).demand == Approx(1.5 * (200 * h_top() + 60 * 9.80665 * 0.17)));
  parts.weights.back().y = metres(0.3);
  // 1 m above its sheet 200 N are held by 200 N m: 0.12 m of 170 kg, not by those of 169 kg.
  parts.bench.machines[0].cg_y = metres(0.0);
  parts.bench.machines[0].mass = quantity::kilograms(170);
  CHECK(of(parts).demand == Approx(1.5 * 200 * (h_top() + 1.0)));
  CHECK(of(parts).sentence.find("topples") == std::string::npos);
  parts.bench.machines[0].mass = quantity::kilograms(169);
  CHECK(of(parts).demand == Approx(1.5 * (200 * h_top() + 169 * 9.80665 * 0.12)));
}

TEST_CASE("check/tipping: a loose machine topples the shorter way first; statics") {
  check::Action shove;
  shove.sideways = 200.0;
  shove.height = 2.0;
  shove.stands_at = 0.9;
  shove.sides = {{{1, 0}, 60.0}, {{-1, 0}, 60.0}, {{0, 1}, 40.0}, {{0, -1}, 20.0}};
  CHECK(shove.acts_at({1, 0}) == Approx(0.9 + 0.3));
  CHECK(shove.acts_at({0, 1}) == Approx(0.9 + 0.2));
  CHECK(shove.acts_at({0, -1}) == Approx(0.9 + 0.1));
  // 0.6 of it pushes over the side that holds 60 N m, 0.8 over that of 40 N m: 0.5 m and 0.25 m.
  CHECK(shove.acts_at({0.6, 0.8}) == Approx(0.9 + 0.25));
}

TEST_CASE("check/tipping: bare posts hold up to the outer edges of their ends; W b/2h") {
  model::Parts parts = bench_of();
  const auto empty = [&] {
    const Rigid bench(parts);
    return *find(check::tipping(bench.answers(), tables()), "tipping/empty");
  };
  for (bench::Post& post : parts.bench.posts) post.foot.bare = true;
  // Posts of 38 mm: 900 x (0.3 + 0.019)/0.8976 = 320 N
  CHECK(empty().limit == Approx(0.9 * 900 * (0.3 + 0.019)));
  CHECK(empty().sentence.find("Empty, it tips at 33 kg of push across (320 N ") == 0);
  // Threads in front: over their middles.
  parts.bench.posts[0].foot.bare = parts.bench.posts[1].foot.bare = false;
  CHECK(empty().limit == Approx(0.9 * 900 * 0.3));
  CHECK(empty().place == "over the feet to the front");
  // Bolts in front hold at the middles of bare posts; forwards it can tip all the same.
  for (const std::size_t front : {0U, 1U}) {
    parts.bench.posts[front].foot.bare = parts.bench.posts[front].foot.fixed = true;
  }
  CHECK(check::free_edges(parts).size() == 1);
  CHECK(empty().limit == Approx(0.9 * 900 * 0.3));
}

TEST_CASE("check/tipping: bare ends are rectangles of 89 x 38 mm, in the model points; geometry") {
  model::Parts parts = four_feet();
  for (bench::Post& post : parts.bench.posts) post.foot.bare = true;
  const auto inside = [&](check::BareEnds ends) {
    double least = 1e3;
    for (const check::TippingEdge& edge : check::tipping_edges(parts, ends)) {
      least = std::min(least, edge.inside(0.9, 0.3));
    }
    return least;
  };
  CHECK(inside(check::BareEnds::whole) == Approx(0.3 + 0.019));
  CHECK(inside(check::BareEnds::middles) == Approx(0.3));
  // 10 mm past the middles of the front posts it still stands.
  parts.weights = {weight(Of::bench, "bench", 300, 0.9, -0.01)};
  CHECK_FALSE(check::beyond_feet(parts, check::Laden::empty).has_value());
  parts.weights = {weight(Of::bench, "bench", 300, 0.9, -0.03)};
  CHECK(check::beyond_feet(parts, check::Laden::empty)->distance == Approx(0.03 - 0.019));
}

TEST_CASE(
    "check/tipping: a part of the bench beyond its feet harms with 1.1; nothing holds it down") {
  model::Parts parts = bench_of();
  parts.weights.push_back(weight(Of::bench, "long top", 50, 0.9, -0.2));
  {
    const Rigid bench(parts);
    const auto findings = check::tipping(bench.answers(), tables());
    CHECK(find(findings, "tipping/empty")->demand == Approx(1.5 * 200 * h_top() + 1.1 * 50 * 0.2));
  }
  parts.weights.clear();
  const Rigid weightless(parts);
  const auto findings = check::tipping(weightless.answers(), tables());
  CHECK(find(findings, "tipping/empty")->judgement == Judgement::exceeded);
  CHECK(std::isfinite(find(findings, "tipping/empty")->ratio));
}

TEST_CASE("check/tipping: a bench without a top is pushed at its posts; no place to stand") {
  model::Parts parts = bench_of();
  parts.bench.sheets.clear();
  const Rigid bench(parts);
  const auto findings = check::tipping(bench.answers(), tables());
  CHECK_FALSE(find(findings, "tipping/person"));
  CHECK(find(findings, "tipping/empty")->demand == Approx(1.5 * 200 * 0.88));
}

TEST_CASE("check/tipping: turning the bench in plan changes no ratio") {
  const auto ratios = [](double angle) {
    model::Parts parts = bench_of();
    parts.bench.sheets.clear();
    parts.weights.push_back(weight(Of::machine, "drill press", 500, 0.4, 0.2));
    const double c = std::cos(angle), s = std::sin(angle);
    const auto turn = [&](quantity::Length& x, quantity::Length& y) {
      const quantity::Length x0 = x;
      x = c * x - s * y;
      y = s * x0 + c * y;
    };
    for (bench::Post& post : parts.bench.posts) turn(post.foot_x, post.foot_y);
    for (model::Weight& w : parts.weights) turn(w.x, w.y);
    const Rigid bench(parts);
    const auto findings = check::tipping(bench.answers(), tables());
    return find(findings, "tipping/push")->ratio;
  };
  for (const double angle : {0.3, 1.0, 2.0, 4.0}) {
    CHECK(ratios(angle) == Approx(ratios(0.0)).epsilon(1e-12));
  }
}

TEST_CASE("check/tipping: two feet, or a wall") {
  model::Parts parts = bench_of();
  parts.feet.resize(2);
  const Rigid two(parts);
  const auto findings = check::tipping(two.answers(), tables());
  REQUIRE(findings.size() == 1);
  CHECK(findings[0].kind == Kind::safety);
  CHECK(findings[0].judgement == Judgement::not_judged);
  CHECK_FALSE(findings[0].why.empty());
  parts.bench.wall.push_back({"back top rail", metres(0.9)});
  const Rigid wall(parts);
  const auto held = check::tipping(wall.answers(), tables());
  REQUIRE(held.size() == 1);
  CHECK(held[0].kind == Kind::caution);
  CHECK(held[0].judgement == Judgement::outside_this_tool);
  CHECK(check::sliding(wall.answers(), tables()).at(0).kind == check::Kind::told);
}

TEST_CASE("check/tipping: what the frame model refused as tipping is told beside") {
  Rigid bench(bench_of());
  bench.model.combinations = {
      combination("service-permanent", model::Purpose::service, model::Leading::permanent, {}),
      combination("strength", model::Purpose::strength, model::Leading::permanent, {})};
  const solve::OrRefusal<solve::State> refused = tl::unexpected(
      solve::Refusal{solve::Refusal::Why::tips, "the frame tips", "spread the feet", {}});
  bench.response.states.assign(2, refused);
  const auto findings = check::tipping(bench.answers(), tables());
  CHECK(findings.front().working.back() == "the frame model tips under service-permanent");
}

TEST_CASE("check/sliding: mu W over the push; the foot that grips least counts") {
  model::Parts parts = bench_of();
  {
    const Rigid bench(parts);
    const auto findings = check::sliding(bench.answers(), tables());
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].kind == Kind::caution);
    CHECK(findings[0].ratio == Approx(1.5 * 200 / (0.4 * 900)));  // plastic on concrete 0.4
  }
  {
    // 300 N are asked for (1.5 x 200 N); 0.4 x 749.5 N = 299.8 N is a miss that rounds to them.
    const Rigid nearly(bench_of(749.5));
    const auto findings = check::sliding(nearly.answers(), tables());
    CHECK(findings[0].judgement == Judgement::exceeded);
    CHECK(findings[0].sentence ==
          "Empty, it slides at a push of just under 300 N (31 kg); 300 N is asked for.");
  }
  parts.weights.push_back(weight(Of::machine, "lathe", 600, 0.9, 0.3));
  parts.bench.posts[2].foot.material = reference::FootMaterial::steel;  // 0.3
  {
    const Rigid bench(parts);
    const auto findings = check::sliding(bench.answers(), tables());
    const check::Finding* push = find(findings, "sliding/push");
    REQUIRE(push);
    CHECK(push->kind == Kind::safety);
    CHECK(push->ratio == Approx(300 / (0.3 * 1500)));
  }
  parts.bench.posts[2].foot.bare = true;  // timber 0.4
  parts.bench.floor.fall_x = 0.03;
  parts.bench.floor.fall_y = 0.04;
  {
    const Rigid bench(parts);
    CHECK(find(check::sliding(bench.answers(), tables()), "sliding/push")->ratio ==
          Approx(300 / (0.35 * 1500)));
  }
  parts.bench.floor.friction = 0.1;
  const Rigid slippery(parts);
  const auto findings = check::sliding(slippery.answers(), tables());
  CHECK(find(findings, "sliding/push")->judgement == Judgement::exceeded);
  CHECK_FALSE(find(findings, "sliding/push")->advice.empty());
  parts.bench.floor.friction = 0.01;
  const Rigid ice(parts);
  CHECK(find(check::sliding(ice.answers(), tables()), "sliding/push")->ratio > 1e3);
}

}  // namespace tipping_test
