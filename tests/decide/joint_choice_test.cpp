// Two checks that want different joints: straight lines, both axes logarithmic.
#include "decide/joint_choice.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "decide/settle.hpp"

namespace joint_choice_test {

using namespace standtrue;
using check::Finding;
using doctest::Approx;

namespace {

constexpr double band = 3.0;

Finding depends(const char* id, double soft, double mean, double stiff) {
  Finding f;
  f.id = f.place = id;
  f.kind = check::Kind::safety;
  f.ratio_soft = soft;
  f.ratio = mean;
  f.ratio_stiff = stiff;
  f.judgement = check::Judgement::depends;
  f.turns_at = decide::turning_point(f, band);
  return f;
}

}  // namespace

TEST_CASE(
    "decide/joint_choice: where the lines cross over 1, no joints would do (own arithmetic)") {
  // y = 1.2/sqrt(x) and y = 1.2 sqrt(x), x of the mean: they cross at 1.2.
  const double r = std::sqrt(band);
  const std::vector<Finding> both{depends("frame", 1.2 * r, 1.2, 1.2 / r),
                                  depends("joint", 1.2 / r, 1.2, 1.2 * r)};
  const auto none = decide::joint_choice(both, band);
  REQUIRE(none);
  CHECK(none->ratio == Approx(1.2).epsilon(0.003));  // half a step of 1/200 of the band
  CHECK(none->judgement == check::Judgement::exceeded);
  CHECK(none->sentence == "Joints soft enough for joint are too soft for frame.");
}

TEST_CASE(
    "decide/joint_choice: where they cross below 1 some joints do, and one alone is not two") {
  const double r = std::sqrt(band);
  CHECK_FALSE(decide::joint_choice(
      {depends("frame", 0.9 * r, 0.9, 0.9 / r), depends("joint", 0.9 / r, 0.9, 0.9 * r)}, band));
  CHECK_FALSE(decide::joint_choice({depends("frame", 2.0, 1.2, 0.8)}, band));
  CHECK_FALSE(decide::joint_choice(
      {depends("frame", 2.0, 1.2, 0.8), depends("other", 3.0, 1.5, 0.9)}, band));
}

TEST_CASE("decide/joint_choice: what has no number at soft joints counts from the mean on") {
  Finding joint = depends("joint", std::nan(""), 0.9, 1.3);
  joint.turns_at = decide::turning_point(joint, band);
  // The frame is met from 2.08 of the mean on, where the joint is past 1.
  const auto none = decide::joint_choice({depends("frame", 4.0, 2.0, 0.7), joint}, band);
  REQUIRE(none);
  CHECK(none->ratio > 1.0);
  CHECK(none->ratio < 1.3);
}

}  // namespace joint_choice_test
