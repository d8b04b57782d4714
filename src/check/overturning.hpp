#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "check/footprint.hpp"
#include "standtrue/reference/load.hpp"

/// What tips a bench as a rigid body. Doubles in SI (N, m, N m).
namespace standtrue::check {

/// A load that tips: a moment about each edge.
struct Action {
  double sideways = 0.0, height = 0.0;  ///< N, m
  double down = 0.0;                    ///< N, at `at`
  PlanPoint at;
  double factor = 1.0;
  std::string by;

  /// Both parts come from one body: one factor for both, and what helps of it counts too.
  [[nodiscard]] double about(const TippingEdge& edge) const {
    return factor * std::max(0.0, sideways * height - down * edge.inside(at.x, at.y));
  }
};

/// The load of a table on the corners of every top, as far from the edge as it says, pushing
/// outwards at the surface; its factor is that against tipping.
[[nodiscard]] std::vector<Action> on_corners(const bench::Bench& bench,
                                             const reference::Load& load);

/// The same on a bench that leans with its floor: what presses down presses downhill of there, by
/// its height over `above`, the height of the edges that are tipped over.
[[nodiscard]] std::vector<Action> leaned(const bench::Bench& bench, std::vector<Action> actions,
                                         double above = 0.0);

}  // namespace standtrue::check
