#include "decide/place_bounds.hpp"

#include <algorithm>
#include <optional>

#include "decide/findings.hpp"
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

  [[nodiscard]] std::vector<check::Finding> judged(const reference::Tables& tables,
                                                   bool words) const {
    check::Answers answers{at_once.model, at_once.response, &crept.model, &crept.response, false,
                           words};
    return check::check_placed(answers, tables, true, {at_once.plates, &crept.plates});
  }
};

std::vector<check::Finding> judged_by_influence(const Influence& influence, std::size_t place,
                                                const std::optional<Influence::Stored>& stored,
                                                const reference::Tables& tables, bool words) {
  const Placed placed = influence.at(place, stored);
  return check::check_placed({placed.model, placed.response, nullptr, nullptr, false, words},
                             tables, false, {placed.plates, nullptr});
}

struct Asked {
  model::Bound bound = model::Bound::mean;
  bool creeps = false, low_timber = false;
};

tl::expected<std::vector<Influence>, std::string> influences(
    const bench::Bench& bench, const reference::Tables& tables, const Elsewhere& elsewhere,
    const std::set<std::string>& released, const std::vector<Asked>& asked,
    const solve::PlateCache& plates, const Work& work) {
  std::vector<std::optional<tl::expected<Influence, std::string>>> made(asked.size());
  work.for_each(asked.size(), [&](std::size_t i) {
    model::Assumptions assumptions{asked[i].bound, asked[i].creeps, released};
    assumptions.low_timber = asked[i].low_timber;
    solve::PlateCache own = plates.copy();
    made[i] = Influence::make(bench, tables, elsewhere, assumptions,
                              asked[i].creeps ? is_wanted_after_creep : is_wanted_at_once, own);
  });
  std::vector<Influence> all;
  for (auto& one : made) {
    if (!*one) return tl::unexpected((*one).error());
    all.push_back(std::move(**one));
  }
  return all;
}

bool counts_as_stretch(const check::Finding& f) {
  return f.kind == check::Kind::safety && f.judgement != check::Judgement::not_judged;
}

}  // namespace

tl::expected<InfluenceBounds, std::string> InfluenceBounds::make(const bench::Bench& bench,
                                                                 const reference::Tables& tables,
                                                                 const Elsewhere& elsewhere,
                                                                 const Work& work) {
  std::set<std::string> released;
  solve::PlateCache plates;
  work.for_each(2, [&](std::size_t i) {
    if (i == 0) {
      Influence::condense(bench, tables, elsewhere, plates);
    } else {
      released = let_go_under_gravity(bench, tables);
    }
  });
  auto made = influences(bench, tables, elsewhere, released,
                         {{model::Bound::mean, false, false}, {model::Bound::mean, true, false}},
                         plates, work);
  if (!made) return tl::unexpected(made.error());
  return InfluenceBounds{std::move((*made)[0]), std::move((*made)[1]), std::move(released),
                         std::move(plates)};
}

tl::expected<OtherBounds, std::string> OtherBounds::make(const bench::Bench& bench,
                                                         const reference::Tables& tables,
                                                         const Elsewhere& elsewhere,
                                                         const InfluenceBounds& known,
                                                         const Work& work) {
  solve::PlateCache plates = known.plates.copy();
  Influence::condense(bench, tables, elsewhere, plates);
  auto made = influences(bench, tables, elsewhere, known.released,
                         {{model::Bound::soft, false, false},
                          {model::Bound::stiff, false, false},
                          {model::Bound::soft, false, true}},
                         plates, work);
  if (!made) return tl::unexpected(made.error());
  return OtherBounds{std::move((*made)[0]), std::move((*made)[1]), std::move((*made)[2])};
}

Superposed superposed(const InfluenceBounds& bounds, std::size_t place,
                      const reference::Tables& tables, bool words) {
  const AtMean at_mean(bounds, place, std::nullopt);
  Superposed result;
  result.found.mean = at_mean.judged(tables, words);
  const double worst = safety_ratio(result.found.mean);
  constexpr double band = 3.0;  // of joint stiffness, from mean to stiff
  result.may_turn = worst >= 1.0 / band && worst <= 1.0;
  if (worst > 1.0) {
    result.yields =
        !check::overloaded_ductile_joints({at_mean.at_once.model, at_mean.at_once.response}, tables)
             .empty();
  }
  return result;
}

void add_bounds(AtBounds& found, const OtherBounds& bounds, std::size_t place,
                const reference::Tables& tables, bool words) {
  found.soft = judged_by_influence(bounds.soft, place, std::nullopt, tables, words);
  found.stiff = judged_by_influence(bounds.stiff, place, std::nullopt, tables, words);
  found.poor = judged_by_influence(bounds.poor, place, std::nullopt, tables, words);
}

void Stretch::see(const AtBounds& found) {
  for (const check::Finding& mean : found.mean) {
    if (!counts_as_stretch(mean)) continue;
    double most = 1.0;
    for (const auto* bound : {&found.soft, &found.stiff, &found.poor}) {
      const check::Finding* other = with_id(*bound, mean.id);
      if (other && mean.ratio > 0.0) most = std::max(most, other->ratio / mean.ratio);
    }
    double& known = most_[mean.id];
    known = std::max(known, most);
  }
  for (const auto* bound : {&found.soft, &found.stiff, &found.poor}) {
    for (const check::Finding& f : *bound) {
      if (f.kind != check::Kind::safety || f.judgement == check::Judgement::satisfied) continue;
      const check::Finding* mean = with_id(found.mean, f.id);
      if (!mean || counts_as_stretch(*mean) != counts_as_stretch(f)) appears_ = true;
    }
  }
}

bool Stretch::may_matter(const std::vector<check::Finding>& mean) const {
  if (appears_) return true;
  constexpr double near = 0.9, unseen = 1.1;
  return std::any_of(mean.begin(), mean.end(), [&](const check::Finding& f) {
    if (!counts_as_stretch(f)) return false;
    const auto known = most_.find(f.id);
    return known == most_.end() || !(f.ratio * known->second * unseen < near);
  });
}

std::vector<check::Finding> Stretch::estimated(const std::vector<check::Finding>& mean) const {
  std::vector<check::Finding> all;
  for (const check::Finding& f : mean) {
    if (!counts_as_stretch(f)) continue;
    all.push_back(f);
    all.back().ratio *= most_.at(f.id);
  }
  return all;
}

std::vector<check::Finding> superposed_at_mean(const InfluenceBounds& bounds, std::size_t place,
                                               const std::optional<Influence::Stored>& stored,
                                               const reference::Tables& tables, bool words) {
  return AtMean(bounds, place, stored).judged(tables, words);
}

std::vector<check::Finding> superposed_at(const OtherBounds& bounds, OtherBound bound,
                                          std::size_t place,
                                          const std::optional<Influence::Stored>& stored,
                                          const reference::Tables& tables) {
  const Influence& influence = bound == OtherBound::soft    ? bounds.soft
                               : bound == OtherBound::stiff ? bounds.stiff
                                                            : bounds.poor;
  return judged_by_influence(influence, place, stored, tables, false);
}

}  // namespace standtrue::decide
