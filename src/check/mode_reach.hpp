#pragma once

#include "check/unbalance.hpp"

/// How far modes may lie from where they are computed, and what that does to the shaking. SI.
namespace standtrue::check {

/// Ratios, at least 1: the true frequency lies between f/down and f*up.
struct ModeReach {
  double down = 1.0, up = 1.0;
};

/// Beside joints and floor: masses, timber, mesh. Practice keeps speeds so far off (ours).
inline constexpr double beside_joints = 1.2;
/// Two that know nothing of each other: the squares of their logarithms add (ours).
[[nodiscard]] double both_together(double a, double b);
/// That of a mode that is all joints.
[[nodiscard]] double farthest_down(const reference::Tables& tables);

/// Springs in series with what does not change: joints c times as stiff make of f
///     f/√(1 - s + s/c),    s their share of the mode's strain energy.
/// That holds to first order for any frame, and beyond as long as the mode keeps its forces (ours).
/// c is a third and three for joints and the slip of sheets' screws, what its record says for the
/// floor, unless the file gives that; `beside_joints` together with it.
[[nodiscard]] ModeReach reach_of(const solve::Mode& mode, const model::Model& model,
                                 const reference::Tables& tables);

/// The most that it shakes at its speeds, rms velocity, wherever the modes lie: all of them moved
/// alike, from -1 (all the way down) to 1.
struct Shaken {
  double liveliest = 0.0, calmest = 0.0;
};
struct Speeds {
  double from = 0.0, to = 0.0;  ///< Hz
};
struct Dampings {
  double low = 0.0, high = 0.0;  ///< of the liveliest, of the calmest
};
[[nodiscard]] Shaken shaken(const Shaker& shaker, const std::vector<ModeReach>& reaches,
                            const Speeds& speeds, const Dampings& dampings);

}  // namespace standtrue::check
