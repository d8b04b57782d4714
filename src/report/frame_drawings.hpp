#pragma once

#include <optional>

#include "report/drawing.hpp"

/// Drawings of the frame in the round, and of its sheets. Nothing where there is nothing to show.
namespace standtrue::report {

/// From the front, the right and above, hidden edges left out.
[[nodiscard]] Captioned solid_drawing(const Drawn& drawn, double width);
/// One of the elevations by itself, with hidden edges.
[[nodiscard]] Captioned elevation_drawing(const Drawn& drawn, View view, const char* title,
                                          double width);
/// How frame and sheets move under what stands and is stored on them.
[[nodiscard]] std::optional<Captioned> loaded_drawing(const Drawn& drawn, double width);
/// How the frame moves when it is pushed.
[[nodiscard]] std::optional<Captioned> pushed_drawing(const Drawn& drawn, bool along, double width);
/// Bending moments, laid off on the side in tension.
[[nodiscard]] std::optional<Captioned> moment_drawing(const Drawn& drawn, double width);
/// The first modes, side by side.
[[nodiscard]] std::optional<Captioned> swing_drawing(const Drawn& drawn, double width);
/// Moments of each lying sheet as contour lines, along and across.
[[nodiscard]] std::vector<Captioned> sheet_moment_drawings(const Drawn& drawn, double width);
/// Where the machine may stand, both ways round, and what may be stored where.
[[nodiscard]] std::vector<Captioned> load_plan_drawings(const decide::PlacePlan& plan,
                                                        quantity::UnitSystem units, double width);

/// A view scaled and set so that these points, grown by `margin` mm, fill the width, or the height
/// if that is less. Gives the height that it takes.
[[nodiscard]] double fit(View& view, const std::vector<Place>& points, double width, double most,
                         double margin);

}  // namespace standtrue::report
