#include <fmt/format.h>

#include <cmath>

#include "check/allowable_worst.hpp"
#include "check/laps.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// What shear and twist differ in.
struct ShearWords {
  const char* id;
  const char* rule;
  const char* stands;  ///< "its shear"
  const char* how;     ///< "sheared"
  std::string (*formula)(const model::Part& there);
};

/// `stress(station, part with the sides that it has there)` against F_v'.
template <class StressOf>
Finding sheared(const Answers& answers, const SectionForces& forces, const model::Part& part,
                const reference::Tables& tables, const ShearWords& what, StressOf stress) {
  Finding finding = about(part, what.id, what.rule, source_of(part, "F_v"));
  finding.sentence = fmt::format("Whether the {} stands {} is not judged.", part.name, what.stands);
  const auto air = answers.model.parts.bench.air.service_class;
  const Laps laps(answers.model, part);
  const auto stress_at = [&](const model::Member& member, const Station& s) -> Stress {
    return laps.none() ? stress(s, part) : stress(s, laps.left(member, s));
  };
  const OrWhy<CutAgainst<Adjusted>> worst = worst_cut<Adjusted>(
      answers, forces, part,
      [&](reference::Duration duration) { return adjusted_values(part, air, duration, tables); },
      [&](const model::Member& member, const Station& s, const Adjusted& F) -> OrWhy<double> {
        return stress_at(member, s) / F.F_v;
      });
  if (!worst) {
    leave_without_values(finding, part, worst.error(), tables);
    return finding;
  }
  const Adjusted& F = worst->values;
  tell_cut(finding, answers, part, worst->cut, F.C_D);
  const model::Member& member = answers.model.members.at(worst->cut.member);
  const model::Part there = laps.left(member, worst->cut.station);
  const Stress f_v = stress(worst->cut.station, there);
  finding.unit = quantity::Kind::stress;
  finding.demand = in_si(f_v);
  finding.limit = in_si(F.F_v);
  finding.working.push_back(fmt::format("{}: {}", what.formula(there), shown(f_v)));
  finding.working.push_back(value_line("F_v'", part.timber.allowable->F_v,
                                       {{"C_D", F.C_D}, {"C_M", F.C_M.shear}}, F.F_v));
  const bool is_cut = tell_left(finding, part, there);
  if (is_cut && finding.judgement == Judgement::exceeded) finding.advice = cure_of_laps(part);
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is {} to {} what its grade allows.", part.name, what.how,
                                 share_of(finding.ratio));
  return finding;
}

/// Of a newton metre.
Stress twist_of(const model::Part& part) {
  const SecondMoment J = model::rectangle(part.width, part.depth).J;
  return torsion_stress(quantity::newton_metres(1.0), J, part.width, part.depth);
}

}  // namespace

std::vector<Finding> allowable_shear(const Answers& answers, const SectionForces& forces,
                                     const reference::Tables& tables) {
  std::vector<Finding> findings;
  const ShearWords what{
      "shear", "NDS 2018, 3.4.2, eq. (3.4-2)", "its shear", "sheared",
      [](const model::Part&) -> std::string { return "f_v = 3 V/(2 b d), V of both directions"; }};
  for (const model::Part& part : answers.model.parts.parts) {
    if (!is_timber_member(part)) continue;
    const Stress per_newton = shear_stress({Force{}, quantity::newtons(1.0)}, part.width,
                                           part.depth, 1.0, tables);  // no share for cracks
    Finding finding = sheared(
        answers, forces, part, tables, what, [&](const Station& s, const model::Part& there) {
          return over_left(std::hypot(in_si(s.V_y), in_si(s.V_z)) * per_newton, part, there);
        });
    if (finding.judgement == Judgement::exceeded && finding.advice.empty()) {
      finding.advice = fmt::format("a larger section for the {}, or less on it", part.name);
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

std::vector<Finding> allowable_torsion(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::Part& part : answers.model.parts.parts) {
    if (!is_timber_member(part)) continue;
    const Stress whole = twist_of(part);
    const ShearWords what{
        "torsion", "Wood Handbook, chapter 9, against F_v': the NDS has no rule for twist (ours)",
        "its twist", "twisted", [](const model::Part& there) {
          return fmt::format("f_s = (T/J) b [1 - 8/pi^2 sum 1/(n^2 cosh(n pi d/2b))], J = {}",
                             quantity::print(in_si(model::rectangle(there.width, there.depth).J),
                                             quantity::Kind::second_moment));
        }};
    Finding finding = sheared(
        answers, forces, part, tables, what, [&](const Station& s, const model::Part& there) {
          return std::abs(in_si(s.T)) * (is_less(there, part) ? twist_of(there) : whole);
        });
    if (finding.judgement == Judgement::exceeded && finding.advice.empty()) {
      finding.advice =
          fmt::format("load the {} over its middle line, or a squarer section", part.name);
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace standtrue::check
