// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/service.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// 5 q a⁴/384 E I + q a²/8 G A_s, a strip one metre wide; SI.
double mid_bay(double q, double a, const BoardSection& section, const BoardModuli& moduli) {
  double w = 5.0 * q * std::pow(a, 4) / (384.0 * moduli.E * section.I);
  constexpr double shear_share = 5.0 / 6.0;  // shear area of a rectangle
  if (moduli.G > 0.0) w += q * a * a / (8.0 * moduli.G * shear_share * section.thickness);
  return w;
}

struct Sags {
  double at_once = 0.0;
  std::optional<double> for_good;  ///< none where the board does not belong in that air
};

/// w_fin = w_G (1 + k_def) + w_Q (1 + psi_2 k_def); bought damp, k_def grows as in the frame.
Sags sags_of(const bench::Bench& bench, const bench::Sheet& sheet, const model::SheetSpan& span,
             const reference::Tables& tables) {
  const BoardSection section = board_section(sheet);
  const BoardModuli moduli = board_moduli(sheet, span.grain_along);
  const double a = in_si(span.bay);
  const double w_G = mid_bay(board_weight(sheet), a, section, moduli);
  const double w_Q = sheet.stored ? mid_bay(in_si(*sheet.stored), a, section, moduli) : 0.0;
  const std::optional<double> k_def = tables.material(sheet.family.material)
                                          .k_def[static_cast<std::size_t>(bench.air.service_class)];
  const double psi_2 = tables.combination("storage").psi_2;
  Sags sags{w_G + w_Q, std::nullopt};
  if (k_def) {
    const double k = *k_def + (bench.bought_damp ? tables.constant("k_def damp").value : 0.0);
    sags.for_good = w_G * (1.0 + k) + w_Q * (1.0 + psi_2 * k);
  }
  return sags;
}

Finding start_board_sag(const bench::Sheet& sheet, bool at_once) {
  Finding f;
  f.id = id_of(at_once ? "sag-board" : "sag-board-final", sheet.name);
  f.group = Group::sag;
  f.kind = Kind::service;
  f.unit = quantity::Kind::length;
  f.rule = "EN 1995-1-1, 7.2, a strip of the board";
  f.place = sheet.name + ", its longest bay";
  return f;
}

}  // namespace

std::vector<Finding> sag_of_boards(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const Printer print(parts.bench);
  const reference::Limits& limits = tables.limits;
  std::vector<Finding> findings;
  for (const model::SheetSpan& span : parts.spans) {
    const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
    if (!(board_moduli(sheet, span.grain_along).E > 0.0)) continue;
    const Sags sags = sags_of(parts.bench, sheet, span, tables);
    for (const bool at_once : {true, false}) {
      Finding f = start_board_sag(sheet, at_once);
      const auto& share = at_once ? limits.sag_permanent : limits.sag_final;
      const double asked = in_si(span.bay) * share.value;
      const double least = in_si(limits.sag_least.value);
      f.source = asked < least ? limits.sag_least.source : share.source;
      if (!at_once && !sags.for_good) {
        leave_unjudged(f, sheet.family.key + " has no creep factor in this air");
        f.sentence = fmt::format("The sag of the {} after years is not judged.", sheet.name);
      } else {
        judge_against(f, at_once ? sags.at_once : *sags.for_good, std::max(asked, least));
        f.sentence = fmt::format(
            "{}he {} sags {} between what carries it under what is stored; {} "
            "allowed.",
            at_once ? "T" : "After years t", sheet.name,
            beside(print.length(f.limit), print.movement(f.demand), f.judgement),
            print.length(f.limit));
        f.working.push_back(
            fmt::format("5 q a^4/384 E I + q a^2/8 G A_s, a = {}", print.length(in_si(span.bay))));
      }
      if (f.judgement == Judgement::exceeded) f.advice = "a thicker board, or a bearer in the bay";
      findings.push_back(f);
    }
  }
  return findings;
}

}  // namespace standtrue::check
