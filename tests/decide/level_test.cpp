// How far to turn the feet: sums by hand, laws, and the bench solved again as it was set.
#include "standtrue/decide/level.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "decide/least_turning.hpp"
#include "tests/check/lathe_bench.hpp"
#include "tests/solve/plate_models.hpp"

namespace level_test {

using namespace standtrue;
using lathe_bench::Shop;
using lathe_bench::Solved;
using quantity::in_si;
using quantity::millimetres;
using tests::close_to;

namespace {

model::Model idealised(const bench::Bench& bench) {
  model::Idealisation made =
      model::idealise(bench, bench_files::tables(), {model::Bound::mean, false, {}});
  REQUIRE(made.model);
  return *made.model;
}

/// The lathe's bench with feet so much too short, mm, in the order of its posts.
bench::Bench with_errors(const Shop& shop, const std::vector<double>& too_short) {
  bench::Bench bench = lathe_bench::model_of(shop).parts.bench;
  for (std::size_t p = 0; p < too_short.size(); ++p) {
    bench.posts.at(p).foot.height_error = millimetres(too_short[p]);
  }
  return bench;
}

decide::Levelling level(const Solved& bench) {
  return decide::level(bench.answers(), bench_files::tables());
}
decide::Levelling level(const bench::Bench& bench) { return level(Solved(idealised(bench))); }

/// What a level reads with feet set so, in a solution of its own.
check::LevelReading reading(const bench::Bench& bench) {
  const Solved solved(idealised(bench));
  const std::vector<check::FeetSet> as_it_is = {{{}, false}};
  const auto read =
      check::level_readings(solved.answers(), check::bed_to_level(solved.model.parts), as_it_is);
  REQUIRE(read);
  return read->front();
}

bool presses(const check::LevelReading& reading) {
  return std::all_of(reading.touches.begin(), reading.touches.end(), [](bool t) { return t; });
}

Shop heavy() {
  Shop shop;
  shop.machine = "mini metal lathe";
  shop.mounting = "bolted";
  shop.more = ", mass: 90 kg";
  return shop;
}

}  // namespace

TEST_CASE("decide/level: least turning of a rigid table on four feet, by hand") {
  // Feet at (∓a, ∓b) in turn. A rigid table's slopes are Σ x h/(4 a²) and Σ y h/(4 b²), and a warp
  // of the feet is (h_1 - h_2 + h_3 - h_4)/(2 b). These three are square to each other and to
  // lifting all alike, so that the least moves are x s_x + y s_y and ±t b/2.
  const double a = 0.7, b = 0.25;
  const std::vector<double> x = {-a, a, a, -a}, y = {-b, -b, b, b}, sign = {1, -1, 1, -1};
  std::vector<double> row_x, row_y, row_t;
  for (std::size_t i = 0; i < 4; ++i) {
    row_x.push_back(x[i] / (4 * a * a));
    row_y.push_back(y[i] / (4 * b * b));
    row_t.push_back(sign[i] / (2 * b));
  }
  const double s_x = 1e-3, s_y = -2e-3, t = 4e-4;
  decide::LeastTurning turning(4);
  CHECK(turning.hold(row_x, s_x));
  CHECK(turning.hold(row_y, s_y));
  CHECK(turning.hold(row_t, t));
  for (std::size_t i = 0; i < 4; ++i) {
    CHECK(turning.moves()[i] == close_to(x[i] * s_x + y[i] * s_y + sign[i] * t * b / 2.0, 1e-12));
  }
  // Of three feet nothing twists; the moves stay as they were.
  decide::LeastTurning three(3);
  CHECK(three.hold({-1.0, 1.0, 0.0}, 1e-3));
  CHECK(three.hold({-0.5, -0.5, 1.0}, 2e-3));
  const std::vector<double> before = three.moves();
  CHECK_FALSE(three.hold({2.0, -4.0, 2.0}, 1.0));
  CHECK(three.moves() == before);
}

TEST_CASE(
    "decide/level: conditions that are not square to each other are met, with the least moves") {
  decide::LeastTurning turning(3);
  const std::vector<double> p = {1.0, 2.0, 0.0}, q = {0.0, 1.0, 3.0};
  REQUIRE(turning.hold(p, 4.0));
  REQUIRE(turning.hold(q, -1.0));
  const std::vector<double>& h = turning.moves();
  CHECK(decide::dot(p, h) == close_to(4.0, 1e-12));
  CHECK(decide::dot(q, h) == close_to(-1.0, 1e-12));
  // The least moves have nothing of what changes neither: p × q.
  CHECK(std::abs(decide::dot({6.0, -3.0, 1.0}, h)) < 1e-12);
}

TEST_CASE("decide/level: a foot too short twists the lathe's bed; set as told, it has no twist") {
  for (const char* mounting : {"bolted", "standing"}) {
    Shop shop = heavy();
    shop.mounting = mounting;
    for (const std::vector<double>& errors :
         {std::vector<double>{0.0, 0.3, 0.0, 0.0}, {0.0, 0.0, 4.0, 0.0}}) {
      CAPTURE(mounting);
      CAPTURE(errors[2]);
      const bench::Bench bench = with_errors(shop, errors);
      const decide::Levelling set = level(bench);
      REQUIRE(set.why_none.empty());
      CHECK(set.machine == "mini metal lathe");
      CHECK(set.is_precise);
      CHECK(set.all_press);
      CHECK(set.is_level);
      CHECK(set.is_flat);
      CHECK_FALSE(set.shims);
      CHECK(set.rounds <= 1);
      REQUIRE(std::abs(set.now.twist) > 20e-6);
      CHECK(std::abs(set.after.twist) < 1e-3 * std::abs(set.now.twist));
      // The same in the file: what is turned out is less too short. All feet alike higher or lower
      // carry alike, so that none need be too long.
      bench::Bench as_set = bench;
      double most = 0.0;
      for (const decide::FootToSet& foot : set.feet) most = std::max(most, foot.out);
      for (std::size_t p = 0; p < as_set.posts.size(); ++p) {
        as_set.posts[p].foot.height_error += quantity::metres(most - set.feet[p].out);
      }
      const check::LevelReading after = reading(as_set);
      CHECK(presses(after));
      CHECK(std::abs(after.twist) < 1e-3 * std::abs(set.now.twist));
      CHECK(std::abs(after.x) < 1e-7);
      CHECK(std::abs(after.y) < 1e-7);
      for (std::size_t f = 0; f < set.feet.size(); ++f) {
        CHECK(after.presses[f] == close_to(set.feet[f].presses, 1e-5));
      }
    }
  }
}

TEST_CASE("decide/level: the least of the moves is none, and they are the least that do it") {
  const decide::Levelling set = level(with_errors(heavy(), {0.3, 0.0, 0.0, 0.0}));
  double least = 1.0, sum = 0.0;
  for (const decide::FootToSet& foot : set.feet) {
    least = std::min(least, foot.out);
    sum += foot.x * foot.out;
  }
  CHECK(least == 0.0);
  // They take out what the level read before: as every foot presses then and now.
  REQUIRE(presses(set.now));
  CHECK(sum == close_to(-set.now.x, 1e-4));
}

TEST_CASE("decide/level: feet too short by a plane are set by that plane and nothing else") {
  // Statics of a rigid body: a tilt of all feet together moves no force.
  const Shop shop = heavy();
  const bench::Bench plain = with_errors(shop, {});
  std::vector<double> errors;
  const double by_x = 2e-3, by_y = 1e-3;
  for (const bench::Post& post : plain.posts) {
    errors.push_back(1e3 * (by_x * in_si(post.foot_x) + by_y * in_si(post.foot_y)));
  }
  const decide::Levelling level_floor = level(plain), tilted = level(with_errors(shop, errors));
  CHECK(tilted.now.x == close_to(level_floor.now.x - by_x, 1e-6));
  CHECK(tilted.now.twist == close_to(level_floor.now.twist, 1e-4));
  const auto lower = [&](std::size_t f) {
    return (tilted.feet[f].out - level_floor.feet[f].out) -
           (tilted.feet[0].out - level_floor.feet[0].out);
  };
  for (std::size_t f = 0; f < 4; ++f) {
    CHECK(lower(f) * 1e3 - (errors[f] - errors[0]) == doctest::Approx(0.0).epsilon(1e-6));
  }
}

TEST_CASE("decide/level: a floor that falls 1 in 80 asks for exactly its fall, foot by foot") {
  bench::Bench bench = with_errors(heavy(), {});
  const decide::Levelling on_level = level(bench);
  CHECK_FALSE(on_level.falls);
  bench.floor.fall_x = 1.0 / 80.0;
  bench.floor.fall_y = -1.0 / 200.0;
  const decide::Levelling falling = level(bench);
  CHECK(falling.falls);
  CHECK(falling.alike.x == close_to(falling.now.x - 1.0 / 80.0, 1e-12));
  CHECK(falling.alike.y == close_to(falling.now.y + 1.0 / 200.0, 1e-12));
  double left = 1.0, back = 0.0;
  for (const bench::Post& post : bench.posts) {
    left = std::min(left, in_si(post.foot_x));
    back = std::max(back, in_si(post.foot_y));
  }
  double least = 1.0;
  for (std::size_t f = 0; f < 4; ++f) {
    const bench::Post& post = bench.posts[f];
    const double fall = (in_si(post.foot_x) - left) / 80.0 + (back - in_si(post.foot_y)) / 200.0;
    CHECK(std::abs(falling.feet[f].for_floor - fall) < 1e-12);
    // Stems that are turned out further press a little more: N e/(E A), 500 N on 20 mm of M10.
    CHECK(std::abs(falling.feet[f].for_load - on_level.feet[f].out) < 1e-6);
    least = std::min(least, falling.feet[f].for_floor + falling.feet[f].for_load);
  }
  for (const decide::FootToSet& foot : falling.feet) {
    CHECK(std::abs(foot.out - (foot.for_floor + foot.for_load - least)) < 1e-9);
    CHECK(foot.stem == close_to(in_si(bench.posts[0].foot.extension) + foot.out, 1e-12));
  }
}

TEST_CASE("decide/level: without a machine the top alone is levelled") {
  bench::Bench bench = with_errors(heavy(), {0.0, 1.0, 0.0, 0.0});
  bench.machines.clear();
  const decide::Levelling set = level(bench);
  REQUIRE(set.why_none.empty());
  CHECK(set.machine.empty());
  CHECK(std::hypot(set.now.x, set.now.y) > 1e-4);
  CHECK(std::hypot(set.after.x, set.after.y) < 1e-8);
  CHECK(set.is_level);
  CHECK(set.all_press);
  CHECK_FALSE(set.shims);
}

TEST_CASE(
    "decide/level: a wood lathe's bed is levelled, a metal lathe's before a heavier machine's") {
  Shop shop = heavy();
  shop.machine = "wood lathe";
  shop.x = 750;
  shop.y = 300;
  const Solved wood = lathe_bench::solved(shop);
  const decide::Levelling set = level(wood);
  CHECK(set.machine == "wood lathe");
  CHECK_FALSE(set.is_precise);
  model::Parts parts = lathe_bench::model_of(heavy()).parts;
  REQUIRE(parts.beds.size() == 1);
  parts.bench.machines.push_back(wood.model.parts.bench.machines.front());
  parts.bench.machines.back().mass = quantity::kilograms(300.0);
  model::BedPlace other = parts.beds.front();
  other.machine = 1;
  parts.beds.push_back(other);
  CHECK(check::bed_to_level(parts) == 0U);
  parts.bench.machines[0].kind.precise_bed = false;
  CHECK(check::bed_to_level(parts) == 1U);
  parts.beds.clear();
  CHECK_FALSE(check::bed_to_level(parts));
}

TEST_CASE(
    "decide/level: where a foot would lift, as little twist as feet that press leave, and shims") {
  // A heavy lathe on a thin top in one corner of a bench that is stiff against twist.
  Shop shop;
  shop.rail = 195;
  shop.top = 9;
  shop.x = 310;
  shop.y = 140;
  shop.more = ", mass: 250 kg";
  shop.bearers = R"(sheets:
  - {side: left, sheet: 12 mm spruce plywood}
  - {side: right, sheet: 12 mm spruce plywood}
  - {side: back, sheet: 12 mm spruce plywood}
)";
  shop.mounting = "bolted";
  const bench::Bench bench = with_errors(shop, {});
  const decide::Levelling set = level(bench);
  REQUIRE(set.why_none.empty());
  REQUIRE(set.shims);
  CHECK(set.all_press);
  CHECK(set.is_level);
  CHECK(set.is_flat);
  CHECK(std::abs(set.shims->feet_alone) > 1e-5);
  CHECK(std::abs(set.shims->feet_alone) < std::abs(set.now.twist));
  // With shims for all that the bare top warps the bed does nothing to it: the same as where no bed
  // is bolted down.
  double most = 0.0;
  for (const decide::FootToSet& foot : set.feet) most = std::max(most, foot.out);
  shop.mounting = "standing";
  bench::Bench bare = with_errors(shop, {});
  for (std::size_t p = 0; p < bare.posts.size(); ++p) {
    bare.posts[p].foot.height_error = quantity::metres(most - set.feet[p].out);
  }
  const check::LevelReading top = reading(bare);
  CHECK(presses(top));
  CHECK(2.0 * set.shims->thickness == close_to(std::abs(top.warp), 1e-5));
  CHECK(set.shims->pads[0] == (top.warp > 0.0 ? "front-right" : "front-left"));
  CHECK(std::abs(top.x) < 1e-6);
  CHECK(std::abs(top.y) < 1e-6);
  for (std::size_t f = 0; f < 4; ++f) {
    CHECK(top.presses[f] == close_to(set.feet[f].presses, 1e-4));
  }
  // What the feet alone leave is where one of them just presses: set for less, it lifts or nearly.
  // The feet of the bolted bench at that least are found here by warping it step by step.
  bench::Bench warped = bench;
  double least = std::abs(set.now.twist);
  for (double by = 0.0; by < 8e-3; by += 0.5e-3) {
    for (bench::Post& post : warped.posts) {
      const bool is_front = in_si(post.y) < 0.3, is_left = in_si(post.x) < 0.7;
      const bool goes_down = (is_front == is_left) == (set.now.twist > 0.0);
      post.foot.height_error = quantity::metres(goes_down ? by : 0.0);
    }
    const check::LevelReading tried = reading(warped);
    if (presses(tried)) least = std::min(least, std::abs(tried.twist));
  }
  CHECK(std::abs(set.shims->feet_alone) > 0.8 * least);
}

TEST_CASE("decide/level: of six feet the one that would lift is held down to its least") {
  bench::Bench bench = bench_files::sound(R"(
standtrue: 1
size: 2400 x 600 x 880 mm
timber: C24 45 x 145 mm
posts: {section: 70 x 70 mm, stations: [0 mm, 1175 mm, 2350 mm]}
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
machines: [{kind: mini metal lathe, mass: 90 kg, at: [500 mm, 200 mm], mounting: bolted}]
)");
  REQUIRE(bench.posts.size() == 6);
  for (bench::Post& post : bench.posts) {
    if (post.name == "back-middle post") post.foot.height_error = millimetres(6.0);
  }
  const decide::Levelling set = level(bench);
  REQUIRE(set.why_none.empty());
  CHECK_FALSE(presses(set.now));
  CHECK(set.all_press);
  CHECK(set.is_level);
  CHECK(set.is_flat);
  double weight = 0.0;
  for (const decide::FootToSet& foot : set.feet) weight += foot.presses;
  for (const decide::FootToSet& foot : set.feet) {
    CAPTURE(foot.name);
    CHECK(foot.presses >= 0.05 * weight / 6.0 * (1.0 - 1e-4));
  }
}

TEST_CASE(
    "decide/level: what the sum leaves in second order is taken off when it is solved again") {
  const model::Model model = idealised(with_errors(heavy(), {0.0, 6.0, 0.0, 0.0}));
  solve::PlateCache plates;
  const auto response =
      solve::static_response(model, plates, std::numeric_limits<double>::infinity());
  REQUIRE(response);
  REQUIRE(response->second_order);
  const decide::Levelling set = decide::level({model, *response}, bench_files::tables());
  REQUIRE(set.why_none.empty());
  CHECK(set.rounds >= 1);
  CHECK(set.all_press);
  CHECK(std::abs(set.after.x) <= 1e-9);
  CHECK(std::abs(set.after.y) <= 1e-9);
  CHECK(std::abs(set.after.twist) <= 1e-9);
}

TEST_CASE("decide/level: a bench on a wall is set as if its screws were loose") {
  const std::string text = bench_files::small_bench(
      "feet: M10\nmachines: [{kind: mini metal lathe, at: middle, mounting: bolted}]\n");
  const auto with_a_short_foot = [](bench::Bench bench) {
    bench.posts[1].foot.height_error = millimetres(1.0);
    return level(bench);
  };
  const decide::Levelling free = with_a_short_foot(bench_files::sound(text));
  const decide::Levelling held = with_a_short_foot(
      bench_files::sound(text + "wall: {rail: back top rail, at: [300 mm, 1500 mm]}\n"));
  CHECK(held.leaves_wall);
  CHECK_FALSE(free.leaves_wall);
  REQUIRE(held.feet.size() == 4);
  // The bed's share of the warp is that of the bench on its wall: it scales the twist alone.
  for (std::size_t f = 0; f < 4; ++f) {
    CHECK(std::abs(held.feet[f].out - free.feet[f].out) < 1e-7);
    CHECK(held.feet[f].presses == close_to(free.feet[f].presses, 1e-4));
  }
}

TEST_CASE("decide/level: posts without feet are packed up; a plate that is none leaves the top") {
  Shop shop = heavy();
  bench::Bench bench = with_errors(shop, {0.0, 0.3, 0.0, 0.0});
  for (bench::Post& post : bench.posts) post.foot.bare = true;
  for (const decide::FootToSet& foot : level(bench).feet) CHECK(foot.pitch == 0.0);
  shop.sheets = "sheets: strip";
  const decide::Levelling top = level(lathe_bench::solved(shop));
  CHECK(top.machine.empty());
  CHECK(top.why_no_bed.find("mini metal lathe") != std::string::npos);
}

TEST_CASE("decide/level: every thread has its pitch, that of its root: d - 1.226869 P (ISO 724)") {
  const reference::Tables& tables = bench_files::tables();
  REQUIRE(tables.feet.size() >= 4);
  for (const reference::Foot& foot : tables.feet) {
    const double pitch = tables.constant("pitch " + foot.key).value;
    // Roots are printed to a micrometre.
    CHECK(std::abs(in_si(foot.diameter) - 1.226869 * pitch - in_si(foot.root)) < 0.6e-6);
  }
}

}  // namespace level_test
