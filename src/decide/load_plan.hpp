#pragma once

#include <functional>

#include "decide/influence.hpp"
#include "decide/place_bounds.hpp"
#include "standtrue/decide/place.hpp"

namespace standtrue::decide {

/// The grid of the load plan over a sheet, and its patches.
[[nodiscard]] LoadPlan empty_load_plan(const bench::Sheet& sheet);
[[nodiscard]] Elsewhere::Patch load_patch(const LoadPlan& plan, const bench::Sheet& sheet,
                                          std::size_t cell);

/// Governing ratio and its finding under a mass.
struct Governing {
  double ratio = 0.0;
  std::string id;
};
/// The largest mass up to `most` under which the ratio stays within 1, found from a guess by
/// secants; within 2.5 kg and never above. The ratio grows with the mass, from `none`, on a line
/// that only bends upwards.
struct LargestMass {
  double mass = 0.0;
  std::string why;
};
[[nodiscard]] LargestMass largest_mass(const std::function<Governing(double)>& at,
                                       const Governing& none, double guess, double most);

/// The bench with the machine at one of the places of `bounds`, which is the only one of `others`;
/// both have the patches of the plan.
struct LoadPlanBounds {
  const InfluenceBounds& bounds;
  const OtherBounds& others;
  std::size_t machine_place = 0;
};

/// Fills the masses. `cells` says which cell each patch lies in.
void fill_load_plan(LoadPlan& plan, const LoadPlanBounds& at, const std::vector<std::size_t>& cells,
                    const reference::Tables& tables, const Work& work);

}  // namespace standtrue::decide
