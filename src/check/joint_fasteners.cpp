#include <fmt/format.h>

#include "check/answered.hpp"
#include "check/joint_strength.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/joints.hpp"

namespace standtrue::check {

namespace {

/// One finding per rail end that has fasteners: they may sit where they do, or the strength of the
/// joint is not judged and this says what to change.
Finding fastener_finding(const Answers& answers, const model::RailEnd& end,
                         const reference::Tables& tables) {
  const JointStrength joint = joint_strength(answers.model, end, tables);
  Finding finding;
  finding.id = id_of("fasteners", end.name);
  finding.group = Group::joints;
  finding.kind = Kind::safety;
  finding.place = end.name;
  finding.rule = "EN 1995-1-1, Tables 8.2, 8.4 and 8.6; 8.3.1.2, 8.7.2";
  finding.source = tables.spacing_rule("screws, predrilled").source.whole;
  finding.unit = quantity::Kind::ratio;
  finding.limit = 1.0;
  finding.working = joint.working;
  finding.advice = joint.advice;
  if (!joint.why.empty()) {
    finding.sentence = fmt::format("The fasteners of the {}, do not sit as they should.", end.name);
    leave_unjudged(finding, joint.why);
    return finding;
  }
  finding.ratio = finding.demand = 0.0;
  finding.judgement = judge(finding.ratio);
  finding.sentence = fmt::format(
      "The fasteners of the {}, that are counted keep their distances to ends and edges.",
      end.name);
  return finding;
}

/// Fasteners to look at, whose strength the file does not give.
bool has_fasteners(const model::RailEnd& end) {
  if (end.joint.moment_resistance && end.joint.shear_resistance) return false;
  return end.joint.kind.fastening != reference::Fastening::none &&
         end.joint.kind.fastening != reference::Fastening::glue;
}

}  // namespace

std::vector<Finding> joint_fasteners(const Answers& answers, const SectionForces&,
                                     const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::RailEnd& end : answers.model.parts.rail_ends) {
    if (has_fasteners(end)) findings.push_back(fastener_finding(answers, end, tables));
  }
  return findings;
}

}  // namespace standtrue::check
