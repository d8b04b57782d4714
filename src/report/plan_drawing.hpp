#pragma once

#include "report/drawing.hpp"

namespace standtrue::report {

/// The plan with posts and rails under it, where a machine may stand, feet with what they carry,
/// and floor to be kept clear. Figures of the front feet stand at `below`; what the hatches mean
/// stands from `legend_x` on.
void draw_plan(Svg& svg, const Drawn& drawn, const View& view, double below, double legend_x);

/// Cells of one way round, hatched: clear ground is left white.
void hatch_places(Svg& svg, const decide::PlacePlan& plan, std::size_t way, const View& view);
/// What the hatches mean.
void explain_hatches(Svg& svg, const decide::PlacePlan& plan, std::size_t way, Flat at);

}  // namespace standtrue::report
