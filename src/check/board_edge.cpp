// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/sheets.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// One free edge and what it is asked for.
struct AskedEdge {
  double overhang = 0.0;
  bool grain_along = false;  ///< grain runs out over the edge
  bool bends = true;
};

struct WorstEdge {
  AskedEdge asked;
  OnEdge load;
  double stress = 0.0, strength = 0.0;
};

std::vector<AskedEdge> edges_of(const model::Parts& parts, const model::SheetSpan& span) {
  std::vector<AskedEdge> edges;
  for (const bool bends : {true, false}) {
    for (const AskedEdge& asked :
         {AskedEdge{in_si(span.overhang), span.grain_along, bends},
          AskedEdge{side_overhang(parts, span), !span.grain_along, bends}}) {
      if (asked.overhang > 0.0) edges.push_back(asked);
    }
  }
  return edges;
}

OrWhy<WorstEdge> worst_edge(const bench::Bench& bench, const bench::Sheet& sheet,
                            const std::vector<AskedEdge>& edges, const reference::Tables& tables) {
  const reference::Load& stand = tables.load("stand");
  const BoardSection section = board_section(sheet);
  std::optional<WorstEdge> worst;
  for (const AskedEdge& asked : edges) {
    const OrWhy<BoardStrength> f =
        board_strength(bench, sheet, asked.grain_along, stand.duration, tables);
    if (!f) return tl::unexpected(f.error());
    const double strength = asked.bends ? f->f_m : f->f_r;
    if (!(strength > 0.0)) {
      return tl::unexpected(
          unknown_strength(sheet, asked.bends ? "bending" : "rolling shear", asked.grain_along));
    }
    const OnEdge load =
        on_edge(stand.strength * in_si(stand.down), in_si(stand.patch), asked.overhang);
    const double shape = tables.constant("shear rectangle").value;
    const double stress = asked.bends ? load.force * load.arm / (section.W * load.width)
                                      : shape * load.force / (section.thickness * load.width);
    if (!worst || is_worse(stress / strength, worst->stress / worst->strength)) {
      worst = WorstEdge{asked, load, stress, strength};
    }
  }
  return *worst;
}

Finding check_edge(const bench::Bench& bench, const bench::Sheet& sheet,
                   const std::vector<AskedEdge>& edges, const reference::Tables& tables) {
  Finding f;
  f.id = id_of("sheet-edge", sheet.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::stress;
  f.rule = "EN 1995-1-1, 6.1.6 and 6.1.7, a strip of the overhang";
  f.source = sheet.panel.source.of("f_m_0_k");
  f.place = sheet.name + ", its overhang";
  const OrWhy<WorstEdge> worst = worst_edge(bench, sheet, edges, tables);
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence = fmt::format("The overhang of the {} is not judged.", sheet.name);
    return f;
  }
  const Printer print(bench);
  judge_against(f, worst->stress, worst->strength);
  f.sentence = fmt::format(
      "The overhang of the {} takes {} its strength in {} under somebody standing on it.",
      sheet.name, share_of(f.ratio), worst->asked.bends ? "bending" : "rolling shear");
  f.working.push_back(fmt::format("{} at {} from the carrier on a strip {} wide: {} against {}",
                                  print.force(worst->load.force), print.length(worst->load.arm),
                                  print.length(worst->load.width), print.stress(worst->stress),
                                  print.stress(worst->strength)));
  if (f.judgement == Judgement::exceeded) f.advice = "a shorter overhang or a thicker top";
  return f;
}

}  // namespace

std::vector<Finding> board_edge(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  std::vector<Finding> findings;
  for (const model::SheetSpan& span : parts.spans) {
    const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
    const std::vector<AskedEdge> edges = edges_of(parts, span);
    if (sheet.place != bench::SheetPlace::top || edges.empty()) continue;
    findings.push_back(check_edge(parts.bench, sheet, edges, tables));
  }
  return findings;
}

}  // namespace standtrue::check
