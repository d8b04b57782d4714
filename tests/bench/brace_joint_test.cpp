#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace brace_joint_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::small_bench;
using bench_files::sound;
using doctest::Approx;
using quantity::in_si;

TEST_CASE("bench/brace joint: stiffness and resistance along it are kept, as the file gives them") {
  const bench::Bench b =
      sound(small_bench("braces: {side: back, kind: cross, joint: {stiffness: {along: 0.2 kN/mm}, "
                        "resistance: {shear: 2 kN}}}\n"));
  REQUIRE(b.braces.size() == 2);
  for (const bench::Brace& brace : b.braces) {
    CHECK(in_si(*brace.slip) == Approx(0.2e6));
    CHECK(in_si(*brace.resistance) == Approx(2000.0));
  }
}

TEST_CASE("bench/brace joint: without kind and fasteners it is the usual bolts, which is said") {
  const char* said = "the back brace bolted on with two M";
  const bench::Bench b =
      sound(small_bench("braces: {side: back, joint: {stiffness: {along: 2 kN/mm}}}\n"));
  CHECK(b.braces[0].joint.key == "bolted lap");
  CHECK(assumes(b, said));
  const bench::Bench named = sound(
      small_bench("braces: {side: back, joint: {bolts: M10, stiffness: {along: 2 kN/mm}}}\n"));
  CHECK(named.braces[0].joint.key == "bolted lap");
  CHECK(in_si(named.braces[0].joint.fastener_diameter) == Approx(0.010));
  CHECK_FALSE(assumes(named, said));
  const bench::Bench kind = sound(small_bench(
      "braces: {side: back, joint: {kind: screwed lap, stiffness: {along: 2 kN/mm}}}\n"));
  CHECK(kind.braces[0].joint.key == "screwed lap");
  CHECK(in_si(*kind.braces[0].slip) == Approx(2e6));
}

}  // namespace brace_joint_test
