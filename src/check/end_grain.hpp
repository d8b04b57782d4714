#pragma once

#include <string>

#include "standtrue/model/parts.hpp"

namespace standtrue::check {

/// The end grain that carries: under a thread the ring of its flange; where the post stands on the
/// floor its whole section.
struct EndGrain {
  quantity::Area area;
  std::string said;
};
[[nodiscard]] EndGrain end_grain(const model::Part& post, const bench::Foot& foot);

}  // namespace standtrue::check
