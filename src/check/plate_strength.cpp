// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/clear_cells.hpp"
#include "check/plate_answers.hpp"
#include "check/plate_stress.hpp"
#include "check/plate_use.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/sheets.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

constexpr std::array<PlateState, 3> all_states{PlateState::bending, PlateState::rolling,
                                               PlateState::panel_shear};

/// What one limit state says of itself.
struct StateWords {
  const char* id;
  const char* in;  ///< "in bending"
  const char* rule;
  const char* value_0;
  const char* value_90;
  const char* hand;     ///< id of the strip's finding that is its hand check
  const char* formula;  ///< of that
};

const StateWords& words_of_state(PlateState state) {
  static const std::map<PlateState, StateWords> all{
      {PlateState::bending,
       {.id = "sheet-bending",
        .in = "bending",
        .rule = "EN 1995-1-1, 6.2.3 and 6.2.4, the sheet as a plate",
        .value_0 = "f_m_0_k",
        .value_90 = "f_m_90_k",
        .hand = "sheet-bay-bending",
        .formula = "a strip of its longest bay, simply supported, without machines: (q a^2/8 + P "
                   "(a/4 - u/8)/b)/W"}},
      {PlateState::rolling,
       {.id = "sheet-shear",
        .in = "rolling shear",
        .rule = "EN 1995-1-1, 6.1.7, panel values, the sheet as a plate",
        .value_0 = "f_r_0_k",
        .value_90 = "f_r_90_k",
        .hand = "sheet-bay-shear",
        .formula = "a strip of its longest bay, simply supported, without machines: 1.5 (q a/2 + P "
                   "(1 - x/a)/b)/t"}},
      {PlateState::panel_shear,
       {.id = "sheet-panel-shear",
        .in = "shear in its plane",
        .rule = "EN 1995-1-1, 6.1.7, panel values, the sheet as a plate",
        .value_0 = "f_v_k",
        .value_90 = "f_v_k",
        .hand = "",
        .formula = ""}}};
  return all.at(state);
}

OrWhy<PlateStrengths> strengths_of(const bench::Bench& bench, const bench::Sheet& sheet,
                                   reference::Duration duration, const reference::Tables& tables) {
  const OrWhy<BoardStrength> board =
      board_strength(bench, sheet, sheet.grain_along_x, duration, tables);
  if (!board) return tl::unexpected(board.error());
  const auto design = [&](quantity::Stress along, quantity::Stress across, bool of_x) {
    return design_value(in_si(of_x == sheet.grain_along_x ? along : across), board->k_mod,
                        board->gamma_M);
  };
  const reference::Panel& p = sheet.panel;
  PlateStrengths f{board->k_mod, board->gamma_M};
  for (const bool x : {true, false}) {
    (x ? f.m_x : f.m_y) = design(p.f_m_0_k, p.f_m_90_k, x);
    (x ? f.t_x : f.t_y) = design(p.f_t_0_k, p.f_t_90_k, x);
    (x ? f.c_x : f.c_y) = design(p.f_c_0_k, p.f_c_90_k, x);
    (x ? f.r_x : f.r_y) = design(p.f_r_0_k, p.f_r_90_k, x);
  }
  f.v = design(p.f_v_k, p.f_v_k, true);
  return f;
}

PlateSection section_of(const bench::Sheet& sheet, const reference::Tables& tables) {
  const BoardSection board = board_section(sheet);
  const bool glued = sheet.between_layers == bench::Bond::glued;
  return {board.W, glued ? board.thickness : in_si(sheet.panel.thickness), board.thickness,
          tables.constant("shear rectangle").value};
}

struct WorstUse {
  PlateUse use;
  PlateStrengths f;
  double x = 0.0, y = 0.0;
  std::size_t combination = 0;
};

/// One plate.
struct AskedPlate {
  const Answers& answers;
  const PlateAnswers& plates;
  const reference::Tables& tables;
  std::size_t plate;
  bool (*wanted)(const model::Combination&);

  [[nodiscard]] const bench::Sheet& sheet() const {
    const model::Parts& parts = answers.model.parts;
    return parts.bench.sheets.at(parts.plate_sheets.at(plate));
  }
  /// A loose sheet takes no part in a shove; the weights themselves are in the combinations with
  /// people, which last longer.
  [[nodiscard]] bool takes_part(const PlateAnswers::View& view) const {
    return !(is_shove(answers.model.combinations[view.combination]) &&
             sheet().bond == bench::Bond::loose);
  }
};

/// Why a strength that the state needs is missing; empty if it is there.
std::string missing(PlateState state, const bench::Sheet& sheet, const PlateStrengths& s) {
  const auto why = [&](bool of_x) {
    return unknown_strength(sheet, words_of_state(state).in, of_x == sheet.grain_along_x);
  };
  switch (state) {
    case PlateState::bending:
      return !(s.m_x > 0.0) ? why(true) : !(s.m_y > 0.0) ? why(false) : "";
    case PlateState::rolling:
      return !(s.r_x > 0.0) ? why(true) : !(s.r_y > 0.0) ? why(false) : "";
    case PlateState::panel_shear:
      break;
  }
  return s.v > 0.0 ? "" : "the panel shear strength of " + sheet.family.key + " is not known";
}

/// The worst of each state, or why it is not judged.
struct WorstOfAll {
  std::array<std::optional<WorstUse>, 3> found;
  std::array<std::string, 3> why;

  void see(PlateState state, const PlateUse& use, const PlateStrengths& f, double x, double y,
           std::size_t c) {
    std::optional<WorstUse>& worst = found[static_cast<std::size_t>(state)];
    if (!worst || is_worse(use.ratio(), worst->use.ratio())) worst = WorstUse{use, f, x, y, c};
  }
};

/// What all looks at one plate share.
struct Look {
  const model::Plate& plate;
  PlateSection section;
  std::vector<bool> clear;  ///< per cell

  /// Sees the use of a place unless that is surely no worse than the worst so far.
  void see(WorstOfAll& worst, PlateState state, const PlateUseBound& bound,
           const solve::PlateForces& at, const PlateStrengths& f, double x, double y,
           std::size_t c) const {
    constexpr double rounding = 1.0 + 1e-9;
    const std::optional<WorstUse>& so_far = worst.found[static_cast<std::size_t>(state)];
    if (so_far && !is_worse(bound.of(state, at) * rounding, so_far->use.ratio())) return;
    worst.see(state, plate_use(state, at, f, section), f, x, y, c);
  }
  void at_nodes(WorstOfAll& worst, const solve::PlateField& field, const PlateStrengths& f,
                std::size_t c) const {
    const PlateUseBound bound(f, section);
    for (std::size_t j = 0; j < plate.y.size(); ++j) {
      for (std::size_t i = 0; i < plate.x.size(); ++i) {
        const auto n = field.at_nodes.col(static_cast<Eigen::Index>(plate.node(i, j)));
        const solve::PlateForces at{n(0), n(1), n(2), n(3), n(4), n(5)};
        see(worst, PlateState::bending, bound, at, f, plate.x[i], plate.y[j], c);
        see(worst, PlateState::panel_shear, bound, at, f, plate.x[i], plate.y[j], c);
      }
    }
  }
  void in_cells(WorstOfAll& worst, const solve::PlateField& field, const PlateStrengths& f,
                std::size_t c) const {
    const PlateUseBound bound(f, section);
    std::size_t cell = 0;
    for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
      for (std::size_t i = 0; i + 1 < plate.x.size(); ++i, ++cell) {
        if (!clear[cell]) continue;
        const auto Q = field.in_cells.col(static_cast<Eigen::Index>(cell));
        solve::PlateForces at;
        at.Q_x = Q(0);
        at.Q_y = Q(1);
        see(worst, PlateState::rolling, bound, at, f, 0.5 * (plate.x[i] + plate.x[i + 1]),
            0.5 * (plate.y[j] + plate.y[j + 1]), c);
      }
    }
  }
};

WorstOfAll worst_on_plate(const AskedPlate& asked) {
  const model::Model& model = asked.answers.model;
  const model::Plate& plate = model.plates[asked.plate];
  const Look look{plate, section_of(asked.sheet(), asked.tables),
                  clear_cells(model.parts, asked.plate, plate)};
  WorstOfAll worst;
  for (const PlateAnswers::View& view : asked.plates.of(asked.plate, asked.wanted)) {
    if (!asked.takes_part(view)) continue;
    const OrWhy<PlateStrengths> f =
        strengths_of(model.parts.bench, asked.sheet(),
                     model.combinations[view.combination].duration, asked.tables);
    for (const PlateState state : all_states) {
      const std::string why = f ? missing(state, asked.sheet(), *f) : f.error();
      if (!why.empty()) worst.why[static_cast<std::size_t>(state)] = why;
    }
    if (!f) continue;
    const auto look_at = [&](const solve::PlateField& field) {
      look.at_nodes(worst, field, *f, view.combination);
      look.in_cells(worst, field, *f, view.combination);
    };
    if (view.known) {
      look_at(*view.known);
    } else {
      look_at(solve::plate_field(plate, view.movements, view.column));
    }
  }
  for (const PlateState state : all_states) {
    std::string& why = worst.why[static_cast<std::size_t>(state)];
    if (!why.empty() || worst.found[static_cast<std::size_t>(state)]) continue;
    why = "no loads for strength";
    for (const std::size_t c : asked.plates.refused()) {
      if (asked.wanted(model.combinations[c])) why = refusal_of(asked.answers.response, c);
    }
  }
  return worst;
}

/// The strip beside it, where the sheet lies.
std::optional<Finding::HandCheck> hand_check(const AskedPlate& asked, PlateState state,
                                             const std::vector<Finding>& strips) {
  const StateWords& words = words_of_state(state);
  const std::string id = id_of(words.hand, asked.sheet().name);
  for (const Finding& strip : strips) {
    if (strip.id == id) return Finding::HandCheck{words.formula, strip.demand};
  }
  return std::nullopt;
}

std::string working(const AskedPlate& asked, PlateState state, const WorstUse& worst,
                    const Printer& print) {
  const PlateUse& use = worst.use;
  const char* way = use.of_x == asked.sheet().grain_along_x ? "along" : "across";
  std::string force;
  switch (state) {
    case PlateState::bending:
      force = fmt::format("M = {} per m {} the face grain", print.moment(std::abs(use.force)), way);
      break;
    case PlateState::rolling:
      force = fmt::format("Q = {} per m {} the face grain", print.force(std::abs(use.force)), way);
      break;
    case PlateState::panel_shear:
      force = fmt::format("M_xy = {} per m", print.moment(std::abs(use.force)));
      break;
  }
  return fmt::format("{}; k_mod {:.2f}, gamma_M {:.2f}: {} against {}", force, worst.f.k_mod,
                     worst.f.gamma_M, print.stress(use.stress), print.stress(use.strength));
}

Finding finding_of(const AskedPlate& asked, PlateState state, const WorstOfAll& all,
                   const std::vector<Finding>& strips) {
  const model::Model& model = asked.answers.model;
  const StateWords& words = words_of_state(state);
  const bench::Sheet& sheet = asked.sheet();
  Finding f;
  f.id = id_of(words.id, sheet.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::stress;
  f.rule = words.rule;
  f.source = sheet.panel.source.of(words.value_0);
  f.place = sheet.name;
  const std::string& why = all.why[static_cast<std::size_t>(state)];
  if (!why.empty()) {
    leave_unjudged(f, why);
    f.sentence = fmt::format("The {} is not judged in {}.", sheet.name, words.in);
    return f;
  }
  const WorstUse& worst = *all.found[static_cast<std::size_t>(state)];
  const Printer print(model.parts.bench);
  judge_against(f, worst.use.stress, worst.use.strength);
  if (!asked.answers.words) return f;
  if (worst.use.of_x != sheet.grain_along_x) f.source = sheet.panel.source.of(words.value_90);
  f.place = place_on_plate(model.parts, model.plates[asked.plate], sheet, worst.x, worst.y);
  f.combination = model.combinations[worst.combination].name;
  f.sentence =
      fmt::format("The {} takes {} its strength in {}.", sheet.name, share_of(f.ratio), words.in);
  f.working.push_back(working(asked, state, worst, print));
  // The strip knows weights and people, not shoves.
  const bool is_shoved = is_shove(model.combinations[worst.combination]);
  if (!is_shoved) f.hand_check = hand_check(asked, state, strips);
  if (f.judgement == Judgement::exceeded) {
    f.advice = lies(sheet) ? "a thicker board, or a bearer under what loads it"
                           : "a thicker board, or one more brace";
  }
  return f;
}

}  // namespace

std::vector<Finding> plate_strength(const Answers& answers, const PlateAnswers& plates,
                                    const reference::Tables& tables) {
  std::vector<Finding> findings;
  if (answers.model.plates.empty()) return findings;
  const std::vector<Finding> strips =
      answers.words ? board_between_carriers(answers, tables) : std::vector<Finding>();
  for (std::size_t p = 0; p < answers.model.parts.plate_sheets.size(); ++p) {
    const AskedPlate asked{answers, plates, tables, p, judges_strength};
    const WorstOfAll worst = worst_on_plate(asked);
    for (const PlateState state : all_states) {
      findings.push_back(finding_of(asked, state, worst, strips));
    }
  }
  return findings;
}

std::vector<Finding> plate_strength_under(const Answers& answers, const PlateAnswers& plates,
                                          bool (*wanted)(const model::Combination&),
                                          const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (std::size_t p = 0; p < answers.model.parts.plate_sheets.size(); ++p) {
    const AskedPlate asked{answers, plates, tables, p, wanted};
    const std::vector<PlateAnswers::View> views = plates.of(p, wanted);
    const bool is_asked = std::any_of(views.begin(), views.end(),
                                      [&](const auto& view) { return asked.takes_part(view); });
    if (!is_asked) continue;
    const WorstOfAll worst = worst_on_plate(asked);
    for (const PlateState state : all_states)
      findings.push_back(finding_of(asked, state, worst, {}));
  }
  return findings;
}

}  // namespace standtrue::check
