// All numbers SI (N, m, N m).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/footprint.hpp"
#include "check/overturning.hpp"
#include "check/printer.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/pushes.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// What tips and what holds about one edge, with factors; and without, for what a builder would
/// find.
struct About {
  TippingEdge edge;
  double overturning = 0.0;  ///< N m, of the load that tips, factored
  double harms = 0.0;        ///< N m, of weights beyond the edge, factored
  double helps = 0.0;        ///< N m, of weights inside it, factored
  double weights = 0.0;      ///< N m, of all weights, factors of one
  std::string by;            ///< what tips it, where there are several

  [[nodiscard]] double ratio() const { return (overturning + harms) / std::max(helps, 1e-6); }
};

class Tipping {
 public:
  Tipping(const model::Parts& parts, const reference::Tables& tables, Laden laden)
      : edges_(free_edges(parts)), weights_(leaning_weights(parts, laden)), tables_(tables) {}

  /// Contract: there are edges and actions.
  [[nodiscard]] About worst(const std::vector<Action>& actions) const {
    std::optional<About> worst;
    for (const TippingEdge& edge : edges_) {
      const About still = at_rest(edge);
      for (const Action& action : actions) {
        About about = still;
        about.overturning = action.about(edge);
        about.by = action.by;
        if (!worst || is_worse(about.ratio(), worst->ratio())) worst = about;
      }
    }
    return *worst;
  }
  [[nodiscard]] bool is_held() const { return edges_.empty(); }

 private:
  [[nodiscard]] About at_rest(const TippingEdge& edge) const {
    About about{edge, 0.0, 0.0, 0.0, 0.0, {}};
    for (const model::Weight& weight : weights_) {
      const double moment = in_si(weight.force) * edge.inside(in_si(weight.x), in_si(weight.y));
      about.weights += moment;
      if (moment >= 0.0) {
        about.helps += tables_.load("self weight").tipping_favourable * moment;
      } else {
        about.harms -= harm_factor(weight.of) * moment;
      }
    }
    return about;
  }
  /// What the file says is stored helps like the bench itself: it is part of the plan. Where it
  /// harms it is a variable load.
  [[nodiscard]] double harm_factor(model::Weight::Of of) const {
    switch (of) {
      case model::Weight::Of::machine:
        return tables_.load("machine").tipping;
      case model::Weight::Of::stored:
      case model::Weight::Of::added:
        return tables_.load("stored on shelf").tipping;
      case model::Weight::Of::bench:
        break;
    }
    return tables_.load("self weight").tipping;
  }

  std::vector<TippingEdge> edges_;
  std::vector<model::Weight> weights_;
  const reference::Tables& tables_;
};

Finding start_tipping(const char* id, Kind kind) {
  Finding f;
  f.id = id;
  f.group = Group::tip;
  f.kind = kind;
  f.unit = quantity::Kind::moment;
  f.rule = "EN 1990, Table A1.2(A), EQU: 0.9 G against the load that tips";
  return f;
}

void judge_tipping(Finding& f, const About& about, const bench::Bench& bench) {
  const Printer print(bench);
  judge_against(f, about.overturning + about.harms, std::max(about.helps, 1e-6));
  f.place = "over the feet " + about.edge.towards();
  f.working.push_back(fmt::format("overturning {} + weights beyond the feet {}, held by {}",
                                  print.moment(about.overturning), print.moment(about.harms),
                                  print.moment(about.helps)));
  const bool leans = bench::leans(bench);
  if (leans) {
    f.working.push_back(fmt::format(
        "the bench leans with its floor, {}: what stands on it counts that share of its height "
        "further downhill",
        bench::fall_in_words(bench)));
  }
  if (f.judgement == Judgement::exceeded) {
    f.advice = leans ? "stand it upright on its floor, " : "";
    f.advice +=
        "fix the bench to the wall or the floor, set its feet wider apart, or weigh it down low";
  }
}

Action push_in_use(const bench::Bench& bench, const reference::Tables& tables) {
  const reference::Load& shove = tables.load("shove in use");
  return {in_si(shove.sideways), worktop_height(bench), 0.0, {}, tables.limits.tipping.value, {}};
}

const char* way(const TippingEdge& edge) {
  return std::abs(edge.outwards.x) > std::abs(edge.outwards.y) ? "along" : "across";
}

/// "it falls over to the front by itself: its weight lies 40 mm beyond its feet."
std::string falls_over(const model::Parts& parts, Laden laden, const About& about,
                       const Printer& print) {
  const std::optional<Beyond> beyond = beyond_feet(parts, laden);
  if (!beyond) return fmt::format("nothing holds it from tipping {}.", about.edge.towards());
  return fmt::format("it falls over {} by itself: its weight lies {} beyond its feet.",
                     beyond->edge.towards(), print.length(beyond->distance));
}

Finding by_push(const model::Parts& parts, const Tipping& tipping,
                const reference::Tables& tables) {
  const Printer print(parts.bench);
  const Action action = push_in_use(parts.bench, tables);
  const About about = tipping.worst({action});
  Finding f = start_tipping("tipping/push", Kind::safety);
  f.source = tables.limits.tipping.source;
  judge_tipping(f, about, parts.bench);
  const double push = about.weights / action.height;
  if (push > 0.0) {
    f.sentence = fmt::format(
        "As planned and loaded it tips {} at a push of {} ({}) at the worktop; {} is asked for.",
        about.edge.towards(), print.force(push), print.as_mass(push),
        print.force(action.factor * action.sideways));
  } else {
    f.sentence = "As planned and loaded " + falls_over(parts, Laden::as_planned, about, print);
  }
  return f;
}

Finding empty(const model::Parts& parts, const reference::Tables& tables) {
  const Printer print(parts.bench);
  const Action action = push_in_use(parts.bench, tables);
  const About about = Tipping(parts, tables, Laden::empty).worst({action});
  Finding f = start_tipping("tipping/empty", Kind::caution);
  f.source = tables.limits.tipping.source;
  judge_tipping(f, about, parts.bench);
  const double push = std::max(0.0, about.weights / action.height);
  f.sentence = about.weights < 0.0
                   ? "Empty, " + falls_over(parts, Laden::empty, about, print)
                   : fmt::format("Empty, it tips at {} of push {} ({} at the worktop, {}).",
                                 print.as_mass(push), way(about.edge), print.force(push),
                                 about.edge.towards());
  f.why = "told, not judged: machines may be taken away and shelves emptied";
  return f;
}

Finding by_person(const bench::Bench& bench, const Tipping& tipping,
                  const std::vector<Action>& actions, const reference::Load& stand) {
  const Printer print(bench);
  const About about = tipping.worst(actions);
  Finding f = start_tipping("tipping/person", Kind::safety);
  f.source = stand.source.of("tipping");
  judge_tipping(f, about, bench);
  f.sentence = f.judgement == Judgement::exceeded
                   ? fmt::format("Somebody standing on the edge of the {} can tip it {}.", about.by,
                                 about.edge.towards())
                   : fmt::format("It keeps its feet with somebody standing on the edge of the {}.",
                                 about.by);
  f.working.push_back(fmt::format("{} down, {} from the edge, and {} sideways, by {}",
                                  print.force(in_si(stand.down)), print.length(in_si(stand.edge)),
                                  print.force(in_si(stand.sideways)), stand.tipping));
  return f;
}

Finding by_machine(const bench::Bench& bench, const Tipping& tipping,
                   const std::vector<Action>& actions, const reference::Load& shove) {
  const Printer print(bench);
  const About about = tipping.worst(actions);
  const Action& action = *std::find_if(actions.begin(), actions.end(),
                                       [&](const Action& a) { return a.by == about.by; });
  const double height = action.acts_at(about.edge.outwards);
  const double push = std::max(0.0, about.weights / height);
  const bool topples = height < action.height;
  Finding f = start_tipping("tipping/machine-top", Kind::safety);
  f.source = shove.source.of("tipping");
  judge_tipping(f, about, bench);
  f.sentence = fmt::format(
      "A shove at {}the {}, {} above the floor, tips it {} at {} ({}); {} is asked for.",
      topples ? "" : "the top of ", about.by, print.length(height), about.edge.towards(),
      print.force(push), print.as_mass(push), print.force(action.factor * action.sideways));
  if (topples) {
    const double above = height - action.stands_at;
    const double at_top = action.sideways * above / (action.height - action.stands_at);
    f.sentence += fmt::format(" Higher up the {} topples first: at {} at its top, not bolted.",
                              about.by, print.force(at_top));
    f.working.push_back(fmt::format(
        "the {} stands loose: its weight on its pads holds {} against {} up to {} above them",
        about.by, print.moment(action.sideways * above), print.force(action.sideways),
        print.length(above)));
  }
  return f;
}

/// Loads of use under which the frame's own answer was that it tips: said beside the statics.
void tell_refusals(Finding& f, const Answers& answers) {
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const solve::OrRefusal<solve::State>& state = answers.response.states.at(c);
    const model::Combination& combination = answers.model.combinations[c];
    if (state || state.error().why != solve::Refusal::Why::tips) continue;
    if (combination.purpose != model::Purpose::service) continue;
    f.working.push_back("the frame model" + on_middles(answers.model.parts) + " tips under " +
                        combination.name);
  }
}

/// A bench with a wall behind it, or with bolts on every side: what holds it is told among the
/// feet.
Finding held(const model::Parts& parts, const reference::Tables& tables) {
  const bool by_wall = !parts.bench.wall.empty();
  Finding f = start_tipping(by_wall ? "tipping/wall" : "tipping/floor", Kind::caution);
  f.source = tables.limits.tipping.source;
  f.sentence = by_wall ? "The wall keeps it from tipping, as far as the wall holds its fixings."
                       : "Its bolted feet keep it from tipping, as far as the floor holds them.";
  f.judgement = Judgement::outside_this_tool;
  f.why = by_wall ? "the hold of the wall; what its fixings take is told with the feet"
                  : "the hold of the floor; what the bolts take is told with the feet";
  return f;
}

/// The push at the worktop that tips it, by statics and by the frame, each way. The frame stands
/// upright: of a bench that leans it is not asked.
void tell_tipping_pushes(Finding& f, const std::vector<Push>& pushes, bool as_planned,
                         const model::Parts& parts) {
  const Printer print(parts.bench);
  for (const Push& push : pushes) {
    if (push.as_planned != as_planned) continue;
    const auto at = [&](double force) {
      if (std::isnan(force)) return std::string("no answer");
      return std::isinf(force) ? std::string("none that was looked at") : print.force(force);
    };
    std::string line =
        fmt::format("push {} that tips it: sum(W a)/h = {}", push.towards(), at(push.tips_at));
    if (!bench::leans(parts.bench)) {
      line += fmt::format("; frame on its feet{} {}", on_middles(parts), at(push.tips_at_frame));
    }
    f.working.push_back(std::move(line));
  }
}

Finding no_footprint(const reference::Tables& tables) {
  Finding f = start_tipping("tipping/feet", Kind::safety);
  f.source = tables.limits.tipping.source;
  f.sentence = "Whether it tips is not judged.";
  leave_unjudged(f, "fewer than three feet stand apart: it does not stand by itself");
  f.advice = "fix it to the wall, or give it a foot on the other side";
  return f;
}

}  // namespace

std::vector<Finding> tipping(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const bool by_wall = !parts.bench.wall.empty();
  if (!by_wall && tipping_edges(parts).empty()) return {no_footprint(tables)};
  const Tipping planned(parts, tables, Laden::as_planned);
  if (planned.is_held()) {
    Finding f = held(parts, tables);
    tell_refusals(f, answers);
    return {f};
  }
  // Told once, with the answers of mean joints, which alone come with those after creep.
  const std::vector<Push> at =
      answers.at_mean ? pushes(answers, PushesBy::tipping) : std::vector<Push>();
  std::vector<Finding> findings;
  if (is_anything_planned(parts)) {
    findings.push_back(by_push(parts, planned, tables));
    tell_tipping_pushes(findings.back(), at, true, parts);
  }
  const reference::Load& stand = tables.load("stand");
  const std::vector<Action> on_edge = leaned(parts.bench, on_corners(parts.bench, stand));
  if (!on_edge.empty()) findings.push_back(by_person(parts.bench, planned, on_edge, stand));
  const reference::Load& shove = tables.load("shove at machine top");
  const std::vector<Action> at_machines = shoves_at_machines(parts.bench, shove);
  if (!at_machines.empty()) {
    findings.push_back(by_machine(parts.bench, planned, at_machines, shove));
  }
  if (!answers.words) return findings;
  findings.push_back(empty(parts, tables));
  tell_tipping_pushes(findings.back(), at, false, parts);
  if (is_anything_planned(parts) && !on_edge.empty()) {
    Finding f = by_person(parts.bench, Tipping(parts, tables, Laden::empty), on_edge, stand);
    if (f.judgement == Judgement::exceeded) {
      f.id = "tipping/person-empty";
      f.kind = Kind::caution;
      f.sentence = "Empty, it can tip with somebody standing on its edge.";
      f.why = "told, not judged: machines may be taken away and shelves emptied";
      findings.push_back(std::move(f));
    }
  }
  tell_refusals(findings.front(), answers);
  return findings;
}

}  // namespace standtrue::check
