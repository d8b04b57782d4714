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

/// 860 mm less 18 mm of top, 18 mm of shelf and 150 + 89 mm of lower rails are 585 mm.
TEST_CASE("bench/free places: what stands on a shelf is as high as is free, or under a cut-out") {
  const std::string shelf = "shelf: 18 mm spruce plywood\nmachines:\n  - {kind: ";
  const std::string place = ", at: [500 mm, 270 mm], sheet: shelf}\n";
  CHECK(sound(small_bench(shelf + "band saw, height: 585 mm" + place)).machines.size() == 1);
  const std::string high = small_bench(shelf + "band saw, height: 590 mm" + place);
  CHECK(bench_files::read("b.yaml", high).messages.find("585 mm are free") != std::string::npos);
  // Its pads take 340 x 290 mm; the shelf begins 25 mm further in than the top.
  std::string cut = high;
  cut.replace(cut.find("top: 18 mm spruce plywood"), 25,
              "top: {sheet: 18 mm spruce plywood, cut_outs: [{from: [300 mm, 100 mm], "
              "to: [760 mm, 500 mm]}]}");
  CHECK(sound(cut).machines.size() == 1);
}

}  // namespace free_places_test
