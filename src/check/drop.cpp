// All numbers SI (N, m).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "check/strength_under.hpp"
#include "check/table_test.hpp"
#include "check/words.hpp"
#include "standtrue/check/cautions.hpp"
#include "standtrue/check/table_tests.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

double drop_factor(double height, double sag) {
  expects(height >= 0.0 && sag > 0.0, "drop_factor: it falls down, onto what gives");
  return 1.0 + std::sqrt(1.0 + 2.0 * height / sag);
}

namespace {

bool is_drop(const model::Combination& c) {
  return judges_test(c) && c.name.starts_with("test-drop-");
}
bool is_empty(const model::Combination& c) { return judges_test(c) && c.name == "test-empty"; }

/// The machine that is dropped, and the combination in which it stands on the bench.
struct Dropped {
  std::size_t machine = 0, combination = 0;
  std::size_t term = 0;  ///< its weight, of the combination's
};

std::optional<Dropped> dropped(const model::Model& model) {
  const std::vector<std::size_t>& cases = model.parts.machine_cases;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    if (!is_drop(model.combinations[c])) continue;
    const std::vector<model::Factored>& terms = model.combinations[c].terms;
    const auto machine = std::find(cases.begin(), cases.end(), terms.back().load_case);
    return Dropped{static_cast<std::size_t>(machine - cases.begin()), c, terms.size() - 1};
  }
  return std::nullopt;
}

/// With the machine or without, a bench that has no answer: what stands may tip when it is empty.
std::optional<std::size_t> refused_of(const Answers& answers, const Dropped& d) {
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const bool is_asked = c == d.combination || is_empty(answers.model.combinations[c]);
    if (is_asked && !state_of(answers.response, c)) return c;
  }
  return std::nullopt;
}

/// What the pads sink by under the weight, the feet and all: the mean, each by what it bears, as
/// that is what the weight works on. None without an answer.
std::optional<double> sag_under(const Answers& answers, const PlateAnswers& plates,
                                const Dropped& d) {
  double work = 0.0, weight = 0.0;
  const std::size_t load_case = answers.model.parts.machine_cases[d.machine];
  for (const model::PatchLoad& pad : answers.model.cases[load_case].patch_loads) {
    const std::vector<PlateAnswers::View> with = plates.of(pad.plate, is_drop);
    const std::vector<PlateAnswers::View> without = plates.of(pad.plate, is_empty);
    if (with.empty() || without.empty()) return std::nullopt;
    const double x = 0.5 * (pad.where.x0 + pad.where.x1);
    const double y = 0.5 * (pad.where.y0 + pad.where.y1);
    work -= pad.force[2] * (with.front().down(x, y) - without.front().down(x, y));
    weight -= pad.force[2];
  }
  if (!(weight > 0.0) || !(work > 0.0)) return std::nullopt;
  return work / weight;
}

/// Every strength divided by the partial factor of an accident.
reference::Tables accidental(const reference::Tables& tables) {
  reference::Tables changed = tables;
  const double gamma_M = tables.constant("gamma_M accidental").value;
  for (reference::MaterialFactors& material : changed.materials) material.gamma_M.value = gamma_M;
  for (reference::Constant& constant : changed.constants) {
    if (constant.key == "gamma_M connections") constant.value = gamma_M;
  }
  return changed;
}

/// The bench under its own weight and n times the machine's; not judged where that has no answer.
StrengthUnder strength_with(const Answers& answers, const Dropped& d, double n,
                            const reference::Tables& tables) {
  const solve::Response& at_rest = answers.response;
  solve::Loading loading = at_rest.loadings[d.combination];
  loading.terms[d.term].factor = n;
  const auto set = static_cast<std::size_t>(answers.model.combinations[d.combination].springs);
  // The other combinations keep their places, without an answer.
  solve::Response falling;
  falling.prepared = at_rest.prepared;
  falling.states.assign(at_rest.states.size(), tl::unexpected(solve::Refusal{}));
  falling.loadings.assign(at_rest.loadings.size(), {});
  falling.states[d.combination] = solve::respond(*at_rest.prepared[set], loading);
  falling.loadings[d.combination] = loading;
  return strength_under({answers.model, falling}, PlateAnswers(answers.model, falling, is_drop),
                        is_drop, accidental(tables));
}

Finding start_drop(const bench::Machine& machine, const reference::Tables& tables) {
  Finding f;
  f.id = id_of("drop", machine.name);
  f.group = Group::carry;
  f.kind = Kind::told;
  f.unit = quantity::Kind::ratio;
  f.place = machine.name;
  f.rule = "n = 1 + sqrt(1 + 2 h/d_st); EN 1995-1-1, Table 2.3, accidental";
  f.source = tables.constant("gamma_M accidental").source;
  f.why = "told, not judged: it is let down too fast once, and not by plan";
  return f;
}

/// Presses with n times its weight.
struct Impact {
  double height = 0.0, sag = 0.0, n = 0.0;
};

void tell_drop(Finding& f, const bench::Machine& machine, const Impact& p,
               const StrengthUnder& under, const Printer& print) {
  const char* how = is_too_heavy_for_one(machine) ? "with help or a hoist" : "gently";
  const double weight = in_si(machine.mass) * in_si(quantity::standard_gravity());
  const std::string pressing = fmt::format("by {} it presses with up to {} for a moment",
                                           print.length(p.height), print.force(p.n * weight));
  if (under.tips) {
    f.demand = f.ratio = std::numeric_limits<double>::infinity();
    f.limit = 1.0;
    f.judgement = Judgement::exceeded;
    f.sentence = fmt::format("Lower the {} {}: dropped {}, and the bench tips.", machine.name, how,
                             pressing);
  } else if (under.answered == 0) {
    leave_unjudged(f, under.refused);
    return;
  } else {
    judge_by_strength(f, under);
    f.sentence =
        f.judgement == Judgement::exceeded
            ? fmt::format("Lower the {} {}: dropped {}, and {}.", machine.name, how, pressing,
                          goes_on(under.sentence))
            : fmt::format(
                  "The bench stands the {} let down too fast: dropped {}, {} what it stands{}.",
                  machine.name, pressing, share_of(under.ratio), under.as_far());
  }
  settle_test(f);
  f.advice.clear();
  f.working.push_back(fmt::format("d_st = {}, h = {}, n = {:.2f}", print.length(p.sag),
                                  print.length(p.height), p.n));
}

}  // namespace

std::vector<Finding> drop(const Answers& answers, const PlateAnswers& plates,
                          const reference::Tables& tables) {
  const std::optional<Dropped> d = dropped(answers.model);
  if (!answers.at_mean || !d) return {};
  const bench::Bench& bench = answers.model.parts.bench;
  const bench::Machine& machine = bench.machines.at(d->machine);
  const Printer print(bench);
  const double height = tables.constant("drop height").value;
  Finding f = start_drop(machine, tables);
  f.sentence = fmt::format("What the {} does if it is let down {} too fast is not known.",
                           machine.name, print.length(height));
  if (const std::optional<std::size_t> refused = refused_of(answers, *d)) {
    leave_unjudged(f, refusal_of(answers.response, *refused));
    return {f};
  }
  const std::optional<double> sag = sag_under(answers, plates, *d);
  if (!sag) {
    leave_unjudged(f, "what it sinks by at rest is known of sheets as plates alone");
    return {f};
  }
  const double n = drop_factor(height, *sag);
  tell_drop(f, machine, {height, *sag, n}, strength_with(answers, *d, n, tables), print);
  return {f};
}

}  // namespace standtrue::check
