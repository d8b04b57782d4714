// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/service.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// A free edge; `bay` zero where the board does not turn over its carrier (past the carriers'
/// ends).
struct FreeEdge {
  double overhang = 0.0, bay = 0.0, bay_width = 0.0;
  bool grain_along = false;
};

struct Tip {
  FreeEdge edge;
  double sag = 0.0, turning = 0.0, limit = 0.0;
  [[nodiscard]] double ratio() const { return sag / limit; }
};

/// F c_a²(3 c - c_a)/6 E I b + F c_a/G A_s b at the tip, and M a c/3 E I b_a by turning.
Tip tip_of(const FreeEdge& edge, const bench::Sheet& sheet, const reference::Load& lean,
           const reference::Limits& limits) {
  const BoardSection section = board_section(sheet);
  const BoardModuli moduli = board_moduli(sheet, edge.grain_along);
  const OnEdge load = on_edge(in_si(lean.down), in_si(lean.patch), edge.overhang);
  const double c = edge.overhang, c_a = load.arm;
  const double EI = moduli.E * section.I;
  Tip tip{edge, 0.0, 0.0, 0.0};
  tip.sag = load.force * c_a * c_a * (3.0 * c - c_a) / (6.0 * EI * load.width);
  constexpr double shear_share = 5.0 / 6.0;  // shear area of a rectangle
  if (moduli.G > 0.0) {
    tip.sag += load.force * c_a / (moduli.G * shear_share * section.thickness * load.width);
  }
  const double width = std::max(load.width, edge.bay_width);
  tip.turning = load.force * c_a * edge.bay * c / (3.0 * EI * width);
  tip.sag += tip.turning;
  tip.limit = std::max(c * limits.overhang.value, in_si(limits.overhang_least.value));
  return tip;
}

Finding check_overhang(const bench::Bench& bench, const bench::Sheet& sheet, const Tip& tip,
                       const reference::Tables& tables) {
  const Printer print(bench);
  const reference::Limits& limits = tables.limits;
  Finding f;
  f.id = id_of("sag-overhang", sheet.name);
  f.group = Group::sag;
  f.kind = Kind::service;
  f.unit = quantity::Kind::length;
  f.rule = "EN 1995-1-1, 7.2, cantilevers";
  const bool is_least =
      tip.edge.overhang * limits.overhang.value < in_si(limits.overhang_least.value);
  f.source = is_least ? limits.overhang_least.source : limits.overhang.source;
  f.place = sheet.name + ", its overhang";
  judge_against(f, tip.sag, tip.limit);
  f.sentence = fmt::format(
      "The edge of the {} gives {} under somebody leaning on it; {} allowed.", sheet.name,
      beside(print.length(f.limit), print.movement(f.demand), f.judgement), print.length(f.limit));
  f.working.push_back(fmt::format("overhang {}; of that {} by turning over what carries it",
                                  print.length(tip.edge.overhang), print.length(tip.turning)));
  if (f.judgement == Judgement::exceeded) f.advice = "a shorter overhang or a thicker top";
  return f;
}

}  // namespace

std::vector<Finding> sag_of_overhangs(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const reference::Load& lean = tables.load("lean");
  std::vector<Finding> findings;
  for (const model::SheetSpan& span : parts.spans) {
    const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
    if (sheet.place != bench::SheetPlace::top) continue;
    std::vector<Tip> tips;
    for (const FreeEdge& edge :
         {FreeEdge{in_si(span.overhang), in_si(span.bay), in_si(span.effective_width),
                   span.grain_along},
          FreeEdge{side_overhang(parts, span), 0.0, 0.0, !span.grain_along}}) {
      const bool is_known = board_moduli(sheet, edge.grain_along).E > 0.0;
      if (edge.overhang > 0.0 && is_known) tips.push_back(tip_of(edge, sheet, lean, tables.limits));
    }
    const auto worst = std::max_element(
        tips.begin(), tips.end(), [](const Tip& a, const Tip& b) { return a.ratio() < b.ratio(); });
    if (worst != tips.end()) findings.push_back(check_overhang(parts.bench, sheet, *worst, tables));
  }
  return findings;
}

}  // namespace standtrue::check
