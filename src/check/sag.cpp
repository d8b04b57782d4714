#include <fmt/format.h>

#include <algorithm>
#include <cctype>
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
#include "standtrue/check/service.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

enum class Datum { post_tops, own_ends, screws, carriers, plane };

/// One way in which the sag of a part is measured.
struct Measure {
  Datum datum = Datum::own_ends;
  std::string id;  ///< "sag", "sag-total"
  double span = 0.0;
  std::string below;  ///< "below the line between its posts"
};

struct WorstSag {
  std::size_t combination = 0;
  Lowest lowest;
};

const model::Strip* strip_of(const model::Parts& parts, model::PartId part) {
  const auto strip = std::find_if(parts.strips.begin(), parts.strips.end(),
                                  [part](const model::Strip& s) { return s.part == part; });
  return strip == parts.strips.end() ? nullptr : &*strip;
}

bool is_ledger(const model::Parts& parts, const model::Part& part) {
  return part.role == model::Role::rail && parts.bench.rails.at(part.source).on_wall;
}

Measure measure_of_rail(const model::Parts& parts, const model::Part& part) {
  const double span = in_si(part.span);
  if (is_ledger(parts, part)) {
    return {Datum::screws, "sag", span, "below the line over its screws"};
  }
  const bench::Rail& rail = parts.bench.rails.at(part.source);
  return {Datum::post_tops, "sag", span,
          parts.bench.posts.at(rail.to).on_wall ? "below the line from its post to the ledger"
                                                : "below the line between the tops of its posts"};
}

std::vector<Measure> measures_of(const model::Parts& parts, model::PartId id) {
  const model::Part& part = parts.parts[id];
  const double span = in_si(part.span);
  switch (part.role) {
    case model::Role::rail:
      return {measure_of_rail(parts, part)};
    case model::Role::bearer:
      return {{Datum::own_ends, "sag", span, "below the line between its ends"}};
    case model::Role::strip: {
      const model::Strip* strip = strip_of(parts, id);
      if (!strip) return {};
      const double bay = in_si(strip->bay);
      return {{Datum::carriers, "sag", bay, "below what carries it"},
              {Datum::plane, "sag-total", std::max(bay, longest_carrier(parts, strip->sheet)),
               "below the plane of the post tops"}};
    }
    case model::Role::post:
    case model::Role::brace:
    case model::Role::stem:
      break;
  }
  return {};
}

/// The answers to one model, as the sag of one part reads them.
struct Axis {
  const model::Model& model;
  const solve::Response& response;
  model::PartId part;
  bool words = true;

  [[nodiscard]] Reference reference(Datum datum, const solve::State& state,
                                    const std::vector<Sunk>& axis) const {
    switch (datum) {
      case Datum::post_tops:
        return between_post_tops(model, state, model.parts.parts[part]);
      case Datum::screws:
        return between_screws(model, state, model.parts.parts[part]);
      case Datum::carriers:
        return over_carriers(*strip_of(model.parts, part), axis);
      case Datum::plane:
        return plane_of_post_tops(model, state);
      case Datum::own_ends:
        break;
    }
    return between_ends(axis);
  }
  [[nodiscard]] std::optional<Lowest> lowest(Datum datum, std::size_t combination) const {
    const solve::State* state = state_of(response, combination);
    if (!state) return std::nullopt;
    const std::vector<Sunk> axis = sunk(model, response, combination, model.parts.parts[part]);
    return lowest_below(axis, reference(datum, *state, axis));
  }
  /// Contract: the combination was answered.
  [[nodiscard]] double below(Datum datum, std::size_t combination, double at) const {
    const std::vector<Sunk> axis = sunk(model, response, combination, model.parts.parts[part]);
    return below_at(axis, reference(datum, *state_of(response, combination), axis), at);
  }
  /// The lowest of all combinations of a kind.
  [[nodiscard]] std::optional<WorstSag> worst(Datum datum,
                                              bool (*wanted)(const model::Combination&)) const {
    std::optional<WorstSag> worst;
    for (std::size_t c = 0; c < model.combinations.size(); ++c) {
      if (!wanted(model.combinations[c])) continue;
      const std::optional<Lowest> found = lowest(datum, c);
      if (found && (!worst || is_worse(found->below, worst->lowest.below, readable))) {
        worst = WorstSag{c, *found};
      }
    }
    return worst;
  }
};

std::string place_on_axis(const Axis& axis, const Printer& print, double at) {
  const model::Part& part = axis.model.parts.parts[axis.part];
  const model::Member& first = axis.model.members[part.members.front()];
  const model::MemberFrame frame = model::member_frame(axis.model, first);
  const bool along_x = std::abs(frame.axes[0].x) >= std::abs(frame.axes[0].y);
  return fmt::format("{}, {} from its {} end", part.name, print.length(at),
                     along_x ? "left" : "front");
}

/// The part simply supported under the loads that its shear force shows: the loads are the steps of
/// V_z and its slopes; shear flexibility as M/(G A_s).
///     5 q L⁴/384 E I + Σ P b (3 L² - 4 b²)/48 E I + (q L²/8 + Σ P b/2)/G A_s     in mid-span,
/// b from P to the nearer end, q the mean of what is spread.
/// Source (from memory): Roark's Formulas for Stress and Strain, simple beams.
Finding::HandCheck simply_supported(const Axis& axis, std::size_t combination) {
  struct Point {
    double at, force;
  };
  std::vector<Point> points;
  const model::Part& part = axis.model.parts.parts[axis.part];
  double L = 0.0, spread = 0.0, before = 0.0;
  for (std::size_t i = 0; i < part.members.size(); ++i) {
    const solve::MemberDiagrams d =
        solve::force_diagrams(axis.response, combination, part.members[i]);
    bool first = i == 0;
    double length = 0.0;
    for (const solve::Diagram::Piece& piece : d.V_z.pieces()) {
      const double left = d.V_z.at(piece.from);
      const double right = d.V_z.at(piece.to, true);
      if (!first) points.push_back({L + piece.from, left - before});
      spread += right - left;
      before = right;
      first = false;
      length = piece.to;
    }
    L += length;
  }
  const model::Member& member = axis.model.members[part.members.front()];
  const double EI = in_si(member.elastic.E) * in_si(member.section.I_y);
  const double GA = in_si(member.elastic.G) * in_si(member.section.A_sz);
  const double q = spread / L;
  double w = 5.0 * q * std::pow(L, 4) / (384.0 * EI);
  double M = q * L * L / 8.0;
  for (const Point& p : points) {
    const double b = std::min(p.at, L - p.at);
    w += p.force * b * (3.0 * L * L - 4.0 * b * b) / (48.0 * EI);
    M += p.force * b / 2.0;
  }
  if (GA > 0.0) w += M / GA;
  return {
      "simply supported, in mid-span: 5 q L^4/384 E I + sum P b (3 L^2 - 4 b^2)/48 E I + M/G A_s",
      w};
}

/// "the front top rail", "bearer 2", "the top under a machine (strip 1)".
std::string subject_of(const Axis& axis) {
  const model::Part& part = axis.model.parts.parts[axis.part];
  const bool is_numbered = std::isdigit(static_cast<unsigned char>(part.name.back())) != 0;
  if (part.role != model::Role::strip) return (is_numbered ? "" : "the ") + part.name;
  const model::Strip& strip = *strip_of(axis.model.parts, axis.part);
  const std::string which = part.name.substr(0, part.name.find(" of "));
  return fmt::format("the {} under a machine ({})",
                     axis.model.parts.bench.sheets.at(strip.sheet).name, which);
}

/// A sentence begins with a capital.
std::string capital(std::string text) {
  text.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(text.front())));
  return text;
}

bool is_front_edge(const model::Parts& parts, const model::Part& part) {
  if (part.role != model::Role::rail) return false;
  const bench::Rail& rail = parts.bench.rails.at(part.source);
  if (!rail.along_x || rail.level != bench::Level::top) return false;
  const quantity::Length y = parts.bench.posts.at(rail.from).y;
  return std::none_of(parts.bench.posts.begin(), parts.bench.posts.end(),
                      [y](const bench::Post& post) { return post.y < y; });
}

Finding start_sag(const Axis& axis, const Measure& measure, bool at_once) {
  const model::Part& part = axis.model.parts.parts[axis.part];
  Finding f;
  f.id = id_of(measure.id + (at_once ? "" : "-final"), part.name);
  f.group = Group::sag;
  f.kind = Kind::service;
  f.unit = quantity::Kind::length;
  f.place = part.name;
  f.rule = "EN 1995-1-1, 7.2";
  return f;
}

std::string advice_for(model::Role role) {
  switch (role) {
    case model::Role::strip:
      return "a bearer under the machine, or a thicker top";
    case model::Role::bearer:
      return "a deeper bearer, or one more beside it";
    default:
      return "a deeper rail: stiffness grows with the cube of its depth";
  }
}

void tell_leaning(Finding& f, const Axis& axis, Datum datum, const Printer& print) {
  if (const std::optional<WorstSag> lean = axis.worst(datum, is_leaned_on)) {
    f.working.push_back(fmt::format("with somebody leaning: {} ({}); told, not judged",
                                    print.length(lean->lowest.below),
                                    axis.model.combinations[lean->combination].name));
  }
}

void tell_total(Finding& f, const Axis& axis, const WorstSag& worst, const Printer& print) {
  const double total = axis.below(Datum::plane, worst.combination, worst.lowest.at);
  f.working.push_back(
      fmt::format("there below the plane of the post tops: {}", print.length(total)));
}

/// What of a strip's whole sag is the sheet's own, and what its carriers'.
void tell_own_share(Finding& f, const Axis& axis, const WorstSag& worst, const Printer& print) {
  const double own = axis.below(Datum::carriers, worst.combination, worst.lowest.at);
  f.working.push_back(fmt::format("of that the sheet itself {}, what carries it {}",
                                  print.length(own), print.length(worst.lowest.below - own)));
  f.made_of = {{"the sheet itself", own}, {"what carries it", worst.lowest.below - own}};
}

void tell_sag(Finding& f, const Axis& axis, const Measure& measure, const WorstSag& worst,
              const Printer& print) {
  const model::Part& part = axis.model.parts.parts[axis.part];
  f.place = place_on_axis(axis, print, worst.lowest.at);
  f.combination = axis.model.combinations[worst.combination].name;
  f.working.push_back(fmt::format("w = {} {}, span {}, limit {}", print.length(f.demand),
                                  measure.below, print.length(measure.span),
                                  print.length(f.limit)));
  if (measure.datum == Datum::plane) tell_own_share(f, axis, worst, print);
  if (part.role == model::Role::bearer) tell_total(f, axis, worst, print);
  if (f.judgement != Judgement::exceeded) return;
  f.advice = measure.datum == Datum::screws ? "more screws into the wall, or a deeper ledger"
                                            : advice_for(part.role);
}

Finding sag_at_once(const Axis& axis, const Measure& measure, const reference::Limits& limits) {
  const Printer print(axis.model.parts.bench);
  const model::Part& part = axis.model.parts.parts[axis.part];
  Finding f = start_sag(axis, measure, true);
  f.source = limits.sag_permanent.source;
  const std::optional<WorstSag> worst = axis.worst(measure.datum, is_at_once);
  if (!worst) {
    leave_unjudged(f, why_none(axis.model, axis.response, is_at_once));
    f.sentence = fmt::format("The sag of {} is not judged.", subject_of(axis));
    return f;
  }
  judge_sag(f, worst->lowest.below, measure.span, limits.sag_permanent.value, limits);
  if (!axis.words) return f;
  tell_sag(f, axis, measure, *worst, print);
  tell_leaning(f, axis, measure.datum, print);
  const bool has_two_ends = part.role != model::Role::strip && measure.datum != Datum::screws;
  if (has_two_ends) f.hand_check = simply_supported(axis, worst->combination);
  const bool good =
      is_front_edge(axis.model.parts, part) && f.demand <= measure.span * limits.sag_good.value;
  f.sentence =
      fmt::format("{} sags {} {} under what stands on it; {} allowed{}.", capital(subject_of(axis)),
                  beside(print.length(f.limit), print.movement(f.demand), f.judgement),
                  measure.below, print.length(f.limit), good ? ", and good for a front edge" : "");
  return f;
}

Finding sag_for_good(const Axis& axis, const Measure& measure, const reference::Limits& limits) {
  const Printer print(axis.model.parts.bench);
  Finding f = start_sag(axis, measure, false);
  f.source = limits.sag_final.source;
  const std::optional<WorstSag> worst = axis.worst(measure.datum, is_final);
  if (!worst) {
    leave_unjudged(f, why_none(axis.model, axis.response, is_final));
    f.sentence = fmt::format("The sag of {} after years is not judged.", subject_of(axis));
    return f;
  }
  judge_sag(f, worst->lowest.below, measure.span, limits.sag_final.value, limits);
  if (!axis.words) return f;
  tell_sag(f, axis, measure, *worst, print);
  f.sentence = fmt::format("After years {} sags {} {}; {} allowed.", subject_of(axis),
                           beside(print.length(f.limit), print.movement(f.demand), f.judgement),
                           measure.below, print.length(f.limit));
  return f;
}

bool has(const model::Model& model, bool (*wanted)(const model::Combination&)) {
  return std::any_of(model.combinations.begin(), model.combinations.end(), wanted);
}

}  // namespace

std::vector<Finding> sag(const Answers& answers, const reference::Tables& tables) {
  std::vector<Finding> findings;
  const model::Model& model = answers.model;
  const bool creeps = answers.creep_model && answers.creep_response;
  for (model::PartId part = 0; part < model.parts.parts.size(); ++part) {
    for (const Measure& measure : measures_of(model.parts, part)) {
      if (has(model, is_at_once)) {
        findings.push_back(
            sag_at_once({model, answers.response, part, answers.words}, measure, tables.limits));
      }
      if (creeps && has(*answers.creep_model, is_final)) {
        findings.push_back(
            sag_for_good({*answers.creep_model, *answers.creep_response, part, answers.words},
                         measure, tables.limits));
      }
    }
  }
  return findings;
}

}  // namespace standtrue::check
