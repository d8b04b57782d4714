#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"
#include "standtrue/decide/costs.hpp"
#include "standtrue/decide/decide.hpp"
#include "standtrue/decide/level.hpp"
#include "standtrue/decide/odds.hpp"
#include "standtrue/decide/parts_list.hpp"
#include "standtrue/decide/place.hpp"
#include "standtrue/decide/prove.hpp"
#include "standtrue/decide/solve_case.hpp"

/// Text of what others computed. Nothing is computed here; width and colour are arguments.
namespace standtrue::report {

struct Style {
  int width = 80;       ///< columns of the terminal
  bool colour = false;  ///< bold, chalk blue and red-brown; the words say it all without
  bool detail = false;  ///< clauses and working
};
inline constexpr int least_width = 50;

/// The verdict as the builder reads it, with its rod; with `detail` the engineer's pages behind it.
[[nodiscard]] std::string text(const decide::Assessment& assessment, const Style& style);
/// docs/assessment.schema.json, version 1. `file` is the name of the bench file, `version` ours.
/// Without `raw` what was solved is left out: most of its length.
[[nodiscard]] std::string json(const decide::Assessment& assessment, const std::string& file,
                               const std::string& version, bool raw = true);
/// Benches side by side: the answer in words first, then a row for each.
[[nodiscard]] std::string text(const decide::SideBySide& comparison, quantity::UnitSystem units,
                               const Style& style);
/// docs/comparison.schema.json, version 1.
[[nodiscard]] std::string json(const decide::SideBySide& comparison, const std::string& file,
                               const std::string& version);
/// How to set the feet: a card to take to the shop.
[[nodiscard]] std::string text(const decide::Levelling& levelling, const bench::Bench& bench,
                               const Style& style);
/// docs/level.schema.json, version 1.
[[nodiscard]] std::string json(const decide::Levelling& levelling, const std::string& file,
                               const std::string& version);
/// What to cut and to buy: a card to take to the shop.
[[nodiscard]] std::string text(const decide::PartsList& list,
                               const std::optional<decide::Costs>& costs, const bench::Bench& bench,
                               const Style& style);
/// docs/parts.schema.json, version 1.
[[nodiscard]] std::string json(const decide::PartsList& list,
                               const std::optional<decide::Costs>& costs, const std::string& file,
                               const std::string& version);
/// Tests to make on the bench, or what their readings teach: a card to take to the shop.
[[nodiscard]] std::string text(const decide::ProvingPlan& plan, const bench::Bench& bench,
                               const Style& style);
/// docs/prove.schema.json, version 1.
[[nodiscard]] std::string json(const decide::ProvingPlan& plan, const std::string& file,
                               const std::string& version);
/// How many of the benches that could be built from a file would pass.
[[nodiscard]] std::string text(const decide::Odds& odds, const bench::Bench& bench,
                               const Style& style);
/// docs/odds.schema.json, version 1.
[[nodiscard]] std::string json(const decide::Odds& odds, const std::string& file,
                               const std::string& version);
/// Where a machine may stand: the answer in words, then a plan of the top.
[[nodiscard]] std::string text(const decide::PlacePlan& plan, quantity::UnitSystem units,
                               const Style& style);
/// "clear", "care", "barred" or "not_looked_at", as in docs/place.schema.json.
[[nodiscard]] const char* stand_key(decide::Stand stand);

/// docs/place.schema.json, version 1.
[[nodiscard]] std::string json(const decide::PlacePlan& plan, const std::string& file,
                               const std::string& version);
/// A solved frame case: response, and how far each expectation is met.
[[nodiscard]] std::string text(const model::FrameCase& frame_case,
                               const decide::CaseAnswers& answers, const Style& style);
/// A model as a frame case that expects its own answers: movements of the top corners, forces of
/// the feet and bending moments of the rail ends under every combination.
[[nodiscard]] std::string frame_case_text(const model::Model& model);

/// The groups of the reference records, in the order of the list.
[[nodiscard]] std::vector<std::string> table_groups(const reference::Tables& tables);
/// The reference records as a list; `group` filters ("" for all).
[[nodiscard]] std::string tables_text(const reference::Tables& tables, const std::string& group,
                                      const Style& style);

}  // namespace standtrue::report
