#pragma once

#include "standtrue/model/model.hpp"

/// What keeps a post upright. A diagonal between posts, or an upright sheet fixed to them, holds
/// the posts of its own plane; two in different planes hold all posts in their direction, through
/// the top. So does a rail that ends on a ledger: it hangs on the wall. Knees and brackets hold
/// nothing here.
namespace standtrue::check {

struct Held {
  bool along = false;   ///< cannot sway along x
  bool across = false;  ///< cannot sway along y
};
[[nodiscard]] Held held_planes(const model::Model& model, const model::Part& post);

/// "held by a diagonal or a fixed sheet"
[[nodiscard]] const char* held_word(const model::Model& model, bool is_held);

/// Of the top of a part above the floor.
[[nodiscard]] quantity::Length height_of(const model::Model& model, const model::Part& part);

/// Whether bending about local y (over the depth) moves the part along global x rather than y.
[[nodiscard]] bool bends_along_x(const model::Model& model, const model::Part& part);

}  // namespace standtrue::check
