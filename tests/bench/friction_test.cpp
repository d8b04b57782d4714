// What feet hold sideways. The values themselves: reference/feet.yaml.
#include "standtrue/bench/friction.hpp"

#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace friction_test {

using namespace standtrue;

TEST_CASE(
    "bench/friction: the fall of a floor takes its slope from mu (tan of the angle, statics)") {
  bench::Bench bench = bench_files::sound(bench_files::small_bench("floor: concrete\n"));
  const bench::Foot& foot = bench.posts.front().foot;
  const double level = bench::friction(bench.floor, foot).value();
  CHECK(level == bench.floor.surface.friction(foot.material));
  bench.floor.fall_x = 0.03;
  bench.floor.fall_y = -0.04;  // 5 in 100 the steepest way
  CHECK(bench::friction(bench.floor, foot).value() == doctest::Approx(level - 0.05));
}

TEST_CASE("bench/friction: a bare post touches with timber, the file's value goes before both") {
  bench::Bench bench = bench_files::sound(bench_files::small_bench("feet: bare\nfloor: tiles\n"));
  const bench::Foot& foot = bench.posts.front().foot;
  CHECK(bench::friction(bench.floor, foot).value() ==
        bench.floor.surface.friction(reference::FootMaterial::timber));
  bench.floor.friction = 0.2;
  CHECK(bench::friction(bench.floor, foot).value() == 0.2);
}

}  // namespace friction_test
