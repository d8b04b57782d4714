#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"

/// What is looked at where only the place of a load changes.
namespace standtrue::check {

/// Whether a combination knows where on the top a machine stands: what lasts and is stored, and
/// somebody standing beside it. Shoves feel its weight far more than its place, tests and the
/// frame's lean have nothing to do with it.
[[nodiscard]] bool knows_the_place(const model::Combination& combination);

/// The limit states that a change of place can bring over the limit, an explicit list: strength of
/// members, joints under gravity and sheets, tipping, what the feet carry; with `service` the sag
/// too. Of the combinations that the model has.
[[nodiscard]] std::vector<Finding> check_placed(const Answers& answers,
                                                const reference::Tables& tables, bool service);

}  // namespace standtrue::check
