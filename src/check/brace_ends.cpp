// Doubles in SI where they come from the solver.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "check/answered.hpp"
#include "check/brace_end.hpp"
#include "check/joint_strength.hpp"
#include "check/section_forces.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/joints.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

struct WorstAtEnd {
  double ratio = -1.0;
  double N = 0.0;  ///< tension positive
  std::size_t combination = 0;
  double k_mod = 0.0;
  std::string mode, why;
};

/// Pull (positive) or push of the brace at this end.
double axial_force(const model::BraceEnd& end, const solve::State& state) {
  const std::array<double, 12>& f = state.end_forces.at(end.member);
  return end.at_end ? f[6] : -f[0];
}

WorstAtEnd ratio_under(const BraceEndStrength& strength, double N, double k_mod,
                       const JointFactors& factors) {
  WorstAtEnd found;
  found.N = N;
  found.k_mod = k_mod;
  found.ratio = 0.0;
  const Way& way = N > 0.0 ? strength.pulled : strength.pushed;
  // A brace that nothing loads asks for nothing; below a newton the solver's rounding speaks.
  if (std::abs(N) < 1.0) return found;
  if (!way.why.empty()) {
    found.ratio = std::numeric_limits<double>::quiet_NaN();
    found.why = way.why;
    return found;
  }
  for (const Mode& mode : way.modes) {
    const Force R_d =
        design_value(mode.R_k, k_mod, mode.gamma_M > 0.0 ? mode.gamma_M : factors.gamma_M);
    const double ratio = std::abs(N) / in_si(R_d);
    if (!is_worse(ratio, found.ratio)) continue;
    found.ratio = ratio;
    found.mode = mode.name;
  }
  return found;
}

/// What can be judged is not hidden by what can not: the reason stands only where nothing exceeds.
WorstAtEnd worst_under(const Answers& answers, const SectionForces& forces,
                       const model::BraceEnd& end, const BraceEndStrength& strength,
                       const reference::Tables& tables) {
  const JointFactors factors = joint_factors(tables);
  const model::Parts& parts = answers.model.parts;
  WorstAtEnd worst;
  std::optional<WorstAtEnd> unknown;
  for (const std::size_t c : forces.combinations()) {
    JointStrength both;
    both.rail = parts.parts[end.brace].timber.material;
    both.other = parts.parts[end.onto].timber.material;
    const OrWhy<double> k = joint_k_mod(both, parts.bench.air.service_class,
                                        answers.model.combinations[c].duration, tables);
    const double N = axial_force(end, *answers.response.states[c]);
    WorstAtEnd found;
    if (k) {
      found = ratio_under(strength, N, *k, factors);
    } else {
      found.ratio = std::numeric_limits<double>::quiet_NaN();
      found.why = k.error();
    }
    found.combination = c;
    if (!(found.ratio >= 0.0)) {
      if (!unknown || std::abs(N) > std::abs(unknown->N)) unknown = found;
    } else if (is_worse(found.ratio, worst.ratio)) {
      worst = found;
    }
  }
  return unknown && worst.ratio <= 1.0 ? *unknown : worst;
}

Finding brace_end_finding(const Answers& answers, const SectionForces& forces,
                          const model::BraceEnd& end, const reference::Tables& tables) {
  const model::Part& onto = answers.model.parts.parts[end.onto];
  Finding finding;
  finding.id = id_of("brace-end", end.name);
  finding.group = Group::joints;
  finding.kind = Kind::safety;
  finding.place = end.name;
  finding.rule = "EN 1995-1-1, 6.2.2, 8.1.4 and 8.5.1, eq. (6.16), (8.4), (8.6) and (8.34)";
  finding.source = tables.constant("gamma_M connections").source;
  finding.unit = quantity::Kind::force;
  finding.sentence = fmt::format("Whether the {}, holds is not judged.", end.name);
  const BraceEndStrength strength = brace_end_strength(answers.model, end, tables);
  finding.advice = strength.advice;
  const WorstAtEnd worst = worst_under(answers, forces, end, strength, tables);
  if (worst.ratio < 0.0) {
    leave_unjudged(finding, "no combination of loads was answered");
    return finding;
  }
  const model::Combination& combination = answers.model.combinations[worst.combination];
  finding.combination = combination.name;
  finding.ratio = worst.ratio;
  finding.judgement = judge(worst.ratio);
  finding.demand = std::abs(worst.N);
  if (finding.judgement != Judgement::not_judged && !answers.words) return finding;
  finding.working.push_back(fmt::format("{}; {} loads: k_mod = {:.3g}; {} {}", combination.title,
                                        reference::to_text(combination.duration), worst.k_mod,
                                        worst.N > 0.0 ? "pulled" : "pushed",
                                        shown(quantity::newtons(std::abs(worst.N)))));
  finding.working.insert(finding.working.end(), strength.working.begin(), strength.working.end());
  if (finding.judgement == Judgement::not_judged) {
    leave_unjudged(finding, worst.why.empty() ? "the forces are not numbers" : worst.why);
    return finding;
  }
  if (worst.ratio > 0.0) {
    finding.limit = finding.demand / worst.ratio;
    finding.working.push_back(
        fmt::format("worst: {}: R_d = {}", worst.mode, shown(quantity::newtons(finding.limit))));
  }
  finding.sentence = fmt::format("The fastening of the {}, to the {} is loaded to {} its strength.",
                                 end.name, onto.name, share_of(worst.ratio));
  if (finding.judgement == Judgement::exceeded && finding.advice.empty()) {
    finding.advice = "another bolt, thicker bolts, or a second brace";
  }
  return finding;
}

}  // namespace

std::vector<Finding> brace_ends(const Answers& answers, const SectionForces& forces,
                                const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::BraceEnd& end : answers.model.parts.brace_ends) {
    findings.push_back(brace_end_finding(answers, forces, end, tables));
  }
  return findings;
}

}  // namespace standtrue::check
