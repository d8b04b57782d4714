#pragma once

#include <vector>

#include "standtrue/check/check_all.hpp"
#include "standtrue/solve/plate_response.hpp"

/// What is looked at where only the place of a load changes.
namespace standtrue::check {

/// Whether a combination knows where on the top a machine stands: what lasts and is stored, and
/// somebody standing beside it. Shoves feel its weight far more than its place, tests and the
/// frame's lean have nothing to do with it.
[[nodiscard]] bool knows_the_place(const model::Combination& combination);

/// How every plate moves, a column for each combination of the model.
using PlatesMoved = std::vector<solve::PlateMovements>;

/// The limit states that a change of place can bring over the limit, an explicit list: strength of
/// members, joints under gravity and sheets, tipping, what the feet carry; with `service` the sag
/// too. Of the combinations that the model has.
[[nodiscard]] std::vector<Finding> check_placed(const Answers& answers,
                                                const reference::Tables& tables, bool service);

/// The same where the caller knows how the plates move, at once and, where there is such an answer,
/// after creep.
struct KnownMovements {
  const PlatesMoved& at_once;
  const PlatesMoved* after_creep = nullptr;
};
[[nodiscard]] std::vector<Finding> check_placed(const Answers& answers,
                                                const reference::Tables& tables, bool service,
                                                const KnownMovements& known);

}  // namespace standtrue::check
