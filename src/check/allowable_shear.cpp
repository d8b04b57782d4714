#include <fmt/format.h>

#include <cmath>

#include "check/allowable_worst.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// What shear and twist differ in.
struct ShearWords {
  const char* id;
  const char* rule;
  const char* stands;  ///< "its shear"
  const char* how;     ///< "sheared"
  std::string formula;
};

/// `stress(station)` against F_v'.
template <class StressOf>
Finding sheared(const Answers& answers, const SectionForces& forces, const model::Part& part,
                const reference::Tables& tables, const ShearWords& what, StressOf stress) {
  Finding finding = about(part, what.id, what.rule, source_of(part, "F_v"));
  finding.sentence = fmt::format("Whether the {} stands {} is not judged.", part.name, what.stands);
  const auto air = answers.model.parts.bench.air.service_class;
  const OrWhy<CutAgainst<Adjusted>> worst = worst_cut<Adjusted>(
      answers, forces, part,
      [&](reference::Duration duration) { return adjusted_values(part, air, duration, tables); },
      [&](const model::Member&, const Station& s, const Adjusted& F) -> OrWhy<double> {
        return stress(s) / F.F_v;
      });
  if (!worst) {
    leave_without_values(finding, part, worst.error(), tables);
    return finding;
  }
  const Adjusted& F = worst->values;
  tell_cut(finding, answers, part, worst->cut, F.C_D);
  const Stress f_v = stress(worst->cut.station);
  finding.unit = quantity::Kind::stress;
  finding.demand = in_si(f_v);
  finding.limit = in_si(F.F_v);
  finding.working.push_back(fmt::format("{}: {}", what.formula, shown(f_v)));
  finding.working.push_back(value_line("F_v'", part.timber.allowable->F_v,
                                       {{"C_D", F.C_D}, {"C_M", F.C_M.shear}}, F.F_v));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is {} to {} what its grade allows.", part.name, what.how,
                                 share_of(finding.ratio));
  return finding;
}

}  // namespace

std::vector<Finding> allowable_shear(const Answers& answers, const SectionForces& forces,
                                     const reference::Tables& tables) {
  std::vector<Finding> findings;
  const ShearWords what{"shear", "NDS 2018, 3.4.2, eq. (3.4-2)", "its shear", "sheared",
                        "f_v = 3 V/(2 b d), V of both directions"};
  for (const model::Part& part : answers.model.parts.parts) {
    if (!is_timber_member(part)) continue;
    const Stress per_newton = shear_stress({Force{}, quantity::newtons(1.0)}, part.width,
                                           part.depth, 1.0, tables);  // no share for cracks
    Finding finding = sheared(answers, forces, part, tables, what, [per_newton](const Station& s) {
      return std::hypot(in_si(s.V_y), in_si(s.V_z)) * per_newton;
    });
    if (finding.judgement == Judgement::exceeded) {
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
    const model::Section section = model::rectangle(part.width, part.depth);
    const Stress per_newton_metre =
        torsion_stress(quantity::newton_metres(1.0), section.J, part.width, part.depth);
    const ShearWords what{
        "torsion", "Wood Handbook, chapter 9, against F_v': the NDS has no rule for twist (ours)",
        "its twist", "twisted",
        fmt::format("f_s = (T/J) b [1 - 8/pi^2 sum 1/(n^2 cosh(n pi d/2b))], J = {}",
                    quantity::print(in_si(section.J), quantity::Kind::second_moment))};
    Finding finding = sheared(
        answers, forces, part, tables, what,
        [per_newton_metre](const Station& s) { return std::abs(in_si(s.T)) * per_newton_metre; });
    if (finding.judgement == Judgement::exceeded) {
      finding.advice =
          fmt::format("load the {} over its middle line, or a squarer section", part.name);
    }
    findings.push_back(std::move(finding));
  }
  return findings;
}

}  // namespace standtrue::check
