#include <algorithm>
#include <cmath>
#include <limits>

#include "decide/findings.hpp"
#include "decide/placing.hpp"
#include "standtrue/check/is_worse.hpp"

namespace standtrue::decide {

using check::Finding;
using check::Judgement;
using check::Kind;
using quantity::in_si;

namespace {

struct Ground {
  double x0, x1, y0, y1;
  [[nodiscard]] bool meets(const Ground& o) const {
    constexpr double touch = 1e-6;
    return x0 < o.x1 - touch && o.x0 < x1 - touch && y0 < o.y1 - touch && o.y0 < y1 - touch;
  }
};

/// To the outer edges of the pads.
Ground ground_of(const bench::Machine& m) {
  const double hx = 0.5 * in_si(m.pads_x + m.pad), hy = 0.5 * in_si(m.pads_y + m.pad);
  const double x = in_si(m.x), y = in_si(m.y);
  return {x - hx, x + hx, y - hy, y + hy};
}

bool is_judged(const Finding& f) {
  return (f.kind == Kind::safety || f.kind == Kind::service) &&
         f.judgement != Judgement::not_judged;
}

double worst_ratio(const Finding& f) {
  double worst = f.ratio;
  for (const double r : {f.ratio_soft, f.ratio_stiff, f.ratio_poor}) worst = std::max(worst, r);
  return worst;
}

/// The worst of those findings that are wanted, by a ratio of theirs.
template <class Is, class Ratio>
const Finding* worst(const std::vector<Finding>& findings, Is is, Ratio ratio) {
  const Finding* found = nullptr;
  for (const Finding& f : findings) {
    if (is_judged(f) && is(f) && (!found || check::is_worse(ratio(f), ratio(*found)))) found = &f;
  }
  return found;
}

double ratio_at_mean(const Finding& f) { return f.ratio; }

/// Rigid statics: the same by whatever road, and at any stiffness.
bool is_rigid(const Finding& f) { return f.id.rfind("tipping/", 0) == 0; }

JudgedPlace told(Stand stand, const Finding& f, double ratio) {
  JudgedPlace place;
  place.status.stand = stand;
  place.status.why = f.id;
  place.status.ratio = ratio;
  place.sentence = f.sentence;
  return place;
}

JudgedPlace by_rank(const std::vector<Finding>& mean, const std::vector<Finding>& merged) {
  const auto exceeds = [](Kind kind) {
    return
        [kind](const Finding& f) { return f.kind == kind && f.judgement == Judgement::exceeded; };
  };
  if (const Finding* f = worst(mean, exceeds(Kind::safety), ratio_at_mean)) {
    return told(Stand::barred, *f, f->ratio);
  }
  const auto may_exceed = [](const Finding& f) {
    return f.kind == Kind::safety &&
           (f.judgement == Judgement::depends || f.judgement == Judgement::exceeded);
  };
  if (const Finding* f = worst(merged, may_exceed, worst_ratio)) {
    return told(Stand::care, *f, worst_ratio(*f));
  }
  if (const Finding* f = worst(mean, exceeds(Kind::service), ratio_at_mean)) {
    return told(Stand::care, *f, f->ratio);
  }
  const auto any = [](const Finding&) { return true; };
  const auto over_bounds = [](const Finding& f) {
    return f.kind == Kind::safety ? worst_ratio(f) : f.ratio;
  };
  if (const Finding* f = worst(merged, any, over_bounds)) {
    return told(Stand::clear, *f, over_bounds(*f));
  }
  return {};
}

/// As PlaceStatus::off_limit.
double off_limit(const std::vector<Finding>& merged) {
  const auto over_bounds = [](const Finding& f) {
    return f.kind == Kind::safety ? worst_ratio(f) : f.ratio;
  };
  double off = std::numeric_limits<double>::infinity();
  for (const Kind kind : {Kind::safety, Kind::service}) {
    const auto counts = [&](const Finding& f) { return !is_rigid(f) && f.kind == kind; };
    const Finding* mean = worst(merged, counts, ratio_at_mean);
    const Finding* most = worst(merged, counts, over_bounds);
    if (mean) off = std::min(off, std::abs(mean->ratio - 1.0));
    if (most) off = std::min(off, std::abs(over_bounds(*most) - 1.0));
  }
  return off;
}

}  // namespace

std::string in_the_way(const bench::Bench& bench, std::size_t machine,
                       const bench::Machine& there) {
  const bench::Sheet& sheet = bench.sheets.at(there.sheet);
  const Ground own = ground_of(there);
  constexpr double slack = 1e-4;
  if (own.x0 < in_si(sheet.x0) - slack || own.x1 > in_si(sheet.x1) + slack ||
      own.y0 < in_si(sheet.y0) - slack || own.y1 > in_si(sheet.y1) + slack) {
    return "edge";
  }
  for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
    if (own.meets({in_si(cut.x0), in_si(cut.x1), in_si(cut.y0), in_si(cut.y1)})) return "cut-out";
  }
  for (std::size_t m = 0; m < bench.machines.size(); ++m) {
    const bench::Machine& other = bench.machines[m];
    if (m == machine || other.sheet != there.sheet) continue;
    if (own.meets(ground_of(other))) return other.name;
  }
  return {};
}

Cells cells_over(const bench::Sheet& sheet) {
  constexpr double pitch = 0.05;
  const auto cells = [](quantity::Length length, std::size_t most) {
    return std::clamp<std::size_t>(static_cast<std::size_t>(std::lround(in_si(length) / pitch)), 1,
                                   most);
  };
  return {cells(sheet.x1 - sheet.x0, 24), cells(sheet.y1 - sheet.y0, 10)};
}

bench::Bench with_machine(const bench::Bench& bench, std::size_t machine,
                          const bench::Machine& there) {
  bench::Bench moved = bench;
  moved.machines.at(machine) = there;
  return moved;
}

JudgedPlace status_of(const AtBounds& found) {
  JudgedPlace place;
  if (found.mean.empty()) {
    place.sentence = found.why;
    return place;
  }
  const std::vector<Finding> merged = merge(found.soft, found.mean, found.stiff, found.poor);
  place = by_rank(found.mean, merged);
  place.status.mean_ratio = governing_ratio(found.mean);
  place.status.off_limit = off_limit(merged);
  return place;
}

std::string sentence_of(const AtBounds& found, const std::string& id) {
  const std::vector<Finding> merged = merge(found.soft, found.mean, found.stiff, found.poor);
  const Finding* f = with_id(merged, id);
  return f ? f->sentence : std::string();
}

double governing_ratio(const std::vector<Finding>& mean) {
  const auto is_of_frame = [](const Finding& f) { return !is_rigid(f); };
  const Finding* f = worst(mean, is_of_frame, ratio_at_mean);
  return f ? f->ratio : 0.0;
}

double safety_ratio(const std::vector<Finding>& mean) {
  const auto is_safety = [](const Finding& f) { return f.kind == Kind::safety && !is_rigid(f); };
  const Finding* f = worst(mean, is_safety, ratio_at_mean);
  return f ? f->ratio : 0.0;
}

}  // namespace standtrue::decide
