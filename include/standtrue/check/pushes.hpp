#pragma once

#include <limits>
#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// How hard a push at the worktop tips the bench, or makes it slide.
namespace standtrue::check {

/// One push: N, all factors one; infinite where it does not happen (held by a wall or bolts, or the
/// other comes first), not a number where the frame has no answer.
struct Push {
  bool as_planned = false;  ///< with machines and what the file stores; else the bench alone
  model::ShoveWay way = model::ShoveWay::along;
  double sense = 1.0;      ///< +1 to the right or to the back
  std::string where;       ///< "across, at the left end": the name of the shove's place
  bool at_corner = false;  ///< it also turns the bench about the vertical
  /// Moments of a rigid body about the edges of its feet: sum(W a)/h.
  double tips_at = std::numeric_limits<double>::infinity();
  /// The frame on feet that only press and grip while they do; pushes spread over the top alone, on
  /// a bench that stands upright. In it a bare post stands on the middle of its end, so it tips a
  /// little before `tips_at`.
  double tips_at_frame = std::numeric_limits<double>::infinity();
  /// The frame on feet with friction: the first that slips, and when friction can not hold it. Not
  /// looked at where a wall or bolts hold the bench, or on castors.
  double first_slips_at = std::numeric_limits<double>::infinity();
  double slides_at = std::numeric_limits<double>::infinity();

  /// "to the right", "to the front"
  [[nodiscard]] std::string towards() const;
};

/// What the frame is asked: each costs a few milliseconds.
enum class PushesBy { tipping, sliding, both };

/// Pushes at every place of a shove, each way and sense; as planned only where something is. The
/// frame is that of sway (first order). By tipping only those spread over the top. None where the
/// model has no shoves; what the frame is not asked stays infinite.
/// Source (ours): statics of a rigid body, H = sum(W a)/h, and of the frame on feet with Coulomb's
/// friction.
[[nodiscard]] std::vector<Push> pushes(const Answers& answers, PushesBy by = PushesBy::both);

}  // namespace standtrue::check
