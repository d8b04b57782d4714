// Lying sheets from above: moments as contour lines, ground where a machine may stand.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/contours.hpp"
#include "report/figures.hpp"
#include "report/frame_drawings.hpp"
#include "report/plan_drawing.hpp"

namespace standtrue::report {

using decide::SheetField;
using quantity::in_si;

namespace {

std::vector<Place> corners_of_field(const SheetField& s) {
  return {{s.x.front(), s.y.front(), s.z}, {s.x.back(), s.y.back(), s.z}};
}

/// The edges of its cells that have a cell on one side only: its outline with its holes.
void outline(Svg& svg, const SheetField& s, const View& view) {
  const std::size_t nx = s.x.size() - 1, ny = s.y.size() - 1;
  const auto is_there = [&](std::size_t i, std::size_t j) {
    return i < nx && j < ny && s.cell(i, j);  // -1 wraps to no cell
  };
  const auto edge = [&](double x0, double y0, double x1, double y1) {
    svg.line(view.at({x0, y0, s.z}), view.at({x1, y1, s.z}), "seen");
  };
  for (std::size_t j = 0; j <= ny; ++j) {
    for (std::size_t i = 0; i <= nx; ++i) {
      if (i < nx && is_there(i, j) != is_there(i, j - 1)) edge(s.x[i], s.y[j], s.x[i + 1], s.y[j]);
      if (j < ny && is_there(i, j) != is_there(i - 1, j)) edge(s.x[i], s.y[j], s.x[i], s.y[j + 1]);
    }
  }
}

void draw_contours(Svg& svg, const SheetField& s, const std::vector<double>& M, const View& view,
                   quantity::UnitSystem units) {
  const auto [least, greatest] = std::minmax_element(M.begin(), M.end());
  constexpr double apart = 12.0;  // of figures, mm
  std::vector<Flat> told;
  for (const double level : round_levels(*least, *greatest, 7)) {
    const auto lines = contour({s.x, s.y, M, s.has_cell}, level);
    Flat best{};
    double room = 0.0;
    for (const std::vector<Flat>& line : lines) {
      std::vector<Flat> path;
      for (const Flat& p : line) path.push_back(view.at({p[0], p[1], s.z}));
      svg.path(path, level < 0.0 ? "contour-less" : "contour");
      for (const Flat& p : path) {
        double near = 40.0;
        for (const Flat& t : told) near = std::min(near, std::hypot(t[0] - p[0], t[1] - p[1]));
        if (near > room) {
          room = near;
          best = p;
        }
      }
    }
    if (room < apart) continue;
    const std::string words = quantity::print(level, quantity::Kind::moment_per_length, units);
    const double half = 0.6 * text_width(words, 2.2);
    best[0] = std::clamp(best[0], half, std::max(half, svg.width() - half));
    svg.rect({best[0] - half, best[1] - 1.5}, 2.0 * half, 2.6, "paper");
    svg.text({best[0], best[1] + 0.6}, words, "small", Anchor::middle);
    told.push_back(best);
  }
}

Captioned moments_of(const SheetField& s, bool along_x, const Drawn& drawn, double width) {
  View view = View::plan();
  const double height = fit(view, corners_of_field(s), width, 78.0, 3.0);
  const std::string which = along_x ? "along the bench" : "across the bench";
  Svg svg(width, height, "Moments of the " + s.sheet + " " + which,
          "Contour lines of the bending moment per width.");
  const std::vector<double>& M = along_x ? s.M_x : s.M_y;
  outline(svg, s, view);
  draw_contours(svg, s, M, view, drawn.assessment.bench.units);
  const auto [least, greatest] = std::minmax_element(M.begin(), M.end());
  const auto said = [&](double m) {
    return quantity::print(m, quantity::Kind::moment_per_length, drawn.assessment.bench.units);
  };
  return {std::move(svg),
          fmt::format("The {}: bending moment {} per width, the front below, with what stands and "
                      "is stored there. Dashed: it sags ({} at most); drawn through: it hogs over "
                      "what carries it ({} at most).",
                      s.sheet, which, said(std::min(0.0, *least)), said(std::max(0.0, *greatest)))};
}

Captioned places_drawing(const decide::PlacePlan& plan, std::size_t way, double width) {
  View view = View::plan();
  constexpr double legend = 74.0;
  const double x0 = in_si(plan.x0), y0 = in_si(plan.y0);
  const double x1 = x0 + in_si(plan.length), y1 = y0 + in_si(plan.depth);
  const double height =
      std::max(fit(view, {{x0, y0, 0}, {x1, y1, 0}}, width - legend, 70.0, 3.0), 26.0);
  Svg svg(width, height, "Where the " + plan.machine + " may stand",
          "A plan of the top; the same in words beside it.");
  hatch_places(svg, plan, way, view);
  const Flat a = view.at({x0, y1, 0}), b = view.at({x1, y0, 0});
  svg.rect(a, b[0] - a[0], b[1] - a[1], "thick");
  explain_hatches(svg, plan, way, {width - legend + 2.0, 4.0});
  std::string words = plan.ways[way].turned ? "Turned a quarter." : "As the file has it.";
  return {std::move(svg), words + " The front below."};
}

Captioned stored_drawing(const decide::PlacePlan& plan, quantity::UnitSystem units, double width) {
  const decide::LoadPlan& loads = plan.loads;
  View view = View::plan();
  const double x0 = in_si(plan.x0), y0 = in_si(plan.y0);
  const double dx = in_si(plan.length) / static_cast<double>(loads.nx);
  const double dy = in_si(plan.depth) / static_cast<double>(loads.ny);
  const double height = fit(
      view, {{x0, y0, 0}, {x0 + in_si(plan.length), y0 + in_si(plan.depth), 0}}, width, 80.0, 3.0);
  Svg svg(width, height, "What may be stored where",
          "The largest mass in the middle of each cell.");
  const auto words_of = [&](double mass) -> std::string {
    if (!std::isfinite(mass)) return "";
    if (mass < loads.most * 0.999) return rough(mass, quantity::Kind::mass, units);
    return "over " + rough(loads.most, quantity::Kind::mass, units);
  };
  bool has_mean = false;
  for (std::size_t cell = 0; cell < loads.mass.size(); ++cell) {
    const double x = x0 + dx * static_cast<double>(cell % loads.nx);
    const double y = y0 + dy * static_cast<double>(cell / loads.nx);
    const Flat a = view.at({x, y + dy, 0}), b = view.at({x + dx, y, 0});
    svg.rect(a, b[0] - a[0], b[1] - a[1], "rest");
    const Flat middle{0.5 * (a[0] + b[0]), 0.5 * (a[1] + b[1]) + 0.8};
    const std::string sure = words_of(loads.mass[cell]), mean = words_of(loads.mean[cell]);
    constexpr double line = 2.8;
    const double up = sure == mean ? 0.0 : 0.5 * line;
    svg.text({middle[0], middle[1] - up}, sure, "small", Anchor::middle);
    if (sure == mean) continue;
    svg.text({middle[0], middle[1] + up}, "(" + mean + ")", "small", Anchor::middle);
    has_mean = true;
  }
  const std::string patch = quantity::print(in_si(loads.patch), quantity::Kind::length, units);
  return {
      std::move(svg),
      fmt::format("Planned load: the largest mass on a square patch of {} in the middle of each "
                  "cell, beside all that the file has, for years, however joints and timber turn "
                  "out{}; one cell at a time. The front below.",
                  patch, has_mean ? " (in brackets where they are average)" : "")};
}

}  // namespace

std::vector<Captioned> sheet_moment_drawings(const Drawn& drawn, double width) {
  std::vector<Captioned> all;
  for (const SheetField& s : drawn.picture.sheets) {
    for (const bool along_x : {true, false}) {
      if (!s.M_x.empty()) all.push_back(moments_of(s, along_x, drawn, width));
    }
  }
  return all;
}

std::vector<Captioned> load_plan_drawings(const decide::PlacePlan& plan, quantity::UnitSystem units,
                                          double width) {
  std::vector<Captioned> all;
  if (!plan.none.empty()) return all;
  for (std::size_t way = 0; way < plan.ways.size(); ++way) {
    if (way == 1 && plan.is_alike_turned) continue;
    all.push_back(places_drawing(plan, way, width));
  }
  if (plan.loads.none.empty() && plan.loads.nx > 0) {
    all.push_back(stored_drawing(plan, units, width));
  }
  return all;
}

}  // namespace standtrue::report
