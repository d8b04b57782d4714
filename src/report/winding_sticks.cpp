#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/charts.hpp"
#include "report/drawing.hpp"
#include "report/governing.hpp"

namespace standtrue::report {

namespace {

constexpr double stick_row = 26.0, half_stick = 34.0, steepest_stick = 6.0;  // mm on the sheet

/// Both sticks seen along the bed, the far one tilted.
void sticks(Svg& svg, double x, double y, double tilt, double limit) {
  svg.line({x - half_stick, y}, {x + half_stick, y}, "thick");
  for (const double side : {-1.0, 1.0}) {
    svg.line({x - half_stick, y - side * limit}, {x + half_stick, y + side * limit}, "knife");
  }
  svg.line({x - half_stick, y - tilt}, {x + half_stick, y + tilt}, "sagged");
}

}  // namespace

std::optional<Captioned> winding_sticks(const Drawn& drawn, double width) {
  const quantity::UnitSystem units = drawn.assessment.bench.units;
  std::vector<const check::Finding*> rows;
  double most = 0.0;
  for (const check::Finding& f : drawn.assessment.findings) {
    if (f.group != check::Group::twist || f.unit != quantity::Kind::slope) continue;
    if (!std::isfinite(f.demand) || !(f.limit > 0.0)) continue;
    rows.push_back(&f);
    most = std::max({most, std::abs(f.demand), f.limit});
  }
  if (rows.empty()) return std::nullopt;
  Svg svg(width, stick_row * static_cast<double>(rows.size()), "Winding sticks on the bed",
          "The near stick level, the far stick tilted by the twist of the bed.");
  const double times = steepest_stick / most;
  double y = 0.5 * stick_row;
  for (const check::Finding* f : rows) {
    sticks(svg, 4.0 + half_stick, y, times * f->demand, times * f->limit);
    const double x = 2.0 * half_stick + 14.0;
    svg.text({x, y - 3.0}, f->place, "name");
    svg.text({x, y + 1.0}, "twists " + quantity::print(std::abs(f->demand), f->unit, units), "");
    const std::string than = is_judged(*f) ? " allowed" : " is good for a metal lathe";
    svg.text({x, y + 5.0}, quantity::print(f->limit, f->unit, units) + than, "small blue");
    y += stick_row;
  }
  return Captioned{
      std::move(svg),
      fmt::format("Two straight sticks across the bed, sighted along it: the near one as it lies "
                  "(thick), the far one as the bed twists when somebody leans on the bench "
                  "(dashed), drawn {} times as steep. The pair of blue lines is the limit.",
                  as_times(times / half_stick))};
}

}  // namespace standtrue::report
