#include <fmt/format.h>

#include <algorithm>

#include "report/charts.hpp"
#include "report/figures.hpp"
#include "report/governing.hpp"

namespace standtrue::report {

std::optional<Captioned> sag_split(const Drawn& drawn, double width) {
  const quantity::UnitSystem units = drawn.assessment.bench.units;
  std::vector<const check::Finding*> rows;
  double most = 0.0;
  for (const check::Finding& f : drawn.assessment.findings) {
    if (f.made_of.size() != 2 || !is_judged(f)) continue;
    rows.push_back(&f);
    most = std::max({most, f.limit, f.demand});
  }
  if (rows.empty() || !(most > 0.0)) return std::nullopt;
  constexpr double row = 10.5, label = 62.0, right = 22.0;
  Svg svg(width, row * static_cast<double>(rows.size()) + 4.0, "What the sag is made of",
          "For each machine the part of the sheet and the part of the rails.");
  const double scale = (width - label - right) / (1.05 * most);
  double y = 2.0;
  for (const check::Finding* f : rows) {
    const bool is_final = f->id.find("final") != std::string::npos;
    svg.text({0, y + 2.6}, f->place, "");
    svg.text({0, y + 5.8}, is_final ? "after years" : "at once", "small");
    double x = label;
    std::string words;
    for (std::size_t i = 0; i < f->made_of.size(); ++i) {
      const double wide = std::max(0.0, f->made_of[i].value) * scale;
      svg.rect({x, y}, wide, 4.2, i == 0 ? "smear" : "seen");
      words += (i == 0 ? "" : " and ") + rough(f->made_of[i].value, quantity::Kind::length, units);
      x += wide;
    }
    svg.text({label, y + 7.4}, words, "small");
    const double limit = label + f->limit * scale;
    for (const double off : {-0.35, 0.35}) {
      svg.line({limit + off, y - 1.0}, {limit + off, y + 5.2}, "knife");
    }
    svg.text({limit + 1.6, y + 3.0}, rough(f->limit, quantity::Kind::length, units), "small blue");
    y += row;
  }
  return Captioned{std::move(svg),
                   "Hatched: the sheet between what carries it, cured by a bearer or a thicker "
                   "sheet. White: the rails and bearers under it, cured by deeper ones. The double "
                   "line is the limit of the whole."};
}

}  // namespace standtrue::report
