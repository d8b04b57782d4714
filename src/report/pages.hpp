#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/page.hpp"
#include "standtrue/report/report.hpp"

/// What the program says about each of its answers, for a terminal and for HTML.
namespace standtrue::report {

// The verdict's page, for a terminal alone where it says `lines`.

/// One line (or two, on a narrow page) for each group of checks that has a judged finding.
[[nodiscard]] std::string rod_lines(const decide::Assessment& assessment, const Style& style);
/// What to change, what to measure, what to take care of, what was not judged.
[[nodiscard]] Page advice_page(const decide::Assessment& assessment);
/// Why there is no answer at all; empty if there is one.
[[nodiscard]] Page refusal_page(const decide::Assessment& assessment);

/// "bending (front top rail, back top rail); sway (across)": findings that nobody judged, by the
/// check of their ids.
[[nodiscard]] std::string unjudged_titles(const std::vector<check::Finding>& findings);
/// "vibration, bed twist": what this tool does not look at.
[[nodiscard]] std::string outside_titles(const std::vector<check::Finding>& findings);

// The engineer's pages, in this order.
[[nodiscard]] Page understood_page(const decide::Assessment& assessment);
/// Timber and boards with their values and sources; of the report alone.
[[nodiscard]] Page materials_page(const decide::Assessment& assessment);
/// Every finding in a row of a table, worst first.
[[nodiscard]] Page findings_page(const decide::Assessment& assessment);
/// Their working, in the same order; empty if nothing was judged.
[[nodiscard]] Page working_page(const decide::Assessment& assessment);
[[nodiscard]] Page loads_page(const decide::Assessment& assessment);
[[nodiscard]] Page joints_and_feet_page(const decide::Assessment& assessment);
/// The solver's audit, what was not judged and why, every caution.
[[nodiscard]] Page limits_page(const decide::Assessment& assessment);

// The answers of decisions.
[[nodiscard]] Page page(const decide::SideBySide& comparison, quantity::UnitSystem units);
[[nodiscard]] Page page(const decide::Levelling& levelling, const bench::Bench& bench);
[[nodiscard]] Page page(const decide::PartsList& list, const std::optional<decide::Costs>& costs,
                        const bench::Bench& bench);
[[nodiscard]] Page page(const decide::ProvingPlan& plan, const bench::Bench& bench);
[[nodiscard]] Page page(const decide::Odds& odds, const bench::Bench& bench);
[[nodiscard]] Page page(const decide::PlacePlan& plan, quantity::UnitSystem units);

}  // namespace standtrue::report
