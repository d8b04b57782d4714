#pragma once

#include <optional>
#include <string>
#include <vector>

#include "report/svg.hpp"
#include "report/view.hpp"
#include "standtrue/report/report.hpp"

/// Every drawing of a report, one file each. They lay out what was computed; they compute nothing.
namespace standtrue::report {

/// What a drawing is made from.
struct Drawn {
  const decide::Assessment& assessment;
  const decide::Picture& picture;
  const decide::PlacePlan* places = nullptr;  ///< where it was asked for
};

/// A finding with its number on the drawing. Failing ones first, one of each line of the rod; where
/// none fails, those nearest to their limit.
struct Balloon {
  int number = 0;
  const check::Finding* finding = nullptr;
  bool fails = false;
};
[[nodiscard]] std::vector<Balloon> balloons_of(const decide::Assessment& assessment);

/// A drawing and what it needs to be read: scales, how much larger movements are drawn.
struct Captioned {
  Svg svg;
  std::string caption;
};

/// Front elevation, end and plan on one sheet, with string, bob and balloons.
[[nodiscard]] Captioned shop_drawing(const Drawn& drawn, const std::vector<Balloon>& balloons,
                                     double width);
/// Every line of the rod.
[[nodiscard]] Svg rod_drawing(const decide::Assessment& assessment, double width);

/// "490": how many times larger something is drawn.
[[nodiscard]] std::string as_times(double times);

/// Seen edges over hidden ones.
void draw_solids(Svg& svg, const std::vector<Solid>& solids, const View& view,
                 bool hidden_too = true);

}  // namespace standtrue::report
