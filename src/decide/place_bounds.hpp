#pragma once

#include "decide/influence.hpp"
#include "decide/place_directly.hpp"

namespace standtrue::decide {

/// A bench factorised once for every bound that a place is judged at.
struct InfluenceBounds {
  Influence mean, after_creep, soft, stiff, poor;

  [[nodiscard]] static tl::expected<InfluenceBounds, std::string> make(
      const bench::Bench& bench, const reference::Tables& tables, const Elsewhere& elsewhere);
};

/// A place by superposition. Other bounds than the mean are looked at only where a judgement can
/// turn: joints three times as stiff draw no more than three times the moment, so below a third of
/// its strength nothing fails. `yields` where a ductile joint is overloaded that is not let go: the
/// frame is another one then.
struct Superposed {
  AtBounds found;
  bool yields = false;
};
[[nodiscard]] Superposed superposed(const InfluenceBounds& bounds, std::size_t place,
                                    const reference::Tables& tables);

/// Findings at mean joints alone, with something stored.
[[nodiscard]] std::vector<check::Finding> superposed_at_mean(
    const InfluenceBounds& bounds, std::size_t place,
    const std::optional<Influence::Stored>& stored, const reference::Tables& tables);

}  // namespace standtrue::decide
