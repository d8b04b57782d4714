#include "report/governing.hpp"

#include <doctest/doctest.h>

#include "tests/report/assessments.hpp"

namespace governing_test {

using namespace standtrue;
using check::Finding;
using check::Group;
using check::Judgement;

TEST_CASE(
    "report/governing: safety first, what is not judged before what holds, worse before better") {
  const std::vector<Finding> findings = {
      test::share_of_strength("good", Group::carry, {0.5, 0.5, 0.5}, Judgement::satisfied),
      test::not_looked_at("outside"),
      test::share_of_strength("better", Group::carry, {0.3, 0.3, 0.3}, Judgement::satisfied),
      test::tips_when_empty(),
      test::sway({1.0, 1.0, 1.0}, 20.0, Judgement::exceeded),
      test::not_judged("unknown", "no data"),
      test::share_of_strength("over", Group::carry, {1.1, 1.1, 1.1}, Judgement::exceeded),
      test::share_of_strength("perhaps", Group::carry, {1.1, 1.0, 0.9}, Judgement::depends)};
  std::string order;
  for (const Finding* f : report::worst_first(findings)) order += f->id + " ";
  CHECK(order == "over perhaps unknown sway/across good better tip/empty outside ");
  CHECK(report::governing(findings, Group::carry)->id == "over");
  CHECK(report::governing(findings, Group::tip) == nullptr);  // a caution judges nothing
  CHECK(report::governing(findings, Group::joints) == nullptr);
}

TEST_CASE("report/governing: a range is made of what was computed") {
  Finding f =
      test::share_of_strength("a", Group::carry, {test::no_number, 0.4, 0.3}, Judgement::satisfied);
  CHECK(report::ratios(f)->least == 0.3);
  CHECK(report::ratios(f)->greatest == 0.4);
  CHECK(report::is_judged(f));
  f.ratio = -1.0;
  f.ratio_stiff = test::no_number;
  CHECK_FALSE(report::ratios(f).has_value());
  CHECK_FALSE(report::is_judged(f));
  CHECK(report::is_left_unjudged(f));
}

}  // namespace governing_test
