// The setting-out rod: the knife line is the limit, the pencil smear runs from the better to the
// worse answer.
#include <algorithm>
#include <cmath>

#include "report/card_drawings.hpp"
#include "report/figures.hpp"
#include "report/governing.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

using check::Finding;
using check::Group;
using check::Judgement;

constexpr double label_width = 14.0, row_height = 6.4;

std::vector<const Finding*> rows_of(const std::vector<Finding>& findings) {
  std::vector<const Finding*> rows;
  for (const Group group : {Group::carry, Group::joints, Group::sheet, Group::sag, Group::sway,
                            Group::twist, Group::hum, Group::tip, Group::slide, Group::feet}) {
    if (const Finding* f = governing(findings, group)) rows.push_back(f);
  }
  return rows;
}

}  // namespace

Svg rod_drawing(const decide::Assessment& assessment, double width) {
  const std::vector<const Finding*> rows = rows_of(assessment.findings);
  Svg svg(width, 5.0 + row_height * static_cast<double>(rows.size()), "The rod",
          "For each question a stroke from the better to the worse answer, and a line for the "
          "limit. The same stands in words beside each.");
  const double right = 0.5 * width;
  svg.text({label_width + (right - label_width) / rod_end, 2.6}, "limit", "small", Anchor::middle);
  double y = 4.6;
  for (const Finding* f : rows) {
    const bool fails = f->judgement != Judgement::satisfied;
    svg.text({0, y + 2.3}, group_key(f->group), fails ? "name red" : "name");
    const Range range = *ratios(*f);
    draw_rod(svg, {label_width, y}, right - label_width, range.least, range.greatest);
    svg.text({right + 2.4, y + 2.2}, amount(*f, assessment.bench.units),
             fails ? "small red" : "small");
    y += row_height;
  }
  return svg;
}

}  // namespace standtrue::report
