// Every command on a bench that hangs on a ledger, from its file to its page.
#include <doctest/doctest.h>

#include <string>

#include "standtrue/app/run.hpp"

namespace ledger_run_test {

using namespace standtrue;
using app::Command;

namespace {

const std::string metric = R"(standtrue: 1
title: Wall bench
size: 1800 x 600 x 900 mm
timber: C24 45 x 95 mm
joints: corner brackets
top: 21 mm spruce plywood
wall: {ledger: 45 x 95 mm, screws_every: 400 mm}
machines:
  - {kind: drill press, mass: 60 kg, at: middle}
analysis: {mesh: 100 mm}
)";

const std::string imperial = R"(standtrue: 1
title: Wall bench
size: 72 x 24 x 36 in
timber: C16 2x4
joints: corner brackets
top: 3/4 in spruce plywood
wall: {ledger: 2x4, screws: [4 in, 20 in, 36 in, 52 in, 66 in]}
analysis: {mesh: 100 mm}
)";

app::Outcome run(Command command, const std::string& text, bool json = false) {
  app::Options options;
  options.json = json;
  return app::run(command, options, "file.yaml", text);
}

bool says(const app::Outcome& outcome, const std::string& words) {
  return outcome.out.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("app/ledger: check judges the ledger and tells what its screws hold; no back post") {
  app::Options options;
  options.style.detail = true;
  for (const std::string& text : {metric, imperial}) {
    const app::Outcome page = app::run(Command::check, options, "file.yaml", text);
    CAPTURE(page.err);
    CHECK(page.err == "");
    CHECK(page.code <= 1);
    CHECK(says(page, "screw into the wall"));
    CHECK(says(page, "The wall keeps it from tipping"));
    CHECK(says(page, "The ledger sags"));
    CHECK(says(page, "left top rail, back end"));
    CHECK_FALSE(says(page, "back-left post"));
    CHECK_FALSE(says(page, "not judged because"));
    const app::Outcome json = run(Command::check, text, true);
    CHECK(json.code == page.code);
    CHECK(says(json, "\"fixing/wall\""));
  }
}

TEST_CASE("app/ledger: the model of it, solved again, meets its answers") {
  const app::Outcome model = run(Command::model, metric);
  REQUIRE(model.code == 0);
  CHECK(says(model, "wall-1-roll"));
  CHECK(app::run(Command::solve, {}, "model.yaml", model.out).code == 0);
}

TEST_CASE("app/ledger: the feet in front can not set it level, and that is said") {
  const app::Outcome level = run(Command::level, metric);
  CHECK(level.err == "");
  CHECK(says(level, "Hang the ledger level"));
  CHECK(says(run(Command::level, metric, true), "\"why_none\""));
}

TEST_CASE("app/ledger: parts are two posts and feet, the ledger whole; screws into the wall told") {
  const app::Outcome parts = run(Command::parts, metric);
  CHECK(parts.code == 0);
  CHECK(says(parts, "front-left post, front-right post"));
  CHECK(says(parts, "1750 mm"));  // 1800 mm less both overhangs
  CHECK(says(parts, "6 screws with plugs through the ledger"));
  CHECK_FALSE(says(parts, "back-left"));
  CHECK(says(parts, "485 mm"));  // 600 - 25 mm, less post and ledger, 45 mm each
}

TEST_CASE("app/ledger: brace and improve propose nothing that wants back posts") {
  for (const Command command : {Command::brace, Command::improve}) {
    const app::Outcome outcome = run(command, metric + "duty: metal machines\n");
    CAPTURE(outcome.out);
    CHECK(outcome.err == "");
    CHECK(outcome.code <= 1);
    for (const char* wrong : {"back sheet", "in the back", "shelf", "each end", "no back posts"}) {
      CHECK_FALSE(says(outcome, wrong));
    }
  }
  CHECK(says(run(Command::brace, metric), "one diagonal in the front"));
}

TEST_CASE("app/ledger: prove, ply, place and variants have their answers too") {
  const app::Outcome prove = run(Command::prove, metric);
  CHECK(prove.code <= 1);
  CHECK(says(prove, "front-"));
  CHECK(says(prove, "on the ledger, posts and rails joined"));
  CHECK_FALSE(says(prove, "end of the ledger"));
  for (const Command command : {Command::ply, Command::place}) {
    const app::Outcome outcome = run(command, metric);
    CAPTURE(outcome.out);
    CHECK(outcome.err == "");
    CHECK(outcome.code <= 1);
  }
  const app::Outcome variants =
      run(Command::variants, metric + "variants: {more screws: {wall: {screws_every: 200 mm}}}\n");
  CHECK(variants.code <= 1);
  CHECK(says(variants, "more screws"));
}

TEST_CASE("app/ledger: a front foot that hardly touches neither lifts the bench nor tips it") {
  // Gripping the floor the foot would be pulled up, let go it would sink into it.
  const std::string uneven = metric + "feet: {each: {front-left post: {height_error: 2 mm}}}\n";
  const app::Outcome page = run(Command::check, uneven);
  CHECK(page.err == "");
  CHECK_FALSE(says(page, "nothing holds it"));
  CHECK_FALSE(says(page, "it may tip"));
}

}  // namespace ledger_run_test
