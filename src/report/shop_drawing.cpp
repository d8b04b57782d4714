// Front elevation, left end to its right, plan below it: as the first angle has it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/drawing.hpp"
#include "report/instruments.hpp"
#include "report/numbering.hpp"
#include "report/plan_drawing.hpp"
#include "standtrue/bench/surface.hpp"

namespace standtrue::report {

using quantity::in_si;

namespace {

constexpr double left_margin = 20.0, views_apart = 30.0, right_margin = 26.0;
constexpr double over_views = 5.0, least_over = 14.0, under_views = 18.0;

/// 1 : n, as scales are named. Past the list it is what fits.
double scale_number(double wanted) {
  for (const double n : {2.0,  2.5,  4.0,  5.0,  6.0,  8.0,   10.0,  12.0,  15.0,  20.0,
                         25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 150.0, 200.0, 500.0, 1000.0}) {
    if (n >= wanted) return n;
  }
  return wanted;
}

std::string length_text(double si, quantity::UnitSystem units) {
  return quantity::print(si, quantity::Kind::length, units);
}

/// Braces that are bolted on outside are not what a bench is measured by.
std::vector<Solid> measured(const std::vector<Solid>& solids) {
  std::vector<Solid> all;
  for (const Solid& s : solids) {
    if (s.of != Solid::Of::brace) all.push_back(s);
  }
  return all;
}

class Sheet {
 public:
  Sheet(const Drawn& drawn, const std::vector<Balloon>& balloons, double width)
      : drawn_(drawn),
        bench_(drawn.assessment.bench),
        views_{View::front(), View::left_end(), View::plan()},
        svg_(place_views(width, balloons)) {
    draw_elevation(views_.front, "front");
    draw_elevation(views_.end, "left end");
    dimension_elevations();
    draw_string(svg_, drawn_, views_.front);
    draw_bob(svg_, drawn_, views_.front, "sway/along");
    draw_bob(svg_, drawn_, views_.end, "sway/across");
    draw_plan(svg_, drawn_, views_.plan, plan_bottom_ + 5.0, legend_x_);
    number_findings(svg_, drawn_, views_, balloons);
  }

  Captioned captioned() && {
    const std::string words = fmt::format(
        "Scale 1 : {:g} on A4. String and bobs are drawn as large as it takes for what is allowed "
        "to reach the double line, the worst answer being dashed, and no further than three times "
        "that. Machines are only outlined; a ring with a cross is their mass.",
        1e3 / views_.front.scale);
    return {std::move(svg_), words};
  }

 private:
  /// Chooses the scale, sets the views' origins and gives the whole sheet.
  Svg place_views(double width, const std::vector<Balloon>& balloons) {
    const std::vector<Solid>& solids = drawn_.picture.solids;
    scale_to(1.0);
    const Extent f = extent_of(solids, views_.front), e = extent_of(solids, views_.end);
    const double room = width - left_margin - views_apart - right_margin;
    const double scale = 1e3 / scale_number(1e3 * (f.width() + e.width()) / room);
    scale_to(scale);
    double head = 0.0;  // of machines above the top
    for (const bench::Machine& m : bench_.machines) {
      head = std::max(head, in_si(bench::surface_of(bench_.sheets[m.sheet])) + head_of(m) + f.y0);
    }
    const double floor = std::max(over_views + scale * head, least_over) - scale * f.y0;
    views_.front.origin = {left_margin - scale * f.x0, floor};
    views_.end.origin = {left_margin + scale * f.width() + views_apart - scale * e.x0, floor};
    plan_bottom_ = floor + under_views + scale * e.width();
    views_.plan.origin = {views_.front.origin[0], plan_bottom_};
    const Extent p = extent_of(solids, views_.plan);
    views_.plan.origin[1] += plan_bottom_ - p.y1;
    legend_x_ = left_margin + scale * f.width() + 9.0;
    const double bottom =
        std::max(plan_bottom_ + 9.5,
                 plan_bottom_ - p.height() + (bench_.floor.keep_off.empty() ? 29.0 : 35.0));
    std::string words =
        "A bench " + length_text(f.width(), bench_.units) + " long, seen three ways. ";
    for (const Balloon& b : balloons) {
      words += fmt::format("{}: {} ", b.number, b.finding->sentence);
    }
    return {width, bottom, "Shop drawing: front, left end and plan", words};
  }

  void scale_to(double scale) {
    for (View* view : {&views_.front, &views_.end, &views_.plan}) view->scale = scale;
  }

  void draw_elevation(const View& view, const char* name) {
    const Extent extent = extent_of(drawn_.picture.solids, view);
    const double floor = view.origin[1], middle = 0.5 * (extent.x0 + extent.x1);
    draw_solids(svg_, drawn_.picture.solids, view, false);
    svg_.line({extent.x0 - 5.0, floor}, {extent.x1 + 5.0, floor}, "floor");
    svg_.text({middle, floor + 7.2}, name, "small", Anchor::middle);
    if (view.right[0] == 0.0) {
      svg_.text({extent.x0, floor + 4.4}, "back", "small");
      svg_.text({extent.x1, floor + 4.4}, "front", "small", Anchor::end);
    }
    for (const bench::Machine& machine : bench_.machines) draw_machine(machine, view);
    for (const bench::KeepOff& strip : bench_.floor.keep_off) keep_off(strip, view, extent);
  }

  void keep_off(const bench::KeepOff& strip, const View& view, const Extent& extent) {
    const Flat a = view.at({in_si(strip.x0), in_si(strip.y0), 0});
    const Flat b = view.at({in_si(strip.x1), in_si(strip.y1), 0});
    const double l = std::clamp(std::min(a[0], b[0]), extent.x0 - 5.0, extent.x1 + 5.0);
    const double r = std::clamp(std::max(a[0], b[0]), extent.x0 - 5.0, extent.x1 + 5.0);
    const double y = view.origin[1];
    svg_.rect({l, y}, r - l, 2.0, "off");
    svg_.line({l, y}, {r, y + 2.0}, "off");
    svg_.line({l, y + 2.0}, {r, y}, "off");
  }

  void draw_machine(const bench::Machine& m, const View& view) {
    const double level = in_si(bench::surface_of(bench_.sheets[m.sheet])),
                 head = level + head_of(m);
    const double hx = 0.5 * in_si(m.pads_x + m.pad), hy = 0.5 * in_si(m.pads_y + m.pad);
    const double x = in_si(m.x), y = in_si(m.y);
    const Flat a = view.at({x - hx, y + hy, head}), b = view.at({x + hx, y - hy, level});
    svg_.rect({std::min(a[0], b[0]), a[1]}, std::abs(b[0] - a[0]), b[1] - a[1], "phantom");
    const Flat cg = view.at({x + in_si(m.cg_x), y + in_si(m.cg_y), level + in_si(m.cg_height)});
    svg_.circle(cg, 0.8, "thin");
    svg_.line({cg[0] - 1.3, cg[1]}, {cg[0] + 1.3, cg[1]}, "thin");
    svg_.line({cg[0], cg[1] - 1.3}, {cg[0], cg[1] + 1.3}, "thin");
    if (view.right[0] != 0.0) name_machine(m, 0.5 * (a[0] + b[0]), a[1]);
  }

  /// Higher with every neighbour that its name would run into.
  void name_machine(const bench::Machine& m, double middle, double top) {
    const std::string words =
        m.name + ", " + quantity::print(in_si(m.mass), quantity::Kind::mass, bench_.units);
    double at = top - 1.2;
    const double half = 0.5 * text_width(words, 2.6);
    // Off the figures of the string, which stand left of the top.
    middle = std::max(middle, extent_of(drawn_.picture.solids, views_.front).x0 + 1.2 * half);
    for (const auto& [from, to, height] : names_) {
      if (middle - half < to && middle + half > from && std::abs(height - at) < 3.0) {
        at = height - 3.2;
      }
    }
    names_.push_back({middle - half, middle + half, at});
    svg_.text({middle, at}, words, "", Anchor::middle);
  }

  void dimension_elevations() {
    const quantity::UnitSystem units = bench_.units;
    const std::vector<Solid> solids = measured(drawn_.picture.solids);
    const Extent f = extent_of(solids, views_.front), e = extent_of(solids, views_.end);
    const double scale = views_.front.scale, floor = views_.front.origin[1];
    svg_.dimension({f.x0, floor + 11.0}, {f.x1, floor + 11.0},
                   length_text(f.width() / scale, units));
    svg_.dimension({e.x0, floor + 11.0}, {e.x1, floor + 11.0},
                   length_text(e.width() / scale, units));
    const double left = f.x0 - 7.0;
    svg_.dimension({left, f.y0}, {left, floor}, length_text((floor - f.y0) / scale, units));
  }

  const Drawn& drawn_;
  const bench::Bench& bench_;
  Views views_;
  double plan_bottom_ = 0.0, legend_x_ = 0.0;
  std::vector<std::array<double, 3>> names_;
  Svg svg_;
};

}  // namespace

Captioned shop_drawing(const Drawn& drawn, const std::vector<Balloon>& balloons, double width) {
  return Sheet(drawn, balloons, width).captioned();
}

}  // namespace standtrue::report
