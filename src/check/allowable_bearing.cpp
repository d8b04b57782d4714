#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/allowable_worst.hpp"
#include "check/each_part.hpp"
#include "check/end_grain.hpp"
#include "check/notches.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

double bearing_area_factor(Length l_b, Length from_end, const reference::Tables& tables) {
  expects(l_b > Length{}, "bearing_area_factor: the contact must be positive");
  const auto length = [&](const char* key) { return quantity::metres(tables.constant(key).value); };
  if (l_b >= length("C_b shorter than") || from_end < length("C_b from end")) return 1.0;
  return (l_b + length("C_b added")) / l_b;
}

Force notched_shear(Stress F_v, Length b, Length d, Length d_n, const reference::Tables& tables) {
  expects(d_n > Length{} && d_n <= d, "notched_shear: a notch must leave some of the piece");
  const double left = d_n / d;
  return F_v * b * d_n / tables.constant("shear rectangle").value * (left * left);
}

namespace {

/// The largest push, and what may push there.
struct BearingPush {
  double ratio = -1.0;
  std::size_t combination = 0;
  std::string where;
  Force F, limit;
  Adjusted values;
};

/// `force(state)` pushes; `limit(values)` is the force that may. A NaN is worse than anything.
template <class PushAt, class Limit>
OrWhy<BearingPush> worst_allowable_push(const Answers& answers, const SectionForces& forces,
                                        const model::Part& part, const reference::Tables& tables,
                                        const std::string& where, PushAt force, Limit limit,
                                        BearingPush worst) {
  const auto air = answers.model.parts.bench.air.service_class;
  ByDuration<Adjusted> values;
  for (const std::size_t c : forces.combinations()) {
    const OrWhy<Adjusted>& F = values.under(
        answers.model.combinations[c].duration,
        [&](reference::Duration duration) { return adjusted_values(part, air, duration, tables); });
    if (!F) return tl::unexpected(F.error());
    const Force push = std::max(force(*answers.response.states[c]), Force{});  // keeps a NaN
    const double ratio = push / limit(*F);
    if (!is_worse(ratio, worst.ratio)) continue;
    worst = {ratio, c, where, push, limit(*F), *F};
    if (!(ratio >= 0.0)) return worst;
  }
  return worst;
}

/// At every end of a rail or bearer.
template <class Limit>
OrWhy<BearingPush> worst_pushed_end(const Answers& answers, const SectionForces& forces,
                                    model::PartId id, const reference::Tables& tables,
                                    Limit limit) {
  OrWhy<BearingPush> worst = BearingPush{};
  for (const model::RailEnd& end : answers.model.parts.rail_ends) {
    // A NaN at one end is not to be talked over by the other.
    if (end.rail != id || !worst || std::isnan(worst->ratio)) continue;
    const std::size_t freedom = end.at_end ? 8 : 2;
    worst = worst_allowable_push(
        answers, forces, answers.model.parts.parts[id], tables, end.name,
        [&](const solve::State& state) {
          return quantity::newtons(state.end_forces[end.member][freedom]);
        },
        limit, *worst);
  }
  return worst;
}

/// Fills what these findings share; false if there is nothing more to say.
bool tell_push(Finding& finding, const Answers& answers, const model::Part& part,
               const OrWhy<BearingPush>& worst, const reference::Tables& tables) {
  if (!worst || worst->ratio < 0.0) {
    leave_without_values(finding, part,
                         worst ? "no combination of loads was answered" : worst.error(), tables);
    return false;
  }
  const model::Combination& combination = answers.model.combinations[worst->combination];
  finding.ratio = worst->ratio;
  finding.judgement = judge(worst->ratio);
  finding.unit = quantity::Kind::force;
  finding.demand = in_si(worst->F);
  finding.limit = in_si(worst->limit);
  finding.place = worst->where;
  finding.combination = combination.name;
  finding.working.push_back(fmt::format("{}; {} loads, no load factors: C_D = {}",
                                        combination.title, reference::to_text(combination.duration),
                                        worst->values.C_D));
  if (finding.judgement != Judgement::not_judged) return true;
  finding.why = "the forces are not numbers";
  return false;
}

Finding allowable_seat_finding(const Answers& answers, const SectionForces& forces,
                               model::PartId id, const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding =
      about(part, "seat", "NDS 2018, 3.10.2 and 3.10.4, eq. (3.10-2)", source_of(part, "F_c_perp"));
  finding.sentence =
      fmt::format("Whether the {} is crushed on its seats is not judged.", part.name);
  // It ends on its seat.
  const double C_b = bearing_area_factor(part.bearing, Length{}, tables);
  const auto limit = [&](const Adjusted& F) {
    return C_b * F.F_c_perp * part.width * part.bearing;
  };
  const OrWhy<BearingPush> worst = worst_pushed_end(answers, forces, id, tables, limit);
  if (!tell_push(finding, answers, part, worst, tables)) return finding;
  const Adjusted& F = worst->values;
  finding.working.push_back(value_line("F_c_perp'", part.timber.allowable->F_c_perp,
                                       {{"C_M", F.C_M.across}, {"C_b", C_b}}, C_b * F.F_c_perp));
  finding.working.push_back(fmt::format("R = {}; R_max = F_c_perp' b l_b = {} x {} x {} = {}",
                                        shown(worst->F), shown(C_b * F.F_c_perp), shown(part.width),
                                        shown(part.bearing), shown(worst->limit)));
  finding.sentence = fmt::format("The {} is pressed on its seat to {} what its grade allows.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) finding.advice = "a longer seat, or a wider piece";
  return finding;
}

Finding allowable_post_end_finding(const Answers& answers, const SectionForces& forces,
                                   const model::Part& part, const model::FootPlace& place,
                                   const bench::Foot& foot, const reference::Tables& tables) {
  Finding finding = about(part, "post-end", "NDS 2018, 3.10.1", source_of(part, "F_c"));
  finding.sentence =
      fmt::format("Whether the lower end of the {} is crushed is not judged.", part.name);
  const EndGrain grain = end_grain(part, foot);
  if (!(grain.area > quantity::Area{})) {
    leave_unjudged(finding, "the flange of the insert in the post's end is not known");
    return finding;
  }
  const OrWhy<BearingPush> worst = worst_allowable_push(
      answers, forces, part, tables, place.name,
      [&](const solve::State& state) {
        return quantity::newtons(state.support_forces[place.down]);
      },
      [&](const Adjusted& F) { return F.F_c * grain.area; }, BearingPush{});
  if (!tell_push(finding, answers, part, worst, tables)) return finding;
  finding.working.push_back(compression_values_line(part, worst->values));
  finding.working.push_back(fmt::format("P = {}; A = {}: {}; P_max = F_c* A = {}", shown(worst->F),
                                        quantity::print(in_si(grain.area), quantity::Kind::area),
                                        grain.said, shown(worst->limit)));
  const double plate = tables.constant("end bearing without plate").value;
  if (foot.bare && finding.ratio > plate) {
    finding.working.push_back(fmt::format("over {} F_c* a steel plate is wanted", plate));
  }
  finding.sentence = fmt::format("The lower end of the {} is pressed to {} what its grade allows.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = "an insert with a wider flange, or a steel plate under the post";
  }
  return finding;
}

Finding allowable_notch_finding(const Answers& answers, const SectionForces& forces,
                                model::PartId id, const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding = about(part, "notch", "NDS 2018, 3.4.3.2, eq. (3.4-3)", source_of(part, "F_v"));
  finding.sentence = fmt::format("Whether the {} splits at its notch is not judged.", part.name);
  const Length cut = notch_of(answers.model.parts, part), left = part.depth - cut;
  const double most = tables.constant("notch at end most").value;
  if (cut / part.depth > most) {
    leave_unjudged(finding, fmt::format("the notch takes {:.2f} of its depth, and the rule ends at "
                                        "{}",
                                        static_cast<double>(cut / part.depth), most));
    finding.advice = "a shallower notch, or a deeper piece";
    return finding;
  }
  const auto limit = [&](const Adjusted& F) {
    return notched_shear(F.F_v, part.width, part.depth, left, tables);
  };
  const OrWhy<BearingPush> worst = worst_pushed_end(answers, forces, id, tables, limit);
  if (!tell_push(finding, answers, part, worst, tables)) return finding;
  const Adjusted& F = worst->values;
  finding.working.push_back(value_line("F_v'", part.timber.allowable->F_v,
                                       {{"C_D", F.C_D}, {"C_M", F.C_M.shear}}, F.F_v));
  finding.working.push_back(
      fmt::format("V = {}; V_r' = (2/3) F_v' b d_n (d_n/d)^2, d_n = {} of {}: {}", shown(worst->F),
                  shown(left), shown(part.depth), shown(worst->limit)));
  finding.sentence = fmt::format("The {} is sheared at its notch to {} what its grade allows.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = "a shallower notch, or a deeper piece";
  }
  return finding;
}

}  // namespace

std::vector<Finding> allowable_seats(const Answers& answers, const SectionForces& forces,
                                     const reference::Tables& tables) {
  const auto rests = [](const model::Part& part) {
    return is_beam(part) && part.bearing > Length{};
  };
  return each_part(answers, rests, [&](const model::Part&, model::PartId id) {
    return allowable_seat_finding(answers, forces, id, tables);
  });
}

std::vector<Finding> allowable_post_ends(const Answers& answers, const SectionForces& forces,
                                         const reference::Tables& tables) {
  return each_post_end(answers, [&](const model::Part& part, const model::FootPlace& place,
                                    const bench::Foot& foot) {
    return allowable_post_end_finding(answers, forces, part, place, foot, tables);
  });
}

std::vector<Finding> allowable_notches(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  const auto is_cut = [&](const model::Part& part) {
    return notch_of(answers.model.parts, part) > Length{};
  };
  return each_part(answers, is_cut, [&](const model::Part&, model::PartId id) {
    return allowable_notch_finding(answers, forces, id, tables);
  });
}

}  // namespace standtrue::check
