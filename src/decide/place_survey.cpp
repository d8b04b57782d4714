#include "decide/place_survey.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <random>

namespace standtrue::decide {

namespace {

bool shows_the_rest(const Candidate& c, std::size_t nx) {
  if (!c.spot) return true;
  return c.spot->cell % nx % 3 == 1 && c.spot->cell / nx % 3 == 1;
}

void compare(Confirmation& confirmed, const PlaceStatus& superposed, double mean_ratio,
             bool is_near) {
  const double by = std::abs(superposed.mean_ratio - mean_ratio) / mean_ratio;
  if (!std::isfinite(by)) return;
  confirmed.furthest = std::max(confirmed.furthest, by);
  if (is_near) confirmed.furthest_near = std::max(confirmed.furthest_near, by);
}

/// Ten at most, drawn alike at every run.
std::vector<std::size_t> some_of(std::vector<std::size_t> places) {
  constexpr std::size_t some = 10;
  std::vector<std::size_t> drawn;
  std::mt19937 draw(1);
  while (drawn.size() < some && !places.empty()) {
    const std::size_t at = draw() % places.size();
    drawn.push_back(places[at]);
    places.erase(places.begin() + static_cast<std::ptrdiff_t>(at));
  }
  return drawn;
}

}  // namespace

bool is_failing(const check::Finding& f) {
  return f.judgement == check::Judgement::exceeded || f.judgement == check::Judgement::depends;
}

/// `f(candidate, its number)` for those, on as many threads as there are, until somebody says stop.
template <class F>
void PlaceSurvey::for_those(const std::vector<std::size_t>& which, F f) {
  std::atomic<std::size_t> done{0};
  std::atomic<bool> stopped{false};
  work_.for_each(which.size(), [&](std::size_t i) {
    if (stopped) return;
    f(candidates[which[i]], which[i]);
    if (!work_.keep_going(++done, which.size())) stopped = true;
  });
  if (stopped && done < which.size()) complete = false;
}

std::string PlaceSurvey::superpose(const InfluenceBounds& bounds, std::size_t nx) {
  std::vector<std::size_t> all(candidates.size()), few, rest;
  std::vector<Superposed> at(candidates.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
  for_those(all, [&](Candidate& c, std::size_t place) {
    at[place] = superposed(bounds, place, tables_, false);
    c.yields = at[place].yields;
  });
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (at[i].may_turn) (shows_the_rest(candidates[i], nx) ? few : rest).push_back(i);
  }
  if (std::string why = look_at_bounds(at, few, bounds); !why.empty()) return why;
  Stretch stretch;
  for (const std::size_t i : few) stretch.see(at[i].found);
  std::vector<std::size_t> near;
  for (const std::size_t i : rest) {
    if (stretch.may_matter(at[i].found.mean)) {
      near.push_back(i);
    } else {
      at[i].found.poor = stretch.estimated(at[i].found.mean);
    }
  }
  if (std::string why = look_at_bounds(at, near, bounds); !why.empty()) return why;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const AtBounds& found = at[i].found;
    const bool is_half_seen = at[i].may_turn && found.soft.empty() && found.poor.empty();
    if (!is_half_seen) candidates[i].judged = status_of(found);
  }
  note_own(at.back().found);
  return {};
}

std::string PlaceSurvey::look_at_bounds(std::vector<Superposed>& at,
                                        const std::vector<std::size_t>& which,
                                        const InfluenceBounds& known) {
  if (which.empty()) return {};
  const auto bounds = bounds_at(which, known);
  if (!bounds) return bounds.error();
  std::vector<std::size_t> places(candidates.size());
  for (std::size_t p = 0; p < which.size(); ++p) places[which[p]] = p;
  for_those(which, [&](Candidate& c, std::size_t i) {
    add_bounds(at[i].found, *bounds, places[i], tables_, false);
    c.is_seen_at_bounds = true;
  });
  return {};
}

tl::expected<OtherBounds, std::string> PlaceSurvey::bounds_at(const std::vector<std::size_t>& which,
                                                              const InfluenceBounds& known) const {
  Elsewhere elsewhere;
  elsewhere.machine = machine_;
  for (const std::size_t i : which) elsewhere.places.push_back(candidates[i].there);
  return OtherBounds::make(bench_, tables_, elsewhere, known, work_);
}

std::string PlaceSurvey::tell(const InfluenceBounds& bounds,
                              const std::vector<std::size_t>& which) {
  std::vector<std::size_t> silent, seen;
  for (const std::size_t i : which) {
    if (candidates[i].judged.status.is_confirmed) continue;
    silent.push_back(i);
    if (candidates[i].is_seen_at_bounds) seen.push_back(i);
  }
  std::optional<OtherBounds> others;
  if (!seen.empty()) {
    auto made = bounds_at(seen, bounds);
    if (!made) return made.error();
    others = std::move(*made);
  }
  work_.for_each(silent.size(), [&](std::size_t k) {
    const std::size_t i = silent[k];
    AtBounds found = superposed(bounds, i, tables_, true).found;
    const auto place = std::find(seen.begin(), seen.end(), i);
    if (place != seen.end()) {
      add_bounds(found, *others, static_cast<std::size_t>(place - seen.begin()), tables_, true);
    }
    JudgedPlace& judged = candidates[i].judged;
    judged.sentence = sentence_of(found, judged.status.why);
  });
  return {};
}

void PlaceSurvey::note_own(const AtBounds& found) {
  for (const check::Finding& f : merge(found.soft, found.mean, found.stiff, found.poor)) {
    if (is_failing(f)) fails.insert(f.id);
    if (f.kind == check::Kind::safety && f.judgement == check::Judgement::not_judged) {
      not_judged.push_back(f.id);
    }
  }
}

void PlaceSurvey::solve_those(const std::vector<std::size_t>& which, bool is_first_look) {
  for_those(which, [&](Candidate& c, std::size_t place) {
    const AtBounds found = judged_directly(with_machine(bench_, machine_, c.there), tables_, true);
    if (found.mean.empty()) return;
    c.judged = status_of(found);
    c.judged.status.is_confirmed = true;
    if (is_first_look && place + 1 == candidates.size()) note_own(found);
  });
}

void PlaceSurvey::solve_all() {
  std::vector<std::size_t> all(candidates.size());
  for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
  solve_those(all, true);
}

Confirmation PlaceSurvey::confirm() {
  constexpr double near = 0.1;  // a mesh of its own may turn what governs there
  std::vector<std::size_t> yielding, near_limit, others;
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const PlaceStatus& s = candidates[i].judged.status;
    if (s.stand == Stand::not_looked_at) continue;
    (candidates[i].yields ? yielding : s.off_limit <= near ? near_limit : others).push_back(i);
  }
  Confirmation confirmed;
  try_others(some_of(std::move(others)), confirmed);
  try_near(yielding, confirmed);
  const auto off = [this](std::size_t i) { return candidates[i].judged.status.off_limit; };
  std::stable_sort(near_limit.begin(), near_limit.end(),
                   [&](std::size_t a, std::size_t b) { return off(a) < off(b); });
  constexpr std::ptrdiff_t at_a_time = 12;
  constexpr double margin = 2.0;  // ours: others may differ by more than those that were tried
  auto next = near_limit.begin();
  while (next != near_limit.end() &&
         (next == near_limit.begin() || off(*next) <= margin * confirmed.furthest)) {
    const auto end = next + std::min(at_a_time, near_limit.end() - next);
    try_near({next, end}, confirmed);
    next = end;
  }
  confirmed.left = static_cast<std::size_t>(near_limit.end() - next);
  return confirmed;
}

void PlaceSurvey::try_near(const std::vector<std::size_t>& which, Confirmation& confirmed) {
  std::vector<PlaceStatus> before;
  for (const std::size_t i : which) before.push_back(candidates[i].judged.status);
  solve_those(which, false);
  for (std::size_t k = 0; k < which.size(); ++k) {
    const PlaceStatus& direct = candidates[which[k]].judged.status;
    if (!direct.is_confirmed) continue;
    ++confirmed.near_limit;
    if (before[k].stand != direct.stand) ++confirmed.changed;
    compare(confirmed, before[k], direct.mean_ratio, true);
  }
}

void PlaceSurvey::try_others(const std::vector<std::size_t>& which, Confirmation& confirmed) {
  std::vector<double> mean(candidates.size(), 0.0);
  for_those(which, [&](Candidate& c, std::size_t i) {
    const AtBounds found = judged_directly(with_machine(bench_, machine_, c.there), tables_, false);
    if (!found.mean.empty()) mean[i] = governing_ratio(found.mean);
  });
  for (const std::size_t i : which) {
    if (!(mean[i] > 0.0)) continue;
    ++confirmed.others;
    compare(confirmed, candidates[i].judged.status, mean[i], false);
  }
}

}  // namespace standtrue::decide
