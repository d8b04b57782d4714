#pragma once

#include <vector>

#include "standtrue/model/model.hpp"

namespace standtrue::check {

/// Per cell of a plate (row by row), whether rolling shear is looked at in its middle: not under
/// pads and one thickness round them, nor over what carries the sheet, rails and ends of posts,
/// where the load goes straight down.
[[nodiscard]] std::vector<bool> clear_cells(const model::Parts& parts, std::size_t plate_place,
                                            const model::Plate& plate);

}  // namespace standtrue::check
