// Expected frequencies of frame cases, met and not met.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "standtrue/decide/solve_case.hpp"
#include "standtrue/document/document.hpp"

namespace case_modes_test {

using namespace standtrue;

namespace {

/// A cantilever without mass, 8 kg on its tip, in its plane; E I = 11.2 kN/mm2 x 60^4/12 mm4 and
/// k = 3 E I/L^3 = 36288 N/m: 10.719 Hz. `press` takes a part of the stiffness away, and `doubly`
/// more. Own.
decide::CaseAnswers answered(const std::string& expectations) {
  const std::string text = R"(frame_case: 1
plane: true
materials: {timber: {E: 11200 N/mm2, G: 700 N/mm2}}
sections: {post: {rectangle: 60 x 60 mm, shear: none}}
nodes: {A: [0 m, 0 m, 0 m], B: [0 m, 0 m, 1 m]}
members: {AB: {from: A, to: B}}
supports: {A: [x, z, ry]}
masses: {tip: {node: B, mass: 8 kg}}
divide: 6
cases:
  press: {loads: [{node: B, force: [0 N, 0 N, -5 kN]}]}
combinations:
  doubly: {press: 2, springs: sway}
  far: {press: 10}
expect:
)" + expectations;
  const document::Reading reading = document::parse("tip", text);
  REQUIRE(reading.document.has_value());
  const model::FrameCaseReading read = model::read_frame_case(*reading.document);
  REQUIRE(read.frame_case.has_value());
  return decide::solve_case(*read.frame_case);
}

}  // namespace

TEST_CASE("decide/case_modes: a frequency, right and wrong, and one that is not there") {
  const decide::CaseAnswers answers = answered(
      "  - {of: frequency, mode: 1, value: 10.7190 Hz, within: 1e-5}\n"
      "  - {of: frequency, mode: 1, value: 10.7300 Hz, within: 1e-4}\n"
      "  - {of: frequency, mode: 3, value: 100 Hz, within: 1e-2}\n");
  CHECK(answers.comparisons[0].met);
  CHECK_FALSE(answers.comparisons[1].met);
  CHECK_FALSE(answers.comparisons[2].met);
  CHECK(answers.comparisons[2].why_not == "the frame has only 2 modes");
}

TEST_CASE("decide/case_modes: what presses a frame slows it, and is refused when it buckles it") {
  // A weightless cantilever under P = u² E I/L² at its tip: k = P/L / (tan u/u - 1) (beam-column,
  // own derivation).
  const auto f = [](double P) {
    const double u = std::sqrt(P / 12096.0);
    return std::sqrt(P / (std::tan(u) / u - 1.0) / 8.0) / (2.0 * std::acos(-1.0));
  };
  const decide::CaseAnswers answers = answered(
      "  - {of: frequency, under: press, mode: 1, value: 1 Hz, within: 1e-6}\n"
      "  - {of: frequency, under: doubly, mode: 1, value: 1 Hz, within: 1e-6}\n"
      "  - {of: frequency, under: far, mode: 1, value: 1 Hz, within: 1e-6}\n");
  // Six cubic pieces: h⁴.
  CHECK(*answers.comparisons[0].got == doctest::Approx(f(5000.0)).epsilon(1e-5));
  CHECK(*answers.comparisons[1].got == doctest::Approx(f(10000.0)).epsilon(1e-5));
  CHECK_FALSE(answers.comparisons[2].got.has_value());
  CHECK(answers.comparisons[2].why_not.find("buckles") != std::string::npos);
}

}  // namespace case_modes_test
