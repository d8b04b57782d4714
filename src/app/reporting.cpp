#include "app/reporting.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "app/reading.hpp"
#include "standtrue/version.hpp"

namespace standtrue::app {

namespace {

/// Where its heaviest machine may stand; nothing without one on the top.
std::optional<decide::PlacePlan> places_of(const bench::Bench& bench,
                                           const reference::Tables& tables,
                                           const Options& options) {
  const auto machine = decide::machine_on_top(bench, options.machine);
  if (!machine) return std::nullopt;
  return decide::place(bench, *machine, tables, options.work);
}

}  // namespace

report::Imprint imprint_of(const Options& options, const std::string& file) {
  return {file, options.date, std::string(version)};
}

std::string whole_report(const decide::Assessment& assessment, const reference::Tables& tables,
                         const Options& options, const std::string& file) {
  const decide::Picture picture = decide::picture_of(assessment, tables);
  return report::html(assessment, picture, places_of(assessment.bench, tables, options),
                      imprint_of(options, file));
}

Outcome draw(const Options& options, const std::string& file, const std::string& text) {
  const std::vector<std::string>& names = report::picture_names();
  std::string list;
  for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
  if (std::find(names.begin(), names.end(), options.picture) == names.end()) {
    const std::string near = quantity::nearest(options.picture, names);
    return {"",
            fmt::format("standtrue draw: {}{}\nThe pictures: {}\n",
                        options.picture.empty() ? "which picture?"
                                                : "there is no picture '" + options.picture + "'",
                        near.empty() ? "" : "; did you mean '" + near + "'?", list),
            wrong_file};
  }
  return with_bench(file, text, [&](const bench::Bench& bench, const reference::Tables& tables) {
    const decide::Assessment assessment =
        decide::assess(bench, tables, false, nullptr, options.work);
    std::optional<decide::PlacePlan> places;
    if (report::picture_wants_places(options.picture)) places = places_of(bench, tables, options);
    const std::string svg = report::picture_svg(options.picture, assessment,
                                                decide::picture_of(assessment, tables), places);
    if (!svg.empty()) return Outcome{svg, "", all_good};
    return Outcome{"", fmt::format("{}: there is nothing to draw as '{}'\n", file, options.picture),
                   not_good};
  });
}

}  // namespace standtrue::app
