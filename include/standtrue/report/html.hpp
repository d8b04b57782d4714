#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/decide/picture.hpp"
#include "standtrue/report/report.hpp"

/// A report to print: one HTML file that needs nothing else. Drawings are SVG; what a bench file
/// says never becomes markup. Nothing is computed here.
namespace standtrue::report {

/// What the title block says of the report itself.
struct Imprint {
  std::string file;     ///< of the bench
  std::string date;     ///< as the caller has it
  std::string version;  ///< ours
};

/// The first page is a shop drawing, the engineer's pages come behind it. `places` is drawn on its
/// plan where it is there.
[[nodiscard]] std::string html(const decide::Assessment& assessment, const decide::Picture& picture,
                               const std::optional<decide::PlacePlan>& places,
                               const Imprint& imprint);

// Sheets of the decisions.
[[nodiscard]] std::string html(const decide::SideBySide& comparison, const bench::Bench& bench,
                               const Imprint& imprint);
[[nodiscard]] std::string html(const decide::Levelling& levelling, const bench::Bench& bench,
                               const Imprint& imprint);
[[nodiscard]] std::string html(const decide::PartsList& list,
                               const std::optional<decide::Costs>& costs, const bench::Bench& bench,
                               const Imprint& imprint);
[[nodiscard]] std::string html(const decide::ProvingPlan& plan, const bench::Bench& bench,
                               const Imprint& imprint);
[[nodiscard]] std::string html(const decide::Odds& odds, const bench::Bench& bench,
                               const Imprint& imprint);
[[nodiscard]] std::string html(const decide::PlacePlan& plan, const bench::Bench& bench,
                               const Imprint& imprint);

/// Names of single pictures, in the order of the report: "front", "solid", "moments", ...
[[nodiscard]] const std::vector<std::string>& picture_names();
/// Whether it shows where a machine may stand.
[[nodiscard]] bool picture_wants_places(const std::string& name);
/// One of them as an SVG file; empty where this bench has no such picture.
[[nodiscard]] std::string picture_svg(const std::string& name, const decide::Assessment& assessment,
                                      const decide::Picture& picture,
                                      const std::optional<decide::PlacePlan>& places);

}  // namespace standtrue::report
