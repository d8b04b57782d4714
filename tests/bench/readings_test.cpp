#include "standtrue/bench/readings.hpp"

#include <doctest/doctest.h>

#include "standtrue/bench/prices.hpp"
#include "standtrue/bench/variants.hpp"
#include "tests/bench/bench_files.hpp"

namespace readings_test {

using namespace standtrue;
using bench::Test;
using doctest::Approx;
using quantity::in_si;

namespace {

struct Got {
  std::vector<bench::Reading> readings;
  std::string messages;
};

Got read(const std::string& lines) {
  const document::Reading parsed = document::parse("b.yaml", lines);
  REQUIRE(parsed.document);
  std::vector<Diagnostic> faults;
  Got got;
  got.readings = bench::read_readings(*parsed.document, bench_files::tables(), faults);
  got.messages = bench_files::messages(faults);
  return got;
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("bench/readings: pulls and loads, in kilograms, pounds and newtons") {
  const Got got = read(
      "readings:\n"
      "  - {test: finished along, pull: 10 kg, moves: 0.6 mm}\n"
      "  - {test: loose rail, load: 45 lb, moves: 1/8 in, gauge: 0.1 mm}\n"
      "  - {test: bare frame across, pull: 60 N, moves: 4 mm}\n");
  CHECK(got.messages.empty());
  REQUIRE(got.readings.size() == 3);
  CHECK(got.readings[0].test == Test::finished_along);
  CHECK(in_si(got.readings[0].force) == Approx(98.0665));
  CHECK(in_si(got.readings[0].gauge) == Approx(0.05e-3));
  CHECK(in_si(got.readings[1].force) == Approx(45 * 0.45359237 * 9.80665));
  CHECK(in_si(got.readings[1].moves) == Approx(0.003175));
  CHECK(in_si(got.readings[1].gauge) == Approx(0.1e-3));
  CHECK(in_si(got.readings[2].force) == Approx(60.0));
  CHECK(in_si(got.readings[2].gauge) == Approx(0.5e-3));
}

TEST_CASE("bench/readings: there are at most 200, as of anything, and as many variants") {
  std::string many = "readings:\n", variants = "variants:\n";
  for (int i = 0; i < 201; ++i) {
    many += "  - {test: finished along, pull: 10 kg, moves: 0.6 mm}\n";
    variants += "  v" + std::to_string(i) + ": {top: 24 mm spruce plywood}\n";
  }
  const Got got = read(many);
  CHECK(got.readings.empty());
  CHECK(has(got.messages, "201 readings are too many: 200 is the most"));
  const document::Reading parsed = document::parse("b.yaml", variants);
  std::vector<Diagnostic> faults;
  CHECK(bench::read_variants(*parsed.document, bench_files::tables(), faults).empty());
  CHECK(has(bench_files::messages(faults), "201 variants are too many: 200 is the most"));
}

TEST_CASE("bench/prices: a price beyond all sums is none") {
  const document::Reading parsed =
      document::parse("b.yaml", "prices: {C24: 1e308 per ft, oak: 3}\n");
  std::vector<Diagnostic> faults;
  const auto prices = bench::read_prices(*parsed.document, faults);
  REQUIRE(prices);
  CHECK(prices->all.size() == 1);
  CHECK(has(bench_files::messages(faults), "'1e308 per ft' is no price"));
}

TEST_CASE("bench/readings: faults say what to write instead") {
  CHECK(has(read("readings: [{test: finished allong, pull: 10 kg, moves: 1 mm}]").messages,
            "finished along"));
  CHECK(has(read("readings: [{test: finished along, pull: 10, moves: 1 mm}]").messages,
            "'10' has no unit"));
  CHECK(has(read("readings: [{test: finished along, pull: 10 kg, moves: 1}]").messages,
            "'1' has no unit"));
  CHECK(has(read("readings: [{test: loose rail, pull: 10 kg, moves: 1 mm}]").messages,
            "a weight is put on"));
  CHECK(has(read("readings: [{test: top sag, moves: 1 mm}]").messages, "'load' is missing"));
  CHECK(has(read("readings: [{test: top sag, load: 20 kg}]").messages, "'moves' is missing"));
  CHECK(has(read("readings: [{test: top sag, load: 20 kg, moves: 0 mm}]").messages,
            "must be more than zero"));
  CHECK(has(read("readings: [{test: finished along, pull: 100 kg, moves: 1 mm}]").messages,
            "more than such a test may bring"));
  CHECK(has(read("readings: [{test: top sag, load: 20 kg, moves: 1 mm, weather: fair}]").messages,
            "weather"));
  CHECK(has(read("readings: {test: top sag}").messages, "readings are a list"));
  CHECK(read("title: none").messages.empty());
}

TEST_CASE("bench/readings: a bench with readings is read as without them") {
  const auto got = bench_files::read(
      "b.yaml",
      bench_files::small_bench("readings: [{test: finished along, pull: 10 kg, moves: 0.6 mm}]\n"));
  CHECK(got.messages.empty());
  CHECK(got.bench.has_value());
}

}  // namespace readings_test
