#include <doctest/doctest.h>

#include <ostream>
#include <string>

#include "standtrue/quantity/unit_text.hpp"

namespace sizes_test {

using namespace standtrue::quantity;

namespace {

void check_pair(const std::string& text, double first, double second) {
  INFO(text);
  const auto pair = parse_pair(text);
  REQUIRE_MESSAGE(pair, pair.error().what);
  CHECK(in_si((*pair)[0]) == doctest::Approx(first).epsilon(1e-15));
  CHECK(in_si((*pair)[1]) == doctest::Approx(second).epsilon(1e-15));
}

struct Bad {
  std::string text;
  std::size_t offset;
  std::size_t length;
  const char* what;
  const char* instead;
};

std::string run_of(const std::string& text) {
  const LengthRun run = find_length_run(text);
  return text.substr(run.offset, run.length);
}

}  // namespace

TEST_CASE("sizes: a section in millimetres, inches, or each figure in its own unit") {
  check_pair("38 x 89 mm", 0.038, 0.089);
  check_pair(" 38x89 mm ", 0.038, 0.089);
  check_pair("38mmx89mm", 0.038, 0.089);
  check_pair("38 X 89 mm", 0.038, 0.089);
  check_pair("38 \xC3\x97 89 mm", 0.038, 0.089);
  check_pair("1 1/2 x 3 1/2 in", 0.0381, 0.0889);
  check_pair("1 1/2\" x 3 1/2\"", 0.0381, 0.0889);
  check_pair("38 mm x 3 1/2 in", 0.038, 0.0889);
  check_pair("6 ft 2 in x 30 in", 1.8796, 0.762);
}

TEST_CASE("sizes: a triple of lengths") {
  const auto size = parse_triple("2050 x 680 x 900 mm");
  REQUIRE(size);
  CHECK(in_si((*size)[0]) == 2.05);
  CHECK(in_si((*size)[1]) == 0.68);
  CHECK(in_si((*size)[2]) == 0.9);
}

TEST_CASE("sizes: faults point into the whole text and mend the whole text") {
  for (const Bad& bad : {
           Bad{"", 0, 0, "there is no value", "38 x 89 mm"},
           Bad{"38 x 89", 5, 2, "'89' has no unit", "38 x 89 mm"},
           Bad{"38 mm x 89", 8, 2, "'89' has no unit", "38 mm x 89 mm"},
           Bad{"38 x 1,5 mm", 5, 3, "'1,5' has a decimal comma", "38 x 1.5 mm"},
           Bad{"1,5 x 38 mm", 0, 3, "'1,5' has a decimal comma", "1.5 mm x 38 mm"},
           Bad{"38 x 89 kg", 5, 5, "'89 kg' is a mass; a length is wanted", "38 x 600 mm"},
           Bad{"3 x 6 ft 2 in", 0, 1, "'3' has no unit", "3 mm x 6 ft 2 in"},
           Bad{"38 mm", 0, 5, "'38 mm' is not two lengths joined by 'x'", "38 x 89 mm"},
           Bad{"38 x foo", 0, 8, "'38 x foo' is not two lengths joined by 'x'", "38 x 89 mm"},
           Bad{"2050 x 680 x 900 mm", 0, 19,
               "'2050 x 680 x 900 mm' is not two lengths joined by 'x'", "38 x 89 mm"},
       }) {
    INFO(bad.text);
    const auto pair = parse_pair(bad.text);
    REQUIRE(!pair);
    CHECK(pair.error().what == bad.what);
    CHECK(pair.error().instead == bad.instead);
    CHECK(pair.error().offset == bad.offset);
    CHECK(pair.error().length == bad.length);
  }
  CHECK(parse_triple("38 x 89 mm").error().what ==
        "'38 x 89 mm' is not three lengths joined by 'x'");
}

TEST_CASE("sizes: the run of lengths is found among words") {
  CHECK(run_of("C16 38 x 89 mm") == "38 x 89 mm");
  CHECK(run_of("18 mm spruce plywood") == "18 mm");
  CHECK(run_of("1 1/2 x 3 1/2 in SPF") == "1 1/2 x 3 1/2 in");
  CHECK(run_of("38mmx89mm C24") == "38mmx89mm");
  CHECK(run_of("fir 6' 2\" long") == "6' 2\"");
  CHECK(run_of("OSB/3 18mm") == "18mm");
  CHECK(run_of("4 x 40 mm screws every 250 mm") == "4 x 40 mm");
}

TEST_CASE("sizes: figures without a unit, and units that are no lengths, are no run") {
  CHECK(run_of("GL24h 45x95") == "");
  CHECK(run_of("M10") == "");
  CHECK(run_of("5 mm2") == "");
  CHECK(run_of("50 kg/m2") == "");
  CHECK(run_of("5 m/s") == "");
  CHECK(run_of("") == "");
}

}  // namespace sizes_test
