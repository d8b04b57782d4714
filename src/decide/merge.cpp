#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "decide/findings.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/decide/assess.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Judgement;
using check::Kind;

/// Exceeded somewhere and satisfied somewhere else: it depends. So it does where the mean bound
/// could not be judged: what is exceeded at one bound is never hidden by another, and what could
/// not be judged at one is not said to hold, nor to fail.
Judgement over_bounds(const std::array<const Finding*, 4>& bounds, Judgement told) {
  bool satisfied = false, exceeded = false, unknown = false;
  for (const Finding* f : bounds) {
    if (!f) continue;
    unknown = unknown || f->judgement == Judgement::not_judged;
    satisfied = satisfied || f->judgement == Judgement::satisfied;
    exceeded = exceeded || f->judgement == Judgement::exceeded;
  }
  const bool is_mean_unknown = bounds[1] && bounds[1]->judgement == Judgement::not_judged;
  if (exceeded && (satisfied || is_mean_unknown)) return Judgement::depends;
  if (exceeded) return Judgement::exceeded;
  return unknown ? Judgement::not_judged : told;
}

/// What is told: `base`, or where that could not be judged and another bound is exceeded, the worst
/// of those. "Is not judged" would be no reason for what is called exceeded.
const Finding& told_of(const Finding& base, const std::array<const Finding*, 4>& bounds) {
  const Finding* worst = &base;
  if (base.judgement != Judgement::not_judged) return base;
  for (const Finding* f : bounds) {
    if (!f || f->judgement != Judgement::exceeded) continue;
    if (worst == &base || check::is_worse(f->ratio, worst->ratio)) worst = f;
  }
  return *worst;
}

/// What could not be judged at one bound says why in the words of that bound.
void say_unknown(Finding& f, const std::array<const Finding*, 4>& bounds) {
  for (const Finding* bound : bounds) {
    if (!bound || bound->judgement != Judgement::not_judged) continue;
    f.why = bound->why;
    f.sentence = bound->sentence;
    return;
  }
}

/// `base` is that of mean joints; where they have none, what another bound has. A check that looks
/// at one bound alone may bring a range of its own.
Finding merged(const Finding& base, const Finding* soft, const Finding* mean, const Finding* stiff,
               const Finding* poor) {
  Finding f = told_of(base, {soft, mean, stiff, poor});
  f.ratio = base.ratio;  // in whosever words, each bound has its own number
  f.demand = base.demand;
  const bool has_range = !soft && !stiff && (f.ratio_soft != 0.0 || f.ratio_stiff != 0.0);
  if (!has_range) {
    f.ratio_soft = (soft ? *soft : base).ratio;
    f.ratio_stiff = (stiff ? *stiff : base).ratio;
    f.demand_soft = (soft ? *soft : base).demand;
    f.demand_stiff = (stiff ? *stiff : base).demand;
    const Finding& poorest = poor ? *poor : soft ? *soft : base;
    f.ratio_poor = poorest.ratio;
    f.demand_poor = poorest.demand;
  }
  if (f.kind == Kind::caution || f.kind == Kind::told) return f;
  f.judgement = over_bounds({soft, mean, stiff, poor}, f.judgement);
  if (f.judgement == Judgement::not_judged) say_unknown(f, {mean, soft, stiff, poor});
  // Where that finding is missing the bench has an answer.
  const bool has_answer = f.id.rfind("unanswered/", 0) == 0 && !(soft && mean && stiff);
  if (has_answer && f.judgement == Judgement::exceeded) f.judgement = Judgement::depends;
  if (has_range) {
    const bool exceeds = std::max(f.ratio_soft, f.ratio_stiff) > 1.0;
    const bool holds = std::min(f.ratio_soft, f.ratio_stiff) <= 1.0;
    if (exceeds && holds) f.judgement = Judgement::depends;
  }
  return f;
}

double severity(const Finding& f) {
  double worst = -1.0;  // below any ratio: what has none comes last
  for (const double ratio : {f.ratio_soft, f.ratio, f.ratio_stiff, f.ratio_poor}) {
    if (ratio > worst) worst = ratio;
  }
  return check::to_sort_by(worst);
}

/// Within a group: what is wrong, what may be, what is not known, what holds; cautions, then what
/// is only told.
int rank(const Finding& f) {
  if (f.kind == Kind::told) return 6;
  if (f.kind == Kind::caution) return 5;
  switch (f.judgement) {
    case Judgement::exceeded:
      return 0;
    case Judgement::depends:
      return 1;
    case Judgement::not_judged:
      return 2;
    case Judgement::satisfied:
      return 3;
    case Judgement::outside_this_tool:
      break;
  }
  return 4;
}

bool comes_first(const Finding& a, const Finding& b) {
  if (a.group != b.group) return a.group < b.group;
  if (rank(a) != rank(b)) return rank(a) < rank(b);
  return severity(a) > severity(b);
}

}  // namespace

std::vector<Finding> merge(const std::vector<Finding>& soft, const std::vector<Finding>& mean,
                           const std::vector<Finding>& stiff, const std::vector<Finding>& poor) {
  std::vector<Finding> all;
  for (const std::vector<Finding>* bound : {&mean, &soft, &stiff, &poor}) {
    for (const Finding& f : *bound) {
      if (with_id(all, f.id)) continue;
      all.push_back(merged(f, with_id(soft, f.id), with_id(mean, f.id), with_id(stiff, f.id),
                           with_id(poor, f.id)));
    }
  }
  std::stable_sort(all.begin(), all.end(), comes_first);
  return all;
}

void add_in_order(std::vector<Finding>& findings, Finding more) {
  findings.push_back(std::move(more));
  std::stable_sort(findings.begin(), findings.end(), comes_first);
}

Verdict verdict_of(const std::vector<Finding>& findings) {
  const auto any = [&findings](Kind kind, Judgement judgement) {
    return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
      return f.kind == kind && f.judgement == judgement;
    });
  };
  if (any(Kind::safety, Judgement::exceeded)) return Verdict::do_not_load;
  const bool is_safety_judged = std::any_of(
      findings.begin(), findings.end(), [](const Finding& f) { return f.kind == Kind::safety; });
  if (!is_safety_judged || any(Kind::safety, Judgement::not_judged)) return Verdict::not_judged;
  if (any(Kind::safety, Judgement::depends) || any(Kind::service, Judgement::depends)) {
    return Verdict::depends;
  }
  if (any(Kind::service, Judgement::exceeded)) return Verdict::carries_but;
  return Verdict::stands;
}

}  // namespace standtrue::decide
