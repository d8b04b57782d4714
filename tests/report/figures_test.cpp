#include "report/figures.hpp"

#include <doctest/doctest.h>

#include "tests/report/assessments.hpp"

namespace figures_test {

using namespace standtrue;
using check::Judgement;
using quantity::UnitSystem;

TEST_CASE("report/figures: a share is rounded up to a shop fraction, never over the limit") {
  using report::share;
  CHECK(share(0.02, 0.04) == "at most 1/20 of");
  CHECK(share(0.29, 0.31) == "at most 1/3 of");
  CHECK(share(0.3, 0.35) == "at most 2/5 of");
  CHECK(share(0.89, 0.89) == "at most 9/10 of");
  CHECK(share(0.5, 0.93) == "nearly all of");
  CHECK(share(0.5, 1.0) == "nearly all of");
  CHECK(share(0.8, 1.3) == "0.8 to 1.3 times");
  CHECK(share(1.0, 1.001) == "1 to just over 1 times");
  CHECK(share(0.97, 1.04) == "0.97 to 1.04 times");
  CHECK(share(1.42, 1.38 + 0.04) == "1.4 times");
  CHECK(share(30.0, 40.0) == "more than 20 times");
  CHECK(share(0.8, 40.0) == "0.8 to over 20 times");
}

TEST_CASE("report/figures: lengths in two figures, and in three where two hide the judgement") {
  CHECK(report::amount(test::sag({0.0029, 0.0025, 0.0022}, 0.006, Judgement::satisfied),
                       UnitSystem::metric) == "2.2 to 2.9 mm, 6 allowed");
  CHECK(report::amount(test::sag({0.00604, 0.00604, 0.00604}, 0.006, Judgement::exceeded),
                       UnitSystem::metric) == "6.04 mm, 6 allowed");
  // Where three hide it too, words say it.
  CHECK(report::amount(test::sag({0.006001, 0.006001, 0.006001}, 0.006, Judgement::exceeded),
                       UnitSystem::metric) == "just over 6 mm, 6 allowed");
  CHECK(report::amount(test::sag({0.006001, 0.004, 0.0022}, 0.006, Judgement::depends),
                       UnitSystem::metric) == "2.2 to just over 6 mm, 6 allowed");
  CHECK(report::amount(test::sag({0.005999, 0.005999, 0.005999}, 0.006, Judgement::satisfied),
                       UnitSystem::metric) == "6 mm, 6 allowed");
  CHECK(report::amount(test::sag({0.0119, 0.0119, 0.0119}, 0.006, Judgement::exceeded),
                       UnitSystem::metric) == "12 mm, 6 allowed");
  CHECK(report::amount(test::sag({0.0029, 0.0025, 0.0022}, 0.006, Judgement::satisfied),
                       UnitSystem::imperial) == "0.087 to 0.11 in, 0.24 allowed");
}

TEST_CASE("report/figures: a sway stiffness is told as the movement under a hand pull") {
  // 98.07 N / 14, 33 and 20 N/mm
  const check::Finding f = test::sway({14.0, 22.0, 33.0}, 20.0, Judgement::depends);
  CHECK(report::amount(f, UnitSystem::metric) == "3 to 7 mm at 10 kg, 4.9 allowed");
  CHECK(report::amount(f, UnitSystem::imperial) == "0.11 to 0.25 in at 20 lb, 0.18 allowed");
}

TEST_CASE("report/figures: a force is told as the mass that weighs as much") {
  check::Finding f = test::tips_when_empty();
  f.kind = check::Kind::safety;
  f.demand_soft = f.demand = f.demand_stiff = 490.3;
  f.limit = 980.7;
  CHECK(report::amount(f, UnitSystem::metric) == "50 kg, 100 allowed");
  CHECK(report::amount(f, UnitSystem::imperial) == "110 lb, 220 allowed");
  f.limit_is_least = true;
  CHECK(report::amount(f, UnitSystem::metric) == "50 kg, 100 wanted");
}

TEST_CASE("report/figures: without a number to picture, a share of the limit") {
  check::Finding f = test::share_of_strength("joint/a", check::Group::joints, {0.5, 0.4, 0.3},
                                             Judgement::satisfied);
  CHECK(report::amount(f, UnitSystem::metric) == "at most 1/2 of the joint's strength");
  f.group = check::Group::tip;
  CHECK(report::amount(f, UnitSystem::metric) == "at most 1/2 of the limit");
  f.ratio_soft = f.ratio = f.ratio_stiff = std::numeric_limits<double>::infinity();
  CHECK(report::amount(f, UnitSystem::metric) == "nothing holds it");
}

}  // namespace figures_test
