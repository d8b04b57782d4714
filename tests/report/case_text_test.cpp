#include <doctest/doctest.h>

#include <algorithm>

#include "report/case_tables.hpp"
#include "standtrue/report/report.hpp"
#include "tests/report/golden.hpp"
#include "tests/report/solved_bench.hpp"

namespace case_text_test {

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

/// The last figures of an audit are rounding, which another compiler does otherwise.
std::string without_audit(const std::string& text) {
  std::string kept;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at) + 1;
    const std::string line = text.substr(at, end - at);
    if (line.find("  audit:") != 0) kept += line;
    at = end;
  }
  return kept;
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
  const auto page = [&](int width) {
    return without_audit(report::text(frame_case, answers, style_of(width)));
  };
  test::check_golden("two-posts-80.txt", page(80));
  test::check_golden("two-posts-50.txt", page(50));
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

namespace {

/// A sheet of plywood on two rails, with a body on it and a cut corner.
const char* const sheet_on_rails = R"(frame_case: 1
title: Sheet on rails
materials: {timber: {E: 11 kN/mm2, G: 0.7 kN/mm2}}
sections: {rail: 38 x 89 mm}
nodes:
  A: [0 mm, 0 mm, 0 mm]
  B: [800 mm, 0 mm, 0 mm]
  C: [0 mm, 500 mm, 0 mm]
  D: [800 mm, 500 mm, 0 mm]
members: {AB: {from: A, to: B}, CD: {from: C, to: D}}
plates:
  top:
    origin: [0 mm, 0 mm, 53.5 mm]
    x: {from: 0 mm, to: 800 mm, cells: 8}
    y: {from: 0 mm, to: 500 mm, cells: 5}
    holes: [{x: [0 mm, 100 mm], y: [0 mm, 100 mm]}]
    thickness: 18 mm
    stiffness: {E_1: 8.5 kN/mm2, E_2: 5.5 kN/mm2, nu_12: 0.1, G_12: 650 N/mm2, G_13: 180 N/mm2, G_23: 120 N/mm2}
    mass: 11.7 kg/m2
    creep: 1.6
    tie_level: -9 mm
    ties:
      - {at: [100 mm, 0 mm], node: A, x: 500 N/mm, y: 500 N/mm, normal: 5 kN/mm}
      - {at: [800 mm, 0 mm], node: B, x: 500 N/mm, y: 500 N/mm, normal: 5 kN/mm}
      - {at: [800 mm, 500 mm], node: D, x: 500 N/mm, y: 500 N/mm, normal: 5 kN/mm}
      - {at: [0 mm, 500 mm], node: C, x: 500 N/mm, y: 500 N/mm, normal: 5 kN/mm}
    bodies:
      - name: lathe
        pads:
          - {x: [200 mm, 250 mm], y: [100 mm, 150 mm]}
          - {x: [600 mm, 650 mm], y: [100 mm, 150 mm]}
          - {x: [600 mm, 650 mm], y: [300 mm, 350 mm]}
          - {x: [200 mm, 250 mm], y: [300 mm, 350 mm]}
        stiffness: 100 N/mm
supports: {A: all, B: all, C: all, D: [x, y, z, rx]}
cases:
  own: {self_weight: yes}
  person:
    duration: short_term
    loads:
      - {plate: top, x: [350 mm, 450 mm], y: [-50 mm, 50 mm], force: [0 N, 0 N, -1000 N]}
      - {plate: top, x: [0 mm, 800 mm], y: [0 mm, 500 mm], force: [0 N, 0 N, -200 N]}
combinations:
  both: {own: 1, person: 1.5, springs: sway}
)";

}  // namespace

TEST_CASE("report/case_text: a plate says where it moves most") {
  // What is expected is far off and allowed to be: only the words are looked at.
  const std::string expect = R"(expect:
  - {of: plate, under: both, plate: top, at: [400 mm, 0 mm], component: M_x, value: 1 N m/m, within: 1e9}
  - {of: plate, under: both, plate: top, at: [400 mm, 0 mm], component: N_x, value: 1 N/mm, within: 1e9}
  - {of: tie, under: both, plate: top, tie: 2, component: normal, value: -1 N, within: 1e9}
)";
  const model::FrameCase frame_case = case_of(sheet_on_rails + expect);
  test::check_golden(
      "sheet-on-rails.txt",
      without_audit(report::text(frame_case, decide::solve_case(frame_case), style_of(80))));
}

TEST_CASE("report/frame_case_text: a model with plates repeats its own answers") {
  const model::FrameCase again = case_of(report::frame_case_text(case_of(sheet_on_rails).model));
  // w, M_x and M_y at two middles, x and normal of two ties.
  CHECK(again.expectations.size() == 2 * 3 + 2 * 2);
  const decide::CaseAnswers answers = decide::solve_case(again);
  for (std::size_t i = 0; i < answers.comparisons.size(); ++i) {
    CHECK_MESSAGE(answers.comparisons[i].met, model::describe(again.expectations[i], again)
                                                  << ": " << answers.comparisons[i].why_not);
  }
}

TEST_CASE("report/frame_case_text: of a model with many combinations less is asked, of all") {
  model::Model model = case_of(sheet_on_rails).model;
  const model::Combination both = model.combinations[0];
  for (int i = 0; i < 399; ++i) {
    model.combinations.push_back(both);
    model.combinations.back().name += std::to_string(i);
  }
  const model::FrameCase again = case_of(report::frame_case_text(model));
  CHECK(again.expectations.size() <= 1500);
  std::vector<std::string> asked;
  for (model::Expectation e : again.expectations) {
    e.under = model::LoadingRef{true, 0};
    asked.push_back(model::describe(e, again));
  }
  std::sort(asked.begin(), asked.end());
  CHECK(std::unique(asked.begin(), asked.end()) - asked.begin() == 10);
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

}  // namespace case_text_test
