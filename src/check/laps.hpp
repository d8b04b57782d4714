#pragma once

#include <string>
#include <vector>

#include "check/section_forces.hpp"
#include "standtrue/bench/let_in.hpp"
#include "standtrue/model/model.hpp"

/// What half laps and notched rails leave of a post.
namespace standtrue::check {

class Laps {
 public:
  Laps(const model::Model& model, const model::Part& post);

  [[nodiscard]] bool none() const { return cuts_.empty(); }
  /// The post with the sides that it has at that cut, less what is cut out for the rails let in at
  /// that height, from whichever direction (EN 1995-1-1, 5.2, from memory). Forces there are those
  /// at the rail's axis, a little more than at the edge of the cut.
  [[nodiscard]] model::Part left(const model::Member& member, const Station& at) const;

 private:
  const model::Model& model_;
  const model::Part& post_;
  std::vector<bench::LetIn> cuts_;
};

[[nodiscard]] inline bool is_less(const model::Part& left, const model::Part& whole) {
  return left.width * left.depth < whole.width * whole.depth;
}

/// A stress that goes by the area, of what is left.
[[nodiscard]] quantity::Stress over_left(quantity::Stress of_whole, const model::Part& whole,
                                         const model::Part& left);

/// Whether less than the whole is left; if so, with a line of working.
bool tell_left(Finding& finding, const model::Part& whole, const model::Part& left);

/// What to do about a post that fails where rails are let in.
[[nodiscard]] std::string cure_of_laps(const model::Part& post);

}  // namespace standtrue::check
