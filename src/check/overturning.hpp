#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "check/footprint.hpp"
#include "standtrue/reference/load.hpp"

/// What tips a bench as a rigid body. Doubles in SI (N, m, N m).
namespace standtrue::check {

/// A side over which what stands loose on the bench topples.
struct Topples {
  PlanPoint outwards;   ///< unit vector
  double moment = 0.0;  ///< N m, that its weight holds about it
};

/// A load that tips: a moment about each edge.
struct Action {
  double sideways = 0.0, height = 0.0;  ///< N, m
  double down = 0.0;                    ///< N, at `at`
  PlanPoint at;
  double factor = 1.0;
  std::string by;
  double stands_at = 0.0;      ///< m, the surface under what is pushed
  std::vector<Topples> sides;  ///< of it, where it stands loose

  /// What is pushed loose passes on no more moment than would topple it: so the push that tips most
  /// acts no higher than where it just does not, statics of a rigid body.
  [[nodiscard]] double acts_at(const PlanPoint& way) const;
  /// Both parts come from one body: one factor for both, and what helps of it counts too.
  [[nodiscard]] double about(const TippingEdge& edge) const {
    return factor *
           std::max(0.0, sideways * acts_at(edge.outwards) - down * edge.inside(at.x, at.y));
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

/// The shove of a table at the top of every machine; of one that stands loose, as high as its
/// weight on the outer edges of its pads holds it.
[[nodiscard]] std::vector<Action> shoves_at_machines(const bench::Bench& bench,
                                                     const reference::Load& shove);

}  // namespace standtrue::check
