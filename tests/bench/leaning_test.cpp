// How far stems stand out on a floor that falls: fall times distance, statics of nothing but
// levels.
#include "standtrue/bench/leaning.hpp"

#include <doctest/doctest.h>

#include <string>

#include "tests/bench/bench_files.hpp"

namespace leaning_test {

using namespace standtrue;
using namespace bench_files;
using doctest::Approx;

namespace {

/// Feet 1741 mm apart along and 502 mm across: 1830 x 540 mm outside, less posts of 89 x 38 mm.
bench::Bench on_floor(const std::string& floor, const std::string& more = "") {
  return sound(small_bench("floor: {surface: concrete" + floor + "}\n" + more));
}

double stem(const bench::Bench& bench, const char* post) {
  return mm(bench::free_stem(bench, named(bench.posts, post)));
}

const char* const falls = ", fall: [1 in 25 to right, 1 in 50 to front]";

}  // namespace

TEST_CASE("bench/leaning: stems of feet set for a fall, by hand 1741/25 and 502/50 mm longer") {
  const bench::Bench b = on_floor(falls);
  CHECK(stem(b, "back-left post") == Approx(25.0));  // where the floor is highest
  CHECK(stem(b, "back-right post") == Approx(25.0 + 69.64));
  CHECK(stem(b, "front-left post") == Approx(25.0 + 10.04));
  CHECK(stem(b, "front-right post") == Approx(25.0 + 69.64 + 10.04));
  CHECK(mm(named(b.posts, "front-right post").bottom) == Approx(25.0));  // posts are alike
  CHECK(assumes(b, "the bench stands upright, the longest stem is 105 mm"));
}

TEST_CASE("bench/leaning: no stem grows on a level floor, by `levelled: no` or of what is packed") {
  CHECK(stem(on_floor(""), "front-right post") == Approx(25.0));
  CHECK(stem(on_floor(std::string(falls) + ", levelled: no"), "front-right post") == Approx(25.0));
  const bench::Bench bolted =
      on_floor(falls, "feet: {each: {front-right post: {fixed: yes, extension: 30 mm}}}\n");
  CHECK(stem(bolted, "front-right post") == Approx(30.0));
  CHECK(stem(bolted, "back-right post") == Approx(25.0 + 69.64));
  CHECK(assumes(bolted, "the longest stem is 94.6 mm"));
  const bench::Bench cut = on_floor(std::string(falls) + ", levelled: yes", "feet: none\n");
  CHECK(stem(cut, "front-right post") == 0.0);
  CHECK_FALSE(assumes(cut, "longest stem"));
  const bench::Bench rolls = on_floor(falls, "feet: {castor: 75 mm}\n");
  CHECK(stem(rolls, "front-right post") == Approx(100.0));  // its height
}

TEST_CASE("bench/leaning: a bench on the wall is told of its stems too, where they are set") {
  const std::string wall = "wall: {rail: back top rail}\n";
  CHECK(assumes(on_floor(falls, wall), "the longest stem is 105 mm"));
  CHECK_FALSE(assumes(on_floor(std::string(falls) + ", levelled: no", wall), "fall of the floor"));
}

}  // namespace leaning_test
