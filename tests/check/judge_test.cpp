#include <doctest/doctest.h>

#include <limits>

#include "standtrue/check/finding.hpp"

namespace judge_test {

using namespace standtrue::check;

TEST_CASE("check/judge: 1 is the limit, and what is no ratio is not judged") {
  CHECK(judge(0.0) == Judgement::satisfied);
  CHECK(judge(1.0) == Judgement::satisfied);
  CHECK(judge(1.0000001) == Judgement::exceeded);
  CHECK(judge(std::numeric_limits<double>::infinity()) == Judgement::exceeded);
  CHECK(judge(-0.1) == Judgement::not_judged);
  CHECK(judge(std::numeric_limits<double>::quiet_NaN()) == Judgement::not_judged);
}

}  // namespace judge_test
