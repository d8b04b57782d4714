#include "standtrue/app/run.hpp"

#include <doctest/doctest.h>

#include "tests/model/frame_files.hpp"
#include "tests/report/assessments.hpp"
#include "tests/report/solved_bench.hpp"

namespace run_test {

using namespace standtrue;
using app::Command;
using check::Judgement;
using check::Kind;

namespace {

const char* const small_bench = R"(standtrue: 1
title: Small bench
size: 1200 x 600 x 850 mm
timber: C16 45 x 95 mm
joints: corner brackets
top: 18 mm spruce plywood
)";

app::Outcome run(Command command, const std::string& text, app::Options options = {}) {
  return app::run(command, options, "file.yaml", text);
}

}  // namespace

TEST_CASE("app/run: the exit code of each verdict; strict counts service too") {
  CHECK(app::exit_code(test::stands(), false) == 0);
  CHECK(app::exit_code(test::stands(), true) == 0);
  CHECK(app::exit_code(test::depends(), false) == 0);  // it is the sway that depends
  CHECK(app::exit_code(test::depends(), true) == 1);
  CHECK(app::exit_code(test::carries_but(), false) == 0);
  CHECK(app::exit_code(test::carries_but(), true) == 1);
  CHECK(app::exit_code(test::do_not_load(), false) == 1);
  CHECK(app::exit_code(test::unjudged(), false) == 1);
}

TEST_CASE(
    "app/run: no finding is no good news; safety that depends is not good; cautions do not count") {
  decide::Assessment assessment = test::stands();
  assessment.findings.push_back(test::not_looked_at("outside/vibration"));
  assessment.findings.push_back(test::tips_when_empty());
  CHECK(app::exit_code(assessment, true) == 0);
  assessment.findings.push_back(test::share_of_strength("joint/a", check::Group::joints,
                                                        {1.2, 1.0, 0.8}, Judgement::depends));
  CHECK(app::exit_code(assessment, false) == 1);
  assessment.findings.clear();
  CHECK(app::exit_code(assessment, false) == 1);
}

TEST_CASE("app/run: strict also counts a service check that is not judged") {
  decide::Assessment assessment = test::stands();
  check::Finding f = test::not_judged("sag/top", "no data");
  f.kind = Kind::service;
  assessment.findings.push_back(f);
  CHECK(app::exit_code(assessment, false) == 0);
  CHECK(app::exit_code(assessment, true) == 1);
}

TEST_CASE("app/run: a bench is checked, as a page and as JSON") {
  const app::Outcome page = run(Command::check, small_bench);
  CAPTURE(page.err);
  CHECK(page.code <= 1);
  CHECK(page.out.rfind("Small bench", 0) == 0);
  CHECK(page.out.find("A planning aid, not a certificate.") != std::string::npos);
  app::Options options;
  options.json = true;
  const app::Outcome json = run(Command::check, small_bench, options);
  CHECK(json.code == page.code);
  CHECK(json.out.front() == '{');
  CHECK(json.out.find("\"file\": \"file.yaml\"") != std::string::npos);
}

TEST_CASE("app/run: a file with faults gives them all, their number, and no answer") {
  const app::Outcome outcome =
      run(Command::check, "standtrue: 1\nsize: 1200 x 600 x 850 mm\ntimbre: C16\ntpo: 18 mm ply\n");
  CHECK(outcome.code == 2);
  CHECK(outcome.out.empty());
  CHECK(outcome.err.find("file.yaml:3:1: ") != std::string::npos);
  CHECK(outcome.err.find("file.yaml:4:1: ") != std::string::npos);
  CHECK(outcome.err.find("nothing was checked.\n") != std::string::npos);
}

TEST_CASE("app/run: text that is no YAML, or too large, is a wrong file") {
  CHECK(run(Command::check, "a: [").code == 2);
  CHECK(run(Command::check, "").code == 2);
  CHECK(run(Command::solve, "").code == 2);
  CHECK(run(Command::check, std::string((1U << 20U) + 1, 'a')).code == 2);
}

TEST_CASE("app/run: a bench given to solve, and a frame case given to check, are told apart") {
  const app::Outcome solve = run(Command::solve, small_bench);
  CHECK(solve.code == 2);
  CHECK(solve.err ==
        "file.yaml: this is no frame case: it has no line 'frame_case: 1'. If it is a bench, "
        "write: standtrue check file.yaml\n");
  for (const Command command : {Command::check, Command::model}) {
    const app::Outcome check = run(command, test::two_posts);
    CHECK(check.code == 2);
    CHECK(check.err ==
          "file.yaml: this is a frame case and not a bench; write: standtrue solve file.yaml\n");
  }
}

TEST_CASE("app/run: solve is good when all expectations are met, or all is solved where none is") {
  const std::string met =
      "expect:\n"
      "  - {of: reaction, under: service-stored, support: left-down, value: 500 N, within: 1e-9}\n"
      "  - {of: refusal, under: strength-push, because: tips}\n";
  CHECK(run(Command::solve, test::two_posts + met).code == 0);
  CHECK(run(Command::solve,
            test::two_posts + std::string("expect:\n  - {of: reaction, under: service-stored, "
                                          "support: left-down, value: 400 N, within: 1e-9}\n"))
            .code == 1);
  CHECK(run(Command::solve, test::two_posts).code == 1);  // one loading tips
}

TEST_CASE("app/run: the model of a bench solves to its own answers at every bound") {
  for (const model::Bound bound : {model::Bound::soft, model::Bound::mean, model::Bound::stiff}) {
    app::Options options;
    options.bound = bound;
    const app::Outcome model = run(Command::model, small_bench, options);
    CAPTURE(model.err);
    REQUIRE(model.code == 0);
    CHECK(model.out.find("within: 1e-09") != std::string::npos);
    const app::Outcome solved = run(Command::solve, model.out);
    CAPTURE(solved.err);
    CHECK(solved.code == 0);
    CHECK(solved.out.find("MISSED") == std::string::npos);
  }
}

TEST_CASE("app/run: level is good when feet that press make it so, and 1 when they do not") {
  const app::Outcome page = run(Command::level, small_bench);
  CHECK(page.code == 0);
  CHECK(page.out.find("Levelling of Small bench") != std::string::npos);
  app::Options options;
  options.json = true;
  CHECK(run(Command::level, small_bench, options).out.rfind("{\n  \"standtrue_level\": 1,", 0) ==
        0);
  // Nearly all the weight over one foot: its neighbours can not press enough on a top that is
  // level.
  const app::Outcome off =
      run(Command::level,
          std::string(small_bench) + "loads: [{at: [1150 mm, 550 mm], mass: 2000 kg}]\n");
  INFO(off.out << off.err);
  CHECK(off.code == 1);
  CHECK(run(Command::level, "standtrue: 1\n").code == 2);
}

TEST_CASE("app/run: tables by group; an unknown group names the nearest") {
  app::Options options;
  CHECK(run(Command::tables, "", options).code == 0);
  options.group = "duty";
  CHECK(run(Command::tables, "", options).out.rfind("duty\n", 0) == 0);
  options.group = "dutty";
  const app::Outcome unknown = run(Command::tables, "", options);
  CHECK(unknown.code == 2);
  CHECK(unknown.err.rfind(
            "standtrue tables: there is no group 'dutty'; did you mean 'duty'?\nThe groups: ", 0) ==
        0);
}

TEST_CASE("app/run: the rows of the verification table") {
  const app::Outcome outcome = app::verification({{"two-posts", test::two_posts}});
  CHECK(outcome.code == 0);
  CHECK(outcome.out.rfind("| case | source |", 0) == 0);
  CHECK(app::verification({{"bad", "frame_case: ["}}).code == 2);
}

}  // namespace run_test
