#pragma once

#include "standtrue/model/model.hpp"

/// Loads at other places on the plates of a model that is made: what stands there presses on the
/// mesh as it is.
namespace standtrue::model {

/// The weight of a machine where it says that it stands, on its pads. Contract: its sheet is a
/// plate of the model, and each pad touches it.
[[nodiscard]] LoadCase weight_at(const Model& model, const bench::Machine& machine);

/// 1 kg on a square patch of a sheet, its middle at x, y. Contract: as above.
[[nodiscard]] LoadCase kilogram_at(const Model& model, std::size_t sheet, Length x, Length y,
                                   Length side);

/// Whether the model has a plate under this patch of a sheet.
[[nodiscard]] bool is_under(const Model& model, std::size_t sheet, Length x, Length y, Length side);

/// Lets machine `place` of the bench stand as `there` says: all that the checks of strength, sag,
/// feet and tipping read of it. Its load cases and its bed stay with the caller.
void move_machine(Model& model, std::size_t place, const bench::Machine& there);

}  // namespace standtrue::model
