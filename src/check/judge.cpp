#include "standtrue/check/finding.hpp"

namespace standtrue::check {

Judgement judge(double ratio) {
  const bool is_a_ratio = ratio >= 0.0;  // false for NaN
  if (!is_a_ratio) return Judgement::not_judged;
  return ratio <= 1.0 ? Judgement::satisfied : Judgement::exceeded;
}

}  // namespace standtrue::check
