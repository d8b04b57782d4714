#include "report/plan_drawing.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "report/figures.hpp"

namespace standtrue::report {

using decide::PlacePlan;
using decide::PlaceStatus;
using decide::Stand;
using quantity::in_si;

namespace {

const char* ink_of(const PlaceStatus& status) {
  if (!status.has_room) return "noroom";
  // White is for what was found clear, and for nothing else.
  if (status.stand == Stand::not_looked_at) return "unseen";
  return status.stand == Stand::care ? "care" : status.stand == Stand::barred ? "barred" : "";
}

/// A rectangle on the bench, by its low and high corner.
void level_rect(Svg& svg, const View& view, double x0, double y0, double x1, double y1,
                std::string_view ink) {
  const Flat a = view.at({x0, y1, 0}), b = view.at({x1, y0, 0});
  svg.rect(a, b[0] - a[0], b[1] - a[1], ink);
}

void draw_feet(Svg& svg, const Drawn& drawn, const View& view, double below, double above) {
  const bench::Bench& bench = drawn.assessment.bench;
  double middle = 0.0;
  for (const decide::FootPress& foot : drawn.picture.feet) {
    middle += foot.y / static_cast<double>(drawn.picture.feet.size());
  }
  for (const decide::FootPress& foot : drawn.picture.feet) {
    const Flat at = view.at({foot.x, foot.y, 0});
    svg.circle(at, 1.2, "thick");
    const double mass = foot.mean / in_si(quantity::standard_gravity());
    const std::string words =
        std::isfinite(mass) ? rough(mass, quantity::Kind::mass, bench.units) : "-";
    const bool in_front = foot.y < middle + 1e-6;
    svg.text({at[0], in_front ? below : above}, words, "fig", Anchor::middle);
  }
}

void draw_keep_off(Svg& svg, const bench::Bench& bench, const View& view, const Extent& extent) {
  for (const bench::KeepOff& strip : bench.floor.keep_off) {
    const Flat a = view.at({in_si(strip.x0), in_si(strip.y1), 0});
    const Flat b = view.at({in_si(strip.x1), in_si(strip.y0), 0});
    const double x0 = std::max(a[0], extent.x0), x1 = std::min(b[0], extent.x1);
    const double y0 = std::max(a[1], extent.y0), y1 = std::min(b[1], extent.y1);
    if (!(x1 > x0) || !(y1 > y0)) continue;
    svg.rect({x0, y0}, x1 - x0, y1 - y0, "off");
    svg.line({x0, y0}, {x1, y1}, "off");
    svg.line({x0, y1}, {x1, y0}, "off");
  }
}

void draw_machines(Svg& svg, const bench::Bench& bench, const View& view) {
  for (const bench::Machine& m : bench.machines) {
    if (bench.sheets[m.sheet].place != bench::SheetPlace::top) continue;
    const double hx = 0.5 * in_si(m.pads_x + m.pad), hy = 0.5 * in_si(m.pads_y + m.pad);
    for (const char* ink : {"paper", "thick"}) {
      level_rect(svg, view, in_si(m.x) - hx, in_si(m.y) - hy, in_si(m.x) + hx, in_si(m.y) + hy,
                 ink);
    }
    for (const double sx : {-0.5, 0.5}) {
      for (const double sy : {-0.5, 0.5}) {
        const double x = in_si(m.x) + sx * in_si(m.pads_x), y = in_si(m.y) + sy * in_si(m.pads_y);
        const double p = 0.5 * in_si(m.pad);
        level_rect(svg, view, x - p, y - p, x + p, y + p, "thin");
      }
    }
  }
}

}  // namespace

void hatch_places(Svg& svg, const PlacePlan& plan, std::size_t way, const View& view) {
  if (way >= plan.ways.size() || plan.nx == 0) return;
  const std::vector<PlaceStatus>& at = plan.ways[way].at;
  const double cell_x = in_si(plan.length) / static_cast<double>(plan.nx);
  const double cell_y = in_si(plan.depth) / static_cast<double>(plan.ny);
  const double x0 = in_si(plan.x0), y0 = in_si(plan.y0);
  // Runs of alike cells as one rectangle, so that the hatch goes through.
  for (std::size_t j = 0; j < plan.ny; ++j) {
    for (std::size_t i = 0; i < plan.nx;) {
      const PlaceStatus& first = at[j * plan.nx + i];
      std::size_t end = i + 1;
      while (end < plan.nx && at[j * plan.nx + end].stand == first.stand &&
             at[j * plan.nx + end].has_room == first.has_room) {
        ++end;
      }
      const char* const ink = ink_of(first);
      if (*ink != '\0') {
        const double low = y0 + static_cast<double>(j) * cell_y;
        level_rect(svg, view, x0 + static_cast<double>(i) * cell_x, low,
                   x0 + static_cast<double>(end) * cell_x, low + cell_y, ink);
      }
      i = end;
    }
  }
}

void explain_hatches(Svg& svg, const PlacePlan& plan, std::size_t way, Flat at) {
  if (way >= plan.ways.size()) return;
  const decide::PlaceGrid& grid = plan.ways[way];
  std::size_t care = 0, barred = 0, unseen = 0;
  for (const PlaceStatus& s : grid.at) {
    if (!s.has_room) continue;
    care += s.stand == Stand::care ? 1 : 0;
    barred += s.stand == Stand::barred ? 1 : 0;
    unseen += s.stand == Stand::not_looked_at ? 1 : 0;
  }
  const std::size_t clear = grid.count(Stand::clear), all = clear + care + barred + unseen;
  const auto share = [all](std::size_t n) -> std::string {
    if (n == 0) return "nowhere";
    if (n == all) return "wherever it has room";
    return fmt::format("{:.0f} % of its room",
                       100.0 * static_cast<double>(n) / static_cast<double>(all));
  };
  svg.text(at, "Middle of the " + plan.machine + (grid.turned ? ", turned:" : ":"), "");
  double y = at[1] + 2.4;
  const auto row = [&](const char* ink, const char* word, std::size_t n) {
    svg.rect({at[0], y}, 7.0, 3.6, "paper");
    if (*ink != '\0') svg.rect({at[0], y}, 7.0, 3.6, ink);
    svg.rect({at[0], y}, 7.0, 3.6, "thin");
    svg.text({at[0] + 9.0, y + 2.6}, std::string(word) + ": " + share(n), "");
    y += 5.2;
  };
  row("", "clear", clear);
  row("care", "with care", care);
  row("barred", "not here", barred);
  if (unseen > 0) row("unseen", "not looked at", unseen);
  svg.rect({at[0], y}, 7.0, 3.6, "noroom");
  svg.rect({at[0], y}, 7.0, 3.6, "thin");
  svg.text({at[0] + 9.0, y + 2.6}, "no room for its feet", "");
}

void draw_plan(Svg& svg, const Drawn& drawn, const View& view, double below, double legend_x) {
  const bench::Bench& bench = drawn.assessment.bench;
  const Extent extent = extent_of(drawn.picture.solids, view);
  if (drawn.places && drawn.places->none.empty()) hatch_places(svg, *drawn.places, 0, view);
  draw_solids(svg, drawn.picture.solids, view);
  draw_keep_off(svg, bench, view, extent);
  draw_machines(svg, bench, view);
  draw_feet(svg, drawn, view, below - 0.6, extent.y0 - 1.6);
  svg.text({extent.x0, below + 3.4}, "plan, the front below; beside each foot what it carries",
           "small");
  double y = extent.y0 + 2.0;
  if (drawn.places && drawn.places->none.empty()) {
    explain_hatches(svg, *drawn.places, 0, {legend_x, y});
    y += 27.0;
  }
  if (!bench.floor.keep_off.empty()) {
    svg.rect({legend_x, y - 2.6}, 7.0, 3.6, "off");
    svg.line({legend_x, y - 2.6}, {legend_x + 7.0, y + 1.0}, "off");
    svg.line({legend_x, y + 1.0}, {legend_x + 7.0, y - 2.6}, "off");
    svg.text({legend_x + 9.0, y}, "floor: no foot of the bench here", "");
  }
}

}  // namespace standtrue::report
