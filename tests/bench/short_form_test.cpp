#include <algorithm>

#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace short_form_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::mm;
using bench_files::named;
using doctest::Approx;

namespace {

constexpr std::string_view short_form = R"(standtrue: 1
size: 2050 x 680 x 900 mm
timber: C16 38 x 89 mm
joints: corner brackets
top: 18 mm spruce plywood
shelf: {sheet: 18 mm spruce plywood, load: 50 kg/m2}
floor: {surface: concrete, keep_off: [{from: 600 mm, to: 1450 mm}]}
machines:
  - {kind: drill press, mass: 60 kg, at: middle}
  - {kind: bench grinder, at: [300 mm, 340 mm]}
)";

}  // namespace

TEST_CASE("bench/short form: four posts flush outside, wide face along, under a 25 mm overhang") {
  const bench::Bench b = bench_files::sound(short_form);
  REQUIRE(b.posts.size() == 4);
  const bench::Post& post = named(b.posts, "front-left post");
  CHECK(mm(post.along_x) == Approx(89.0));
  CHECK(mm(post.along_y) == Approx(38.0));
  CHECK(mm(post.x) == Approx(44.5));
  CHECK(mm(post.y) == Approx(19.0));
  CHECK(mm(post.bottom) == Approx(25.0));
  CHECK(mm(post.top) == Approx(882.0));
  CHECK(mm(named(b.posts, "back-right post").x) == Approx(2000.0 - 44.5));
  CHECK(mm(named(b.posts, "back-right post").y) == Approx(630.0 - 19.0));
}

TEST_CASE("bench/short form: rails on edge, flush with the posts' outer faces and tops") {
  const bench::Bench b = bench_files::sound(short_form);
  REQUIRE(b.rails.size() == 8);
  const bench::Rail& front = named(b.rails, "front top rail");
  CHECK(front.along_x);
  CHECK(front.seat == bench::Seat::between);
  CHECK(mm(front.height) == Approx(882.0 - 44.5));
  CHECK(mm(front.depth) == Approx(89.0));
  CHECK(mm(front.aside) == Approx(0.0));
  const bench::Rail& left = named(b.rails, "left lower rail");
  CHECK_FALSE(left.along_x);
  CHECK(left.level == bench::Level::lower);
  CHECK(mm(left.height) == Approx(150.0 + 44.5));
  CHECK(mm(left.aside) == Approx(-(89.0 - 38.0) / 2.0));
  CHECK(mm(named(b.rails, "right lower rail").aside) == Approx((89.0 - 38.0) / 2.0));
  CHECK(b.posts[left.from].name == "front-left post");
  CHECK(b.posts[left.to].name == "back-left post");
  CHECK(left.start.kind.key == "corner brackets");
}

TEST_CASE("bench/short form: the top lies on the top rails, the shelf on the lower ones") {
  const bench::Bench b = bench_files::sound(short_form);
  const bench::Sheet& top = named(b.sheets, "top");
  CHECK(mm(top.x0) == Approx(-25.0));
  CHECK(mm(top.x1) == Approx(2025.0));
  CHECK(mm(top.y1) == Approx(655.0));
  CHECK(mm(top.underside) == Approx(882.0));
  CHECK(top.rails.size() == 4);
  CHECK(top.grain_along_x);                      // 2050 mm: across its grain no sheet is so wide
  CHECK(mm(top.screws.length) == Approx(50.0));  // 18 mm and 7 d into the rail
  CHECK(mm(top.screws.every) == Approx(250.0));
  const bench::Sheet& shelf = named(b.sheets, "shelf");
  CHECK(mm(shelf.underside) == Approx(239.0));
  CHECK(shelf.rails.size() == 4);
  CHECK(shelf.cut_outs.size() == 4);
  CHECK(quantity::in_si(*shelf.stored) == Approx(50.0 * 9.80665));
  CHECK_FALSE(shelf.stored_assumed);
}

TEST_CASE("bench/short form: 20 kg in all is assumed on the top") {
  const bench::Bench b = bench_files::sound(short_form);
  const bench::Sheet& top = named(b.sheets, "top");
  CHECK(top.stored_assumed);
  CHECK(quantity::in_si(*top.stored) * 2.05 * 0.68 == Approx(20.0 * 9.80665));
}

TEST_CASE("bench/short form: machines stand where the top's front-left corner puts them") {
  const bench::Bench b = bench_files::sound(short_form);
  const bench::Machine& drill = named(b.machines, "drill press");
  CHECK(mm(drill.x) == Approx(1000.0));
  CHECK(mm(drill.y) == Approx(315.0));
  CHECK(quantity::in_si(drill.mass) == Approx(60.0));
  const bench::Machine& grinder = named(b.machines, "bench grinder");
  CHECK(mm(grinder.x) == Approx(275.0));
  CHECK(mm(grinder.y) == Approx(315.0));
  CHECK(quantity::in_si(grinder.mass) == Approx(20.0));
  CHECK_FALSE(grinder.bolted);
}

TEST_CASE("bench/short form: a strip to keep off spans the depth and leaves the rails alone") {
  const bench::Bench b = bench_files::sound(short_form);
  REQUIRE(b.floor.keep_off.size() == 1);
  CHECK(mm(b.floor.keep_off[0].x0) == Approx(600.0));
  CHECK(mm(b.floor.keep_off[0].x1) == Approx(1450.0));
  CHECK(mm(b.floor.keep_off[0].y1) == Approx(655.0));
  CHECK(named(b.rails, "front lower rail").from == 0);
}

TEST_CASE("bench/short form: the face grain runs as a sheet that is bought can be cut") {
  // Sheets of 2440 x 1220 mm (common practice, no source).
  const auto top_of = [](const std::string& size) {
    return named(bench_files::sound("standtrue: 1\nsize: " + size +
                                    " x 900 mm\ntimber: C24 45 x 95 mm\njoints: corner brackets\n"
                                    "top: 18 mm spruce plywood\n")
                     .sheets,
                 "top");
  };
  CHECK_FALSE(top_of("1200 x 600").grain_along_x);
  CHECK(top_of("1240 x 600").grain_along_x);
}

TEST_CASE("bench/short form: every default is said") {
  const bench::Bench b = bench_files::sound(short_form);
  CHECK(b.duty.key == "general");
  CHECK(b.air.key == "unheated");
  CHECK(b.posts[0].foot.thread.key == "M10");
  for (const std::string_view words :
       {"four posts flush outside", "rails on edge", "lower rails all round", "overhangs",
        "no bearers", "face grain", "screws 4 mm x 50 mm every 250 mm", "M10 feet", "general duty",
        "service class 2", "20 kg of small things", "bench grinder: 20 kg"}) {
    CAPTURE(words);
    CHECK(assumes(b, words));
  }
  CHECK_FALSE(assumes(b, "C16"));
}

TEST_CASE("bench/short form: unmarked timber is taken for C16, and that is said") {
  std::string text = bench_files::small_bench("");
  text.replace(text.find("C16 38"), 4, "");
  const bench::Bench b = bench_files::sound(text);
  CHECK(b.posts[0].stock.timber.key == "C16");
  CHECK_FALSE(b.posts[0].stock.marked);
  CHECK(assumes(b, "C16 timber: the file names no class"));
  CHECK(assumes(bench_files::sound("standtrue: 1\nsize: 1880 x 590 x 860 mm\n"
                                   "timber: 89 x 38 mm pine\ntop: 18 mm plywood\n"),
                "C16 timber where the file says 'pine'"));
}

TEST_CASE("bench/short form: the sides of a section are read in any order") {
  const bench::Bench b = bench_files::sound(
      "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: 89 x 38 mm C24\ntop: 18 mm plywood\n");
  CHECK(mm(b.posts[0].stock.thickness) == Approx(38.0));
  CHECK(mm(b.posts[0].stock.depth) == Approx(89.0));
  CHECK(b.posts[0].stock.timber.key == "C24");
  CHECK(b.posts[0].stock.marked);
}

TEST_CASE(
    "bench/short form: a whole sheet, 25 mm over all round, leaves a frame of 2390 x 1170 mm") {
  // Common practice, no source: sheets come 2440 x 1220 mm; 900 mm suits standing machine work.
  const bench::Bench b = bench_files::sound(R"(
standtrue: 1
size: 2440 x 1220 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 18 mm spruce plywood
)");
  double x = 0.0, y = 0.0;
  for (const bench::Post& post : b.posts) {
    x = std::max(x, quantity::in_si(post.x + post.along_x / 2.0));
    y = std::max(y, quantity::in_si(post.y + post.along_y / 2.0));
  }
  CHECK(x == doctest::Approx(2.390).epsilon(1e-9));
  CHECK(y == doctest::Approx(1.170).epsilon(1e-9));
}

}  // namespace short_form_test
