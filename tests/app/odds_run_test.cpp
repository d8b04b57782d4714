#include <doctest/doctest.h>

#include "app/arguments.hpp"
#include "standtrue/app/run.hpp"

namespace odds_run_test {

using namespace standtrue;

namespace {

constexpr const char* pinned =
    "standtrue: 1\nsize: 1200 x 600 x 860 mm\ntimber: C24 45 x 95 mm\njoints: pinned\n"
    "rails: {lower: none}\nbraces: [{side: back}, {side: front}, {side: left}, {side: right}]\n"
    "top: {sheet: 18 mm spruce plywood, load: 150 kg/m2}\nanalysis: {sheets: none}\n";

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != text.npos;
}

app::Outcome odds_of(const std::string& file) {
  return app::run(app::Command::odds, {}, "b.yaml", file);
}

}  // namespace

TEST_CASE("app/odds: the page says how many stand, how it was found and what is not drawn") {
  const app::Outcome told = odds_of(pinned);
  CAPTURE(told.out);
  CHECK(told.code == app::all_good);
  CHECK(has(told.out, "of the benches that could be built from this file would stand"));
  CHECK(has(told.out, "Not drawn: strength"));
  CHECK(has(told.out, "10000 benches (seed 1)"));
  CHECK(has(told.out, "A planning aid, not a certificate."));
}

TEST_CASE("app/odds: a frame that can move has none, and the exit code says so") {
  const app::Outcome told = odds_of(
      "standtrue: 1\nsize: 1200 x 600 x 860 mm\ntimber: C24 45 x 95 mm\njoints: pinned\n"
      "top: 18 mm spruce plywood\nanalysis: {sheets: none}\n");
  CHECK(told.code == app::not_good);
  CHECK(has(told.out, "They can not be reckoned: "));
}

TEST_CASE("app/odds: with readings it is the chance of this one bench, and says by what") {
  const std::string file = std::string(pinned) + "readings:\n  - {test: loose rail, load: 20 kg, ";
  const app::Outcome told = odds_of(file + "moves: 0.55 mm, gauge: 0.01 mm}\n");
  CAPTURE(told.out);
  CHECK(told.code == app::all_good);
  CHECK(has(told.out, "By what its readings say this bench "));
  CHECK(has(told.out, "chance in 1000"));
  CHECK(has(told.out, "Drawn by what the readings of this bench say of its stiffness: timber"));
  CHECK_FALSE(has(told.out, "could be built from this file"));
}

TEST_CASE("app/odds: readings that contradict are not used, and the exit code says so") {
  const app::Outcome told =
      odds_of(std::string(pinned) +
              "readings:\n  - {test: loose rail, load: 20 kg, moves: 4 mm, gauge: 0.01 mm}\n"
              "  - {test: loose rail, load: 20 kg, moves: 0.5 mm, gauge: 0.01 mm}\n");
  CAPTURE(told.out);
  CHECK(told.code == app::not_good);
  CHECK(has(told.out, "of the benches that could be built from this file would stand"));
  CHECK(has(told.out, "The readings of the file are not used"));
  CHECK(has(told.out, "does not agree"));
}

TEST_CASE("app/odds: a wrong reading is a fault of the file") {
  const app::Outcome wrong =
      odds_of(std::string(pinned) + "readings: [{test: loose rail, pull: 3 kg, moves: 2 mm}]\n");
  CHECK(wrong.code == app::wrong_file);
  CHECK(wrong.out.empty());
  CHECK(has(wrong.err, "b.yaml:9:"));
  CHECK(has(wrong.err, "a weight is put on"));
  CHECK(has(wrong.err, "nothing was drawn"));
}

TEST_CASE("app/odds: command line") {
  const auto parsed = app::read_arguments({"odds", "b.yaml", "--seed", "42", "--json"});
  REQUIRE(std::holds_alternative<app::Request>(parsed));
  CHECK(std::get<app::Request>(parsed).command == app::Command::odds);
  CHECK(std::get<app::Request>(parsed).options.seed == 42);
  CHECK(std::get<app::Request>(parsed).options.json);
  const auto wrong = app::read_arguments({"odds", "b.yaml", "--seed", "many"});
  REQUIRE(std::holds_alternative<app::Outcome>(wrong));
  CHECK(std::get<app::Outcome>(wrong).code == app::wrong_file);
  CHECK(has(std::get<app::Outcome>(app::read_arguments({"odds", "--help"})).out,
            "docs/odds.schema.json"));
}

}  // namespace odds_run_test
