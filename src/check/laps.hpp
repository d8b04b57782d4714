#pragma once

#include <vector>

#include "check/section_forces.hpp"
#include "standtrue/model/model.hpp"

/// What half laps leave of a post. Doubles in SI (m).
namespace standtrue::check {

class Laps {
 public:
  Laps(const model::Model& model, const model::Part& post);

  [[nodiscard]] bool none() const { return laps_.empty(); }
  /// The post with the sides that it has at that cut: halved where a rail is lapped with it. Forces
  /// there are those at the rail's axis, a little more than at the edge of the lap.
  [[nodiscard]] model::Part left(const model::Member& member, const Station& at) const;

 private:
  struct Lap {
    double low = 0.0, high = 0.0;  ///< heights
    bool halves_y = false;         ///< its side along y, by a rail along x
  };
  const model::Model& model_;
  const model::Part& post_;
  std::vector<Lap> laps_;
};

/// A line of working where less than the whole is left.
void tell_halved(Finding& finding, const model::Part& whole, const model::Part& left);

}  // namespace standtrue::check
