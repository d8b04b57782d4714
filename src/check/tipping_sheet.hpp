#pragma once

#include <algorithm>
#include <optional>

#include "check/overturning.hpp"

/// A lying sheet as a rigid body on what carries it, without its screws. Doubles in SI (N m).
namespace standtrue::check {

/// About the edge of its carriers over which it tips the soonest, with factors.
struct SheetTipping {
  TippingEdge edge;
  double tips = 0.0;   ///< N m, of what stands beyond the edge
  double holds = 0.0;  ///< N m, of its weight and what stands inside
  bool by_person = false;
  [[nodiscard]] double ratio() const { return tips / std::max(holds, 1e-6); }
};
/// Nothing where no rails carry it.
[[nodiscard]] std::optional<SheetTipping> sheet_tipping(const model::Parts& parts,
                                                        std::size_t sheet,
                                                        const reference::Tables& tables);

}  // namespace standtrue::check
