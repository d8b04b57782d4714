#include "report/svg.hpp"

#include <fmt/format.h>

#include <cmath>

#include "report/escaped.hpp"
#include "report/layout.hpp"

namespace standtrue::report {

namespace {

/// To a hundredth of a millimetre: finer than any pen, and short. Never "-0".
std::string figure_of(double v) {
  const double rounded = std::round(100.0 * v) / 100.0;
  return fmt::format("{:g}", std::isfinite(rounded) ? rounded + 0.0 : 0.0);
}

std::string class_of(std::string_view ink) { return fmt::format(" class=\"{}\"", ink); }

}  // namespace

Svg::Svg(double width, double height, std::string_view title, std::string_view words)
    : width_(width), height_(height) {
  head_ = fmt::format("<title>{}</title><desc>{}</desc>\n", escaped(title), escaped(words));
}

void Svg::line(Flat from, Flat to, std::string_view ink) {
  body_ += fmt::format("<line{} x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\"/>\n", class_of(ink),
                       figure_of(from[0]), figure_of(from[1]), figure_of(to[0]), figure_of(to[1]));
}

void Svg::path(const std::vector<Flat>& points, std::string_view ink, bool closed) {
  if (points.empty()) return;
  std::string d;
  for (const Flat& p : points) {
    d += (d.empty() ? "M" : "L") + figure_of(p[0]) + " " + figure_of(p[1]);
  }
  body_ += fmt::format("<path{} d=\"{}{}\"/>\n", class_of(ink), d, closed ? "Z" : "");
}

void Svg::rect(Flat corner, double width, double height, std::string_view ink) {
  body_ +=
      fmt::format("<rect{} x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n", class_of(ink),
                  figure_of(corner[0]), figure_of(corner[1]), figure_of(width), figure_of(height));
}

void Svg::circle(Flat middle, double radius, std::string_view ink) {
  body_ += fmt::format("<circle{} cx=\"{}\" cy=\"{}\" r=\"{}\"/>\n", class_of(ink),
                       figure_of(middle[0]), figure_of(middle[1]), figure_of(radius));
}

void Svg::text(Flat at, std::string_view words, std::string_view ink, Anchor anchor,
               double turned) {
  const std::string place = fmt::format(" x=\"{}\" y=\"{}\"", figure_of(at[0]), figure_of(at[1]));
  const char* const at_place = anchor == Anchor::middle ? " text-anchor=\"middle\""
                               : anchor == Anchor::end  ? " text-anchor=\"end\""
                                                        : "";
  const std::string turn = turned == 0.0
                               ? ""
                               : fmt::format(" transform=\"rotate({} {} {})\"", figure_of(-turned),
                                             figure_of(at[0]), figure_of(at[1]));
  body_ += fmt::format("<text{}{}{}{}>{}</text>\n", class_of(ink), place, at_place, turn,
                       escaped(words));
}

void Svg::dimension(Flat from, Flat to, std::string_view figure) {
  constexpr double slash = 0.9, gap = 0.8;
  line(from, to, "dim");
  for (const Flat& p : {from, to}) {
    line({p[0] - slash, p[1] + slash}, {p[0] + slash, p[1] - slash}, "slash");
  }
  const Flat middle{0.5 * (from[0] + to[0]), 0.5 * (from[1] + to[1])};
  const bool is_level = std::abs(to[1] - from[1]) < std::abs(to[0] - from[0]);
  if (is_level) {
    text({middle[0], middle[1] - gap}, figure, "fig", Anchor::middle);
  } else {
    text({middle[0] - gap, middle[1]}, figure, "fig", Anchor::middle, 90.0);
  }
}

void Svg::balloon(Flat at, Flat points_to, int number) {
  constexpr double radius = 2.3;
  const double dx = points_to[0] - at[0], dy = points_to[1] - at[1], far = std::hypot(dx, dy);
  if (far > radius) {
    line({at[0] + dx / far * radius, at[1] + dy / far * radius}, points_to, "lead");
    circle(points_to, 0.45, "dot");
  }
  circle(at, radius, "ring");
  text({at[0], at[1] + 1.05}, std::to_string(number), "num", Anchor::middle);
}

std::string Svg::text() const {
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" viewBox=\"0 0 {} {}\">\n{}{}</svg>\n",
      figure_of(width_), figure_of(height_), head_, body_);
}

double text_width(std::string_view words, double size) {
  constexpr double of_size = 0.52;  // a letter of a plain face, on the mean
  return of_size * size * static_cast<double>(columns(words));
}

}  // namespace standtrue::report
