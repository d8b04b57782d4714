#pragma once

#include <optional>
#include <span>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// What a level reads on a bench at rest when its feet are set. Doubles in SI; slopes and twists in
/// rad, as in level.hpp.
namespace standtrue::check {

/// Feet and shims as they are tried. Shims of s/2 under the second and fourth pad of a bed leave
/// s less of the bare top's warp for it to follow: twist = (q_0 - s)/(1 + k Γ/b²)/b.
struct FeetSet {
  std::vector<double> up;  ///< per foot of Parts::feet: how much higher it is set, m
  /// As if every foot were held to the floor, pulling too: what feet do is then linear.
  bool held = false;
  double shims = 0.0;  ///< s, m; less than 0 under the first and third pad
};

struct LevelReading {
  double x = 0.0, y = 0.0;      ///< slope, rising to the right and to the back
  double twist = 0.0;           ///< of the bed
  double warp = 0.0;            ///< q_0 of the bare top under the bed's pads, m
  std::vector<double> presses;  ///< per foot, N; below 0 where it is held and pulls
  std::vector<bool> touches;    ///< per foot
};

/// The place in Parts::beds of the bed that wants levelling most: a metal lathe's before others,
/// then the heaviest machine's. None without a machine on four pads on a plate.
[[nodiscard]] std::optional<std::size_t> bed_to_level(const model::Parts& parts);

/// At rest under its loads, at the plane of the pads of that bed, or of the tops of the outer posts
/// without one; in the order of `settings`. What holds the bench to a wall is let go, as it must
/// be while feet are turned. Otherwise why there is no answer, for people.
[[nodiscard]] tl::expected<std::vector<LevelReading>, std::string> level_readings(
    const Answers& answers, std::optional<std::size_t> bed, std::span<const FeetSet> settings);

}  // namespace standtrue::check
