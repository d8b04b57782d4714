#include <doctest/doctest.h>

#include "app/arguments.hpp"
#include "standtrue/app/run.hpp"

namespace prove_run_test {

using namespace standtrue;
using app::Command;

namespace {

/// Strips, for speed.
const std::string small_bench = R"(standtrue: 1
title: Small bench
size: 1200 x 600 x 850 mm
timber: C16 45 x 95 mm
joints: corner brackets
top: 18 mm spruce plywood
analysis: {sheets: strip}
)";

app::Outcome prove(const std::string& more, app::Options options = {}) {
  return app::run(Command::prove, options, "b.yaml", small_bench + more);
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("app/prove: without readings the tests, with them the verdict before and after") {
  const app::Outcome plan = prove("");
  CHECK(plan.code == app::all_good);
  CHECK(has(plan.out, "Proving: Small bench"));
  CHECK(has(plan.out, "bare frame across"));
  const app::Outcome learned =
      prove("readings: [{test: bare frame across, pull: 3 kg, moves: 2 mm, gauge: 0.1 mm}]\n");
  CHECK(has(learned.out, "What the readings teach: Small bench"));
  CHECK(has(learned.out, "Before  "));
  CHECK(has(learned.out, "Now     "));
  CHECK(learned.code == app::all_good);
  app::Options json;
  json.json = true;
  CHECK(has(prove("", json).out, "\"standtrue_proving\": 1"));
}

TEST_CASE("app/prove: a wrong reading is a fault of the file") {
  const app::Outcome wrong =
      prove("readings: [{test: finnished along, pull: 3 kg, moves: 2 mm}]\n");
  CHECK(wrong.code == app::wrong_file);
  CHECK(has(wrong.err, "b.yaml:8:"));
  CHECK(has(wrong.err, "finished along"));
  CHECK(has(wrong.err, "nothing was learned"));
}

TEST_CASE("app/prove: the command line knows it") {
  const auto parsed = app::read_arguments({"prove", "b.yaml", "--json"});
  REQUIRE(std::holds_alternative<app::Request>(parsed));
  CHECK(std::get<app::Request>(parsed).command == Command::prove);
  CHECK(std::get<app::Request>(parsed).options.json);
  CHECK(has(std::get<app::Outcome>(app::read_arguments({"prove", "--help"})).out,
            "docs/prove.schema.json"));
}

}  // namespace prove_run_test
