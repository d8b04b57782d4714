#include <algorithm>

#include "report/card_drawings.hpp"

namespace standtrue::report {

namespace {

constexpr double thickness = 2.6, thinnest = 0.9;  // an answer without a range is a stroke still

struct RodAt {
  Svg& svg;
  double left, right, y;

  [[nodiscard]] double at(double ratio) const {
    return left + (right - left) * std::min(ratio, rod_end) / rod_end;
  }
  void paper() const {
    svg.rect({left, y}, right - left, thickness, "thin");
    for (const double quarter : {0.25, 0.5, 0.75}) {
      svg.line({at(quarter), y + thickness}, {at(quarter), y + thickness - 0.8}, "thin");
    }
  }
  /// Clear of the knife line or past it, never a hair over it by rounding of the pen.
  void smear(double least, double greatest) const {
    const double knife = at(1.0);
    double from = at(least), to = std::max(at(greatest), from + thinnest);
    if (greatest <= 1.0 && to > knife - 0.3) {
      to = knife - 0.3;
      from = std::min(from, to - thinnest);
    }
    if (from < knife) svg.rect({from, y}, std::min(to, knife) - from, thickness, "smear");
    if (greatest > 1.0) {
      // Wholly off the rod: all past the line is struck through, so that it is not overlooked.
      const double start = least > rod_end ? knife : std::max(from, knife);
      svg.rect({start, y}, std::max(to, start + thinnest) - start, thickness, "over");
    }
    if (greatest > rod_end) {
      svg.path({{right, y - 0.2}, {right + 1.6, y + 0.5 * thickness}, {right, y + thickness + 0.2}},
               "off");
    }
  }
  void knife() const {
    for (const double off : {-0.35, 0.35}) {
      svg.line({at(1.0) + off, y - 0.9}, {at(1.0) + off, y + thickness + 0.9}, "knife");
    }
  }
};

}  // namespace

void draw_rod(Svg& svg, Flat corner, double width, double least, double greatest) {
  const RodAt rod{svg, corner[0], corner[0] + width, corner[1]};
  rod.paper();
  rod.smear(least, greatest);
  rod.knife();
}

}  // namespace standtrue::report
