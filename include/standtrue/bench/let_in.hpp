#pragma once

#include <vector>

#include "standtrue/bench/bench.hpp"

/// Rails let into a post: those that are `notched` with all of their width that lies in the post,
/// so that they are flush with its face; of a half lap, which takes half of both, the half of the
/// post that the rail is nearer to. Either runs through the post from side to side.
namespace standtrue::bench {

struct LetIn {
  std::size_t rail = 0;  ///< place in Bench::rails
  bool along_x = true;   ///< as the rail: what it takes is of the post's side along y
  bool is_lap = false;
  Length low, high;  ///< heights; a notch in its underside leaves the post that much
  Length axis;       ///< height of the rail's
  Length from, to;   ///< across the rail, from the post's axis
};
[[nodiscard]] std::vector<LetIn> let_into(const Bench& bench, std::size_t post);

/// The sides of a post at a height, less what all rails of `cuts` take there, and at a rail's axis,
/// where its forces are, even where a deep notch leaves the post whole. Wood that is left on
/// both sides of a rail counts as one piece of both thicknesses (ours).
struct SidesLeft {
  Length along_x, along_y;
};
[[nodiscard]] SidesLeft sides_left(const Post& post, const std::vector<LetIn>& cuts, Length height);

/// Whether a rail in a half lap meets another there that comes from another direction: of the half
/// of the post that either takes they share half.
[[nodiscard]] bool is_crossed_lap(const Bench& bench, std::size_t post, std::size_t rail);

}  // namespace standtrue::bench
