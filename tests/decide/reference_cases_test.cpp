#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <vector>

#include "standtrue/decide/solve_case.hpp"
#include "tests/model/frame_files.hpp"

namespace reference_cases_test {

using namespace standtrue;

namespace {

std::vector<decide::NamedCase> reference_cases() {
  std::vector<decide::NamedCase> cases;
  for (const auto& path : test::files_of("reference/cases", "", ".yaml")) {
    const std::string name = path.filename().string();
    const document::Reading text = document::parse(name, test::slurp(path));
    REQUIRE_MESSAGE(text.document.has_value(), name);
    model::FrameCaseReading reading = model::read_frame_case(*text.document);
    std::string faults;
    for (const Diagnostic& diagnostic : reading.diagnostics) faults += to_text(diagnostic);
    REQUIRE_MESSAGE(reading.frame_case.has_value(), faults);
    cases.push_back({path.stem().string(), std::move(*reading.frame_case)});
  }
  return cases;
}

std::string sentence(const decide::NamedCase& named, const model::Expectation& e,
                     const decide::Comparison& comparison) {
  return fmt::format("{}.yaml:{}: {}: expected {}, got {}, error {:.1e}: {}", named.name,
                     e.position.line, model::describe(e, named.frame_case), e.value,
                     comparison.got ? fmt::format("{:.10g}", *comparison.got) : "nothing",
                     comparison.error, comparison.why_not);
}

}  // namespace

TEST_CASE("decide/reference_cases: every published and derived value is met") {
  std::size_t n = 0;
  for (const decide::NamedCase& named : reference_cases()) {
    const decide::CaseAnswers answers = decide::solve_case(named.frame_case);
    REQUIRE(answers.comparisons.size() == named.frame_case.expectations.size());
    for (std::size_t i = 0; i < answers.comparisons.size(); ++i) {
      const decide::Comparison& comparison = answers.comparisons[i];
      CHECK_MESSAGE(comparison.met, sentence(named, named.frame_case.expectations[i], comparison));
      ++n;
    }
  }
  CHECK(n >= 500);
}

TEST_CASE("decide/reference_cases: every case names its source and every value its tolerance") {
  for (const decide::NamedCase& named : reference_cases()) {
    CAPTURE(named.name);
    CHECK_FALSE(named.frame_case.title.empty());
    CHECK_FALSE(named.frame_case.source.empty());
    CHECK_FALSE(named.frame_case.about.empty());
    CHECK_FALSE(named.frame_case.expectations.empty());
    for (const model::Expectation& e : named.frame_case.expectations) {
      CHECK_MESSAGE((!e.why.empty() || e.of == model::Expectation::Of::refusal), e.position.line);
    }
  }
}

TEST_CASE("decide/solve_case: a wrong expectation is not met, and a refused loading says why") {
  const char* const text = R"(frame_case: 1
materials: {timber: {E: 10 kN/mm2, G: 1 kN/mm2}}
sections: {bar: {A: 100 mm2, I_y: 1000 mm4, I_z: 1000 mm4, J: 1000 mm4}}
nodes: {A: [0 m, 0 m, 0 m], B: [1 m, 0 m, 0 m]}
members: {AB: {from: A, to: B}}
supports: {A: [x, y, z, rx, ry]}
cases:
  push: {loads: [{node: B, force: [1 kN, 0 N, 0 N]}]}
expect:
  - {of: refusal, under: push, because: mechanism}
  - {of: refusal, under: push, because: tips}
  - {of: displacement, under: push, node: B, freedom: x, value: 1 mm, within: 1e-6}
)";
  const document::Reading reading = document::parse("loose", text);
  REQUIRE(reading.document.has_value());
  const model::FrameCaseReading loose = model::read_frame_case(*reading.document);
  REQUIRE(loose.frame_case.has_value());
  const decide::CaseAnswers refused = decide::solve_case(*loose.frame_case);
  CHECK(refused.comparisons[0].met);
  CHECK_FALSE(refused.comparisons[1].met);
  CHECK_FALSE(refused.comparisons[2].met);
  CHECK_FALSE(refused.comparisons[2].got.has_value());
  CHECK_FALSE(refused.all_met());

  model::FrameCase held = *loose.frame_case;  // 1 kN on E A/L = 1 kN/mm
  held.model.supports.push_back({"A.rz", 0, true, {0.0, 0.0, 1.0}, {}, 0.0, false, 0.0, {}});
  const decide::CaseAnswers solved = decide::solve_case(held);
  CHECK_FALSE(solved.comparisons[0].met);
  CHECK(solved.comparisons[2].met);
  held.expectations[2].value *= 1.00001;
  CHECK_FALSE(decide::solve_case(held).comparisons[2].met);
  held.expectations[2].value = -1e-3;
  CHECK_FALSE(decide::solve_case(held).comparisons[2].met);
  held.expectations[2].magnitude = true;
  CHECK(decide::solve_case(held).comparisons[2].met);
}

TEST_CASE("decide/solve_case: a combination uses its own springs, a case those of gravity") {
  const char* const text = R"(frame_case: 1
plane: true
materials: {timber: {E: 10 kN/mm2, G: 1 kN/mm2}}
sections: {bar: 45 x 95 mm}
nodes: {A: [0 m, 0 m, 0 m], B: [1 m, 0 m, 0 m]}
members: {AB: {from: A, to: B, start: {ry: {gravity: 1 kN m/rad, sway: 2 kN m/rad}}}}
supports: {A: all}
cases:
  push: {loads: [{node: B, moment: [0 N m, 10 N m, 0 N m]}]}
combinations:
  swayed: {push: 1, springs: sway}
expect:
  - {of: spring, under: push, member: AB, end: start, freedom: ry, value: 0.01 rad, within: 1e-9}
  - {of: spring, under: swayed, member: AB, end: start, freedom: ry, value: 0.005 rad, within: 1e-9}
)";
  const document::Reading reading = document::parse("springs", text);
  REQUIRE(reading.document.has_value());
  const model::FrameCaseReading sprung = model::read_frame_case(*reading.document);
  REQUIRE(sprung.frame_case.has_value());
  CHECK(decide::solve_case(*sprung.frame_case).all_met());
}

TEST_CASE("decide/verification_table: one row for each expectation, nothing unmet") {
  const std::vector<decide::NamedCase> cases = reference_cases();
  const std::string table = decide::verification_table(cases);
  CHECK(table.find("NOT MET") == std::string::npos);
  std::size_t rows = 2;
  for (const decide::NamedCase& named : cases) rows += named.frame_case.expectations.size();
  CHECK(static_cast<std::size_t>(std::count(table.begin(), table.end(), '\n')) == rows);
}

}  // namespace reference_cases_test
