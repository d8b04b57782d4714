#pragma once

#include <array>
#include <functional>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// How far the axis of a part has sunk, along the part. Doubles in SI (m).
namespace standtrue::check {

/// One member of a part.
struct Sunk {
  double from = 0.0;  ///< of its start, along the part
  double length = 0.0;
  std::array<double, 2> start{}, end{};  ///< plan places x, y of its flexible ends
  solve::Diagram down;                   ///< movement downwards; x from the member's start
};

/// Of all members of a part. Contract: the combination was answered.
[[nodiscard]] std::vector<Sunk> sunk(const model::Model& model, const solve::Response& response,
                                     std::size_t combination, const model::Part& part);

/// A movement downwards of a line or plane of reference at a plan place; linear over each member.
using Reference = std::function<double(double x, double y)>;

struct Lowest {
  double at = 0.0;     ///< along the part
  double below = 0.0;  ///< the reference, m; positive: lower
};
[[nodiscard]] Lowest lowest_below(const std::vector<Sunk>& axis, const Reference& reference);
/// At one place along the part.
[[nodiscard]] double below_at(const std::vector<Sunk>& axis, const Reference& reference, double at);

/// The line between the part's own ends.
[[nodiscard]] Reference between_ends(const std::vector<Sunk>& axis);

/// The line between the tops of the posts that a rail spans between; or from the top of its post to
/// where it ends on the ledger.
[[nodiscard]] Reference between_post_tops(const model::Model& model, const solve::State& state,
                                          const model::Part& rail);

/// The broken line over the screws of a ledger.
[[nodiscard]] Reference between_screws(const model::Model& model, const solve::State& state,
                                       const model::Part& ledger);

/// The plane nearest to the movements of the tops of the outer posts (least squares).
[[nodiscard]] Reference plane_of_post_tops(const model::Model& model, const solve::State& state);

/// Against that share of the span, or the least limit where that is more; its source is set then.
void judge_sag(Finding& f, double below, double span, double share,
               const reference::Limits& limits);

/// The broken line over the carriers of a strip.
[[nodiscard]] Reference over_carriers(const model::Strip& strip, const std::vector<Sunk>& axis);

}  // namespace standtrue::check
