#pragma once

#include <memory>
#include <vector>

#include "standtrue/solve/solve.hpp"

/// Elastic buckling of a frame under loads in proportion. All numbers SI.
namespace standtrue::solve {

/// K φ = -α K_G(N) φ: all loads times `factor` let the frame give way in this shape.
struct BucklingMode {
  double factor = 0.0;
  Eigen::VectorXd shape;  ///< 6 per node, global; the largest movement is 1
};

/// A frame on the supports that touch in one state: those that are open hold nothing. Plates lend
/// their stiffness and lose none, but that N of a member has in it what plates tied along it are
/// pulled with beside it. Members between their nodes bend as cubics: divide them for modes
/// within their length (model::divided).
/// Source (from memory): Timoshenko & Gere, Theory of Elastic Stability, 2.17, shear by Engesser.
class Buckling {
 public:
  /// `state` is an answer of a Prepared of the same model (its springs may differ).
  Buckling(const Prepared& prepared, const State& state);
  /// The lowest `count` positive factors, rising; fewer where fewer are found, none where nothing
  /// is pressed. N are the axial forces of the members in `state`. Refused with `mechanism` where
  /// what touches does not hold the frame, with `modes_unsettled` if the iteration fails.
  [[nodiscard]] OrRefusal<std::vector<BucklingMode>> modes(const State& state, int count = 1) const;

 private:
  struct Held;
  Prepared prepared_;
  std::shared_ptr<const Held> held_;
};
/// Of one state.
[[nodiscard]] OrRefusal<std::vector<BucklingMode>> buckling(const Prepared& prepared,
                                                            const State& state, int count = 1);

/// The shapes in which a frame gives way in one state, as trial shapes for others of its states.
/// Source (from memory): Rayleigh and Ritz.
class AlikeBuckling {
 public:
  /// `modes`: what `buckling` found for `state`, one or more.
  AlikeBuckling(const Prepared& prepared, const State& state,
                const std::vector<BucklingMode>& modes);
  /// The factor of a state in the span of the shapes: not below its lowest, while the same supports
  /// hold, and near it where it gives way much alike. Infinite where nothing presses on them.
  [[nodiscard]] double trial_factor(const State& state) const;

 private:
  Prepared prepared_;
  std::vector<Eigen::MatrixXd> geometric_;  ///< of each member under a unit tension
  Eigen::VectorXd stiffness_;               ///< of each shape; they share none
};

}  // namespace standtrue::solve
