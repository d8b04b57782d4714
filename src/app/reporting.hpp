#pragma once

#include <optional>
#include <string>

#include "standtrue/app/run.hpp"

/// Reports and pictures.
namespace standtrue::app {

[[nodiscard]] report::Imprint imprint_of(const Options& options, const std::string& file);

/// The report of a check, with where the heaviest machine may stand.
[[nodiscard]] std::string whole_report(const decide::Assessment& assessment,
                                       const reference::Tables& tables, const Options& options,
                                       const std::string& file);

/// A single picture; or which there are.
[[nodiscard]] Outcome draw(const Options& options, const std::string& file,
                           const std::string& text);

}  // namespace standtrue::app
