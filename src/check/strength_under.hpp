#pragma once

#include <optional>
#include <string>
#include <vector>

#include "check/plate_answers.hpp"

namespace standtrue::check {

/// What of the bench comes nearest to its strength under some combinations.
struct StrengthUnder {
  double ratio = 0.0;    ///< the worst of all that could be judged
  std::string sentence;  ///< of the worst: "The front top rail is bent to half of its strength."
  std::string place;     ///< of the worst
  std::string combination, advice;
  std::vector<std::string> working;
  std::vector<std::string> unjudged;  ///< what could not be judged, by the ids of its findings
  std::size_t answered = 0;           ///< combinations that were looked at
  std::string refused;                ///< why one was not, where the solver refused it
  std::optional<std::size_t> tips;    ///< a combination under which the bench tips

  /// ", where that can be judged" to end a sentence with, if it can not all be.
  [[nodiscard]] std::string as_far() const {
    return unjudged.empty() ? "" : ", where that can be judged";
  }
};

/// Holds members, the joints between them and sheets against the same limit states as
/// `check_all`, under the wanted combinations alone. Screws of sheets and the frame's own stability
/// are left out: the pushes for strength, which are harder, have judged those.
[[nodiscard]] StrengthUnder strength_under(const Answers& answers, const PlateAnswers& plates,
                                           bool (*wanted)(const model::Combination&),
                                           const reference::Tables& tables);

}  // namespace standtrue::check
