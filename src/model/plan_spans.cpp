#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/idealising.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::in_si;
using quantity::metres;
using std::numbers::pi;

namespace {

double axis_at(const bench::Post& post, double height, bool of_x) {
  const double bottom = in_si(post.bottom);
  const double top = in_si(post.top);
  const double low = in_si(of_x ? post.foot_x : post.foot_y);
  const double high = in_si(of_x ? post.x : post.y);
  return low + (high - low) * (height - bottom) / (top - bottom);
}

Line line_of(const bench::Bench& bench, const bench::Rail& rail) {
  const bench::Post& from = bench.posts.at(rail.from);
  const bench::Post& to = bench.posts.at(rail.to);
  const double height = in_si(rail.height);
  const auto half = [&](const bench::Post& post) {
    if (rail.seat != bench::Seat::between) return 0.0;
    return 0.5 * in_si(rail.along_x ? post.along_x : post.along_y);
  };
  Line line;
  line.along_x = rail.along_x;
  line.height = height;
  line.from = axis_at(from, height, rail.along_x) + half(from);
  line.to = axis_at(to, height, rail.along_x) - half(to);
  if (rail.on_wall) {
    line.from = in_si(bench::fixings_start(bench, rail));
    line.to = line.from + in_si(bench::ledger_length(bench, rail));
  }
  line.across = axis_at(from, height, !rail.along_x) + in_si(rail.aside);
  line.width = in_si(rail.width);
  line.depth = in_si(rail.depth);
  return line;
}

Line line_of(const std::vector<Line>& rails, const bench::Bearer& bearer) {
  const Line& from = rails.at(bearer.from);
  const Line& to = rails.at(bearer.to);
  Line line;
  line.along_x = !from.along_x;
  line.height = in_si(bearer.height);
  line.from = from.across + 0.5 * from.width;
  line.to = to.across - 0.5 * to.width;
  line.across = in_si(bearer.at);
  line.width = in_si(bearer.width);
  line.depth = in_si(bearer.depth);
  return line;
}

std::vector<Carrier> carriers_along(Idealising& work, const bench::Sheet& sheet,
                                    bool lines_along_x) {
  std::vector<Line*> lines;
  for (const std::size_t r : sheet.rails) lines.push_back(&work.rails.at(r));
  for (const std::size_t b : sheet.bearers) lines.push_back(&work.bearers.at(b));
  std::vector<Carrier> carriers;
  for (Line* line : lines) {
    if (line->along_x != lines_along_x) continue;
    const auto found = std::find_if(carriers.begin(), carriers.end(), [&](const Carrier& c) {
      return std::abs(c.at - line->across) < 5e-3;
    });
    if (found != carriers.end()) {
      found->lines.push_back(line);
    } else {
      carriers.push_back({line->across, {line}});
    }
  }
  std::sort(carriers.begin(), carriers.end(),
            [](const Carrier& a, const Carrier& b) { return a.at < b.at; });
  return carriers;
}

/// The way a sheet spans: across its bearers; without them from front to back if it can, else
/// along.
std::optional<Lying> plan_lying(Idealising& work, std::size_t place) {
  const bench::Sheet& sheet = work.bench.sheets[place];
  bool along_x = false;
  if (!sheet.bearers.empty()) along_x = !work.bearers.at(sheet.bearers.front()).along_x;
  Lying lying{place, along_x, carriers_along(work, sheet, !along_x)};
  if (lying.carriers.size() < 2) {
    lying.along_x = !along_x;
    lying.carriers = carriers_along(work, sheet, along_x);
  }
  if (lying.carriers.size() < 2) {
    work.faults.push_back(fmt::format(
        "the {} lies on fewer than two parallel rails: nothing carries it", sheet.name));
    return std::nullopt;
  }
  return lying;
}

double longest_bay(const Lying& lying) {
  double bay = 0.0;
  for (std::size_t i = 0; i + 1 < lying.carriers.size(); ++i) {
    bay = std::max(bay, lying.carriers[i + 1].at - lying.carriers[i].at);
  }
  return bay;
}

double bay_at(const Lying& lying, double along) {
  for (std::size_t i = 0; i + 1 < lying.carriers.size(); ++i) {
    if (along <= lying.carriers[i + 1].at) return lying.carriers[i + 1].at - lying.carriers[i].at;
  }
  const std::size_t n = lying.carriers.size();
  return lying.carriers[n - 1].at - lying.carriers[n - 2].at;
}

/// Effective width of a strip under a point load in the middle of a span a of a long orthotropic
/// plate on two parallel supports: P a³/(48 w D_s) with
///     w = (2 P/a)(a/π)³ Σ_odd m⁻³ / (2 √(2 D_s) √(H + √(D_s D_t))),   H = 2 D_66,
/// s along the span, t across it; Σ_odd m⁻³ = 7 ζ(3)/8. Poisson's ratio of a sheet is not in its
/// tables and left out, which is cautious.
/// Source (from memory): Timoshenko & Woinowsky-Krieger, Theory of Plates and Shells, long plates.
/// Source (ours): the sum.
double effective_width(const bench::Sheet& sheet, bool along_x, double a) {
  constexpr double sum = 1.0517997902646451;
  const bool grain_along = sheet.grain_along_x == along_x;
  const double E_s = in_si(grain_along ? sheet.panel.E_m_0 : sheet.panel.E_m_90);
  const double E_t = in_si(grain_along ? sheet.panel.E_m_90 : sheet.panel.E_m_0);
  const double H = 2.0 * in_si(sheet.panel.G_v);  // all over t³/12, which cancels
  return a * pi * pi * pi * std::sqrt(2.0 * E_s) * std::sqrt(H + std::sqrt(E_s * E_t)) /
         (48.0 * E_s * sum);
}

void plan_strips(Idealising& work, const Lying& lying) {
  const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
  std::vector<PlannedStrip> strips;
  for (std::size_t m = 0; m < work.bench.machines.size(); ++m) {
    const bench::Machine& machine = work.bench.machines[m];
    if (machine.sheet != lying.sheet) continue;
    for (const Pad& pad : pads_of(machine)) {
      const double across = lying.along_x ? pad.y : pad.x;
      const double along = lying.along_x ? pad.x : pad.y;
      const double side = in_si(machine.pad);
      auto strip = std::find_if(strips.begin(), strips.end(), [&](const PlannedStrip& s) {
        return std::abs(s.at - across) < 0.5 * std::max(side, 0.03);
      });
      if (strip == strips.end()) {
        strips.push_back({lying.sheet, m, across, 0, 0, {}});
        strip = strips.end() - 1;
      }
      strip->pads.push_back({m, along, side, pad.share});
    }
  }
  std::sort(strips.begin(), strips.end(),
            [](const PlannedStrip& a, const PlannedStrip& b) { return a.at < b.at; });
  const double low_edge = in_si(lying.along_x ? sheet.y0 : sheet.x0);
  const double high_edge = in_si(lying.along_x ? sheet.y1 : sheet.x1);
  for (std::size_t i = 0; i < strips.size(); ++i) {
    PlannedStrip& strip = strips[i];
    double width = 0.0;
    for (const PlannedStrip::Pad& pad : strip.pads) {
      const double b = effective_width(sheet, lying.along_x, bay_at(lying, pad.along));
      width = std::max({width, b, pad.side});
    }
    strip.low = std::max(low_edge, strip.at - 0.5 * width);
    strip.high = std::min(high_edge, strip.at + 0.5 * width);
    if (i > 0) strip.low = std::max(strip.low, 0.5 * (strips[i - 1].at + strip.at));
    if (i + 1 < strips.size())
      strip.high = std::min(strip.high, 0.5 * (strip.at + strips[i + 1].at));
    for (const Carrier& carrier : lying.carriers) want_node(carrier.line_at(strip.at), strip.at);
  }
  work.strips.insert(work.strips.end(), strips.begin(), strips.end());
}

SheetSpan span_of(const Idealising& work, const Lying& lying) {
  const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
  const auto past = [&](bool x, double low, double high) {
    return std::max(
        {0.0, low - in_si(x ? sheet.x0 : sheet.y0), in_si(x ? sheet.x1 : sheet.y1) - high});
  };
  double from = 1e9, to = -1e9;
  for (const Carrier& carrier : lying.carriers) {
    for (const Line* line : carrier.lines) {
      from = std::min(from, line->from);
      to = std::max(to, line->to);
    }
  }
  const double half = 0.5 * lying.carriers.front().lines.front()->width;
  SheetSpan span;
  span.sheet = lying.sheet;
  span.along_x = lying.along_x;
  span.grain_along = sheet.grain_along_x == lying.along_x;
  span.bay = metres(longest_bay(lying));
  span.overhang = metres(std::max(
      0.0, past(lying.along_x, lying.carriers.front().at, lying.carriers.back().at) - half));
  span.overhang_side = metres(past(!lying.along_x, from, to));
  span.effective_width = metres(effective_width(sheet, lying.along_x, longest_bay(lying)));
  return span;
}

}  // namespace

void plan_spans(Idealising& work) {
  for (const bench::Rail& rail : work.bench.rails) work.rails.push_back(line_of(work.bench, rail));
  for (const bench::Bearer& bearer : work.bench.bearers) {
    work.bearers.push_back(line_of(work.rails, bearer));
    want_node(work.rails[bearer.from], in_si(bearer.at));
    want_node(work.rails[bearer.to], in_si(bearer.at));
  }
  for (std::size_t s = 0; s < work.bench.sheets.size(); ++s) {
    const bench::SheetPlace place = work.bench.sheets[s].place;
    if (place != bench::SheetPlace::top && place != bench::SheetPlace::shelf) continue;
    if (std::optional<Lying> lying = plan_lying(work, s)) work.lying.push_back(std::move(*lying));
  }
  for (const Lying& lying : work.lying) {
    if (work.bench.analysis.sheets == bench::Analysis::Sheets::strip) plan_strips(work, lying);
    work.model.parts.spans.push_back(span_of(work, lying));
  }
}

}  // namespace standtrue::model
