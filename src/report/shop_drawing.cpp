// Front elevation, left end to its right, plan below it: as the first angle has it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/drawing.hpp"
#include "report/figures.hpp"
#include "report/governing.hpp"
#include "report/plan_drawing.hpp"

namespace standtrue::report {

using quantity::in_si;

namespace {

constexpr double left_margin = 13.0, between = 25.0, right_margin = 12.0;
constexpr double over_views = 12.0, under_views = 15.0;
constexpr double deepest = 3.6, lean = 4.0;  // what is drawn large comes to this on the sheet

/// 1 : n, as scales are named. Past the list it is what fits.
double scale_number(double wanted) {
  for (const double n : {2.0,  2.5,  4.0,  5.0,  6.0,  8.0,   10.0,  12.0,  15.0,  20.0,
                         25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 150.0, 200.0, 500.0, 1000.0}) {
    if (n >= wanted) return n;
  }
  return wanted;
}

double top_of(const bench::Sheet& sheet) {
  return in_si(sheet.underside) + sheet.layers * in_si(sheet.panel.nominal);
}

/// A machine's outline: not part of the bench, and no more than where and how high its mass is.
double head_of(const bench::Machine& machine) {
  return std::max(1.35 * in_si(machine.cg_height), 0.08);
}

std::string length_text(double si, quantity::UnitSystem units) {
  return quantity::print(si, quantity::Kind::length, units);
}

class Sheet {
 public:
  Sheet(const Drawn& drawn, const std::vector<Balloon>& balloons, double width)
      : drawn_(drawn),
        bench_(drawn.assessment.bench),
        balloons_(balloons),
        front_(View::front()),
        end_(View::left_end()),
        plan_(View::plan()),
        svg_(place_views(width)) {}

  std::string how_drawn() const {
    std::string words = fmt::format("Scale 1 : {:g} on A4.", 1e3 / front_.scale);
    const auto& string = drawn_.picture.string;
    if (string && string->most > 0.0) {
      words += fmt::format(
          " The string shows how the top sags with what stands and is stored on it, {} at most, "
          "drawn {} times.",
          rough(string->most, quantity::Kind::length, bench_.units),
          two_figures(deepest / (front_.scale * string->most)));
    }
    std::string bobs;
    for (const char* id : {"sway/along", "sway/across"}) {
      const check::Finding* f = finding(id);
      const std::optional<Range> k = f ? demands(*f) : std::nullopt;
      if (!k || !(k->least > 0.0)) continue;
      const double moves = hand_pull(bench_.units).force / k->least;
      bobs += fmt::format("{}{} {} times", bobs.empty() ? "" : ", ", id + 5,
                          two_figures(lean / (front_.scale * moves)));
    }
    if (!bobs.empty()) words += " The bobs show the sway: " + bobs + ".";
    return words + " Machines are only outlined; a ring with a cross is their mass.";
  }

  Svg drawn() {
    draw_elevation(front_, "front");
    draw_elevation(end_, "left end");
    dimension_elevations();
    string_line();
    bob(front_, "sway/along");
    bob(end_, "sway/across");
    draw_plan(svg_, drawn_, plan_, plan_bottom_ + 5.0, right_of_plan_);
    number_them();
    return std::move(svg_);
  }

 private:
  /// Chooses the scale, sets the views' origins and gives the whole sheet.
  Svg place_views(double width) {
    for (View* view : {&front_, &end_, &plan_}) view->scale = 1.0;
    const Extent f = extent_of(drawn_.picture.solids, front_);
    const Extent e = extent_of(drawn_.picture.solids, end_);
    const double room = width - left_margin - between - right_margin;
    const double scale = 1e3 / scale_number(1e3 * (f.width() + e.width()) / room);
    for (View* view : {&front_, &end_, &plan_}) view->scale = scale;
    double head = 0.0;  // of machines above the top
    for (const bench::Machine& m : bench_.machines) {
      head = std::max(head, top_of(bench_.sheets[m.sheet]) + head_of(m) + f.y0);
    }
    const double floor = over_views + scale * (head - f.y0);
    front_.origin = {left_margin - scale * f.x0, floor};
    end_.origin = {left_margin + scale * f.width() + between - scale * e.x0, floor};
    plan_bottom_ = floor + under_views + scale * e.width();
    plan_.origin = {front_.origin[0], plan_bottom_};
    const Extent p = extent_of(drawn_.picture.solids, plan_);
    plan_.origin[1] += plan_bottom_ - p.y1;
    right_of_plan_ = left_margin + scale * f.width() + 9.0;
    const double bottom = std::max(plan_bottom_ + 9.5, plan_bottom_ - p.height() + 36.0);
    return Svg(width, bottom, "Shop drawing: front, left end and plan", described());
  }

  [[nodiscard]] std::string described() const {
    std::string words = "A bench " + length_text(in_si(bench_.length), bench_.units) + " long. ";
    for (const Balloon& b : balloons_) {
      words += fmt::format("{}: {} ", b.number, b.finding->sentence);
    }
    return words;
  }

  void draw_elevation(const View& view, const char* name) {
    const Extent extent = extent_of(drawn_.picture.solids, view);
    draw_solids(svg_, drawn_.picture.solids, view, false);
    svg_.line({extent.x0 - 5.0, view.origin[1]}, {extent.x1 + 5.0, view.origin[1]}, "floor");
    svg_.text({extent.x0, view.origin[1] + 3.6}, name, "small");
    for (const bench::Machine& machine : bench_.machines) draw_machine(machine, view);
    for (const bench::KeepOff& strip : bench_.floor.keep_off) {
      const double across = view.right[0] != 0.0 ? 0 : 1;
      const double a = across == 0 ? in_si(strip.x0) : in_si(strip.y0);
      const double b = across == 0 ? in_si(strip.x1) : in_si(strip.y1);
      const double x0 = view.at(across == 0 ? Place{a, 0, 0} : Place{0, b, 0})[0];
      const double x1 = view.at(across == 0 ? Place{b, 0, 0} : Place{0, a, 0})[0];
      const double l = std::clamp(x0, extent.x0 - 5.0, extent.x1 + 5.0);
      const double r = std::clamp(x1, extent.x0 - 5.0, extent.x1 + 5.0);
      const double y = view.origin[1];
      svg_.rect({l, y}, r - l, 2.0, "off");
      svg_.line({l, y}, {r, y + 2.0}, "off");
      svg_.line({l, y + 2.0}, {r, y}, "off");
    }
  }

  void draw_machine(const bench::Machine& m, const View& view) {
    const double level = top_of(bench_.sheets[m.sheet]), head = level + head_of(m);
    const double hx = 0.5 * in_si(m.pads_x + m.pad), hy = 0.5 * in_si(m.pads_y + m.pad);
    const double x = in_si(m.x), y = in_si(m.y);
    const Flat a = view.at({x - hx, y + hy, head}), b = view.at({x + hx, y - hy, level});
    svg_.rect({std::min(a[0], b[0]), a[1]}, std::abs(b[0] - a[0]), b[1] - a[1], "phantom");
    const Flat cg = view.at({x + in_si(m.cg_x), y + in_si(m.cg_y), level + in_si(m.cg_height)});
    svg_.circle(cg, 0.8, "thin");
    svg_.line({cg[0] - 1.3, cg[1]}, {cg[0] + 1.3, cg[1]}, "thin");
    svg_.line({cg[0], cg[1] - 1.3}, {cg[0], cg[1] + 1.3}, "thin");
    if (view.right[0] == 0.0) return;
    const std::string words =
        m.name + ", " + quantity::print(in_si(m.mass), quantity::Kind::mass, bench_.units);
    const double middle = 0.5 * (a[0] + b[0]);
    // Higher with every neighbour that its name would run into.
    double at = a[1] - 1.2;
    const double half = 0.5 * text_width(words, 2.6);
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
    // Braces that are bolted on outside are not what a bench is measured by.
    std::vector<Solid> measured;
    for (const Solid& solid : drawn_.picture.solids) {
      if (solid.of != Solid::Of::brace) measured.push_back(solid);
    }
    const Extent f = extent_of(measured, front_), e = extent_of(measured, end_);
    const double below = front_.origin[1] + 8.6;
    svg_.dimension({f.x0, below}, {f.x1, below}, length_text(f.width() / front_.scale, units));
    svg_.dimension({e.x0, below}, {e.x1, below}, length_text(e.width() / end_.scale, units));
    const double left = f.x0 - 7.0;
    svg_.dimension({left, f.y0}, {left, front_.origin[1]},
                   length_text((front_.origin[1] - f.y0) / front_.scale, units));
  }

  /// The string a little above the top, and the top's line below it.
  void string_line() {
    const auto& string = drawn_.picture.string;
    if (!string || string->below.size() < 2 || !(string->most > 0.0)) return;
    constexpr double above = 4.6;
    const Extent f = extent_of(drawn_.picture.solids, front_);
    const double y = f.y0 - above, times = deepest / string->most;
    const double x0 = front_.at({string->below.front()[0], 0, 0})[0];
    const double x1 = front_.at({string->below.back()[0], 0, 0})[0];
    svg_.line({x0, y}, {x1, y}, "string");
    for (const double x : {x0, x1}) svg_.line({x, y - 0.8}, {x, f.y0}, "string");
    std::vector<Flat> curve;
    for (const auto& [x, below] : string->below) {
      curve.push_back({front_.at({x, 0, 0})[0], y + times * below});
    }
    svg_.path(curve, "sagged");
    const double most_x = front_.at({string->most_at, 0, 0})[0];
    svg_.line({most_x, y}, {most_x, y + deepest}, "string");
    svg_.text({x0 - 1.5, y}, "sags", "small blue", Anchor::end);
    svg_.text({x0 - 1.5, y + 2.8}, rough(string->most, quantity::Kind::length, bench_.units),
              "fig blue", Anchor::end);
  }

  [[nodiscard]] const check::Finding* finding(const char* id) const {
    for (const check::Finding& f : drawn_.assessment.findings) {
      if (f.id == id && is_judged(f)) return &f;
    }
    return nullptr;
  }

  /// Beside the post of the worst corner: the post's edge as it leans, and the bob that hangs from
  /// its top. What lies between them on the floor is the sway.
  void bob(const View& view, const char* id) {
    const check::Finding* f = finding(id);
    if (!f) return;
    const Extent extent = extent_of(drawn_.picture.solids, view);
    const double x = extent.x1 + 3.0, floor = view.origin[1];
    const double top = extent.y0 + 2.0;
    svg_.line({x, floor}, {x + lean, top}, "sagged");
    svg_.line({x + lean, top}, {x + lean, floor - 3.6}, "bob");
    svg_.path(
        {{x + lean - 0.9, floor - 3.6}, {x + lean + 0.9, floor - 3.6}, {x + lean, floor - 0.4}},
        "bobweight", true);
    svg_.line({x, floor + 1.4}, {x + lean, floor + 1.4}, "string");
    const bool fails = f->judgement != check::Judgement::satisfied;
    svg_.text({x + lean + 3.2, floor - 2.0}, "sways " + amount(*f, bench_.units),
              fails ? "small red" : "small blue", Anchor::start, 90.0);
  }

  [[nodiscard]] const View& view_of(const Balloon& b, const Place& at) const {
    const std::string& id = b.finding->id;
    if (id == "sway/across") return end_;
    const auto in_end = [&](const std::string& name) {
      return std::any_of(bench_.rails.begin(), bench_.rails.end(),
                         [&](const bench::Rail& r) { return !r.along_x && r.name == name; });
    };
    for (const Solid& solid : drawn_.picture.solids) {
      const double x = 0.5 * (solid.corners[0][0] + solid.corners[7][0]);
      if (in_end(solid.name) && std::abs(x - at[0]) < 0.06 &&
          std::abs(0.5 * (solid.corners[0][2] + solid.corners[7][2]) - at[2]) < 0.06) {
        return end_;
      }
    }
    return front_;
  }

  /// Each number where it governs; those of the whole bench in a row over the front.
  void number_them() {
    std::vector<Flat> taken;
    double loose = front_.origin[0] + 2.0;
    for (const Balloon& b : balloons_) {
      const auto found = drawn_.picture.places.find(b.finding->id);
      if (found == drawn_.picture.places.end()) {
        const Flat at{loose, 3.4};
        svg_.balloon(at, at, b.number);
        svg_.text({at[0] + 3.2, at[1] + 0.9}, "the whole bench", "small");
        loose += 28.0;
        continue;
      }
      const View& view = view_of(b, found->second);
      const Flat point = view.at(found->second);
      const Flat at = free_place(view, point, taken);
      taken.push_back(at);
      svg_.balloon(at, point, b.number);
    }
  }

  /// Round the point, inside the view's frame where that is possible, and off other numbers.
  [[nodiscard]] Flat free_place(const View& view, const Flat& point,
                                const std::vector<Flat>& taken) const {
    constexpr double apart = 5.6;
    const Extent extent = extent_of(drawn_.picture.solids, view);
    const double inward = point[0] < 0.5 * (extent.x0 + extent.x1) ? 1.0 : -1.0;
    const double down = point[1] < 0.5 * (extent.y0 + extent.y1) ? 1.0 : -1.0;
    for (const double far : {8.5, 13.0, 18.0, 24.0}) {
      for (const double angle : {50.0, 25.0, 75.0, 5.0, 110.0, 140.0}) {
        const double a = angle * 3.14159265358979 / 180.0;
        const Flat at{point[0] + inward * far * std::cos(a), point[1] + down * far * std::sin(a)};
        const bool is_free = std::all_of(taken.begin(), taken.end(), [&](const Flat& t) {
          return std::hypot(t[0] - at[0], t[1] - at[1]) > apart;
        });
        const bool is_inside = at[0] > extent.x0 + 3.0 && at[0] < extent.x1 - 3.0 &&
                               at[1] > extent.y0 + 3.0 && at[1] < view.origin[1] - 3.0;
        if (is_free && is_inside) return at;
      }
    }
    return {point[0], point[1] + down * 9.0 + 0.5 * static_cast<double>(taken.size())};
  }

  const Drawn& drawn_;
  const bench::Bench& bench_;
  const std::vector<Balloon>& balloons_;
  View front_, end_, plan_;
  double plan_bottom_ = 0.0, right_of_plan_ = 0.0;
  std::vector<std::array<double, 3>> names_;
  Svg svg_;
};

}  // namespace

Captioned shop_drawing(const Drawn& drawn, const std::vector<Balloon>& balloons, double width) {
  Sheet sheet(drawn, balloons, width);
  std::string caption = sheet.how_drawn();
  return {sheet.drawn(), std::move(caption)};
}

}  // namespace standtrue::report
