#pragma once

#include <string>
#include <vector>

#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

/// The sentence after the verdict word, naming what governs: "safe to load; may sway too much for
/// planing."
[[nodiscard]] std::string summary_of(Verdict verdict, const std::vector<check::Finding>& findings,
                                     const bench::Bench& bench);

}  // namespace standtrue::decide
