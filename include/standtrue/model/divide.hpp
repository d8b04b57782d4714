#pragma once

#include <vector>

#include "standtrue/model/model.hpp"

/// Members cut into pieces, for what bends within their length: buckling and vibration.
namespace standtrue::model {

/// The same frame with every member in equal pieces joined rigidly. Nodes, members, supports, cases
/// and combinations keep their places; the first piece of a member keeps the member's. Loads on
/// members go to the pieces that they act on; a plane frame case stays plane.
struct Division {
  Model model;
  std::vector<std::vector<MemberId>> pieces;  ///< per member of the whole model, from its start
};
/// Contract: pieces >= 1. Parts are kept as they are: they then know the first pieces only.
[[nodiscard]] Division divided(const Model& model, int pieces);

}  // namespace standtrue::model
