#pragma once

#include <optional>

#include "report/drawing.hpp"

/// Charts of a report. Nothing where this bench has nothing to show.
namespace standtrue::report {

[[nodiscard]] std::optional<Captioned> sway_chart(const Drawn& drawn, double width);
[[nodiscard]] std::optional<Captioned> speed_chart(const Drawn& drawn, double width);
/// The sag under each machine, split into the sheet's own and that of what carries it.
[[nodiscard]] std::optional<Captioned> sag_split(const Drawn& drawn, double width);
/// Winding sticks on each bed whose twist was looked at.
[[nodiscard]] std::optional<Captioned> winding_sticks(const Drawn& drawn, double width);

}  // namespace standtrue::report
