#pragma once

#include "report/drawing.hpp"

namespace standtrue::report {

/// The three views of a shop drawing.
struct Views {
  View front, end, plan;
};

/// Each number where it governs, in the view that shows it best.
void number_findings(Svg& svg, const Drawn& drawn, const Views& views,
                     const std::vector<Balloon>& balloons);

}  // namespace standtrue::report
