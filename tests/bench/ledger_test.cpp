// A ledger in place of back posts, as the bench file tells it. Lengths in mm, statics of the file's
// own sizes: 1880 x 590 mm, 25 mm of overhang in front and at the ends, none at the wall.
#include "standtrue/bench/ledger.hpp"

#include <doctest/doctest.h>

#include <algorithm>

#include "tests/bench/bench_files.hpp"

namespace ledger_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::mm;
using bench_files::named;
using bench_files::small_bench;
using bench_files::sound;
using doctest::Approx;

namespace {

const std::string on_wall = "wall: {ledger: 38 x 89 mm, screws: [100 mm, 900 mm, 1700 mm]}\n";

bool has(const std::vector<bench::Rail>& rails, const std::string& name) {
  return std::any_of(rails.begin(), rails.end(),
                     [&](const bench::Rail& rail) { return rail.name == name; });
}

}  // namespace

TEST_CASE("bench/ledger: stations take the place of back posts, the ledger that of the back rail") {
  const bench::Bench b = sound(small_bench(on_wall));
  REQUIRE(b.posts.size() == 4);
  CHECK_FALSE(b.posts[0].on_wall);
  CHECK(b.posts[2].on_wall);
  CHECK(b.posts[2].name == "left end of the ledger");
  CHECK(b.posts[3].name == "right end of the ledger");
  const bench::Rail* ledger = bench::ledger_of(b);
  REQUIRE(ledger);
  CHECK(ledger->name == "ledger");
  CHECK(mm(bench::ledger_length(b, *ledger)) == Approx(1830));
  CHECK(mm(bench::fixings_start(b, *ledger)) == Approx(0).epsilon(1e-9));
  // Its back face is where the top ends: at 590 - 25 mm.
  CHECK(mm(b.posts[2].y) == Approx(565 - 19));
  CHECK(mm(b.sheets[0].y1) == Approx(565));
  CHECK(mm(b.posts[2].top) == Approx(860 - 18));
  CHECK(mm(b.posts[2].bottom) == Approx(860 - 18 - 89));
  CHECK(mm(ledger->height) == Approx(860 - 18 - 44.5));
  CHECK_FALSE(has(b.rails, "back top rail"));
  CHECK_FALSE(has(b.rails, "left lower rail"));
  CHECK(has(b.rails, "front lower rail"));
  const bench::Rail& left = named(b.rails, "left top rail");
  CHECK(b.posts[left.to].on_wall);
  CHECK(left.start.place == "under");
  CHECK(left.end.place == "inside face");
  CHECK(left.end.kind.pieces == 1);
  CHECK(assumes(b, "ends at the wall"));
  CHECK(assumes(b, "a ledger has no posts for others"));
  CHECK(assumes(b, "one bracket beside each rail that ends on the ledger"));
  CHECK(assumes(b, "the wall holds the screws"));
  REQUIRE(b.wall.size() == 3);
  CHECK(b.wall[1].rail == "ledger");
  CHECK(mm(b.wall[1].at) == Approx(900));
  CHECK(bench::ledger_of(sound(small_bench(""))) == nullptr);
}

TEST_CASE("bench/ledger: screws evenly, 50 mm from its ends, no wider than asked (ours)") {
  const auto screws = [](const std::string& more) {
    std::vector<double> at;
    const bench::Bench b = sound(small_bench("wall: {ledger: 38 x 89 mm" + more + "}\n"));
    for (const bench::WallFixing& fixing : b.wall) at.push_back(mm(fixing.at));
    return at;
  };
  // 1730 mm between the outer ones: five gaps of 346 mm, or two of 865 mm.
  const std::vector<double> usual = screws("");
  REQUIRE(usual.size() == 6);
  CHECK(usual.front() == Approx(50));
  CHECK(usual[1] == Approx(50 + 346));
  CHECK(usual.back() == Approx(1780));
  CHECK(screws(", screws_every: 865 mm").size() == 3);
  CHECK(screws(", screws_every: 864 mm").size() == 4);
  CHECK(screws(", screws: [1700 mm, 60 mm]").front() == Approx(60));
  CHECK(assumes(sound(small_bench("wall: {ledger: 38 x 89 mm}\n")),
                "6 screws through the ledger into the wall"));
}

TEST_CASE(
    "bench/ledger: middle posts get a station and a rail behind them, the ledger stays whole") {
  const bench::Bench b =
      sound(small_bench("posts: {stations: [0 mm, 900 mm, 1830 mm]}\n" + on_wall));
  REQUIRE(b.posts.size() == 6);
  CHECK(b.posts[4].name == "middle of the ledger");
  const bench::Rail& middle = named(b.rails, "middle top rail");
  CHECK(middle.to == 4);
  const bench::Rail* ledger = bench::ledger_of(b);
  REQUIRE(ledger);
  CHECK(ledger->from == 3);
  CHECK(ledger->to == 5);
  CHECK(std::count_if(b.rails.begin(), b.rails.end(),
                      [](const bench::Rail& r) { return r.on_wall; }) == 1);
}

TEST_CASE("bench/ledger: a deeper one leaves a bracket its place under the rail") {
  const bench::Bench b = sound(small_bench("wall: {ledger: 38 x 235 mm}\n"));
  const bench::Rail& left = named(b.rails, "left top rail");
  CHECK(left.end.place == "under");  // 235 - 89 mm under it, more than the leg of 100 mm
}

TEST_CASE("bench/ledger: gussets and half laps find no room on it, brackets take their place") {
  for (const char* joint : {"plywood gusset", "half lap"}) {
    const bench::Bench b =
        sound("standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C16 38 x 89 mm\njoints: " +
              std::string(joint) + "\nrails: {top: {front: {joint: corner brackets}}}\n" +
              "top: 18 mm spruce plywood\n" + on_wall);
    const bench::Rail& left = named(b.rails, "left top rail");
    CHECK(left.start.kind.key == joint);
    CHECK(left.end.kind.key == "corner brackets");
    CHECK(left.end.place == "inside face");
    CHECK(assumes(b, "corner brackets where the rails end on the ledger"));
  }
}

TEST_CASE("bench/ledger: `none` is no ledger, and one overhang for all edges stops at the wall") {
  const bench::Bench none = sound(small_bench("wall: {ledger: none}\n"));
  CHECK(bench::ledger_of(none) == nullptr);
  CHECK_FALSE(assumes(none, "the wall holds the screws"));
  const bench::Bench b = sound(
      "standtrue: 1\nsize: 1880 x 590 x 860 mm\ntimber: C16 38 x 89 mm\n"
      "top: {sheet: 18 mm spruce plywood, overhang: 40 mm}\n" +
      on_wall);
  CHECK(mm(b.sheets[0].y0) == Approx(-40));
  CHECK(mm(b.posts[3].y) == Approx(590 - 40 - 19));
}

}  // namespace ledger_test
