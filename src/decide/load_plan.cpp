// Masses in kg.
#include "decide/load_plan.hpp"

#include <algorithm>
#include <array>
#include <atomic>
#include <cmath>
#include <limits>

#include "standtrue/check/is_worse.hpp"

namespace standtrue::decide {

using check::Finding;
using quantity::in_si;

namespace {

constexpr double most_mass = 300.0;

std::size_t cells_along(double length, double pitch, std::size_t most) {
  return std::clamp<std::size_t>(static_cast<std::size_t>(std::lround(length / pitch)), 1, most);
}

/// Tipping knows nothing of the patch; the frame's own answer says where it would tip.
Governing governing(const std::vector<Finding>& findings, bool service) {
  Governing worst;
  for (const Finding& f : findings) {
    const bool counts =
        f.kind == check::Kind::safety || (service && f.kind == check::Kind::service);
    if (!counts || f.id.rfind("tipping/", 0) == 0) continue;
    if (check::is_worse(f.ratio, worst.ratio)) worst = {f.ratio, f.id};
  }
  return worst;
}

/// On a straight line a secant ends at the limit, give or take rounding.
bool is_within_limit(const Governing& governing) { return governing.ratio <= 1.0 + 1e-9; }

/// What governs with nothing more or a mass on a patch.
class Weighing {
 public:
  Weighing(const LoadPlanBounds& at, const reference::Tables& tables) : at_(at), tables_(tables) {
    for (const OtherBound bound : other_bounds) {
      none_[static_cast<std::size_t>(bound)] = this->at(bound, std::nullopt);
    }
  }

  [[nodiscard]] Governing at_mean(const std::optional<Influence::Stored>& stored) const {
    return governing(superposed_at_mean(at_.bounds, at_.machine_place, stored, tables_, false),
                     true);
  }
  /// At one of the other bounds, of safety alone.
  [[nodiscard]] Governing at(OtherBound bound,
                             const std::optional<Influence::Stored>& stored) const {
    return governing(superposed_at(at_.others, bound, 0, stored, tables_), false);
  }
  [[nodiscard]] const Governing& none_at(OtherBound bound) const {
    return none_[static_cast<std::size_t>(bound)];
  }

 private:
  const LoadPlanBounds& at_;
  const reference::Tables& tables_;
  std::array<Governing, other_bounds.size()> none_;
};

/// Patch by patch along a row, each search beginning where the one before it ended.
class RowOfPatches {
 public:
  explicit RowOfPatches(const Weighing& weighing) : weighing_(weighing) {}

  [[nodiscard]] LargestMass at_mean(std::size_t patch, const Governing& none, double most) {
    const LargestMass found = largest_mass(
        [&](double mass) {
          return weighing_.at_mean(Influence::Stored{patch, mass});
        },
        none, guess_, most);
    guess_ = std::max(20.0, found.mass);
    return found;
  }
  /// Up to that of mean joints, what every other bound carries. The bound that was last in the way
  /// is asked first: what it carries the others mostly do.
  [[nodiscard]] LargestMass at_others(std::size_t patch, const LargestMass& mean) {
    LargestMass found = mean;
    std::vector<OtherBound> order{last_};
    for (const OtherBound bound : other_bounds) {
      if (bound != last_) order.push_back(bound);
    }
    for (const OtherBound bound : order) {
      const auto with = [&](double mass) {
        return weighing_.at(bound, Influence::Stored{patch, mass});
      };
      if (found.mass == 0.0 || is_within_limit(with(found.mass))) continue;
      found = largest_mass(with, weighing_.none_at(bound), share_ * found.mass, found.mass);
      last_ = bound;
    }
    if (found.mass < mean.mass) share_ = std::max(0.1, found.mass / mean.mass);
    return found;
  }

 private:
  const Weighing& weighing_;
  double guess_ = 60.0, share_ = 0.7;  ///< kg; of what mean joints carry
  OtherBound last_ = OtherBound::poor;
};

}  // namespace

LoadPlan empty_load_plan(const bench::Sheet& sheet) {
  constexpr double pitch = 0.15;
  LoadPlan plan;
  plan.nx = cells_along(in_si(sheet.x1 - sheet.x0), pitch, 12);
  plan.ny = cells_along(in_si(sheet.y1 - sheet.y0), pitch, 6);
  plan.patch = quantity::millimetres(100.0);
  plan.most = most_mass;
  plan.mass.assign(plan.nx * plan.ny, std::numeric_limits<double>::quiet_NaN());
  plan.mean = plan.mass;
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
  constexpr int most_rounds = 30;
  if (!is_within_limit(none)) return {0.0, none.id};
  double low = 0.0, high = most, at_low = none.ratio, at_high = 0.0;
  bool has_high = false;
  LargestMass found{0.0, none.id};
  double next = std::clamp(guess, enough, most);
  for (int round = 0; round < most_rounds && high - low > enough && at_low < near; ++round) {
    const Governing tried = at(next);
    found.why = tried.id;
    if (is_within_limit(tried)) {
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

void fill_load_plan(LoadPlan& plan, const LoadPlanBounds& at, const std::vector<std::size_t>& cells,
                    const reference::Tables& tables, const Work& work) {
  std::vector<std::vector<std::size_t>> rows(plan.ny);  // of patches
  for (std::size_t patch = 0; patch < cells.size(); ++patch) {
    rows[cells[patch] / plan.nx].push_back(patch);
  }
  if (cells.empty()) return;
  const Weighing weighing(at, tables);
  const Governing none = weighing.at_mean(std::nullopt);
  std::atomic<std::size_t> done{0};
  std::atomic<bool> stopped{false};
  // A row begins where its neighbour ended; rows know nothing of each other, on any thread.
  work.for_each(plan.ny, [&](std::size_t row) {
    RowOfPatches along(weighing);
    for (const std::size_t patch : rows[row]) {
      if (stopped) return;
      const LargestMass mean = along.at_mean(patch, none, plan.most);
      const LargestMass sure = along.at_others(patch, mean);
      plan.mass[cells[patch]] = sure.mass;
      plan.mean[cells[patch]] = mean.mass;
      plan.why[cells[patch]] = sure.why;
      if (!work.keep_going(++done, cells.size())) stopped = true;
    }
  });
}

}  // namespace standtrue::decide
