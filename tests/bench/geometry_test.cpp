#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace geometry_test {

using bench_files::small_bench;

namespace {

std::string fault_of(const std::string& more) {
  const bench_files::Read read = bench_files::read("b.yaml", small_bench(more));
  CHECK_FALSE(read.bench);
  return read.messages;
}

bool has(const std::string& text, std::string_view words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("bench/geometry: a foot on a strip is named, with the places that are free") {
  const std::string text = fault_of("floor: {keep_off: [{from: -50 mm, to: 300 mm}]}\n");
  CHECK(has(text, "the foot of the front-left post"));
  CHECK(has(text, "the foot of the back-left post"));
  CHECK_FALSE(has(text, "right post"));
  CHECK(has(text, "at floor.keep_off[1]; write, for example: a post at 375 mm or more"));
}

TEST_CASE("bench/geometry: a strip at the back spares the front feet") {
  const std::string text =
      fault_of("floor: {keep_off: [{x: [0 mm, 200 mm], y: [400 mm, 600 mm]}]}\n");
  CHECK_FALSE(has(text, "front-left"));
  CHECK(has(text, "back-left"));
}

TEST_CASE("bench/geometry: a pad that only touches a strip does not stand on it") {
  // The foot's middle is at 44.5 mm, its pad reaches 25 mm further.
  CHECK(
      bench_files::read("b.yaml", small_bench("floor: {keep_off: [{from: 69.5 mm, to: 300 mm}]}\n"))
          .bench);
  CHECK(has(fault_of("floor: {keep_off: [{from: 69 mm, to: 300 mm}]}\n"), "front-left"));
}

TEST_CASE("bench/geometry: machines on the same ground are a warning only") {
  const bench_files::Read read = bench_files::read(
      "b.yaml",
      small_bench("machines:\n  - {kind: vice, at: middle}\n  - {kind: vice, at: middle}\n"));
  CHECK(read.bench);
  CHECK(has(read.messages, "warning: the vice and the vice 2 stand on the same ground"));
}

TEST_CASE("bench/geometry: a bracket that does not fit is a warning, given once") {
  std::string text = small_bench("");
  text.replace(text.find("width: 38 mm"), 12, "width: 60 mm");
  const bench_files::Read read = bench_files::read("b.yaml", text);
  CHECK(read.bench);
  CHECK(has(read.messages, "corner brackets 60 mm wide do not fit the 38 mm of timber"));
  CHECK(read.messages.find("warning", read.messages.find("warning") + 1) == std::string::npos);
}

TEST_CASE("bench/geometry: turning the posts helps where only their faces are narrow") {
  const std::string wide = "rails: {section: 70 x 89 mm}\n";
  std::string text = small_bench(wide);
  text.replace(text.find("width: 38 mm"), 12, "width: 60 mm");
  CHECK(has(bench_files::read("b.yaml", text).messages, "turn the posts"));
}

TEST_CASE("bench/geometry: rails that float, hang or cross are faults") {
  CHECK(has(fault_of("rails: {lower: {underside: 5 mm}}\n"), "hangs down to 5 mm, lower than"));
  CHECK(has(fault_of("rails: {more: [{side: left, underside: 600 mm}, {side: left, underside: 650 "
                     "mm}]}\n"),
            "the left rail 2 overlaps the left rail"));
  CHECK(has(fault_of("rails: {top: {seat: on top}}\n"), "overlaps"));
}

TEST_CASE("bench/geometry: a shelf through a rail, and two sheets in one place") {
  CHECK(has(fault_of("rails: {more: [{side: back, underside: 235 mm}]}\nshelf: 18 mm plywood\n"),
            "the back rail overlaps the back lower rail"));
  CHECK(has(fault_of("rails: {more: [{side: back, underside: 245 mm}]}\nshelf: 18 mm plywood\n"),
            "the shelf runs through the back rail"));
  CHECK(has(fault_of("shelf: [18 mm plywood, 12 mm plywood]\n"),
            "the shelf and the shelf 2 lie in the same place"));
}

TEST_CASE("bench/geometry: braces must rise and reach") {
  CHECK(has(fault_of("braces: {side: back, low: 800 mm, high: 300 mm}\n"), "does not rise"));
  CHECK(has(fault_of("braces: {side: back, high: 900 mm}\n"), "where there is none"));
  CHECK(
      has(fault_of("braces: {side: left, kind: knee, leg: 600 mm}\n"), "and that is 502 mm long"));
}

}  // namespace geometry_test
