#include <fmt/format.h>

#include <cmath>

#include "check/each_part.hpp"
#include "check/laps.hpp"
#include "check/worst.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

Stress shear_stress(Shears V, Length width, Length depth, double k_cr,
                    const reference::Tables& tables) {
  expects(width > Length{} && depth > Length{} && k_cr > 0.0,
          "shear_stress: sides and k_cr must be positive");
  const Force resultant = quantity::newtons(std::hypot(in_si(V.y), in_si(V.z)));
  return tables.constant("shear rectangle").value * resultant / (k_cr * width * depth);
}

namespace {

Finding shear_of(const Answers& answers, const SectionForces& forces, const model::Part& part,
                 const reference::Tables& tables) {
  Finding finding =
      about(part, "shear", "EN 1995-1-1, 6.1.7, eq. (6.13)", source_of(part, "f_v_k"));
  finding.sentence = fmt::format("Whether the {} stands its shear is not judged.", part.name);
  // The factor is looked up once, not at every cut.
  const Stress per_newton = shear_stress({Force{}, quantity::newtons(1.0)}, part.width, part.depth,
                                         tables.material(part.timber.material).k_cr.value, tables);
  const Laps laps(answers.model, part);
  const auto stress = [&](const model::Member& member, const Station& s) {
    const Stress whole = std::hypot(in_si(s.V_y), in_si(s.V_z)) * per_newton;
    return laps.none() ? whole : over_left(whole, part, laps.left(member, s));
  };
  const OrWhy<std::optional<Worst>> worst =
      worst_of(answers, forces, part, tables,
               [&](const model::Member& member, const Station& s, const Strengths& f) -> double {
                 return stress(member, s) / f.f_v;
               });
  if (!tell_worst(finding, answers, part, worst)) return finding;
  const Strengths& f = (*worst)->f;
  const model::Member& member = answers.model.members.at((*worst)->member);
  const Stress tau = stress(member, (*worst)->station);
  finding.unit = quantity::Kind::stress;
  finding.demand = in_si(tau);
  finding.limit = in_si(f.f_v);
  finding.working.push_back(fmt::format(
      "tau = 1.5 V/(k_cr b h), k_cr = {}, V of both directions: {}", f.k_cr, shown(tau)));
  finding.working.push_back(fmt::format("f_v,d = k_mod f_v,k/gamma_M = {} x {} / {} = {}", f.k_mod,
                                        shown(part.timber.f_v_k), f.gamma_M, shown(f.f_v)));
  const bool is_cut = tell_left(finding, part, laps.left(member, (*worst)->station));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence =
      fmt::format("The {} is sheared to {} its strength.", part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = is_cut ? cure_of_laps(part)
                            : fmt::format("a larger section for the {}, or less on it", part.name);
  }
  return finding;
}

}  // namespace

std::vector<Finding> shear(const Answers& answers, const SectionForces& forces,
                           const reference::Tables& tables) {
  return each_part(answers, is_timber_member, [&](const model::Part& part, model::PartId) {
    return shear_of(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
