#pragma once

#include "report/drawing.hpp"

/// The shop's own instruments on an elevation: a string line for sag, a plumb bob for sway. What
/// they show is drawn so large that what is allowed always comes to the same few millimetres on the
/// sheet, a double line: what is over looks over, whatever the bench, up to three times.
namespace standtrue::report {

/// Above the top; its figures stand left of it. The shape is that of the top where it sags most.
void draw_string(Svg& svg, const Drawn& drawn, const View& front);
/// Beside the right post of a view; `id` is that of the sway ("sway/along").
void draw_bob(Svg& svg, const Drawn& drawn, const View& view, const char* id);

/// How high over its sheet a machine reaches.
[[nodiscard]] double head_of(const bench::Machine& machine);

}  // namespace standtrue::report
