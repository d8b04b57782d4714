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

constexpr double label_width = 14.0, row_height = 5.6;

std::vector<const Finding*> rows_of(const std::vector<Finding>& findings) {
  std::vector<const Finding*> rows;
  for (const Group group : {Group::carry, Group::joints, Group::sheet, Group::sag, Group::sway,
                            Group::twist, Group::hum, Group::tip, Group::slide, Group::feet}) {
    if (const Finding* f = governing(findings, group)) rows.push_back(f);
  }
  return rows;
}

/// On one line, or on two where that would run off the sheet.
void tell(Svg& svg, Flat at, const std::string& words, std::string_view ink) {
  constexpr double widest_face = 1.2;  // of a usual one
  const std::size_t comma = words.rfind(", ");
  const bool fits = widest_face * text_width(words, 2.2) < svg.width() - at[0];
  if (fits || comma == words.npos) {
    svg.text({at[0], at[1] + 2.2}, words, ink);
    return;
  }
  svg.text({at[0], at[1] + 1.0}, words.substr(0, comma + 1), ink);
  svg.text({at[0], at[1] + 3.4}, words.substr(comma + 2), ink);
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
    const bool fails = is_over(*f);
    svg.text({0, y + 2.3}, group_key(f->group), fails ? "name red" : "name");
    const Range range = *ratios(*f);
    draw_rod(svg, {label_width, y}, right - label_width, range.least, range.greatest);
    tell(svg, {right + 2.4, y}, amount(*f, assessment.bench.units), fails ? "small red" : "small");
    y += row_height;
  }
  return svg;
}

}  // namespace standtrue::report
