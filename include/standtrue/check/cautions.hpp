#pragma once

#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// What is told with every answer.
namespace standtrue::check {

/// What applies to this bench beside the numbers: an aid and not a certificate, machines, timber.
/// Source (common practice): what a careful guide says.
[[nodiscard]] std::vector<std::string> cautions(const bench::Bench& bench);

/// Whether one person had better not lift it over the edge of a bench alone: from 45 kg on.
/// Source (common practice): a mini lathe of 36 to 45 kg is where two people lift.
[[nodiscard]] bool is_too_heavy_for_one(const bench::Machine& machine);

/// Limit states that are not looked at, one line each; cautions, which decide nothing.
/// Source (ours): what this version looks at.
[[nodiscard]] std::vector<Finding> outside_this_tool(const Answers& answers,
                                                     const reference::Tables& tables);

}  // namespace standtrue::check
