#pragma once

#include <vector>

#include "standtrue/solve/solve.hpp"

/// Elastic buckling of a frame under loads in proportion. All numbers SI.
namespace standtrue::solve {

/// K φ = -α K_G(N) φ: all loads times `factor` let the frame give way in this shape.
struct BucklingMode {
  double factor = 0.0;
  Eigen::VectorXd shape;  ///< 6 per node, global; the largest movement is 1
};

/// The lowest `count` positive factors, rising; fewer where fewer are found, none where nothing is
/// pressed. N are the axial forces of the members in `state`, an answer of a Prepared of the same
/// model (its springs may differ); supports that are open in it hold nothing. Plates lend their
/// stiffness and lose none. Members between their nodes bend as cubics: divide them for modes
/// within their length (model::divided). Refused with `modes_unsettled` if the iteration fails.
/// Source (from memory): Timoshenko & Gere, Theory of Elastic Stability, 2.17, shear by Engesser.
[[nodiscard]] OrRefusal<std::vector<BucklingMode>> buckling(const Prepared& prepared,
                                                            const State& state, int count = 1);

}  // namespace standtrue::solve
