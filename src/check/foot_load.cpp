// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/is_worse.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// What the feet press with under one loading with factors of one.
struct Pressing {
  std::string loading;
  std::vector<double> force;  ///< per foot
  model::Leading leading = model::Leading::stand;
  [[nodiscard]] double total() const {
    double sum = 0.0;
    for (const double f : force) sum += f;
    return sum;
  }
};

Pressing pressing(const model::Parts& parts, const solve::State& state, std::string loading) {
  Pressing p{std::move(loading), {}};
  for (const model::FootPlace& foot : parts.feet) {
    p.force.push_back(state.support_forces.at(foot.down));
  }
  return p;
}

/// The loads of a strength combination that a standing person leads, with factors of one.
std::optional<Pressing> pressing_of_standing(const Answers& answers, std::size_t combination) {
  const model::Model& model = answers.model;
  const model::Combination& c = model.combinations[combination];
  const auto& prepared = answers.response.prepared[static_cast<std::size_t>(c.springs)];
  if (!c.place || !prepared) return std::nullopt;
  const model::PersonPlace& place = model.parts.persons.at(*c.place);
  solve::Loading loading;
  for (const model::Factored& term : c.terms) {
    // What a combination leaves out stays out.
    if (term.factor != 0.0) loading.terms.push_back({term.load_case, term.bare});
  }
  const solve::OrRefusal<solve::State> state = solve::respond(*prepared, loading);
  if (!state) return std::nullopt;
  return pressing(model.parts, *state, "somebody stands: " + place.name);
}

std::vector<Pressing> all_pressing(const Answers& answers) {
  std::vector<Pressing> all;
  const auto& combinations = answers.model.combinations;
  for (std::size_t c = 0; c < combinations.size(); ++c) {
    if (combinations[c].purpose == model::Purpose::service) {
      if (const solve::State* state = state_of(answers.response, c)) {
        all.push_back(pressing(answers.model.parts, *state, combinations[c].name));
        all.back().leading = combinations[c].leading;
      }
    } else if (combinations[c].purpose == model::Purpose::strength &&
               combinations[c].leading == model::Leading::stand) {
      if (std::optional<Pressing> p = pressing_of_standing(answers, c)) {
        all.push_back(std::move(*p));
      }
    }
  }
  return all;
}

/// The foot whose load is the largest share of its limit.
struct WorstFoot {
  std::size_t foot = 0;
  double force = 0.0, limit = 0.0;
  std::string loading;
};

std::optional<WorstFoot> worst_foot(const std::vector<Pressing>& all,
                                    const std::vector<std::optional<double>>& limits) {
  std::optional<WorstFoot> worst;
  for (const Pressing& p : all) {
    for (std::size_t i = 0; i < p.force.size(); ++i) {
      if (!limits[i]) continue;
      if (!worst || is_worse(p.force[i] / *limits[i], worst->force / worst->limit)) {
        worst = WorstFoot{i, p.force[i], *limits[i], p.loading};
      }
    }
  }
  return worst;
}

/// Rubber pads go by the rating of plastic ones; a timber pad or a bare post has none of its own.
std::optional<double> rating(const bench::Foot& foot) {
  if (foot.castor) return in_si(foot.castor->rating);
  if (foot.bare) return std::nullopt;
  switch (foot.material) {
    case reference::FootMaterial::steel:
      return in_si(foot.thread.steel_rating);
    case reference::FootMaterial::rubber:
    case reference::FootMaterial::plastic:
      return in_si(foot.thread.plastic_rating);
    case reference::FootMaterial::timber:
      break;
  }
  return std::nullopt;
}

double heaviest(const std::vector<Pressing>& all) {
  double most = 0.0;
  for (const Pressing& p : all) most = std::max(most, p.total());
  return most;
}

void tell_foot_shares(Finding& f, const model::Parts& parts, const std::vector<Pressing>& all,
                      const Printer& print) {
  // With nobody about; with what is stored, where anything is.
  const auto led_by = [&](model::Leading leading) {
    return std::find_if(all.begin(), all.end(),
                        [leading](const Pressing& p) { return p.leading == leading; });
  };
  auto rest = led_by(model::Leading::stored);
  if (rest == all.end()) rest = led_by(model::Leading::permanent);
  if (rest == all.end()) return;
  for (std::size_t i = 0; i < parts.feet.size(); ++i) {
    double most = 0.0;
    for (const Pressing& p : all) most = std::max(most, p.force[i]);
    const double share = rest->force[i] / std::max(1e-6, rest->total());
    f.working.push_back(fmt::format("{}: {} at rest ({:.0f} % of everything), {} at most",
                                    parts.feet[i].name, print.as_mass(rest->force[i]),
                                    100.0 * share, print.as_mass(most)));
  }
}

struct Against {
  const char* id;
  const char* what;  ///< "its rating"
  std::vector<std::optional<double>> limits;
  reference::Source source;
  const char* advice;
};

Finding judge_feet(const Answers& answers, const std::vector<Pressing>& all, const Against& against,
                   const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  const Printer print(parts.bench);
  const double half = tables.limits.one_foot_share.value * heaviest(all);
  WorstFoot worst = *worst_foot(all, against.limits);
  if (!parts.bench.floor.levelled && half > worst.force) {
    worst.force = half;
    worst.loading = "half of everything on one foot: the feet are not levelled";
  }
  Finding f;
  f.id = against.id;
  f.group = Group::feet;
  f.kind = Kind::safety;
  f.unit = quantity::Kind::force;
  f.rule = "working load of one foot, factors of one";
  f.source = against.source;
  judge_against(f, worst.force, worst.limit);
  if (!answers.words) return f;
  f.place = parts.feet[worst.foot].name;
  f.combination = worst.loading;
  f.hand_check = Finding::HandCheck{"half of everything on one foot", half};
  f.sentence = fmt::format(
      "The {} carries up to {} ({}); {} is {} ({}).", f.place,
      beside(print.as_mass(worst.limit), print.as_mass(worst.force), f.judgement),
      print.force(worst.force), against.what, print.as_mass(worst.limit), print.force(worst.limit));
  tell_foot_shares(f, parts, all, print);
  if (f.judgement == Judgement::exceeded) f.advice = against.advice;
  return f;
}

Finding no_answer(const Answers& answers, const reference::Source& source) {
  Finding f;
  f.id = "foot/rating";
  f.group = Group::feet;
  f.rule = "working load of one foot, factors of one";
  f.source = source;
  f.place = "the feet";
  f.sentence = "What the feet carry is not judged.";
  std::string why = "there are no loads of use";
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    if (answers.model.combinations[c].purpose == model::Purpose::service) {
      why = refusal_of(answers.response, c);
    }
  }
  leave_unjudged(f, why);
  return f;
}

}  // namespace

std::vector<Finding> foot_load(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  if (parts.feet.empty()) return {};
  const reference::Floor& floor = parts.bench.floor.surface;
  const std::vector<Pressing> all = all_pressing(answers);
  if (all.empty()) return {no_answer(answers, floor.source.of("foot_load"))};
  Against ratings{"foot/rating", "its rating", {}, {}, "larger feet, or one more post"};
  Against ground{"foot/floor",
                 "what that floor may carry in one place",
                 {},
                 floor.source.of("foot_load"),
                 "a board under the foot that spreads its load"};
  for (const model::FootPlace& place : parts.feet) {
    const bench::Foot& foot = parts.bench.posts.at(place.post).foot;
    ratings.limits.push_back(rating(foot));
    if (ratings.limits.back()) {
      const bool steel = foot.material == reference::FootMaterial::steel;
      ratings.source = foot.castor
                           ? foot.castor->source.of("rating")
                           : foot.thread.source.of(steel ? "steel_rating" : "plastic_rating");
      if (foot.castor) ratings.advice = "larger castors, or feet that take the weight off them";
    }
    ground.limits.push_back(in_si(floor.foot_load));
  }
  std::vector<Finding> findings;
  if (worst_foot(all, ratings.limits)) {
    findings.push_back(judge_feet(answers, all, ratings, tables));
  }
  findings.push_back(judge_feet(answers, all, ground, tables));
  return findings;
}

}  // namespace standtrue::check
