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

/// What a plate does under one combination, as far as the caller knows: its one column of movements
/// where sag is read, its forces where strength is.
struct KnownPlate {
  solve::PlateMovements movements;
  solve::PlateField field;
};
/// Per plate, then per combination of the model.
using KnownPlates = std::vector<std::vector<KnownPlate>>;

/// The limit states that a change of place can bring over the limit, an explicit list: strength of
/// members, joints under gravity and sheets, tipping, what the feet carry; with `service` the sag
/// too. Of the combinations that the model has.
[[nodiscard]] std::vector<Finding> check_placed(const Answers& answers,
                                                const reference::Tables& tables, bool service);

/// Which of the two is read of a combination: by strength forces, by sag movements.
[[nodiscard]] bool reads_plate_forces(const model::Combination& combination);
[[nodiscard]] bool reads_plate_movements(const model::Combination& combination);

/// The same where the caller knows the plates, at once and, where there is such an answer, after
/// creep.
struct Known {
  const KnownPlates& at_once;
  const KnownPlates* after_creep = nullptr;
};
[[nodiscard]] std::vector<Finding> check_placed(const Answers& answers,
                                                const reference::Tables& tables, bool service,
                                                const Known& known);

}  // namespace standtrue::check
