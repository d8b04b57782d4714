#include "decide/place_bounds.hpp"

#include "decide/placing.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/check/placed.hpp"

namespace standtrue::decide {

namespace {

/// Both at mean joints: at once, and after creep.
struct AtMean {
  Placed at_once, crept;

  AtMean(const InfluenceBounds& bounds, std::size_t place,
         const std::optional<Influence::Stored>& stored)
      : at_once(bounds.mean.at(place, stored)), crept(bounds.after_creep.at(place, stored)) {}

  [[nodiscard]] std::vector<check::Finding> judged(const reference::Tables& tables) const {
    check::Answers answers{at_once.model, at_once.response, &crept.model, &crept.response, false};
    return check::check_placed(answers, tables, true, {at_once.moved, &crept.moved});
  }
};

std::vector<check::Finding> judged_by_influence(const Influence& influence, std::size_t place,
                                                const reference::Tables& tables) {
  const Placed placed = influence.at(place);
  return check::check_placed({placed.model, placed.response, nullptr, nullptr, false}, tables,
                             false, {placed.moved, nullptr});
}

}  // namespace

tl::expected<InfluenceBounds, std::string> InfluenceBounds::make(const bench::Bench& bench,
                                                                 const reference::Tables& tables,
                                                                 const Elsewhere& elsewhere) {
  solve::PlateCache plates;
  const std::set<std::string> released = let_go_under_gravity(bench, tables);
  const auto at = [&](model::Bound bound, bool creeps, bool low_timber) {
    model::Assumptions assumptions{bound, creeps, released};
    assumptions.low_timber = low_timber;
    return Influence::make(bench, tables, elsewhere, assumptions,
                           creeps ? is_wanted_after_creep : is_wanted_at_once, plates);
  };
  auto mean = at(model::Bound::mean, false, false);
  if (!mean) return tl::unexpected(mean.error());
  auto crept = at(model::Bound::mean, true, false);
  if (!crept) return tl::unexpected(crept.error());
  auto soft = at(model::Bound::soft, false, false);
  if (!soft) return tl::unexpected(soft.error());
  auto stiff = at(model::Bound::stiff, false, false);
  if (!stiff) return tl::unexpected(stiff.error());
  auto poor = at(model::Bound::soft, false, true);
  if (!poor) return tl::unexpected(poor.error());
  return InfluenceBounds{std::move(*mean), std::move(*crept), std::move(*soft), std::move(*stiff),
                         std::move(*poor)};
}

Superposed superposed(const InfluenceBounds& bounds, std::size_t place,
                      const reference::Tables& tables) {
  const AtMean at_mean(bounds, place, std::nullopt);
  Superposed result;
  result.found.mean = at_mean.judged(tables);
  const double worst = safety_ratio(result.found.mean);
  if (worst > 1.0) {
    result.yields =
        !check::overloaded_ductile_joints({at_mean.at_once.model, at_mean.at_once.response}, tables)
             .empty();
    return result;
  }
  constexpr double band = 3.0;  // of joint stiffness, from mean to stiff
  if (worst < 1.0 / band) return result;
  result.found.soft = judged_by_influence(bounds.soft, place, tables);
  result.found.stiff = judged_by_influence(bounds.stiff, place, tables);
  result.found.poor = judged_by_influence(bounds.poor, place, tables);
  return result;
}

std::vector<check::Finding> superposed_at_mean(const InfluenceBounds& bounds, std::size_t place,
                                               const std::optional<Influence::Stored>& stored,
                                               const reference::Tables& tables) {
  return AtMean(bounds, place, stored).judged(tables);
}

}  // namespace standtrue::decide
