#pragma once

#include <vector>

#include "solve/plates.hpp"
#include "standtrue/solve/response.hpp"

/// Members in a row that plates are tied along. What ties pull such a run with lengthways the plate
/// is pushed back with, beside the run and moving with it: a rail under its top is pulled and the
/// top pressed, and neither makes the two stiffer or softer against what bends them.
namespace standtrue::solve {

/// Straight on, end to end without springs between, all from start to end.
struct PlatedRun {
  /// A tie's pull on its node along the run, per movement of the node and of the tied point.
  struct Tied {
    std::size_t plate = 0;
    Eigen::Index point = 0;  ///< its first freedom among those of the plate
    model::NodeId node = 0;
    Eigen::Matrix<double, 1, 6> by_node;
    Eigen::Matrix<double, 1, 3> by_point;
    std::size_t before = 0;  ///< how many members of the run lie before it
  };
  std::vector<model::MemberId> members;
  std::vector<Tied> ties;
};
[[nodiscard]] std::vector<PlatedRun> plated_runs(const model::Model& model,
                                                 const std::vector<PreparedPlate>& plates);

/// Of each member the tension that counts when it has moved out of its line: its own, and in a run
/// with what the plates beside it are pulled with by the ties of the run. That is the sum of their
/// pulls from one end on, the mean of both ends where these differ.
[[nodiscard]] std::vector<double> tension_with_plates(const std::vector<PlatedRun>& runs,
                                                      const std::vector<PreparedPlate>& plates,
                                                      const State& state);

}  // namespace standtrue::solve
