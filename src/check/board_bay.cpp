// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/sheets.hpp"

namespace standtrue::check {

using quantity::in_si;
using reference::Duration;

namespace {

/// One set of factored loads on the bay.
struct BayLoads {
  const char* name;
  double q = 0.0;  ///< N/m², all over
  double P = 0.0;  ///< N, on the patch
  Duration duration = Duration::permanent;
};

/// Per metre of width.
struct Bay {
  double a = 0.0, patch = 0.0, width = 0.0;  ///< m
  BoardSection section;

  /// m = q a²/8 + P (a/4 - u/8)/b
  [[nodiscard]] double moment(const BayLoads& loads) const {
    const double u = std::min(patch, a);
    return loads.q * a * a / 8.0 + loads.P * (a / 4.0 - u / 8.0) / std::max(width, patch);
  }
  /// v = q a/2 + P (1 - x/a)/b, the patch one thickness clear of the carrier, spread at 45 degrees.
  [[nodiscard]] double shear(const BayLoads& loads) const {
    const double x = std::min(patch / 2.0 + section.thickness, a / 2.0);
    const double b = std::min(patch + 2.0 * x, std::max(width, patch));
    return loads.q * a / 2.0 + loads.P * (1.0 - x / a) / b;
  }
};

bool may_be_stood_on(const model::Parts& parts, std::size_t sheet) {
  return std::any_of(parts.persons.begin(), parts.persons.end(),
                     [sheet](const model::PersonPlace& place) { return place.sheet == sheet; });
}

std::vector<BayLoads> loads_on(const model::Parts& parts, const model::SheetSpan& span,
                               const reference::Tables& tables) {
  const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
  const double g = tables.load("self weight").strength * board_weight(sheet);
  const double stored = sheet.stored ? in_si(*sheet.stored) : 0.0;
  const double q = g + tables.load("stored on shelf").strength * stored;
  const reference::Load& stand = tables.load("stand");
  std::vector<BayLoads> all{{"its own weight", g, 0.0, Duration::permanent}};
  if (stored > 0.0) all.push_back({"what is stored", q, 0.0, Duration::long_term});
  if (may_be_stood_on(parts, span.sheet)) {
    all.push_back({"somebody standing in mid-bay", q, stand.strength * in_si(stand.down),
                   Duration::short_term});
  }
  return all;
}

struct WorstLoads {
  BayLoads loads;
  double stress = 0.0, strength = 0.0;
  BoardStrength f;
};

OrWhy<WorstLoads> worst_on_bay(const model::Parts& parts, const model::SheetSpan& span,
                               const Bay& bay, bool bends, const reference::Tables& tables) {
  const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
  std::optional<WorstLoads> worst;
  for (const BayLoads& loads : loads_on(parts, span, tables)) {
    const OrWhy<BoardStrength> f =
        board_strength(parts.bench, sheet, span.grain_along, loads.duration, tables);
    if (!f) return tl::unexpected(f.error());
    const double strength = bends ? f->f_m : f->f_r;
    if (!(strength > 0.0)) {
      return tl::unexpected(
          unknown_strength(sheet, bends ? "bending" : "rolling shear", span.grain_along));
    }
    const double shape = tables.constant("shear rectangle").value;
    const double stress = bends ? bay.moment(loads) / bay.section.W
                                : shape * bay.shear(loads) / bay.section.thickness;
    if (!worst || is_worse(stress / strength, worst->stress / worst->strength)) {
      worst = WorstLoads{loads, stress, strength, *f};
    }
  }
  return *worst;
}

Finding check_bay(const model::Parts& parts, const model::SheetSpan& span, bool bends,
                  const reference::Tables& tables) {
  const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
  const Bay bay{in_si(span.bay), in_si(tables.load("stand").patch), in_si(span.effective_width),
                board_section(sheet)};
  Finding f;
  f.id = id_of(bends ? "sheet-bay-bending" : "sheet-bay-shear", sheet.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::stress;
  f.rule = bends ? "EN 1995-1-1, 6.1.6, a strip of the board" : "EN 1995-1-1, 6.1.7, panel values";
  const char* value =
      span.grain_along ? (bends ? "f_m_0_k" : "f_r_0_k") : (bends ? "f_m_90_k" : "f_r_90_k");
  f.source = sheet.panel.source.of(value);
  f.place = sheet.name + ", its longest bay";
  const OrWhy<WorstLoads> worst = worst_on_bay(parts, span, bay, bends, tables);
  const char* way = bends ? "bending" : "rolling shear";
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence =
        fmt::format("The {} is not judged in {} between what carries it.", sheet.name, way);
    return f;
  }
  const Printer print(parts.bench);
  judge_against(f, worst->stress, worst->strength);
  f.sentence = fmt::format("The {} between what carries it takes {} its strength in {} under {}.",
                           sheet.name, share_of(f.ratio), way, worst->loads.name);
  f.working.push_back(fmt::format(
      "a = {}, b = {}, P = {}; k_mod {:.2f}, gamma_M {:.2f}: {} against {}", print.length(bay.a),
      print.length(bay.width), print.force(worst->loads.P), worst->f.k_mod, worst->f.gamma_M,
      print.stress(worst->stress), print.stress(worst->strength)));
  if (f.judgement == Judgement::exceeded) f.advice = "a thicker board, or a bearer in the bay";
  return f;
}

}  // namespace

std::vector<Finding> board_between_carriers(const Answers& answers,
                                            const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::SheetSpan& span : answers.model.parts.spans) {
    for (const bool bends : {true, false}) {
      findings.push_back(check_bay(answers.model.parts, span, bends, tables));
    }
  }
  return findings;
}

}  // namespace standtrue::check
