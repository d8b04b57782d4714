#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

/// Places that a part or a machine can have, beside those whose refusal is in tests/messages.
namespace free_places_test {

using namespace standtrue;
using bench_files::named;
using bench_files::small_bench;
using bench_files::sound;

TEST_CASE(
    "bench/free places: rails on the outer faces of the long sides leave the ends to sheets") {
  std::string text = small_bench(R"(rails:
  top: {long: {joint: bolted lap}}
  lower: {long: {joint: bolted lap}}
sheets: [{side: left, sheet: 9 mm spruce plywood}]
)");
  CHECK(named(sound(text).sheets, "left end sheet").rails.size() == 2);
  text.replace(text.find("side: left"), 10, "side: back");
  CHECK(bench_files::read("b.yaml", text).messages.find("the same faces") != std::string::npos);
}

}  // namespace free_places_test
