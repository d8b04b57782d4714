#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "standtrue/solve/plate_response.hpp"
#include "standtrue/solve/solve.hpp"

/// Free vibration of a frame with its plates and bodies, all supports closed. All numbers SI.
namespace standtrue::solve {

/// A movement of everything, scaled so that φ^T M φ = 1 kg m².
struct Mode {
  double frequency = 0.0;                     ///< Hz
  Eigen::VectorXd displacement;               ///< 6 per node, global
  std::vector<PlateMovements> plates;         ///< one column each, own axes
  std::vector<std::array<double, 6>> bodies;  ///< of each body's centre of mass: x y z rx ry rz

  /// Shares of φ^T K φ, without prestress: in all, 0 to 1. So 1 % more of their stiffness makes ω²
  /// grow by their share of 1 %.
  struct InSprings {
    double ends = 0.0;      ///< end springs of members
    double slip = 0.0;      ///< ties of plates, along the plate
    double supports = 0.0;  ///< supports that give
  };
  InSprings in_springs;
};

struct ModesWanted {
  int least = 12;       ///< so many in any case, if the frame has them
  double up_to = 60.0;  ///< Hz; and all below this
  /// Axial forces that soften (or stiffen) the members; null for none.
  const State* prestress = nullptr;
};

/// K φ = ω² M φ, lowest first; what repeats (up to eight times) comes as often as it is there. M is
/// consistent: members with their rotary inertia and that of their twist, plates with theirs, point
/// masses, and the bodies of the model on their pads. Fewer than wanted where there is no more
/// mass. Every shape leaves r = K φ - ω² M φ with sqrt(r^T K^-1 r) <= 1e-6 ω; refused with
/// `modes_unsettled` otherwise, with `buckles` where the prestress is more than the frame bears.
/// Members move between their nodes as at rest: divide those that swing within their length
/// (model::divided).
/// Source (from memory): Clough & Penzien, Dynamics of Structures, K φ = ω² M φ.
[[nodiscard]] OrRefusal<std::vector<Mode>> modes(const Prepared& prepared,
                                                 const ModesWanted& wanted = {});

}  // namespace standtrue::solve
