#include "report/governing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include "standtrue/check/is_worse.hpp"

namespace standtrue::report {

using check::Finding;
using check::Judgement;

namespace {

std::optional<Range> range_of(std::initializer_list<double> values) {
  std::optional<Range> range;
  for (const double value : values) {
    if (std::isnan(value)) continue;
    if (!range) range = Range{value, value};
    range->least = std::min(range->least, value);
    range->greatest = std::max(range->greatest, value);
  }
  return range;
}

bool decides(const Finding& f) {
  return f.kind == check::Kind::safety || f.kind == check::Kind::service;
}

/// Safety before service.
int rank(const Finding& f) {
  if (!decides(f)) return 7;
  const int service = f.kind == check::Kind::service ? 3 : 0;
  switch (f.judgement) {
    case Judgement::exceeded:
      return service;
    case Judgement::depends:
      return service + 1;
    case Judgement::not_judged:
      return service + 2;
    case Judgement::satisfied:
      return 6;
    case Judgement::outside_this_tool:
      break;
  }
  return 8;
}

double worst_ratio(const Finding& f) {
  const std::optional<Range> range = ratios(f);
  return range ? check::to_sort_by(range->greatest) : -1.0;
}

bool is_worse(const Finding* a, const Finding* b) {
  return std::make_tuple(rank(*a), -worst_ratio(*a)) < std::make_tuple(rank(*b), -worst_ratio(*b));
}

}  // namespace

std::optional<Range> ratios(const Finding& f) {
  // A negative ratio is none: check::judge does not judge it.
  const auto known = [](double ratio) {
    return ratio >= 0.0 ? ratio : std::numeric_limits<double>::quiet_NaN();
  };
  return range_of({known(f.ratio_poor), known(f.ratio_soft), known(f.ratio), known(f.ratio_stiff)});
}

std::optional<Range> demands(const Finding& f) {
  return range_of({f.demand_poor, f.demand_soft, f.demand, f.demand_stiff});
}

bool is_judged(const Finding& f) {
  const bool has_judgement = f.judgement == Judgement::satisfied ||
                             f.judgement == Judgement::exceeded ||
                             f.judgement == Judgement::depends;
  return decides(f) && has_judgement && ratios(f).has_value();
}

bool is_left_unjudged(const Finding& f) {
  return decides(f) && f.judgement != Judgement::outside_this_tool && !is_judged(f);
}

bool is_over(const Finding& f) { return is_judged(f) && f.judgement != Judgement::satisfied; }

std::vector<const Finding*> worst_first(const std::vector<Finding>& findings) {
  std::vector<const Finding*> sorted;
  for (const Finding& f : findings) sorted.push_back(&f);
  std::stable_sort(sorted.begin(), sorted.end(), is_worse);
  return sorted;
}

const Finding* governing(const std::vector<Finding>& findings, check::Group group) {
  const Finding* worst = nullptr;
  for (const Finding& f : findings) {
    if (f.group == group && is_judged(f) && (!worst || is_worse(&f, worst))) worst = &f;
  }
  return worst;
}

}  // namespace standtrue::report
