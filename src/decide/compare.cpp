#include "standtrue/decide/compare.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>

#include "decide/findings.hpp"
#include "standtrue/bench/read.hpp"
#include "standtrue/decide/parts_list.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Group;
using check::Judgement;
using check::Kind;

void widen(std::optional<Span>& span, const Finding& f) {
  if (!std::isfinite(f.ratio)) return;
  if (!span) span = Span{f.ratio, f.ratio, f.ratio};
  Span& s = *span;
  s.mean = std::max(s.mean, f.ratio);
  for (const double r : {f.ratio_poor, f.ratio_soft, f.ratio_stiff}) {
    if (std::isfinite(r)) s.greatest = std::max(s.greatest, r);
  }
  s.greatest = std::max(s.greatest, s.mean);
}

Span sway_of(const Finding& f) {
  Span s{f.demand, f.demand, f.demand};
  for (const double k : {f.demand_poor, f.demand_soft, f.demand_stiff}) {
    if (!std::isfinite(k)) continue;
    s.least = std::min(s.least, k);
    s.greatest = std::max(s.greatest, k);
  }
  return s;
}

void take(Figures& figures, const Finding& f) {
  if (!decides(f)) return;
  const bool is_exceeded = f.judgement == Judgement::exceeded;
  if (is_exceeded) figures.exceeded.push_back(f.id);
  const bool is_unjudged = f.kind == Kind::safety && f.judgement == Judgement::not_judged;
  if (is_exceeded || is_unjudged || f.judgement == Judgement::depends) {
    figures.failing.push_back(f.id);
  }
  if (f.group == Group::carry) widen(figures.carry, f);
  if (f.group == Group::joints) widen(figures.joints, f);
  if (f.group == Group::sheet) widen(figures.sheet, f);
  if (f.group == Group::sag && std::isfinite(f.ratio)) {
    figures.sag = std::max(figures.sag.value_or(0.0), f.ratio);
  }
  if (f.group == Group::sway && std::isfinite(f.demand) && f.demand > 0.0) {
    (f.id == "sway/along" ? figures.along : figures.across) = sway_of(f);
  }
}

double mass_of(const model::Parts& parts) {
  double mass = 0.0;
  for (const model::Weight& weight : parts.weights) {
    if (weight.of == model::Weight::Of::bench)
      mass += quantity::in_si(weight.force / quantity::standard_gravity());
  }
  return mass;
}

}  // namespace

Figures figures_of(const Assessment& assessment) {
  Figures figures;
  figures.verdict = assessment.verdict;
  figures.summary = assessment.summary;
  for (const Finding& f : assessment.findings) {
    take(figures, f);
    if (f.id.rfind("sag-total/", 0) == 0 && std::isfinite(f.demand)) {
      figures.sag_under = std::max(figures.sag_under.value_or(0.0), f.demand);
    }
    if (f.id == "hum/modes" && f.demand > 0.0) figures.frequency = f.demand;
  }
  if (const auto& model = assessment.mean.idealisation.model) figures.mass = mass_of(model->parts);
  for (const SheetStock& bought : sheets_to_buy(assessment.bench)) {
    figures.sheets += static_cast<int>(bought.sheets.size());
    figures.uncut.insert(figures.uncut.end(), bought.too_large.begin(), bought.too_large.end());
  }
  return figures;
}

void assess_all(std::vector<Option>& options, const reference::Tables& tables, const Work& work) {
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < options.size(); ++i) {
    if (!options[i].figures && options[i].why.empty()) open.push_back(i);
  }
  std::atomic<std::size_t> done{0};
  std::atomic<bool> stopped{false};
  work.for_each(open.size(), [&](std::size_t i) {
    if (stopped) return;
    Option& option = options[open[i]];
    const bench::BenchReading reading = bench::read_bench(option.document, tables);
    if (reading.bench) {
      option.figures = figures_of(assess(*reading.bench, tables));
    } else {
      for (const Diagnostic& fault : reading.diagnostics) {
        if (fault.severity == Severity::error && option.why.empty()) option.why = fault.what;
      }
    }
    if (!work.keep_going(++done, open.size())) stopped = true;
  });
}

}  // namespace standtrue::decide
