// All numbers SI (m).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/bed.hpp"
#include "check/carriers.hpp"
#include "check/plate_answers.hpp"
#include "check/printer.hpp"
#include "check/sag_line.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/service.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

struct LowestPoint {
  double below = -1.0;
  double x = 0.0, y = 0.0;
  std::size_t combination = 0;
};

/// The mesh node that lies lowest below the carriers beside it.
std::optional<LowestPoint> lowest_own(const PlateAnswers& answers, std::size_t plate,
                                      const Carriers& carriers,
                                      bool (*wanted)(const model::Combination&)) {
  std::optional<LowestPoint> lowest;
  for (const PlateAnswers::View& view : answers.of(plate, wanted)) {
    for (std::size_t j = 0; j < view.plate.y.size(); ++j) {
      for (std::size_t i = 0; i < view.plate.x.size(); ++i) {
        const std::optional<double> rest = carriers.at_node(view, i, j);
        if (!rest) continue;
        const double below = view.down_at_node(view.plate.node(i, j)) - *rest;
        if (!lowest || below > lowest->below)
          lowest = LowestPoint{below, view.plate.x[i], view.plate.y[j], view.combination};
      }
    }
  }
  return lowest;
}

/// Under the pads of one machine, below the plane of the post tops; and of that the sheet's own.
struct Under {
  LowestPoint lowest;
  double own = 0.0;
};

std::optional<Under> lowest_under(const PlateAnswers& answers, std::size_t machine,
                                  const model::Model& model, const solve::Response& response,
                                  bool (*wanted)(const model::Combination&)) {
  std::optional<Under> lowest;
  for (const model::PadPlace& pad : model.parts.pads) {
    if (pad.machine != machine) continue;
    const Carriers carriers(model, pad.plate);
    const double x = 0.5 * (pad.where.x0 + pad.where.x1);
    const double y = 0.5 * (pad.where.y0 + pad.where.y1);
    for (const PlateAnswers::View& view : answers.of(pad.plate, wanted)) {
      const Reference plane = plane_of_post_tops(model, *state_of(response, view.combination));
      const double down = view.down(x, y);
      const double below = down - plane(x, y);
      if (lowest && below <= lowest->lowest.below) continue;
      const std::optional<double> rest = carriers.at(view, x, y);
      lowest = Under{{below, x, y, view.combination}, rest ? down - *rest : 0.0};
    }
  }
  return lowest;
}

/// The answers at once, or those after years.
struct AskedSag {
  const model::Model& model;
  const solve::Response& response;
  const PlateAnswers& plates;
  const reference::Tables& tables;
  bool at_once;
  bool words;

  [[nodiscard]] bool (*wanted() const)(const model::Combination&) {
    return at_once ? is_at_once : is_final;
  }
  [[nodiscard]] const reference::Sourced<double>& share() const {
    return at_once ? tables.limits.sag_permanent : tables.limits.sag_final;
  }
};

Finding start_plate_sag(const AskedSag& asked, const std::string& id, const std::string& thing) {
  Finding f;
  f.id = id_of(id + (asked.at_once ? "" : "-final"), thing);
  f.group = Group::sag;
  f.kind = Kind::service;
  f.unit = quantity::Kind::length;
  f.rule = "EN 1995-1-1, 7.2";
  f.place = thing;
  f.source = asked.share().source;
  return f;
}

std::string why_no_plate_sag(const AskedSag& asked) {
  for (const std::size_t c : asked.plates.refused()) {
    if (asked.wanted()(asked.model.combinations[c])) return refusal_of(asked.response, c);
  }
  return "nothing to compare it with";
}

Finding own_sag(const AskedSag& asked, const model::SheetSpan& span, std::size_t plate,
                const std::vector<Finding>& strips) {
  const bench::Sheet& sheet = asked.model.parts.bench.sheets.at(span.sheet);
  const Printer print(asked.model.parts.bench);
  Finding f = start_plate_sag(asked, "sag-board", sheet.name);
  const Carriers carriers(asked.model, plate);
  const std::optional<LowestPoint> lowest =
      lowest_own(asked.plates, plate, carriers, asked.wanted());
  if (!lowest) {
    leave_unjudged(f, why_no_plate_sag(asked));
    f.sentence = fmt::format("The sag of the {} is not judged.", sheet.name);
    return f;
  }
  judge_sag(f, lowest->below, in_si(span.bay), asked.share().value, asked.tables.limits);
  if (!asked.words) return f;
  f.place =
      place_on_plate(asked.model.parts, asked.model.plates[plate], sheet, lowest->x, lowest->y);
  f.combination = asked.model.combinations[lowest->combination].name;
  f.sentence = fmt::format("{}he {} sags {} between what carries it; {} allowed.",
                           asked.at_once ? "T" : "After years t", sheet.name,
                           beside(print.length(f.limit), print.movement(f.demand), f.judgement),
                           print.length(f.limit));
  f.working.push_back(fmt::format("below the line over the carriers beside it, bay {}",
                                  print.length(in_si(span.bay))));
  if (asked.at_once) {
    if (const auto lean = lowest_own(asked.plates, plate, carriers, is_leaned_on)) {
      f.working.push_back(fmt::format("with somebody leaning: {} ({}); told, not judged",
                                      print.length(lean->below),
                                      asked.model.combinations[lean->combination].name));
    }
  }
  for (const Finding& strip : strips) {
    if (strip.id != f.id || strip.judgement == Judgement::not_judged) continue;
    f.hand_check = Finding::HandCheck{
        "a strip of its longest bay, simply supported, without machines: 5 q a^4/384 E I + q "
        "a^2/8 G A_s",
        strip.demand};
  }
  if (f.judgement == Judgement::exceeded) f.advice = "a thicker board, or a bearer in the bay";
  return f;
}

Finding machine_sag(const AskedSag& asked, std::size_t machine) {
  const model::Parts& parts = asked.model.parts;
  const bench::Machine& stands = parts.bench.machines[machine];
  const bench::Sheet& sheet = parts.bench.sheets.at(stands.sheet);
  const Printer print(parts.bench);
  Finding f = start_plate_sag(asked, "sag-total", sheet.name + " under the " + stands.name);
  const std::optional<Under> under =
      lowest_under(asked.plates, machine, asked.model, asked.response, asked.wanted());
  if (!under) {
    leave_unjudged(f, why_no_plate_sag(asked));
    f.sentence = fmt::format("The sag under the {} is not judged.", stands.name);
    return f;
  }
  const double span = longest_carrier(parts, stands.sheet);
  judge_sag(f, under->lowest.below, span, asked.share().value, asked.tables.limits);
  if (!asked.words) return f;
  f.combination = asked.model.combinations[under->lowest.combination].name;
  f.sentence = fmt::format(
      "{}he {} under the {} sags {} below the plane of the post tops; {} allowed.",
      asked.at_once ? "T" : "After years t", sheet.name, stands.name,
      beside(print.length(f.limit), print.movement(f.demand), f.judgement), print.length(f.limit));
  f.working.push_back(fmt::format(
      "of that the sheet itself {}, what carries it {}; span {}", print.length(under->own),
      print.length(under->lowest.below - under->own), print.length(span)));
  f.made_of = {{"the sheet itself", under->own},
               {"what carries it", under->lowest.below - under->own}};
  // With a precise bed its twist tells.
  if (asked.at_once && !stands.kind.precise_bed) {
    for (std::string& line : level_lines(asked.model, asked.plates, machine)) {
      f.working.push_back(std::move(line));
    }
  }
  if (f.judgement == Judgement::exceeded) f.advice = "a bearer under the machine, or deeper rails";
  return f;
}

void add_sags(std::vector<Finding>& findings, const AskedSag& asked,
              const std::vector<Finding>& strips) {
  const model::Parts& parts = asked.model.parts;
  if (std::none_of(asked.model.combinations.begin(), asked.model.combinations.end(),
                   asked.wanted())) {
    return;
  }
  for (const model::SheetSpan& span : parts.spans) {
    for (std::size_t p = 0; p < parts.plate_sheets.size(); ++p) {
      if (parts.plate_sheets[p] == span.sheet) findings.push_back(own_sag(asked, span, p, strips));
    }
  }
  for (std::size_t m = 0; m < parts.bench.machines.size(); ++m) {
    findings.push_back(machine_sag(asked, m));
  }
}

/// Movement of the edge beside a place where somebody leans, below what carries the sheet there.
struct LeanedEdge {
  double sag = 0.0, overhang = 0.0, limit = 0.0;
  std::string name;
  std::size_t combination = 0;
};

/// The worse one where two edges meet.
std::optional<LeanedEdge> edge_of(const PlateAnswers::View& view, std::size_t plate,
                                  const model::Model& model, const reference::Limits& limits) {
  const model::Combination& combination = model.combinations[view.combination];
  const model::PersonPlace& person = model.parts.persons.at(*combination.place);
  std::optional<LeanedEdge> worst;
  for (const BesideEdge& seam : beside_edges(model, plate, in_si(person.x), in_si(person.y))) {
    LeanedEdge edge;
    edge.overhang = std::hypot(seam.edge_x - seam.x, seam.edge_y - seam.y) - seam.half_width;
    if (edge.overhang <= 1e-3) continue;
    edge.sag = view.down(seam.edge_x, seam.edge_y) - view.down(seam.x, seam.y);
    edge.limit =
        std::max(edge.overhang * limits.overhang.value, in_si(limits.overhang_least.value));
    edge.name = person.name;
    edge.combination = view.combination;
    if (!worst || is_worse(edge.sag / edge.limit, worst->sag / worst->limit)) worst = edge;
  }
  return worst;
}

}  // namespace

std::vector<Finding> sag_of_plates(const Answers& answers, const PlateAnswers& plates,
                                   const reference::Tables& tables) {
  if (answers.model.plates.empty() || !answers.creep_model || !answers.creep_response) {
    return sag_of_plates(answers, plates, nullptr, tables);
  }
  const PlateAnswers crept(*answers.creep_model, *answers.creep_response, is_final);
  return sag_of_plates(answers, plates, &crept, tables);
}

std::vector<Finding> sag_of_plates(const Answers& answers, const PlateAnswers& plates,
                                   const PlateAnswers* crept, const reference::Tables& tables) {
  std::vector<Finding> findings;
  if (answers.model.plates.empty()) return findings;
  const std::vector<Finding> strips =
      answers.words ? sag_of_boards(answers, tables) : std::vector<Finding>();
  add_sags(findings, {answers.model, answers.response, plates, tables, true, answers.words},
           strips);
  if (crept) {
    add_sags(findings,
             {*answers.creep_model, *answers.creep_response, *crept, tables, false, answers.words},
             strips);
  }
  return findings;
}

std::vector<Finding> sag_of_plate_edges(const Answers& answers, const PlateAnswers& plates,
                                        const reference::Tables& tables) {
  std::vector<Finding> findings;
  const model::Model& model = answers.model;
  if (model.plates.empty()) return findings;
  const std::vector<Finding> strips = sag_of_overhangs(answers, tables);
  for (std::size_t p = 0; p < model.parts.plate_sheets.size(); ++p) {
    const bench::Sheet& sheet = model.parts.bench.sheets.at(model.parts.plate_sheets[p]);
    if (sheet.place != bench::SheetPlace::top) continue;
    std::optional<LeanedEdge> worst;
    for (const PlateAnswers::View& view : plates.of(p, is_leaned_on)) {
      const std::optional<std::size_t> place = model.combinations[view.combination].place;
      if (!place || model.parts.persons.at(*place).sheet != model.parts.plate_sheets[p]) continue;
      const std::optional<LeanedEdge> edge = edge_of(view, p, model, tables.limits);
      if (edge && (!worst || is_worse(edge->sag / edge->limit, worst->sag / worst->limit))) {
        worst = edge;
      }
    }
    if (!worst) continue;
    const Printer print(model.parts.bench);
    Finding f;
    f.id = id_of("sag-overhang", sheet.name);
    f.group = Group::sag;
    f.kind = Kind::service;
    f.unit = quantity::Kind::length;
    f.rule = "EN 1995-1-1, 7.2, cantilevers";
    const bool is_least = worst->limit <= in_si(tables.limits.overhang_least.value);
    f.source = is_least ? tables.limits.overhang_least.source : tables.limits.overhang.source;
    f.place = sheet.name + ", " + worst->name;
    f.combination = model.combinations[worst->combination].name;
    judge_against(f, std::max(0.0, worst->sag), worst->limit);
    f.sentence = fmt::format(
        "The edge of the {} gives {} under somebody leaning on it; {} allowed.", sheet.name,
        beside(print.length(f.limit), print.movement(f.demand), f.judgement),
        print.length(f.limit));
    f.working.push_back(
        fmt::format("below what carries it there; overhang {}", print.length(worst->overhang)));
    for (const Finding& strip : strips) {
      if (strip.id == f.id)
        f.hand_check = Finding::HandCheck{
            "a strip of the overhang: F c_a^2 (3 c - c_a)/6 E I b + M a c/3 E I b_a", strip.demand};
    }
    if (f.judgement == Judgement::exceeded) f.advice = "a shorter overhang or a thicker top";
    findings.push_back(std::move(f));
  }
  return findings;
}

}  // namespace standtrue::check
