#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>
#include <vector>

#include "check/answered.hpp"
#include "check/joint_strength.hpp"
#include "check/section_forces.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/joints.hpp"

namespace standtrue::check {

namespace {

/// A joint whose bending holds the frame in the plane of the shove.
struct Holding {
  const model::RailEnd* end = nullptr;
  double turns = 1.0;  ///< -1 if the rail runs against x (or y), and so its bending axis
  JointStrength strength;
};

std::vector<Holding> holding(const model::Model& model, model::ShoveWay way,
                             const reference::Tables& tables) {
  std::vector<Holding> found;
  for (const model::RailEnd& end : model.parts.rail_ends) {
    if (model.parts.parts[end.onto].role != model::Role::post) continue;
    if (end.released || end.joint.kind.fastening == reference::Fastening::none) continue;
    const model::Direction runs = model::member_frame(model, model.members[end.member]).axes[0];
    const bool along = std::abs(runs.x) > std::abs(runs.y);
    if (along != (way == model::ShoveWay::along)) continue;
    const double turns = (along ? runs.x : runs.y) < 0.0 ? -1.0 : 1.0;
    found.push_back({&end, turns, joint_strength(model, end, tables)});
  }
  return found;
}

/// Joints share a shove only within their own upright plane: an end held by a diagonal can not
/// spend its joints on the other end. By the place of the rail's axis across its run, to the
/// centimetre.
std::vector<std::vector<Holding>> planes(const model::Model& model,
                                         const std::vector<Holding>& joints, model::ShoveWay way) {
  std::map<long, std::vector<Holding>> by_place;
  for (const Holding& joint : joints) {
    const model::Member& member = model.members[joint.end->member];
    const model::Point& node = model.nodes[member.start].at;
    const Length across = way == model::ShoveWay::along ? node.y + member.start_offset.y
                                                        : node.x + member.start_offset.x;
    by_place[std::lround(100.0 * quantity::in_si(across))].push_back(joint);
  }
  std::vector<std::vector<Holding>> result;
  for (auto& [place, held] : by_place) result.push_back(std::move(held));
  return result;
}

/// With their signs: what gravity puts into the two ends of a rail does not push the frame over.
double sway_moment(const std::vector<Holding>& joints, const solve::State& state) {
  double sum = 0.0;
  for (const Holding& joint : joints) {
    const std::size_t about_y = joint.end->at_end ? 10 : 4;
    sum += joint.turns * state.end_forces.at(joint.end->member)[about_y];
  }
  return sum;
}

/// The side in tension where a joint resists a sway moment of this sign.
Component sense_of(const Holding& joint, double moment) {
  const double on_rail_end = joint.turns * moment;
  return (on_rail_end > 0.0) == joint.end->at_end ? Component::top : Component::bottom;
}

struct Sum {
  double demand = 0.0, resistance = 0.0;
  std::size_t joints = 0;
  double worst_brittle = 0.0;  ///< of a single joint that would let go and not yield
  double worst_single = 0.0;
  const model::RailEnd* worst_end = nullptr;
  std::string mode;  ///< of the worst
  std::string why;   ///< why some joint was left out
  [[nodiscard]] double ratio() const {
    if (demand == 0.0) return worst_brittle;
    return std::max(demand / resistance, worst_brittle);  // without any resistance: infinite
  }
};

struct Circumstances {
  reference::ServiceClass air;
  reference::Duration duration;
  JointFactors factors;
};

Sum sum_of(const std::vector<Holding>& joints, const solve::State& state, const Circumstances& now,
           const reference::Tables& tables) {
  const double moment = sway_moment(joints, state);
  Sum sum;
  sum.demand = std::abs(moment);
  sum.joints = joints.size();
  for (const Holding& joint : joints) {
    const OrWhy<double> k = joint_k_mod(joint.strength, now.air, now.duration, tables);
    const std::string& unknown =
        joint.strength.why.empty() ? joint.strength.why_bending : joint.strength.why;
    const std::string& why = k ? unknown : k.error();
    if (!why.empty()) {
      if (sum.why.empty()) sum.why = fmt::format("{}: {}", joint.end->name, why);
      continue;
    }
    const auto resists = [&](Component sense) {
      return bending_resistance(joint.strength, sense, *k, now.factors);
    };
    sum.resistance += resists(sense_of(joint, moment)).moment;
    const Shares forces = end_forces(*joint.end, state);
    const Component bent = forces[Component::top] > 0.0 ? Component::top : Component::bottom;
    const Resistance alone = resists(bent);
    const double single = forces[bent] / alone.moment;
    if (!alone.ductile) sum.worst_brittle = std::max(sum.worst_brittle, single);
    if (single <= sum.worst_single) continue;
    sum.worst_single = single;
    sum.worst_end = joint.end;
    sum.mode = alone.name;
  }
  return sum;
}

/// The shove that the joints stand worst.
struct WorstShove {
  Sum sum;
  double ratio = -1.0;
  std::size_t combination = 0;
};

WorstShove worst_shove(const Answers& answers, const SectionForces& forces, model::ShoveWay way,
                       const std::vector<Holding>& joints, const reference::Tables& tables) {
  const model::Model& model = answers.model;
  const JointFactors factors = joint_factors(tables);
  const std::vector<std::vector<Holding>> held = planes(model, joints, way);
  WorstShove worst;
  for (const std::size_t c : forces.combinations()) {
    const model::Combination& combination = model.combinations[c];
    if (!is_shove(combination) || !combination.place) continue;
    if (model.parts.shoves.at(*combination.place).way != way) continue;
    for (const std::vector<Holding>& plane : held) {
      const Sum sum =
          sum_of(plane, *answers.response.states[c],
                 {model.parts.bench.air.service_class, combination.duration, factors}, tables);
      if (!is_worse(sum.ratio(), worst.ratio)) continue;
      worst = {sum, sum.ratio(), c};
      if (!(worst.ratio >= 0.0)) return worst;
    }
  }
  return worst;
}

void tell_sum(Finding& finding, const std::string& title, const Sum& sum) {
  finding.working.push_back(
      fmt::format("{}: |sum of M| of the {} joints of one plane, with signs = {}, sum of M_Rd = {}",
                  title, sum.joints, shown(quantity::newton_metres(sum.demand)),
                  shown(quantity::newton_metres(sum.resistance))));
  if (sum.worst_end != nullptr) {
    finding.working.push_back(fmt::format("worst single joint, {}: M/M_Rd = {:.2f} ({})",
                                          sum.worst_end->name, sum.worst_single, sum.mode));
  }
  if (sum.worst_brittle > 0.0) {
    finding.working.push_back(
        fmt::format("worst joint that would let go: {:.2f}", sum.worst_brittle));
  }
  if (!sum.why.empty()) {
    finding.working.push_back(fmt::format("left out of the resistances: {}", sum.why));
  }
}

Finding shove_finding(const Answers& answers, const SectionForces& forces, model::ShoveWay way,
                      const std::vector<Holding>& joints, const reference::Tables& tables) {
  const model::Model& model = answers.model;
  const char* word = way == model::ShoveWay::along ? "along" : "across";
  Finding finding;
  finding.id = fmt::format("joint-sum/{}", word);
  finding.group = Group::joints;
  finding.kind = Kind::safety;
  finding.place = fmt::format("the joints that hold the bench {}", word);
  finding.rule = "EN 1995-1-1, 5.1 and section 8; the sum over joints that yield is ours";
  finding.source = tables.constant("gamma_M connections").source;
  finding.unit = quantity::Kind::moment;
  finding.sentence =
      fmt::format("Whether the joints hold a hard shove {} the bench is not judged.", word);

  const WorstShove worst = worst_shove(answers, forces, way, joints, tables);
  if (worst.ratio < 0.0) {
    leave_unjudged(finding, "no shove that way was answered");
    return finding;
  }
  finding.combination = model.combinations[worst.combination].name;
  finding.demand = worst.sum.demand;
  finding.limit = worst.sum.resistance;
  finding.ratio = worst.ratio;
  finding.judgement = judge(worst.ratio);
  tell_sum(finding, model.combinations[worst.combination].title, worst.sum);
  if (finding.judgement == Judgement::not_judged) {
    leave_unjudged(finding, "the forces are not numbers");
    return finding;
  }
  if (finding.judgement == Judgement::exceeded && !worst.sum.why.empty()) {
    leave_unjudged(finding, worst.sum.why);
    return finding;
  }
  finding.sentence = fmt::format(
      "A hard shove {} the bench loads its joints, taken together, to {} their strength.", word,
      share_of(worst.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = fmt::format("a diagonal or a fixed sheet {}, or stronger joints",
                                 way == model::ShoveWay::along ? "in the back" : "in each end");
  }
  return finding;
}

}  // namespace

std::vector<Finding> joints_under_shove(const Answers& answers, const SectionForces& forces,
                                        const reference::Tables& tables) {
  std::vector<Finding> findings;
  for (const model::ShoveWay way : {model::ShoveWay::along, model::ShoveWay::across}) {
    const std::vector<model::ShovePlace>& shoves = answers.model.parts.shoves;
    const bool is_shoved = std::any_of(shoves.begin(), shoves.end(),
                                       [way](const auto& place) { return place.way == way; });
    if (!is_shoved) continue;
    // Without such joints something else holds the bench, or the solver has said that nothing does.
    const std::vector<Holding> joints = holding(answers.model, way, tables);
    if (!joints.empty()) findings.push_back(shove_finding(answers, forces, way, joints, tables));
  }
  return findings;
}

}  // namespace standtrue::check
