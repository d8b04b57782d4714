// Masses in kg.
#include "decide/load_plan.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <limits>

#include "standtrue/check/is_worse.hpp"

namespace standtrue::decide {

using check::Finding;
using quantity::in_si;

namespace {

constexpr double most_mass = 300.0;

std::size_t cells_over(double length, double pitch, std::size_t most) {
  return std::clamp<std::size_t>(static_cast<std::size_t>(std::lround(length / pitch)), 1, most);
}

/// Tipping knows nothing of the patch; the frame's own answer says where it would tip.
Governing governing(const std::vector<Finding>& findings) {
  Governing worst;
  for (const Finding& f : findings) {
    const bool counts = f.kind == check::Kind::safety || f.kind == check::Kind::service;
    if (!counts || f.id.rfind("tipping/", 0) == 0) continue;
    if (check::is_worse(f.ratio, worst.ratio)) worst = {f.ratio, f.id};
  }
  return worst;
}

}  // namespace

LoadPlan empty_load_plan(const bench::Sheet& sheet) {
  constexpr double pitch = 0.15;
  LoadPlan plan;
  plan.nx = cells_over(in_si(sheet.x1 - sheet.x0), pitch, 12);
  plan.ny = cells_over(in_si(sheet.y1 - sheet.y0), pitch, 6);
  plan.patch = quantity::millimetres(100.0);
  plan.most = most_mass;
  plan.mass.assign(plan.nx * plan.ny, std::numeric_limits<double>::quiet_NaN());
  plan.why.assign(plan.nx * plan.ny, "");
  return plan;
}

Elsewhere::Patch load_patch(const LoadPlan& plan, const bench::Sheet& sheet, std::size_t cell) {
  const auto part = [](std::size_t i, std::size_t n) {
    return (static_cast<double>(i) + 0.5) / static_cast<double>(n);
  };
  return {sheet.x0 + (sheet.x1 - sheet.x0) * part(cell % plan.nx, plan.nx),
          sheet.y0 + (sheet.y1 - sheet.y0) * part(cell / plan.nx, plan.ny), plan.patch};
}

LargestMass largest_mass(const std::function<Governing(double)>& at, const Governing& none,
                         double guess, double most) {
  constexpr double enough = 2.5;  // kg
  constexpr double near = 0.99;   // of the limit
  // On a straight line a secant ends at the limit, give or take rounding.
  constexpr double limit = 1.0 + 1e-9;
  constexpr int most_rounds = 30;
  if (!(none.ratio <= limit)) return {0.0, none.id};
  double low = 0.0, high = most, at_low = none.ratio, at_high = 0.0;
  bool has_high = false;
  LargestMass found{0.0, none.id};
  double next = std::clamp(guess, enough, most);
  for (int round = 0; round < most_rounds && high - low > enough && at_low < near; ++round) {
    const Governing tried = at(next);
    found.why = tried.id;
    if (tried.ratio <= limit) {
      low = next;
      at_low = tried.ratio;
      if (low >= most) return {most, ""};
    } else {
      high = next;
      at_high = tried.ratio;
      has_high = true;
    }
    // On the line between the two, or on that from nothing at all: never past the limit below it.
    const double slope = has_high && std::isfinite(at_high) ? (at_high - at_low) / (high - low)
                         : low > 0.0                        ? (at_low - none.ratio) / low
                                                            : 0.0;
    next = slope > 0.0 ? low + (1.0 - at_low) / slope : (has_high ? 0.5 * (low + high) : most);
    next = std::clamp(next, low + 0.5 * enough, std::max(low + 0.5 * enough, high));
    if (has_high) next = std::min(next, high - 0.4 * enough);
  }
  found.mass = low;
  return found;
}

void fill_load_plan(LoadPlan& plan, const InfluenceBounds& bounds, std::size_t machine_place,
                    const std::vector<std::size_t>& cells, const reference::Tables& tables,
                    const Work& work) {
  std::vector<std::vector<std::size_t>> rows(plan.ny);  // of patches
  for (std::size_t patch = 0; patch < cells.size(); ++patch) {
    rows[cells[patch] / plan.nx].push_back(patch);
  }
  if (cells.empty()) return;
  const Governing none =
      governing(superposed_at_mean(bounds, machine_place, std::nullopt, tables, false));
  std::atomic<std::size_t> done{0};
  std::atomic<bool> stopped{false};
  // A row begins where its neighbour ended; rows know nothing of each other, on any thread.
  work.for_each(plan.ny, [&](std::size_t row) {
    double guess = 60.0;
    for (const std::size_t patch : rows[row]) {
      if (stopped) return;
      const LargestMass found = largest_mass(
          [&](double mass) {
            return governing(superposed_at_mean(bounds, machine_place,
                                                Influence::Stored{patch, mass}, tables, false));
          },
          none, guess, plan.most);
      plan.mass[cells[patch]] = found.mass;
      plan.why[cells[patch]] = found.why;
      guess = std::max(20.0, found.mass);
      if (!work.keep_going(++done, cells.size())) stopped = true;
    }
  });
}

}  // namespace standtrue::decide
