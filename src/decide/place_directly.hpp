#pragma once

#include <set>
#include <string>
#include <vector>

#include "standtrue/check/finding.hpp"
#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

/// Findings of one place at every bound; soft, stiff and poor may be empty where nobody asked.
struct AtBounds {
  std::vector<check::Finding> soft, mean, stiff, poor;
  std::string why;  ///< why there are none
};

/// A bench made and solved anew for the loads that know the place, on a mesh that knows where its
/// machines stand, beds and all; ductile joints that gravity overloads are let go as `assess` does.
/// Without `all_bounds` at mean joints alone.
[[nodiscard]] AtBounds judged_directly(const bench::Bench& bench, const reference::Tables& tables,
                                       bool all_bounds);

/// The joints that are let go with the bench as it is.
[[nodiscard]] std::set<std::string> let_go_under_gravity(const bench::Bench& bench,
                                                         const reference::Tables& tables);

/// Of combinations that know the place what is read after creep alone, and all the others.
[[nodiscard]] bool is_wanted_at_once(const model::Combination& combination);
[[nodiscard]] bool is_wanted_after_creep(const model::Combination& combination);

}  // namespace standtrue::decide
