#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"

/// What to say and do about a verdict, in words that terminal and report share.
namespace standtrue::report {

/// "DEPENDS: safe to load; ..."; "CARRIES, BUT sways ..." goes on without a colon, and without
/// saying again that it is safe to load.
[[nodiscard]] std::string verdict_sentence(const decide::Assessment& assessment);

/// "lathe 60 kg, bench grinder 20 kg, 30 kg on the top": what the verdict is for.
[[nodiscard]] std::string planned_load(const bench::Bench& bench);

struct Remedy {
  std::string label;  ///< "Measure: ", "Change, for sway: "
  std::string text;
};
/// What to do about a finding of this assessment; nothing where that is not known or not needed.
/// What to measure is told where the verdict hangs on it: "or less is good" beside a DO NOT LOAD is
/// not.
[[nodiscard]] std::optional<Remedy> remedy(const check::Finding& finding,
                                           const decide::Assessment& assessment);

/// Those with a number of this bench first, then the general ones; without those that are met, and
/// without that it is an aid.
[[nodiscard]] std::vector<std::string> cautions_of(const decide::Assessment& assessment);

}  // namespace standtrue::report
