// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "standtrue/check/feet.hpp"

namespace standtrue::check {

namespace {

/// Places in the terms of a combination of what leads it; none where that is the bench at rest.
std::vector<std::size_t> leading_terms(const model::Model& model, const solve::Loading& loading,
                                       const model::Combination& combination) {
  const model::Parts& parts = model.parts;
  const auto among = [](const std::vector<std::size_t>& cases, std::size_t c) {
    return std::find(cases.begin(), cases.end(), c) != cases.end();
  };
  const bool leans = combination.place && combination.leading == model::Leading::lean;
  const bool shoves = combination.place && combination.leading == model::Leading::shove;
  const bool by_stored = combination.leading == model::Leading::stored;
  std::vector<std::size_t> places;
  for (std::size_t t = 0; t < loading.terms.size(); ++t) {
    const std::size_t c = loading.terms[t].load_case;
    const bool leads =
        leans    ? c == parts.persons.at(*combination.place).load_case
        : shoves ? parts.shoves.at(*combination.place).is_case(c)
                 : by_stored && (among(parts.stored_cases, c) || among(parts.added_cases, c));
    if (leads) places.push_back(t);
  }
  return places;
}

struct Pressing {
  double share = 0.0, force = 0.0;
};

/// Where the line through both comes to nothing; infinite where it does not fall.
double lifts_at(const Pressing& a, const Pressing& b) {
  if (!(b.force < a.force)) return std::numeric_limits<double>::infinity();
  return b.share + b.force * (b.share - a.share) / (a.force - b.force);
}

/// The largest share of what leads the combination with which the foot still presses; none where it
/// is up without it, or where that is not known.
std::optional<double> presses_up_to(const Answers& answers, std::size_t c,
                                    const model::FootPlace& foot) {
  const model::Combination& combination = answers.model.combinations[c];
  const auto& prepared = answers.response.prepared[static_cast<std::size_t>(combination.springs)];
  if (!prepared || c >= answers.response.loadings.size()) return std::nullopt;
  const solve::Loading& whole = answers.response.loadings[c];
  const std::vector<std::size_t> leads = leading_terms(answers.model, whole, combination);
  const auto pressing = [&](double share) {
    solve::Loading part = whole;
    for (const std::size_t t : leads) part.terms[t].factor *= share;
    const solve::OrRefusal<solve::State> state = solve::respond(*prepared, part);
    return state && state->touching.at(foot.down) ? state->support_forces.at(foot.down) : 0.0;
  };
  Pressing first{0.0, leads.empty() ? 0.0 : pressing(0.0)};
  if (!(first.force > 0.0)) return std::nullopt;
  std::optional<Pressing> second;
  double up = 1.0;
  constexpr double enough = 1e-3;
  constexpr int aims = 6;  // then by halves: the force need not fall on a line
  // By halves, until two places where it presses show where it stops: then just before that, and
  // just after it.
  for (int i = 0; up - (second ? second->share : first.share) > enough; ++i) {
    const Pressing& last = second ? *second : first;
    double tried = 0.5 * (last.share + up);
    if (second && i < aims) {
      const double aim = lifts_at(first, *second) + (i % 2 == 0 ? 0.4 : -0.4) * enough;
      if (aim > last.share && aim < up) tried = aim;
    }
    const Pressing now{tried, pressing(tried)};
    if (!(now.force > 0.0)) {
      up = tried;
    } else {
      if (second) first = *second;
      second = now;
    }
  }
  return 0.5 * ((second ? second->share : first.share) + up);
}

/// "when somebody leans with 31 kg (front edge, middle)"
std::string when(const Answers& answers, std::size_t c, std::optional<double> share,
                 const Printer& print) {
  const model::Combination& combination = answers.model.combinations[c];
  if (!share) return "under " + combination.title;
  const solve::Loading& whole = answers.response.loadings[c];
  const std::vector<std::size_t> leads = leading_terms(answers.model, whole, combination);
  const double factor = std::abs(*share * whole.terms[leads.front()].factor);
  switch (combination.leading) {
    case model::Leading::lean:  // its case is 1 kN down
      return fmt::format("when somebody leans on it with {} ({})", print.as_mass(1e3 * factor),
                         answers.model.parts.persons.at(*combination.place).name);
    case model::Leading::shove:  // its case is 1 N
      return fmt::format("at a push of {} ({})", print.force(factor),
                         answers.model.parts.shoves.at(*combination.place).name);
    default:
      return fmt::format("with {:.0f} % of what is stored on it", 100.0 * *share);
  }
}

Finding lifts(const Answers& answers, const model::FootPlace& foot, std::size_t c,
              const reference::Tables& tables) {
  const Printer print(answers.model.parts.bench);
  const model::Combination& combination = answers.model.combinations[c];
  Finding f;
  f.id = id_of("foot-lifts", foot.name);
  f.group = Group::feet;
  f.kind = Kind::caution;
  f.judgement = Judgement::exceeded;
  f.rule = "contact of the feet with the floor";
  f.source = tables.limits.unevenness_levelled.source;
  f.place = foot.name;
  f.combination = combination.name;
  const bool rests = combination.leading == model::Leading::permanent;
  const std::optional<double> share = presses_up_to(answers, c, foot);
  f.sentence = rests ? fmt::format("The {} does not press on the floor at rest.", foot.name)
                     : fmt::format("The {} leaves the floor in use, {}.", foot.name,
                                   when(answers, c, share, print));
  f.why = "first under " + combination.name;
  if (share) f.why += fmt::format(", at {:.0f} % of its load", 100.0 * *share);
  f.advice = "set that foot down until all feet press, with the machines on";
  return f;
}

}  // namespace

std::vector<Finding> lifting_feet(const Answers& answers, const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::FootPlace& foot : answers.model.parts.feet) {
    for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
      const bool is_use = answers.model.combinations[c].purpose == model::Purpose::service;
      const solve::State* state = is_use ? state_of(answers.response, c) : nullptr;
      if (!state || state->touching.at(foot.down)) continue;
      findings.push_back(lifts(answers, foot, c, tables));
      break;
    }
  }
  return findings;
}

}  // namespace standtrue::check
