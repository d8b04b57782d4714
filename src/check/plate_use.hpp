#pragma once

#include <vector>

#include "check/plate_answers.hpp"

namespace standtrue::check {

/// `plate_strength` under those combinations that are wanted, without hand checks. A loose sheet
/// under pushes alone has no finding: it takes no part in them.
[[nodiscard]] std::vector<Finding> plate_strength_under(const Answers& answers,
                                                        const PlateAnswers& plates,
                                                        bool (*wanted)(const model::Combination&),
                                                        const reference::Tables& tables);

}  // namespace standtrue::check
