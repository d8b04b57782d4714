#include "report/frame_drawings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "report/figures.hpp"
#include "report/governing.hpp"

namespace standtrue::report {

using decide::AxisLine;
using decide::AxisPoint;
using decide::SheetField;

namespace {

Place moved(const Place& at, const Place& by, double times) {
  return {at[0] + times * by[0], at[1] + times * by[1], at[2] + times * by[2]};
}

double size_of(const Place& v) { return std::hypot(v[0], v[1], v[2]); }

std::vector<Place> corners_of(const std::vector<Solid>& solids) {
  std::vector<Place> all;
  for (const Solid& s : solids) all.insert(all.end(), s.corners.begin(), s.corners.end());
  return all;
}

std::vector<Place> points_of(const std::vector<AxisLine>& lines) {
  std::vector<Place> all;
  for (const AxisLine& line : lines) {
    for (const AxisPoint& p : line.points) all.push_back(p.at);
  }
  return all;
}

double farthest(const std::vector<AxisLine>& lines, const std::vector<SheetField>& sheets) {
  double most = 0.0;
  for (const AxisLine& line : lines) {
    for (const AxisPoint& p : line.points) most = std::max(most, size_of(p.moved));
  }
  for (const SheetField& s : sheets) {
    for (const double w : s.w) most = std::max(most, std::abs(w));
  }
  return most;
}

void draw_axes(Svg& svg, const View& view, const std::vector<AxisLine>& lines, double times,
               std::string_view ink) {
  for (const AxisLine& line : lines) {
    std::vector<Flat> path;
    for (const AxisPoint& p : line.points) path.push_back(view.at(moved(p.at, p.moved, times)));
    svg.path(path, ink);
  }
}

/// Some mesh lines both ways, about as many as a square's width apart.
void draw_sheet(Svg& svg, const View& view, const SheetField& s, double times,
                std::string_view ink) {
  const auto point = [&](std::size_t i, std::size_t j) {
    return view.at({s.x[i], s.y[j], s.z + times * s.w[s.node(i, j)]});
  };
  const auto chosen = [](std::size_t k, std::size_t n, std::size_t lines) {
    return k % std::max<std::size_t>(1, (n - 1) / lines) == 0 || k + 1 == n;
  };
  for (std::size_t j = 0; j < s.y.size(); ++j) {
    if (!chosen(j, s.y.size(), 4)) continue;
    std::vector<Flat> path;
    for (std::size_t i = 0; i < s.x.size(); ++i) path.push_back(point(i, j));
    svg.path(path, ink);
  }
  for (std::size_t i = 0; i < s.x.size(); ++i) {
    if (!chosen(i, s.x.size(), 10)) continue;
    std::vector<Flat> path;
    for (std::size_t j = 0; j < s.y.size(); ++j) path.push_back(point(i, j));
    svg.path(path, ink);
  }
}

/// Titles of what comes on top of the bench and its machines begin with "and".
std::string under(const decide::FrameShape& shape) {
  const bool goes_on = shape.title.rfind("and ", 0) == 0;
  return (goes_on ? "Under the bench, its machines " : "Under ") + shape.title;
}

std::string as_length(double si, const Drawn& drawn) {
  return rough(si, quantity::Kind::length, drawn.assessment.bench.units);
}

}  // namespace

double fit(View& view, const std::vector<Place>& points, double width, double most, double margin) {
  constexpr double far = std::numeric_limits<double>::infinity();
  view.scale = 1.0;
  view.origin = {0.0, 0.0};
  Extent e{far, far, -far, -far};
  for (const Place& p : points) {
    const Flat at = view.at(p);
    e = {std::min(e.x0, at[0]), std::min(e.y0, at[1]), std::max(e.x1, at[0]),
         std::max(e.y1, at[1])};
  }
  const double wide = std::max(e.width(), 1e-3), high = std::max(e.height(), 1e-3);
  view.scale = std::min((width - 2.0 * margin) / wide, (most - 2.0 * margin) / high);
  view.origin = {0.5 * width - view.scale * 0.5 * (e.x0 + e.x1), margin - view.scale * e.y0};
  return view.scale * high + 2.0 * margin;
}

Captioned solid_drawing(const Drawn& drawn, double width) {
  View view = View::solid();
  const double height = fit(view, corners_of(drawn.picture.solids), width, 108.0, 4.0);
  Svg svg(width, height, "The bench in the round", "Seen from the front, the right and above.");
  draw_solids(svg, drawn.picture.solids, view, false);
  return {std::move(svg), "From the front, the right and above."};
}

Captioned elevation_drawing(const Drawn& drawn, View view, const char* title, double width) {
  const double height = fit(view, corners_of(drawn.picture.solids), width, 110.0, 6.0);
  Svg svg(width, height, title, "With hidden edges dashed.");
  draw_solids(svg, drawn.picture.solids, view);
  return {std::move(svg), std::string(title) + ", hidden edges dashed."};
}

std::optional<Captioned> loaded_drawing(const Drawn& drawn, double width) {
  if (!drawn.picture.loaded) return std::nullopt;
  const decide::FrameShape& shape = *drawn.picture.loaded;
  View view = View::solid();
  constexpr double on_sheet = 9.0;
  const double height = fit(view, points_of(shape.lines), width, 115.0, 10.0);
  const double most = farthest(shape.lines, drawn.picture.sheets);
  if (!(most > 0.0)) return std::nullopt;
  const double times = on_sheet / (view.scale * most);
  Svg svg(width, height, "How it moves under its loads",
          "Thin: at rest. Thick: as it moves, drawn large.");
  draw_axes(svg, view, shape.lines, 0.0, "rest");
  for (const SheetField& s : drawn.picture.sheets) draw_sheet(svg, view, s, times, "thin");
  draw_axes(svg, view, shape.lines, times, "moved");
  return Captioned{std::move(svg),
                   fmt::format("{}: no point moves more than {}. Movements are drawn {} times.",
                               under(shape), as_length(most, drawn), as_times(times))};
}

std::optional<Captioned> pushed_drawing(const Drawn& drawn, bool along, double width) {
  const auto& shape = along ? drawn.picture.pushed_along : drawn.picture.pushed_across;
  if (!shape || !(shape->force > 0.0)) return std::nullopt;
  View view = View::solid();
  constexpr double on_sheet = 9.0;
  const double height = fit(view, points_of(shape->lines), width, 72.0, 10.0);
  const double most = farthest(shape->lines, {});
  if (!(most > 0.0)) return std::nullopt;
  const double times = on_sheet / (view.scale * most);
  Svg svg(width, height, along ? "Pushed along" : "Pushed across",
          "Thin: at rest. Thick: as it moves, drawn large.");
  draw_axes(svg, view, shape->lines, 0.0, "rest");
  draw_axes(svg, view, shape->lines, times, "moved");
  const HandPull hand = hand_pull(drawn.assessment.bench.units);
  return Captioned{std::move(svg),
                   fmt::format("Pushed {} with {}: {} at most at mean joints, drawn {} times.",
                               along ? "along" : "across", hand.pull,
                               as_length(most * hand.force / shape->force, drawn),
                               as_times(times * shape->force / hand.force))};
}

std::optional<Captioned> moment_drawing(const Drawn& drawn, double width) {
  if (!drawn.picture.bent) return std::nullopt;
  const decide::FrameShape& shape = *drawn.picture.bent;
  View view = View::solid();
  constexpr double on_sheet = 9.0, told_share = 0.12;
  const double height = fit(view, points_of(shape.lines), width, 115.0, 11.0);
  double most = 0.0;
  for (const AxisLine& line : shape.lines) {
    for (const AxisPoint& p : line.points) most = std::max(most, size_of(p.moment));
  }
  if (!(most > 0.0)) return std::nullopt;
  const double times = on_sheet / (view.scale * most);
  Svg svg(width, height, "Bending moments",
          "Along every piece of timber, on the side that is in tension.");
  for (const AxisLine& line : shape.lines) {
    std::vector<Flat> path;
    for (const AxisPoint& p : line.points) path.push_back(view.at(moved(p.at, p.moment, times)));
    for (auto p = line.points.rbegin(); p != line.points.rend(); ++p) {
      path.push_back(view.at(p->at));
    }
    svg.path(path, "moment", true);
  }
  draw_axes(svg, view, shape.lines, 0.0, "seen");
  for (const AxisLine& line : shape.lines) {
    const auto worst = std::max_element(line.points.begin(), line.points.end(),
                                        [](const AxisPoint& a, const AxisPoint& b) {
                                          return size_of(a.moment) < size_of(b.moment);
                                        });
    if (worst == line.points.end() || size_of(worst->moment) < told_share * most) continue;
    const Flat at = view.at(moved(worst->at, worst->moment, 1.25 * times));
    svg.text({at[0] + 0.8, at[1] + 0.8},
             quantity::print(size_of(worst->moment), quantity::Kind::moment,
                             drawn.assessment.bench.units),
             "fig");
  }
  return Captioned{
      std::move(svg),
      fmt::format("{} ({}), which bends timber worst, at mean joints. Laid off on the side in "
                  "tension; figures below an eighth of the largest are left out.",
                  under(shape), shape.name)};
}

std::optional<Captioned> swing_drawing(const Drawn& drawn, double width) {
  constexpr std::size_t most = 4;
  constexpr double on_sheet = 7.0, gap = 8.0, words = 6.0;
  const std::vector<decide::Swing>& swings = drawn.picture.swings;
  const std::size_t n = std::min(most, swings.size());
  if (n == 0) return std::nullopt;
  const double column = 0.5 * (width - gap);
  View view = View::solid();
  const double height = fit(view, points_of(swings.front().lines), column, 62.0, 8.0) + words;
  Svg svg(width, height * static_cast<double>((n + 1) / 2), "How it swings",
          "The first natural frequencies with their shapes.");
  const Flat home = view.origin;
  for (std::size_t k = 0; k < n; ++k) {
    const decide::Swing& swing = swings[k];
    const Flat corner{static_cast<double>(k % 2) * (column + gap),
                      static_cast<double>(k / 2) * height};
    view.origin = {corner[0] + home[0], corner[1] + home[1] + words};
    const double far = farthest(swing.lines, swing.sheets);
    const double times = far > 0.0 ? on_sheet / (view.scale * far) : 0.0;
    draw_axes(svg, view, swing.lines, 0.0, "rest");
    for (const SheetField& s : swing.sheets) draw_sheet(svg, view, s, times, "thin");
    draw_axes(svg, view, swing.lines, times, "moved");
    svg.text({corner[0] + 0.5 * column, corner[1] + 4.0},
             fmt::format("{:.1f} Hz, {:.0f} rpm: {}", swing.frequency, 60.0 * swing.frequency,
                         swing.words),
             "", Anchor::middle);
  }
  return Captioned{std::move(svg),
                   "The slowest ways in which it swings when struck, at mean joints, with what "
                   "stands and is stored on it. How far is not known; only the shape is."};
}

}  // namespace standtrue::report
