// What the published tests of tables are built of.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "standtrue/model/idealise.hpp"
#include "standtrue/reference/table_test.hpp"
#include "tests/bench/bench_files.hpp"

namespace tests_test {

using namespace standtrue;
using bench_files::tables;
using doctest::Approx;
using model::Purpose;

namespace {

model::Model model_of(const std::string& duty, const model::Assumptions& assumptions = {},
                      const std::string& more = "") {
  const bench_files::Read read =
      bench_files::read("bench.yaml",
                        "standtrue: 1\nsize: 1600 x 600 x 900 mm\ntimber: C24 45 x 95 mm\n"
                        "joints: two corner brackets\ntop: 18 mm birch plywood\nduty: " +
                            duty + "\n" + more);
  REQUIRE_MESSAGE(read.bench, read.messages);
  return *model::idealise(*read.bench, tables(), assumptions).model;
}

std::size_t tests_in(const model::Model& model, const std::string& name) {
  return static_cast<std::size_t>(std::count_if(
      model.combinations.begin(), model.combinations.end(), [&](const model::Combination& c) {
        return c.purpose == Purpose::test && c.name.find(name) != std::string::npos;
      }));
}

}  // namespace

TEST_CASE("model/tests: which test for which duty, as reference/tests.yaml says") {
  for (const char* duty : {"light", "general", "planing", "metal machines"}) {
    const bool light = std::string(duty) == "light";
    CAPTURE(duty);
    for (const char* all : {"edge test", "stability test", "static test"}) {
      CHECK(reference::runs_table_test(tables(), all, duty));
    }
    CHECK(reference::runs_table_test(tables(), "disc test", duty) != light);
    CHECK(reference::runs_table_test(tables(), "light disc test", duty) == light);
    CHECK(reference::runs_table_test(tables(), "racking test", duty) != light);
    CHECK(reference::runs_table_test(tables(), "light racking test", duty) == light);
  }
  CHECK_FALSE(reference::runs_table_test(tables(), "disc test", "no such duty"));
  CHECK_FALSE(reference::runs_table_test(tables(), "no such test", "general"));
  const model::Model light = model_of("light");
  CHECK(tests_in(light, "test-light-disc") == 1);
  CHECK(tests_in(light, "test-disc") == 0);
  CHECK(tests_in(light, "static-test") == light.parts.persons.size());
  CHECK(light.parts.persons.size() == 9);  // the middle, four edges, four corners
  // Four corners' worth of shoves, both senses; none spread.
  CHECK(tests_in(light, "light-racking-test") == 8);
}

TEST_CASE("model/tests: the disc is a square of its area in the middle of the top") {
  const model::Model model = model_of("general");
  const auto disc = std::find_if(model.parts.tests.begin(), model.parts.tests.end(),
                                 [](const auto& place) { return place.test == "disc test"; });
  REQUIRE(disc != model.parts.tests.end());
  const model::PatchLoad& load = model.cases[disc->load_case].patch_loads.at(0);
  const double area = (load.where.x1 - load.where.x0) * (load.where.y1 - load.where.y0);
  CHECK(area == Approx(3.14159265358979 / 4 * 0.3048 * 0.3048));
  // The posts stand 25 mm inside the edges, and coordinates run from them.
  CHECK(0.5 * (load.where.x0 + load.where.x1) == Approx(0.8 - 0.025));
  CHECK(0.5 * (load.where.y0 + load.where.y1) == Approx(0.3 - 0.025));
  // A bearer off the middle: its longest bay is another place, and asked for too.
  const model::Model bays = model_of("general", {}, "bearers: [{at: 400 mm}]\n");
  const auto discs = std::count_if(bays.parts.tests.begin(), bays.parts.tests.end(),
                                   [](const auto& place) { return place.test == "disc test"; });
  CHECK(discs == 2);
}

TEST_CASE("model/tests: no factors, the machines at rest, mean joints alone, behind all others") {
  const std::string vice = "machines: [{kind: vice, at: [300 mm, 200 mm]}]\n";
  const model::Model mean = model_of("general", {}, vice);
  bool behind = false;
  for (const model::Combination& c : mean.combinations) {
    behind = behind || c.purpose == Purpose::test;
    CHECK((c.purpose == Purpose::test) == behind);
    if (c.purpose != Purpose::test || c.name == "test-empty") continue;
    CHECK(c.terms.at(0).factor == 1.0);
    CHECK(c.terms.at(1).load_case == mean.parts.machine_cases.at(0));
    CHECK(c.terms.at(1).factor == 1.0);
  }
  CHECK(tests_in(mean, "test-drop-vice") == 1);
  for (const model::Bound bound : {model::Bound::soft, model::Bound::stiff}) {
    const model::Model other = model_of("general", {bound, false, {}}, vice);
    CHECK(tests_in(other, "") == 0);
    // The same cases: sheets share their work.
    REQUIRE(other.cases.size() == mean.cases.size());
    for (std::size_t c = 0; c < mean.cases.size(); ++c) {
      CHECK(other.cases[c].name == mean.cases[c].name);
    }
    for (std::size_t c = 0; c < other.combinations.size(); ++c) {
      CHECK(other.combinations[c].name == mean.combinations[c].name);
    }
  }
  CHECK(tests_in(model_of("general", {model::Bound::mean, true, {}}, vice), "") == 0);
}

}  // namespace tests_test
