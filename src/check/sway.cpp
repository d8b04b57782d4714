#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/service.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// The worst corner of the worst shove in one way.
struct Sway {
  double stiffness = 0.0;  ///< N/m
  double force = 0.0;      ///< N
  double movement = 0.0;   ///< m
  std::size_t combination = 0;
  std::size_t corner = 0;  ///< a node
};

std::optional<std::size_t> at_rest(const Answers& answers) {
  const auto& combinations = answers.model.combinations;
  for (std::size_t c = 0; c < combinations.size(); ++c) {
    if (combinations[c].purpose == model::Purpose::sway && state_of(answers.response, c)) return c;
  }
  return std::nullopt;
}

/// The place of a shove in use, or null for other combinations and the other way.
const model::ShovePlace* shove_of(const model::Model& model, const model::Combination& c,
                                  model::ShoveWay way) {
  if (c.purpose != model::Purpose::service || c.leading != model::Leading::shove || !c.place) {
    return nullptr;
  }
  const model::ShovePlace& place = model.parts.shoves.at(*c.place);
  return place.way == way ? &place : nullptr;
}

/// What the shove reached: less than asked where the bench would have tipped.
double force_of(const solve::Loading& loading, const model::ShovePlace& place) {
  double force = 0.0;
  for (const model::Factored& term : loading.terms) {
    if (place.is_case(term.load_case)) force += term.factor;  // the case is a shove of 1 N
  }
  return force;
}

/// Also says why a shove has no answer.
std::optional<Sway> worst_sway(const Answers& answers, model::ShoveWay way, std::size_t rest,
                               std::string& why) {
  const model::Model& model = answers.model;
  const solve::State& before = *state_of(answers.response, rest);
  const model::Freedom freedom =
      way == model::ShoveWay::along ? model::Freedom::x : model::Freedom::y;
  std::optional<Sway> worst;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const model::ShovePlace* place = shove_of(model, model.combinations[c], way);
    if (!place) continue;
    const solve::State* state = state_of(answers.response, c);
    if (!state) {
      why = refusal_of(answers.response, c);
      continue;
    }
    const double force = force_of(answers.response.loadings.at(c), *place);
    for (const std::size_t corner : model.parts.top_corners) {
      const double moved = state->at(corner, freedom) - before.at(corner, freedom);
      const double movement = force < 0.0 ? -moved : moved;
      if (!(movement > 0.0)) continue;  // a far corner may swing back
      const Sway found{std::abs(force) / movement, std::abs(force), movement, c, corner};
      if (!worst || is_worse(worst->stiffness, found.stiffness)) worst = found;
    }
  }
  return worst;
}

const char* feel(double stiffness, const reference::Limits& limits) {
  if (stiffness >= in_si(limits.sway_firm.value)) return "it is firm";
  if (stiffness >= in_si(limits.sway_little.value)) return "it gives a little";
  if (stiffness >= in_si(limits.sway_rocks.value)) return "it sways";
  return "it rocks";
}

/// The published knock, if all of its energy went into the sway: s = sqrt(2 E/k).
std::string knock(double stiffness, const reference::Limits& limits, const Printer& print) {
  const double s = std::sqrt(2.0 * in_si(limits.knock_energy.value) / stiffness);
  return fmt::format(
      "a pendulum knock of {} moves it at most {}; the published test allows {} at a table {} high "
      "and {} at {}; told, not judged",
      print.moment(in_si(limits.knock_energy.value)), print.length(s),
      print.length(in_si(limits.knock_low.value)),
      print.length(in_si(limits.knock_low_height.value)),
      print.length(in_si(limits.knock_high.value)),
      print.length(in_si(limits.knock_high_height.value)));
}

/// "the front-left post" for a node at its top, "the left end of the ledger" for one behind it.
std::string corner_of(const model::Model& model, model::NodeId corner) {
  for (const model::Part& part : model.parts.parts) {
    if (part.role != model::Role::post) continue;
    for (const std::size_t m : part.members) {
      if (model.members[m].start == corner || model.members[m].end == corner) {
        return "the " + part.name;
      }
    }
  }
  for (const bench::Post& post : model.parts.bench.posts) {
    const double off = in_si(model.nodes[corner].at.x - post.x);
    if (post.on_wall && std::abs(off) <= 0.5 * in_si(post.along_x)) return "the " + post.name;
  }
  return model.nodes[corner].name;
}

/// Braces or upright sheets on the sides that hold it that way already.
bool is_held_square(const bench::Bench& bench, bool along) {
  const auto is_on = [&](const std::string& name) {
    const auto begins = [&](const char* side) { return name.rfind(side, 0) == 0; };
    return along ? begins("back") || begins("front") : begins("left") || begins("right");
  };
  return std::any_of(bench.braces.begin(), bench.braces.end(),
                     [&](const bench::Brace& brace) { return is_on(brace.name); }) ||
         std::any_of(bench.sheets.begin(), bench.sheets.end(),
                     [&](const bench::Sheet& sheet) { return !lies(sheet) && is_on(sheet.name); });
}

const char* cure_of_sway(const bench::Bench& bench, bool along) {
  if (is_held_square(bench, along)) {
    return "harder pads and less bare stem under its feet, a cross or a sheet in place of a single "
           "diagonal, or a fixing to the wall";
  }
  if (bench::ledger_of(bench) == nullptr) {
    return along ? "a diagonal or a panel in the back" : "a diagonal or a panel in each end";
  }
  return along ? "a diagonal in the front"
               : "a stiffer joint where its rails end on the ledger, or more screws into the wall";
}

Finding sway_one_way(const Answers& answers, model::ShoveWay way, const reference::Limits& limits) {
  const model::Model& model = answers.model;
  const bench::Bench& bench = model.parts.bench;
  const Printer print(bench);
  const bool along = way == model::ShoveWay::along;
  Finding f;
  f.id = along ? "sway/along" : "sway/across";
  f.group = Group::sway;
  f.kind = Kind::service;
  f.unit = quantity::Kind::linear_stiffness;
  f.limit_is_least = true;
  f.place = along ? "the top, along the bench" : "the top, across the bench";
  f.rule = "sway stiffness of the top for the duty \"" + bench.duty.key + "\"";
  f.source = bench.duty.source;
  const std::optional<std::size_t> rest = at_rest(answers);
  std::string why = rest ? "no corner of the top moves with the shove"
                         : "the bench has no answer at rest under its loads";
  const std::optional<Sway> worst =
      rest ? worst_sway(answers, way, *rest, why) : std::optional<Sway>();
  if (!worst) {
    leave_unjudged(f, why);
    f.sentence = fmt::format("How it sways {} is not judged.", along ? "along" : "across");
    return f;
  }
  judge_against(f, worst->stiffness, in_si(bench.duty.sway));
  f.combination = model.combinations[worst->combination].name;
  f.place += ", at " + corner_of(model, worst->corner);
  f.sentence = fmt::format(
      "A push of {} {} the bench moves the worst corner of the top {}: {} ({}, {} wanted).",
      print.force(worst->force), along ? "along" : "across", print.length(worst->movement),
      feel(worst->stiffness, limits), print.stiffness(worst->stiffness), print.stiffness(f.limit));
  f.working.push_back(fmt::format("k = H/u = {} / {} = {}", print.force(worst->force),
                                  print.length(worst->movement),
                                  print.stiffness(worst->stiffness)));
  f.working.push_back(knock(worst->stiffness, limits, print));
  if (f.judgement == Judgement::exceeded) {
    f.advice = cure_of_sway(bench, along);
  }
  return f;
}

bool is_shoved(const model::Model& model, model::ShoveWay way) {
  return std::any_of(model.combinations.begin(), model.combinations.end(),
                     [&](const model::Combination& c) { return shove_of(model, c, way); });
}

}  // namespace

std::vector<Finding> sway(const Answers& answers, const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::ShoveWay way : {model::ShoveWay::along, model::ShoveWay::across}) {
    if (is_shoved(answers.model, way)) {
      findings.push_back(sway_one_way(answers, way, tables.limits));
    }
  }
  return findings;
}

}  // namespace standtrue::check
