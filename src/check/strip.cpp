// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/printer.hpp"
#include "check/section_forces.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/sheets.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

enum class StripState { bending, shear };

struct WorstStrip {
  double stress = 0.0, strength = 0.0;
  double force = 0.0;  ///< N m or N
  BoardStrength f;
  std::size_t combination = 0, member = 0;
  quantity::Length at;
};

/// One strip and the limit state that it is asked for.
struct AskedStrip {
  const Answers& answers;
  const SectionForces& forces;
  const reference::Tables& tables;
  const model::Strip& strip;
  StripState state;

  [[nodiscard]] const bench::Sheet& sheet() const {
    return answers.model.parts.bench.sheets.at(strip.sheet);
  }
  [[nodiscard]] const char* which() const {
    return state == StripState::bending ? "bending" : "rolling shear";
  }
  /// σ = M/(W b), τ = 1.5 V/(t b)
  [[nodiscard]] double stress(const Station& station) const {
    const BoardSection section = board_section(sheet());
    const double b = in_si(strip.width);
    if (state == StripState::bending) return std::abs(in_si(station.M_y)) / (section.W * b);
    const double shape = tables.constant("shear rectangle").value;
    return shape * std::abs(in_si(station.V_z)) / (section.thickness * b);
  }
  [[nodiscard]] double force(const Station& station) const {
    return std::abs(state == StripState::bending ? in_si(station.M_y) : in_si(station.V_z));
  }
};

/// The worst cut of all combinations, or why there is none.
OrWhy<WorstStrip> worst_in_strip(const AskedStrip& asked) {
  const model::Model& model = asked.answers.model;
  std::optional<WorstStrip> worst;
  for (const std::size_t c : asked.forces.combinations()) {
    const OrWhy<BoardStrength> f =
        board_strength(model.parts.bench, asked.sheet(), asked.strip.grain_along,
                       model.combinations[c].duration, asked.tables);
    if (!f) return tl::unexpected(f.error());
    const double strength = asked.state == StripState::bending ? f->f_m : f->f_r;
    if (!(strength > 0.0)) {
      return tl::unexpected(
          unknown_strength(asked.sheet(), asked.which(), asked.strip.grain_along));
    }
    for (const std::size_t m : model.parts.parts[asked.strip.part].members) {
      for (const Station& station : asked.forces.of(m, c)) {
        const double stress = asked.stress(station);
        if (!worst || is_worse(stress / strength, worst->stress / worst->strength)) {
          worst = WorstStrip{stress, strength, asked.force(station), *f, c, m, station.at};
        }
      }
    }
  }
  if (worst) return *worst;
  if (asked.forces.refused().empty()) return tl::unexpected(std::string("no loads for strength"));
  return tl::unexpected(refusal_of(asked.answers.response, asked.forces.refused().front()));
}

Finding check_strip(const AskedStrip& asked) {
  const model::Model& model = asked.answers.model;
  const model::Part& part = model.parts.parts[asked.strip.part];
  const bool bends = asked.state == StripState::bending;
  Finding f;
  f.id = id_of(bends ? "sheet-bending" : "sheet-shear", part.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::stress;
  f.rule = bends ? "EN 1995-1-1, 6.1.6" : "EN 1995-1-1, 6.1.7, panel values";
  const char* value =
      asked.strip.grain_along ? (bends ? "f_m_0_k" : "f_r_0_k") : (bends ? "f_m_90_k" : "f_r_90_k");
  f.source = asked.sheet().panel.source.of(value);
  f.place = part.name;
  const OrWhy<WorstStrip> worst = worst_in_strip(asked);
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence = fmt::format("The {} under a machine is not judged in {}.", asked.sheet().name,
                             asked.which());
    return f;
  }
  const Printer print(model.parts.bench);
  judge_against(f, worst->stress, worst->strength);
  f.place = place_on(model, part, worst->member, worst->at);
  f.combination = model.combinations[worst->combination].name;
  f.sentence = fmt::format("The {} under a machine takes {} its strength in {}.",
                           asked.sheet().name, share_of(f.ratio), asked.which());
  const std::string force =
      bends ? "M = " + print.moment(worst->force) : "V = " + print.force(worst->force);
  f.working.push_back(fmt::format(
      "{}, b = {}, {}; k_mod {:.2f}, gamma_M {:.2f}: {} against {}", force,
      print.length(in_si(asked.strip.width)),
      asked.strip.grain_along ? "grain along the span" : "grain across the span", worst->f.k_mod,
      worst->f.gamma_M, print.stress(worst->stress), print.stress(worst->strength)));
  if (f.judgement == Judgement::exceeded) f.advice = "a thicker top, or a bearer under the machine";
  return f;
}

std::vector<Finding> check_strips(const Answers& answers, const SectionForces& forces,
                                  const reference::Tables& tables, StripState state) {
  std::vector<Finding> findings;
  for (const model::Strip& strip : answers.model.parts.strips) {
    findings.push_back(check_strip({answers, forces, tables, strip, state}));
  }
  return findings;
}

}  // namespace

std::vector<Finding> strip_bending(const Answers& answers, const SectionForces& forces,
                                   const reference::Tables& tables) {
  return check_strips(answers, forces, tables, StripState::bending);
}

std::vector<Finding> strip_shear(const Answers& answers, const SectionForces& forces,
                                 const reference::Tables& tables) {
  return check_strips(answers, forces, tables, StripState::shear);
}

}  // namespace standtrue::check
