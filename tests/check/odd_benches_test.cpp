// Benches that few build, or that only a file part by part describes: each branch is somebody's
// bench. Numbers by statics, beside each.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "check/bed.hpp"
#include "check/footprint.hpp"
#include "check/sag_line.hpp"
#include "check/section_forces.hpp"
#include "check/unbalance.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/pushes.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/sheets.hpp"
#include "standtrue/check/stability.hpp"
#include "standtrue/check/vibration.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/lathe_bench.hpp"
#include "tests/check/solved_bench.hpp"
#include "tests/solve/plate_models.hpp"

namespace odd_benches_test {

using namespace hand_built;
using check::Finding;
using check::Judgement;
using doctest::Approx;
using model::Leading;
using model::Purpose;
using quantity::in_si;
using solved_bench::Solved;
using tests::close_to;

namespace {

Solved solved(const std::string& more) {
  return solved_bench::solved(
      "standtrue: 1\n"
      "size: 1500 x 620 x 900 mm\n"
      "timber: C24 45 x 95 mm\n"
      "joints: two corner brackets\n"
      "analysis: {mesh: 200 mm}\n" +
      more);
}

const std::string top = "top: {sheet: 21 mm spruce plywood, load: none}\n";

bool tells(const Finding& f, const std::string& words) {
  return std::any_of(f.working.begin(), f.working.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

}  // namespace

TEST_CASE("check/odd_benches: on castors sliding is not judged, and says why") {
  const Solved bench = solved(top + "feet: {castor: 75 mm}\n");
  const auto found = check::sliding(bench.answers(), tables());
  REQUIRE(found.size() == 1);
  CHECK(found[0].id == "sliding/castors");
  CHECK(found[0].judgement == Judgement::not_judged);
  CHECK(found[0].why == "it stands on castors");
  CHECK(found[0].advice == "feet that take the weight off the castors while you work");
}

TEST_CASE("check/odd_benches: a frame without feet neither slides nor loads any") {
  const Rigid nothing{model::Parts()};
  CHECK(check::sliding(nothing.answers(), tables()).empty());
  CHECK(check::foot_load(nothing.answers(), tables()).empty());
}

TEST_CASE("check/odd_benches: a timber pad has no rating of its own; the floor has (feet.yaml)") {
  const Solved bench = solved(top + "feet: {material: timber}\n");
  const auto found = check::foot_load(bench.answers(), tables());
  REQUIRE(found.size() == 1);
  CHECK(found[0].id == "foot/floor");
}

TEST_CASE("check/odd_benches: a screw into the wall through a rail at the end pulls along") {
  // Its rail runs across at the right end: the wall is beyond it, a pull towards the left.
  model::Parts parts = four_feet();
  bench::Rail rail;
  rail.name = "right top rail";
  rail.from = 1;
  rail.to = 2;
  rail.along_x = false;
  parts.bench.rails = {rail};
  parts.bench.wall = {{"right top rail", metres(0.3)}, {"a rail that is gone", metres(0.3)}};
  parts.wall = {{"right top rail, 300 mm on", 12, 13, 14}, {"gone", 12, 13, 14}};
  Rigid bench(std::move(parts));
  bench.model.combinations = {combination("lean", Purpose::service, Leading::lean, {})};
  solve::State state;
  state.support_forces.assign(15, 0.0);
  state.support_forces[12] = 250.0;  // the wall pulls the frame to the right
  state.support_forces[13] = 30.0;
  state.support_forces[14] = 40.0;
  bench.response.states.emplace_back(std::move(state));
  const Finding f = *find(check::fixings(bench.answers(), tables()), "fixing/wall");
  CHECK(f.demand == Approx(250.0));
  CHECK(f.sentence.find("50 N") != std::string::npos);  // across it, 30 and 40 N together
}

TEST_CASE("check/odd_benches: a bench that falls by itself when emptied (statics)") {
  // Its feet lie behind its own weight, which the lathe at the back holds down.
  model::Parts parts = four_feet(1.8, 0.2);
  parts.weights = {weight(model::Weight::Of::bench, "bench", 300, 0.9, -0.1),
                   weight(model::Weight::Of::machine, "lathe", 2000, 0.9, 0.19)};
  parts.bench.sheets = {sheet("top", bench::SheetPlace::top, "spruce plywood", 18)};
  const Rigid bench(std::move(parts));
  const auto found = check::tipping(bench.answers(), tables());
  const Finding empty = *find(found, "tipping/empty");
  CHECK(empty.sentence.find("Empty, it falls over to the front by itself") == 0);
  CHECK(empty.sentence.find("100 mm beyond its feet") != std::string::npos);
  CHECK(empty.kind == check::Kind::caution);
}

TEST_CASE("check/odd_benches: weights that cancel to nothing stand inside no feet") {
  model::Parts parts = four_feet();
  CHECK_FALSE(check::beyond_feet(parts, check::Laden::empty).has_value());
  // Past the corner of the feet: beyond two edges, the farther one is told.
  parts.weights = {weight(model::Weight::Of::bench, "bench", 300, 2.0, 0.65)};
  const auto beyond = check::beyond_feet(parts, check::Laden::empty);
  REQUIRE(beyond.has_value());
  CHECK(beyond->distance == Approx(0.2));
  CHECK(beyond->edge.towards() == "to the right");
  parts.weights = {weight(model::Weight::Of::bench, "bench", 300, 1.85, 0.9)};
  CHECK(check::beyond_feet(parts, check::Laden::empty)->edge.towards() == "to the back");
}

TEST_CASE("check/odd_benches: posts above each other in the plan, in any order, have one outline") {
  const auto outline = check::convex_outline({{1, 1}, {0, 1}, {0, 0.5}, {0, 0}, {1, 0}, {1, 0.5}});
  REQUIRE(outline.size() == 4);
  CHECK(outline[0].x == 0.0);
  CHECK(outline[0].y == 0.0);
}

TEST_CASE(
    "check/odd_benches: a load of the file that pulls up asks nothing of the sheet under it") {
  Rigid bench(four_feet());
  bench.model.parts.bench.sheets = {sheet("top", bench::SheetPlace::top, "spruce plywood", 18)};
  bench::FreeLoad hoist, weight_on;
  hoist.name = "hoist";
  hoist.fz = newtons(200);
  weight_on.name = "anvil";
  weight_on.fz = newtons(-500);
  bench.model.parts.bench.loads = {hoist, weight_on};
  const auto found = check::under_added_loads(bench.answers(), tables());
  REQUIRE(found.size() == 1);
  CHECK(found[0].place == "top, under anvil");
}

TEST_CASE("check/odd_benches: the pushes of an unbalance lie across its spindle (definition)") {
  const model::Model m = lathe_bench::model_of({});
  const auto response = solve::static_response(m);
  REQUIRE(response.has_value());
  const auto modes = solve::modes(*response->prepared[1]);
  REQUIRE(modes.has_value());
  using Axis = bench::Machine::Axis;
  std::vector<double> amplitude;
  for (const Axis axis : {Axis::x, Axis::y, Axis::z}) {
    model::Model turned = m;
    turned.parts.bench.machines[0].spindle = axis;
    const check::Shaker shaker(turned, 0, *modes, {1.0, 1e-3, 5.0, 30.0});
    amplitude.push_back(shaker.at(12.0, 0.035).amplitude);
    CHECK(amplitude.back() > 0.0);
  }
  CHECK(amplitude[0] != amplitude[2]);
}

TEST_CASE(
    "check/odd_benches: points that do not lie apart have no slope; a row has one (geometry)") {
  const std::array<check::MovedPoint, 2> same{check::MovedPoint{1, 1, 0.1},
                                              check::MovedPoint{1, 1, 0.3}};
  CHECK(check::slope_of(same).x == 0.0);
  CHECK(check::slope_of(same).y == 0.0);
  const std::array<check::MovedPoint, 2> row{check::MovedPoint{0, 0, 0.0},
                                             check::MovedPoint{3, 4, 0.5}};
  CHECK(check::slope_of(row).x == Approx(0.06));  // 0.1 along (3, 4)/5
  CHECK(check::slope_of(row).y == Approx(0.08));
}

TEST_CASE("check/odd_benches: a machine on two pads leans as the corners of its pads do") {
  lathe_bench::Shop shop;
  lathe_bench::Solved bench = lathe_bench::solved(shop);
  std::vector<model::PadPlace>& pads = bench.model.parts.pads;
  REQUIRE(pads.size() == 4);
  pads.resize(2);
  const check::PlateAnswers plates = bench.plates();
  const auto rest = plates.of(pads[0].plate, check::is_at_rest);
  std::vector<check::MovedPoint> corners;
  for (const model::PadPlace& pad : pads) {
    for (const double x : {pad.where.x0, pad.where.x1}) {
      for (const double y : {pad.where.y0, pad.where.y1}) {
        corners.push_back({x, y, -rest[0].down(x, y)});
      }
    }
  }
  const check::Slope slope = *check::slope_of(bench.model.parts, 0, rest[0]);
  CHECK(slope.x == close_to(check::slope_of(corners).x, 1e-12));
  CHECK(slope.y == close_to(check::slope_of(corners).y, 1e-12));
}

TEST_CASE("check/odd_benches: one layer of four pads not in the model is told of no bed") {
  lathe_bench::Solved bench = lathe_bench::solved({});
  bench.model.parts.beds.clear();
  for (const std::string& line : check::level_lines(bench.model, bench.plates(), 0)) {
    CHECK(line.find("its fourth pad") == std::string::npos);
  }
}

TEST_CASE("check/odd_benches: a bed's own stiffness is not said to be assumed") {
  lathe_bench::Shop given;
  given.more = ", bed_twist: 90 kN m/rad";
  CHECK_FALSE(tells(lathe_bench::solved(given).finding(), "(assumed)"));
  CHECK(tells(lathe_bench::solved({}).finding(), "(assumed)"));
}

TEST_CASE("check/odd_benches: damp timber creeps by 1.0 more (EN 1995-1-1, 3.2(4))") {
  Rigid bench(four_feet());
  bench::Sheet shelf = sheet("shelf", bench::SheetPlace::shelf, "spruce plywood", 15);
  shelf.stored = quantity::pascals(400.0);
  bench.model.parts.bench.sheets = {shelf};
  model::SheetSpan span;
  span.bay = metres(0.6);
  span.effective_width = metres(0.5);
  bench.model.parts.spans = {span};
  const auto sags = [&](bool damp) {
    bench.model.parts.bench.bought_damp = damp;
    const auto found = check::sag_of_boards(bench.answers(), tables());
    const double at_once = find(found, "sag-board/shelf")->demand;
    return std::pair{at_once, find(found, "sag-board-final/shelf")->demand};
  };
  const auto [once, dry] = sags(false);
  const auto [same, damp] = sags(true);
  CHECK(once == same);
  CHECK(damp > dry);
}

TEST_CASE("check/odd_benches: a shove without a place is no sway; a post by its lower end too") {
  Solved bench = solved(top);
  for (model::Combination& c : bench.model.combinations) {
    if (c.leading == Leading::shove) c.place.reset();
  }
  CHECK(check::sway(bench.answers(), tables()).empty());
}

TEST_CASE("check/odd_benches: of two seated rails each has its own pressure (6.1.5)") {
  Solved bench = solved(top);
  for (model::Part& part : bench.model.parts.parts) {
    if (part.role == model::Role::rail) part.bearing = metres(0.04);
  }
  const check::SectionForces forces(bench.answers());
  const auto found = check::seat_bearing(bench.answers(), forces, tables());
  REQUIRE(found.size() >= 2);
  for (const Finding& f : found) {
    CHECK(f.judgement == Judgement::satisfied);
    // Told of the rail's own end.
    CHECK(f.place.rfind(f.id.substr(5, 4), 0) == 0);
  }
}

TEST_CASE("check/odd_benches: of allowable stress and as given as much superposes as of strength") {
  using model::SpringSet;
  for (const Leading leading : {Leading::permanent, Leading::stored, Leading::stand, Leading::lean,
                                Leading::shove, Leading::strong_shove}) {
    const auto knows = [&](Purpose purpose, SpringSet springs, bool second_order) {
      model::Combination c = combination("one", purpose, leading, {});
      c.springs = springs;
      c.second_order = second_order;
      return check::knows_the_place(c);
    };
    const bool lasts = leading == Leading::permanent || leading == Leading::stored;
    for (const Purpose purpose : {Purpose::strength, Purpose::allowable, Purpose::as_given}) {
      CHECK(knows(purpose, SpringSet::gravity, false) == (lasts || leading == Leading::stand));
      CHECK_FALSE(knows(purpose, SpringSet::sway, false));
      CHECK_FALSE(knows(purpose, SpringSet::gravity, true));
    }
    // Somebody standing is no load of service; a sway and a test are never the machine's.
    CHECK(knows(Purpose::service, SpringSet::gravity, false) == lasts);
    CHECK_FALSE(knows(Purpose::sway, SpringSet::gravity, false));
    CHECK_FALSE(knows(Purpose::test, SpringSet::gravity, false));
  }
}

}  // namespace odd_benches_test
