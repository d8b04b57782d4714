#include "app/arguments.hpp"

#include <doctest/doctest.h>

namespace arguments_test {

using namespace standtrue;
using app::Command;
using app::Outcome;
using app::Request;

namespace {

Request request(const std::vector<std::string>& arguments) {
  const auto parsed = app::read_arguments(arguments);
  const auto* outcome = std::get_if<Outcome>(&parsed);
  REQUIRE_MESSAGE(!outcome, outcome->err);
  return std::get<Request>(parsed);
}

/// What is said to a wrong line.
std::string said(const std::vector<std::string>& arguments) {
  const auto parsed = app::read_arguments(arguments);
  REQUIRE(std::holds_alternative<Outcome>(parsed));
  const Outcome& outcome = std::get<Outcome>(parsed);
  CHECK(outcome.code == 2);
  CHECK(outcome.out.empty());
  return outcome.err;
}

}  // namespace

TEST_CASE("app/arguments: commands and options") {
  const Request check = request({"check", "bench.yaml", "--detail", "--strict", "--width", "90"});
  CHECK(check.command == Command::check);
  CHECK(check.file == "bench.yaml");
  CHECK(check.options.style.detail);
  CHECK(check.options.strict);
  CHECK_FALSE(check.options.json);
  CHECK(check.width == 90);
  CHECK(request({"check", "--json", "-"}).file == "-");
  CHECK(request({"check", "--json", "-"}).options.json);
  CHECK(request({"solve", "a.yaml"}).command == Command::solve);
  CHECK(request({"model", "a.yaml"}).options.bound == model::Bound::mean);
  CHECK(request({"model", "a.yaml", "--bound", "soft"}).options.bound == model::Bound::soft);
  CHECK(request({"model", "--bound=stiff", "a.yaml"}).options.bound == model::Bound::stiff);
  CHECK(request({"level", "a.yaml", "--json"}).command == Command::level);
  CHECK(request({"tables"}).options.group.empty());
  CHECK(request({"tables", "timber"}).options.group == "timber");
  CHECK(request({"verification", "cases"}).is_verification);
}

TEST_CASE("app/arguments: help and version") {
  for (const char* command : {"check", "level", "solve", "model", "tables"}) {
    const auto parsed = app::read_arguments({command, "--help"});
    const Outcome& outcome = std::get<Outcome>(parsed);
    CHECK(outcome.code == 0);
    CHECK(outcome.out.rfind(std::string("standtrue ") + command, 0) == 0);
  }
  CHECK(std::get<Outcome>(app::read_arguments({"--help"})).out.find("Examples:") !=
        std::string::npos);
  CHECK(std::get<Outcome>(app::read_arguments({"--version"})).out.rfind("standtrue ", 0) == 0);
  CHECK(said({}).find("Examples:") != std::string::npos);
}

TEST_CASE("app/arguments: a wrong line says what to write") {
  CHECK(said({"chek", "bench.yaml"}) ==
        "standtrue: 'chek' is no command; did you mean: standtrue check\n");
  CHECK(said({"bench.yaml"}) ==
        "standtrue: 'bench.yaml' is no command; to check that file, write: standtrue check "
        "bench.yaml\n");
  CHECK(said({"frobnicate"}) ==
        "standtrue: 'frobnicate' is no command; standtrue --help lists them\n");
  CHECK(said({"--json", "bench.yaml"}) ==
        "standtrue: the command comes before '--json'; write, for example: standtrue check "
        "bench.yaml --json\n");
  CHECK(said({"check"}) ==
        "standtrue: 'check' wants a file; write, for example: standtrue check bench.yaml\n");
  CHECK(said({"check", "a.yaml", "--detial"}) ==
        "standtrue: 'check' does not know '--detial'; did you mean --detail\n");
  CHECK(said({"solve", "a.yaml", "--strict"}) ==
        "standtrue: 'solve' does not know '--strict'; see: standtrue solve --help\n");
  CHECK(said({"check", "a.yaml", "b.yaml"}) ==
        "standtrue: 'check' takes one file, and 'b.yaml' is one word too many; give each file its "
        "own run\n");
  CHECK(said({"check", "a.yaml", "--width", "wide"}) ==
        "standtrue: an option of 'check' has no value or a wrong one; see: standtrue check "
        "--help\n");
  CHECK(said({"check", "a.yaml", "--width", "20"}) ==
        "standtrue: --width 20 is too narrow for a page; give 50 or more\n");
  CHECK(said({"model", "a.yaml", "--bound", "hard"}) ==
        "standtrue: --bound does not know 'hard'; it takes soft, mean or stiff\n");
  for (const char* seed : {"-1", "1.5", "0x10", "99999999999999999999999", "7 "}) {
    CHECK(said({"odds", "a.yaml", "--seed", seed}) ==
          "standtrue: --seed does not know '" + std::string(seed) +
              "'; it takes a whole number from 0 on, of 19 figures at most\n");
  }
  CHECK(said({""}).find("'' is no command") != std::string::npos);
}

}  // namespace arguments_test
