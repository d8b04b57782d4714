#include <doctest/doctest.h>

#include <limits>

#include "check/words.hpp"
#include "standtrue/check/finding.hpp"
#include "standtrue/check/is_worse.hpp"

namespace judge_test {

using namespace standtrue;
using namespace check;

TEST_CASE("check/judge: 1 is the limit, and what is no ratio is not judged") {
  CHECK(judge(0.0) == Judgement::satisfied);
  CHECK(judge(1.0) == Judgement::satisfied);
  CHECK(judge(1.0000001) == Judgement::exceeded);
  CHECK(judge(std::numeric_limits<double>::infinity()) == Judgement::exceeded);
  CHECK(judge(-0.1) == Judgement::not_judged);
  CHECK(judge(std::numeric_limits<double>::quiet_NaN()) == Judgement::not_judged);
}

TEST_CASE("check/judge: of two that rounding alone holds apart neither is worse") {
  CHECK_FALSE(is_worse(1.0, 1.0));
  CHECK_FALSE(is_worse(2.5 * (1.0 + 1.5e-8), 2.5));  // audits of a frame near buckling tell so much
  CHECK_FALSE(is_worse(1e-15, 0.0));
  CHECK(is_worse(1.0 + 1e-12, 1.0));  // a limit is a limit
  CHECK(is_worse(1.000001, 1.0));
  CHECK(is_worse(0.0, -1.0));
  const double infinite = std::numeric_limits<double>::infinity();
  CHECK(is_worse(infinite, 3.0));
  CHECK_FALSE(is_worse(infinite, infinite));
  const double none = std::numeric_limits<double>::quiet_NaN();
  CHECK(is_worse(none, 3.0));
  CHECK_FALSE(is_worse(3.0, none));
  CHECK(to_sort_by(0.5 * (1.0 + 1e-9)) == to_sort_by(0.5));
  CHECK(to_sort_by(0.500001) > to_sort_by(0.5));
}

TEST_CASE("check/judge: what is rounding alone is printed as nothing") {
  CHECK(shown(quantity::newtons(8.76e-17)) == "0 N");
  CHECK(shown(quantity::newtons(-2e-6)) == "-2.00e-06 N");
  CHECK(shown(quantity::newton_metres(-4.7e-17)) == "0 N m");
  CHECK(shown(quantity::from_si<quantity::Stress>(9e-13)) == "0 N/mm2");
  CHECK(shown(quantity::newtons(std::numeric_limits<double>::quiet_NaN())) == "not a number");
}

}  // namespace judge_test
