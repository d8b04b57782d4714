#pragma once

#include <string>
#include <vector>

#include "standtrue/report/report.hpp"

/// The parts of the terminal page.
namespace standtrue::report {

/// One line (or two, on a narrow page) for each group of checks that has a judged finding.
[[nodiscard]] std::string rod_lines(const decide::Assessment& assessment, const Style& style);
/// What to change, what to measure, what to take care of, what was not judged.
[[nodiscard]] std::string advice_lines(const decide::Assessment& assessment, const Style& style);
/// Why there is no answer at all; empty if there is one.
[[nodiscard]] std::string refusal_lines(const decide::Assessment& assessment, const Style& style);

/// "bending (front top rail, back top rail); sway (across)": findings that nobody judged, by the
/// check of their ids.
[[nodiscard]] std::string unjudged_titles(const std::vector<check::Finding>& findings);
/// "vibration, bed twist": what this tool does not look at.
[[nodiscard]] std::string outside_titles(const std::vector<check::Finding>& findings);

// The engineer's pages, in this order.
[[nodiscard]] std::string detail_understood(const decide::Assessment& assessment,
                                            const Style& style);
[[nodiscard]] std::string detail_findings(const decide::Assessment& assessment, const Style& style);
[[nodiscard]] std::string detail_loads(const decide::Assessment& assessment, const Style& style);
[[nodiscard]] std::string detail_model(const decide::Assessment& assessment, const Style& style);
[[nodiscard]] std::string detail_limits_of_the_answer(const decide::Assessment& assessment,
                                                      const Style& style);

/// A text as a sentence: with a full stop, unless it ends with a mark.
[[nodiscard]] std::string sentence(std::string text);

}  // namespace standtrue::report
