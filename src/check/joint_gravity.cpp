#include <fmt/format.h>

#include <cmath>
#include <limits>
#include <optional>

#include "check/answered.hpp"
#include "check/joint_strength.hpp"
#include "check/section_forces.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/joints.hpp"

namespace standtrue::check {

namespace {

constexpr double nan = std::numeric_limits<double>::quiet_NaN();

Shares without_bending(Shares forces) {
  forces[Component::top] = forces[Component::bottom] = 0.0;
  return forces;
}

/// What the joint can not be judged for, among these forces; empty if nothing.
std::string unknown_in(const JointStrength& joint, const Shares& forces) {
  if (!joint.why.empty()) return joint.why;
  const bool bends = forces[Component::top] != 0.0 || forces[Component::bottom] != 0.0;
  if (bends && !joint.why_bending.empty()) return joint.why_bending;
  if (joint.pulls.times(forces) != 0.0) return joint.why_pull;
  return {};
}

struct Judging {
  const Answers& answers;
  const reference::Tables& tables;
  JointFactors factors;
};

JointRatio joint_ratio(const Judging& judging, const JointStrength& joint, std::size_t rail_end,
                       std::size_t combination) {
  const model::Model& model = judging.answers.model;
  JointRatio found;
  found.rail_end = rail_end;
  found.combination = combination;
  const solve::State* state = state_of(judging.answers.response, combination);
  if (state == nullptr) {
    found.ratio = found.force = nan;
    found.why = refusal_of(judging.answers.response, combination);
    return found;
  }
  const OrWhy<double> k = joint_k_mod(joint, model.parts.bench.air.service_class,
                                      model.combinations[combination].duration, judging.tables);
  const Shares forces = end_forces(model.parts.rail_ends[rail_end], *state);
  const auto judged = [&](const Shares& some) -> ModeRatio {
    found.why = k ? unknown_in(joint, some) : k.error();
    if (!found.why.empty()) return {nan, false, {}};
    return worst_mode(joint, some, *k, judging.factors);
  };
  const ModeRatio force = judged(without_bending(forces));
  const std::string why_force = found.why;
  const ModeRatio all = judged(forces);
  const bool shoved = is_shove(model.combinations[combination]);
  if (shoved) found.why = why_force;
  found.force = force.ratio;
  found.ratio = all.ratio;
  found.ductile = all.ductile;
  found.mode = (shoved ? force : all).name;
  return found;
}

/// The ratio that is judged: under a shove bending is shared out and judged as a sum.
double judged_ratio(const JointRatio& r, const model::Combination& combination) {
  return is_shove(combination) ? r.force : r.ratio;
}

void tell_joint(Finding& finding, const Answers& answers, const JointStrength& joint,
                const JointRatio& worst) {
  const model::Combination& combination = answers.model.combinations[worst.combination];
  const model::RailEnd& end = answers.model.parts.rail_ends[worst.rail_end];
  finding.combination = combination.name;
  using enum Component;
  const Shares f = end_forces(end, *answers.response.states[worst.combination]);
  const auto N = [](double v) { return shown(quantity::newtons(v)); };
  const auto M = [](double v) { return shown(quantity::newton_metres(v)); };
  finding.working.push_back(
      fmt::format("{}: pull {}, push {}, sideways {}, down {}, up {}; twist {}, bending {} (top "
                  "pulled) {} (bottom pulled), flat {}",
                  combination.title, N(f[pull]), N(f[push]), N(f[sideways]), N(f[down]), N(f[up]),
                  M(f[twist]), M(f[top]), M(f[bottom]), M(f[flat])));
  for (const std::string& line : joint.working) finding.working.push_back(line);
  if (!worst.mode.empty()) {
    finding.working.push_back(fmt::format("worst mode: {}: {:.3f}", worst.mode, finding.ratio));
  }
}

/// The worst over the combinations; none where none was answered.
std::optional<JointRatio> worst_ratio(const Judging& judging, const JointStrength& joint,
                                      const SectionForces& forces, std::size_t rail_end) {
  std::optional<JointRatio> worst;
  double most = -1.0;
  for (const std::size_t c : forces.combinations()) {
    const JointRatio r = joint_ratio(judging, joint, rail_end, c);
    const double ratio = judged_ratio(r, judging.answers.model.combinations[c]);
    if (!is_worse(ratio, most)) continue;
    worst = r;
    most = ratio;
    if (!(ratio >= 0.0)) break;
  }
  return worst;
}

std::string joint_sentence(const model::RailEnd& end, double ratio) {
  if (!end.released) {
    return fmt::format("The joint of the {}, is loaded to {} its strength.", end.name,
                       share_of(ratio));
  }
  return fmt::format(
      "The bracket of the {}, yields: the rail is taken as resting on its ends only. What is left "
      "of "
      "the joint is loaded to {} its strength.",
      end.name, share_of(ratio));
}

Finding joint_finding(const Judging& judging, const SectionForces& forces, std::size_t rail_end) {
  const Answers& answers = judging.answers;
  const model::RailEnd& end = answers.model.parts.rail_ends[rail_end];
  const JointStrength joint = joint_strength(answers.model, end, judging.tables);
  Finding finding;
  finding.id = id_of("joint", end.name);
  finding.group = Group::joints;
  finding.kind = Kind::safety;
  finding.place = end.name;
  finding.rule =
      "EN 1995-1-1, 8.1 to 8.7, eq. (8.4), (8.6), (8.9), (8.10), (8.28), (8.38) to (8.41)";
  finding.source = judging.tables.constant("gamma_M connections").source;
  finding.unit = quantity::Kind::ratio;
  finding.limit = 1.0;
  finding.advice = joint.advice;
  finding.sentence = fmt::format("Whether the joint of the {}, holds is not judged.", end.name);
  const std::optional<JointRatio> worst = worst_ratio(judging, joint, forces, rail_end);
  if (!worst) {
    leave_unjudged(finding, "no combination of loads was answered");
    return finding;
  }
  const double ratio = judged_ratio(*worst, answers.model.combinations[worst->combination]);
  finding.ratio = ratio;
  finding.judgement = judge(ratio);
  finding.demand = ratio;
  if (finding.judgement != Judgement::not_judged && !answers.words) return finding;
  tell_joint(finding, answers, joint, *worst);
  if (finding.judgement == Judgement::not_judged) {
    leave_unjudged(finding, worst->why.empty() ? "the forces are not numbers" : worst->why);
    return finding;
  }
  finding.sentence = joint_sentence(end, ratio);
  if (finding.judgement == Judgement::satisfied) {
    finding.advice.clear();
  } else if (finding.judgement == Judgement::exceeded && finding.advice.empty()) {
    finding.advice = worst->mode == bracket_plate_mode
                         ? "a bracket of thicker steel, or a diagonal that takes the bending off it"
                         : "more or longer screws, a second bracket, or a seat under the rail";
  }
  return finding;
}

}  // namespace

std::vector<Finding> joints_under_gravity(const Answers& answers, const SectionForces& forces,
                                          const reference::Tables& tables) {
  const Judging judging{answers, tables, joint_factors(tables)};
  std::vector<Finding> findings;
  for (std::size_t e = 0; e < answers.model.parts.rail_ends.size(); ++e) {
    // A pin on a seat needs no fastener to carry.
    const model::RailEnd& end = answers.model.parts.rail_ends[e];
    const bool rests = answers.model.parts.parts[end.rail].bearing > Length{};
    if (rests && end.joint.kind.fastening == reference::Fastening::none) continue;
    findings.push_back(joint_finding(judging, forces, e));
  }
  return findings;
}

std::vector<JointRatio> joint_ratios(const Answers& answers, std::size_t combination,
                                     const reference::Tables& tables) {
  const Judging judging{answers, tables, joint_factors(tables)};
  std::vector<JointRatio> ratios;
  for (std::size_t e = 0; e < answers.model.parts.rail_ends.size(); ++e) {
    const JointStrength joint =
        joint_strength(answers.model, answers.model.parts.rail_ends[e], tables);
    ratios.push_back(joint_ratio(judging, joint, e, combination));
  }
  return ratios;
}

std::vector<std::string> overloaded_ductile_joints(const Answers& answers,
                                                   const reference::Tables& tables) {
  const Judging judging{answers, tables, joint_factors(tables)};
  std::vector<std::string> names;
  const std::vector<model::Combination>& combinations = answers.model.combinations;
  for (std::size_t e = 0; e < answers.model.parts.rail_ends.size(); ++e) {
    const model::RailEnd& end = answers.model.parts.rail_ends[e];
    const JointStrength joint = joint_strength(answers.model, end, tables);
    for (std::size_t c = 0; c < combinations.size(); ++c) {
      const bool is_judged = combinations[c].purpose == model::Purpose::strength ||
                             combinations[c].purpose == model::Purpose::as_given;
      if (!is_judged || is_shove(combinations[c])) continue;
      const JointRatio r = joint_ratio(judging, joint, e, c);
      if (!(r.ratio > 1.0) || !r.ductile || !(r.force <= 1.0)) continue;
      names.push_back(end.name);
      break;
    }
  }
  return names;
}

}  // namespace standtrue::check
