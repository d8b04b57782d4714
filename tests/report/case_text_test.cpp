#include <doctest/doctest.h>

#include "report/case_tables.hpp"
#include "standtrue/report/report.hpp"
#include "tests/report/golden.hpp"
#include "tests/report/solved_bench.hpp"

using namespace standtrue;

namespace {

model::FrameCase case_of(const std::string& text) {
  const document::Reading parsed = document::parse("case", text);
  REQUIRE(parsed.document.has_value());
  model::FrameCaseReading reading = model::read_frame_case(*parsed.document);
  std::string faults;
  for (const Diagnostic& diagnostic : reading.diagnostics) faults += to_text(diagnostic);
  REQUIRE_MESSAGE(reading.frame_case.has_value(), faults);
  return *reading.frame_case;
}

report::Style style_of(int width) {
  report::Style style;
  style.width = width;
  return style;
}

}  // namespace

TEST_CASE("report/case_text: the response of each loading and what was expected") {
  const std::string expect = R"(expect:
  - {of: reaction, under: service-stored, support: left-down, value: 500 N, within: 1e-9}
  - {of: reaction, under: service-stored, support: left-x, value: 20 N, within: 1e-3}
  - {of: refusal, under: strength-push, because: tips}
)";
  const model::FrameCase frame_case = case_of(test::two_posts + expect);
  const decide::CaseAnswers answers = decide::solve_case(frame_case);
  test::check_golden("two-posts-80.txt", report::text(frame_case, answers, style_of(80)));
  test::check_golden("two-posts-50.txt", report::text(frame_case, answers, style_of(50)));
}

TEST_CASE("report/case_text: a frame that can move says so and no number") {
  const model::FrameCase frame_case = case_of(R"(frame_case: 1
title: Loose
materials: {timber: {E: 10 kN/mm2, G: 1 kN/mm2}}
sections: {bar: {A: 100 mm2, I_y: 1000 mm4, I_z: 1000 mm4, J: 1000 mm4}}
nodes: {A: [0 m, 0 m, 0 m], B: [1 m, 0 m, 0 m]}
members: {AB: {from: A, to: B}}
supports: {A: [x, y, z, rx, ry]}
cases:
  push: {loads: [{node: B, force: [1 kN, 0 N, 0 N]}]}
)");
  test::check_golden("loose.txt",
                     report::text(frame_case, decide::solve_case(frame_case), style_of(80)));
}

TEST_CASE("report/frame_case_text: a model repeats its own answers to 1e-9") {
  const std::string text = report::frame_case_text(test::two_posts_model());
  const model::FrameCase again = case_of(text);
  // A combination: 2 corners by 3 ways, 2 feet, 2 rail ends; the push tips and is refused.
  CHECK(again.expectations.size() >= 10);
  const decide::CaseAnswers answers = decide::solve_case(again);
  for (std::size_t i = 0; i < answers.comparisons.size(); ++i) {
    CHECK_MESSAGE(answers.comparisons[i].met, model::describe(again.expectations[i], again)
                                                  << ": " << answers.comparisons[i].why_not);
  }
}

TEST_CASE("report/case_tables: seven figures in the units of the sources") {
  CHECK(report::seven_figures(0.0002448337, quantity::Kind::length) == "0.2448337 mm");
  CHECK(report::seven_figures(1500.0, quantity::Kind::moment) == "1500 N m");
  CHECK(report::seven_figures(191400.0, quantity::Kind::linear_stiffness) == "191.4 N/mm");
}
