#pragma once

#include <vector>

#include "standtrue/check/finding.hpp"
#include "standtrue/model/model.hpp"
#include "standtrue/solve/solve.hpp"

namespace standtrue::check {

/// What is looked at after creep: the sag that stays, and what lasts, under which the frame may
/// give way. Other combinations need no answer there.
[[nodiscard]] bool is_looked_at_after_creep(const model::Combination& combination);
/// Of these, the one that lasts.
[[nodiscard]] bool lasts_on_the_frame(const model::Combination& combination);

/// The answers that the checks look at, all at one bound of joint stiffness.
struct Answers {
  const model::Model& model;
  const solve::Response& response;
  /// After creep, mean joints: answers to the same combinations; null if there is none.
  const model::Model* creep_model = nullptr;
  const solve::Response* creep_response = nullptr;
  /// Mean joints: what is found and told at one bound alone is found here.
  bool at_mean = true;
  /// Without, nothing is found of how the bench swings: that takes as long as all else.
  bool swings = true;
  /// Without words a finding that is judged may have its id, kind, judgement, demand and ratio
  /// alone, and what is only told may be left out: where thousands are asked for.
  bool words = true;
  /// After creep at this bound, what lasts alone, for the buckling of the frame; null where
  /// creep_response says it, or where nobody looked.
  const model::Model* crept_model = nullptr;
  const solve::Response* crept_response = nullptr;
};

/// Every limit state on every part, place and combination, the worst of each; an explicit list.
[[nodiscard]] std::vector<Finding> check_all(const Answers& answers,
                                             const reference::Tables& tables);

}  // namespace standtrue::check
