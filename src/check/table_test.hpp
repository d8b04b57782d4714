#pragma once

#include <string>

#include "check/plate_answers.hpp"
#include "check/strength_under.hpp"

/// What the published tests of tables share. See standtrue/check/table_tests.hpp.
namespace standtrue::check {

/// The load of the test that is run for the bench's duty: the first of the two; null if none is.
[[nodiscard]] const reference::Load* load_run(const model::Parts& parts,
                                              const reference::Tables& tables, const char* heavy,
                                              const char* light = nullptr);

/// "table-test/<name>", with the source of its force and that its limit is borrowed.
[[nodiscard]] Finding start_test(const char* name, Group group, const reference::Source& source);

/// Told where it is met, a caution where not; what is not judged is told.
void settle_test(Finding& finding);

/// "the front top rail is bent to half of its strength": to go on after a colon.
[[nodiscard]] std::string goes_on(std::string sentence);

/// Judges a test by strength: demand and ratio are those of the worst, its working comes along.
void judge_by_strength(Finding& finding, const StrengthUnder& under);

[[nodiscard]] bool is_static_test(const model::Combination& combination);
[[nodiscard]] bool is_disc_test(const model::Combination& combination);
[[nodiscard]] bool is_racking_test(const model::Combination& combination);

// One file each.
[[nodiscard]] std::vector<Finding> tipping_tests(const model::Parts& parts,
                                                 const reference::Tables& tables);
[[nodiscard]] std::vector<Finding> strength_tests(const Answers& answers,
                                                  const PlateAnswers& plates,
                                                  const reference::Tables& tables);
[[nodiscard]] std::vector<Finding> disc_test(const Answers& answers, const PlateAnswers& plates,
                                             const reference::Tables& tables);

}  // namespace standtrue::check
