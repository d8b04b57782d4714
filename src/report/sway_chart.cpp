// Sway over the stiffness of the joints: what nobody knows before the bench stands is a band.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "report/axes.hpp"
#include "report/charts.hpp"
#include "report/figures.hpp"
#include "report/governing.hpp"

namespace standtrue::report {

namespace {

/// How far a hand pull moves the top.
struct Curve {
  const char* id;
  const char* name;
  const char* ink;
  double decide::SwayPoint::*stiffness;
};
constexpr std::array<Curve, 2> curves = {
    Curve{"sway/along", "along", "string", &decide::SwayPoint::along},
    Curve{"sway/across", "across", "seen", &decide::SwayPoint::across}};

}  // namespace

std::optional<Captioned> sway_chart(const Drawn& drawn, double width) {
  const std::vector<decide::SwayPoint>& points = drawn.picture.sways;
  const quantity::UnitSystem units = drawn.assessment.bench.units;
  const HandPull hand = hand_pull(units);
  double least = std::numeric_limits<double>::infinity(), most = 0.0, limit = 0.0;
  const auto take = [&](double stiffness) {
    if (!(stiffness > 0.0)) return;
    least = std::min(least, hand.force / stiffness);
    most = std::max(most, hand.force / stiffness);
  };
  for (const decide::SwayPoint& p : points) {
    for (const Curve& curve : curves) take(p.*curve.stiffness);
  }
  for (const check::Finding& f : drawn.assessment.findings) {
    if (f.group == check::Group::sway && is_judged(f) && f.limit > 0.0) limit = f.limit;
  }
  take(limit);
  if (points.size() < 2 || !(most > 0.0)) return std::nullopt;
  constexpr double height = 62.0, under = 9.0, over = 6.0, beside = 18.0;
  Svg svg(
      width, height + under + over, "Sway over the stiffness of the joints",
      "How far the top moves under a hand pull, for joints from a tenth to ten times the mean.");
  const Axes axes({beside, over + height}, width - beside - 20.0, height,
                  {points.front().joints, points.back().joints}, {0.7 * least, 1.4 * most});
  const double band = drawn.picture.joint_band;
  const double from = axes.x(std::max(1.0 / band, points.front().joints));
  const double to = axes.x(std::min(band, points.back().joints));
  svg.rect({from, axes.top()}, to - from, height, "band");
  axes.draw_x(
      svg, [](double v) { return fmt::format("{:g}", v); },
      "stiffness of all joints, times the mean");
  axes.draw_y(
      svg, [&](double v) { return rough(v, quantity::Kind::length, units); },
      "moves under a pull of " + hand.pull);
  std::optional<double> told;
  for (const Curve& curve : curves) {
    std::vector<Flat> line;
    for (const decide::SwayPoint& p : points) {
      if (p.*curve.stiffness > 0.0)
        line.push_back(axes.at(p.joints, hand.force / (p.*curve.stiffness)));
    }
    if (line.empty()) continue;
    svg.path(line, curve.ink);
    const double apart = told && std::abs(*told - line.back()[1]) < 3.0 ? 3.0 : 0.0;
    svg.text({line.back()[0] + 1.5, line.back()[1] + 0.8 + apart}, curve.name, "");
    told = line.back()[1];
  }
  if (limit > 0.0) {
    const double y = axes.y(hand.force / limit);
    for (const double off : {-0.35, 0.35}) {
      svg.line({axes.left(), y + off}, {axes.right(), y + off}, "knife");
    }
    svg.text({axes.left() + 1.0, y - 1.2}, "limit", "small blue");
  }
  svg.text({0.5 * (from + to), axes.top() + 3.0}, "soft to stiff joints", "small", Anchor::middle);
  return Captioned{std::move(svg),
                   "How much sway hangs on the joints. Nobody knows them better than the band "
                   "before the bench stands; a pull on the finished bench tells where on the curve "
                   "it is. A level curve does not need its joints: braces or sheets hold it."};
}

}  // namespace standtrue::report
