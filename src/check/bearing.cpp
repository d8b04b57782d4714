#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/each_part.hpp"
#include "check/end_grain.hpp"
#include "check/worst.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

Length effective_contact(Length contact, Length clear, const reference::Tables& tables) {
  expects(contact > Length{}, "effective_contact: contact must be positive");
  const Length most = quantity::metres(tables.constant("bearing extension").value);
  return contact + std::min({most, contact, 0.5 * clear});
}

double bearing_factor(const reference::Timber& timber, Length clear, Length depth,
                      const reference::Tables& tables) {
  const bool apart = clear >= tables.constant("bearing clear depths").value * depth;
  const bool soft = timber.species == reference::Species::softwood;
  if (apart && soft && timber.material == reference::Material::solid_timber) {
    return tables.bearing_factor("solid softwood, discrete support").k_c_90;
  }
  if (apart && soft && timber.material == reference::Material::glulam) {
    return tables.bearing_factor("glulam softwood, discrete support").k_c_90;
  }
  return tables.bearing_factor("other").k_c_90;
}

namespace {

/// How the worst pressure came about.
struct Pressed {
  double ratio = -1.0;
  std::size_t combination = 0;
  std::string where;
  Force F;
  Strengths f;
};

/// `force(state)` pushes; `limit(strengths)` is the force that may. The reason where a strength is
/// missing.
template <class PushAt, class Limit>
OrWhy<Pressed> worst_push(const Answers& answers, const SectionForces& forces,
                          const model::Part& part, const reference::Tables& tables, PushAt force,
                          Limit limit, Pressed worst, const std::string& where) {
  StrengthsOf strengths(part, answers, tables);
  for (const std::size_t c : forces.combinations()) {
    const OrWhy<Strengths>& f = strengths.under(answers.model.combinations[c].duration);
    if (!f) return tl::unexpected(f.error());
    const Force F = std::max(force(*answers.response.states[c]), Force{});  // keeps a NaN
    const double ratio = F / limit(*f);
    if (!is_worse(ratio, worst.ratio)) continue;
    worst = {ratio, c, where, F, *f};
    if (!(ratio >= 0.0)) return worst;
  }
  return worst;
}

/// Fills what both findings share; false if there is nothing more to say, or no words are wanted.
bool tell_pressed(Finding& finding, const Answers& answers, const OrWhy<Pressed>& worst) {
  if (!worst) {
    leave_unjudged(finding, worst.error());
    return false;
  }
  if (worst->ratio < 0.0) {
    leave_unjudged(finding, "no combination of loads was answered");
    return false;
  }
  const model::Combination& combination = answers.model.combinations[worst->combination];
  finding.ratio = worst->ratio;
  finding.judgement = judge(worst->ratio);
  if (finding.judgement == Judgement::not_judged) finding.why = "the forces are not numbers";
  finding.unit = quantity::Kind::force;
  finding.demand = in_si(worst->F);
  if (!answers.words) return false;
  finding.place = worst->where;
  finding.combination = combination.name;
  finding.working.push_back(fmt::format("{}; {} loads: k_mod = {}, gamma_M = {}", combination.title,
                                        reference::to_text(combination.duration), worst->f.k_mod,
                                        worst->f.gamma_M));
  return finding.judgement != Judgement::not_judged;
}

Finding seat_finding(const Answers& answers, const SectionForces& forces, model::PartId id,
                     const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding =
      about(part, "seat", "EN 1995-1-1, 6.1.5, eq. (6.3) and (6.4)", source_of(part, "f_c_90_k"));
  finding.sentence =
      fmt::format("Whether the {} is crushed on its seats is not judged.", part.name);
  const Length l_ef = effective_contact(part.bearing, part.span, tables);
  const double k_c_90 = bearing_factor(part.timber, part.span, part.depth, tables);
  OrWhy<Pressed> worst = Pressed{};
  for (const model::RailEnd& end : answers.model.parts.rail_ends) {
    if (end.rail != id || !worst) continue;
    const std::size_t freedom = end.at_end ? 8 : 2;
    worst = worst_push(
        answers, forces, part, tables,
        [&](const solve::State& state) {
          return quantity::newtons(state.end_forces[end.member][freedom]);
        },
        [&](const Strengths& f) { return k_c_90 * f.f_c_90 * part.width * l_ef; }, *worst,
        end.name);
  }
  if (!tell_pressed(finding, answers, worst)) return finding;
  const Force limit = k_c_90 * worst->f.f_c_90 * part.width * l_ef;
  finding.limit = in_si(limit);
  finding.working.push_back(
      fmt::format("F_c,90 = {}; A_ef = b (l + min(30 mm, l, l_1/2)) = {} x {}, contact l = {}",
                  shown(worst->F), shown(part.width), shown(l_ef), shown(part.bearing)));
  finding.working.push_back(fmt::format("F_max = k_c,90 f_c,90,d A_ef = {} x {} x A_ef = {}",
                                        k_c_90, shown(worst->f.f_c_90), shown(limit)));
  finding.sentence = fmt::format("The {} is pressed on its seat to {} its strength.", part.name,
                                 share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) finding.advice = "a longer seat, or a wider piece";
  return finding;
}

Finding post_end_finding(const Answers& answers, const SectionForces& forces,
                         const model::Part& part, const model::FootPlace& place,
                         const bench::Foot& foot, const reference::Tables& tables) {
  Finding finding =
      about(part, "post-end", "EN 1995-1-1, 6.1.4, eq. (6.2)", source_of(part, "f_c_0_k"));
  finding.sentence =
      fmt::format("Whether the lower end of the {} is crushed is not judged.", part.name);
  const EndGrain grain = end_grain(part, foot);
  if (!(grain.area > quantity::Area{})) {
    leave_unjudged(finding, "the flange of the insert in the post's end is not known");
    return finding;
  }
  const OrWhy<Pressed> worst = worst_push(
      answers, forces, part, tables,
      [&](const solve::State& state) {
        return quantity::newtons(state.support_forces[place.down]);
      },
      [&](const Strengths& f) { return f.f_c_0 * grain.area; }, Pressed{}, place.name);
  if (!tell_pressed(finding, answers, worst)) return finding;
  const Force limit = worst->f.f_c_0 * grain.area;
  finding.limit = in_si(limit);
  finding.working.push_back(fmt::format("F = {}; A = {}: {}", shown(worst->F),
                                        quantity::print(in_si(grain.area), quantity::Kind::area),
                                        grain.said));
  finding.working.push_back(
      fmt::format("F_max = f_c,0,d A = {} x A = {}", shown(worst->f.f_c_0), shown(limit)));
  finding.sentence = fmt::format("The lower end of the {} is pressed to {} its strength.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = "an insert with a wider flange, or a steel plate under the post";
  }
  return finding;
}

}  // namespace

std::vector<Finding> seat_bearing(const Answers& answers, const SectionForces& forces,
                                  const reference::Tables& tables) {
  const auto rests = [](const model::Part& part) {
    return is_beam(part) && part.bearing > Length{};
  };
  return each_part(answers, rests, [&](const model::Part&, model::PartId id) {
    return seat_finding(answers, forces, id, tables);
  });
}

std::vector<Finding> post_end_bearing(const Answers& answers, const SectionForces& forces,
                                      const reference::Tables& tables) {
  return each_post_end(answers, [&](const model::Part& part, const model::FootPlace& place,
                                    const bench::Foot& foot) {
    return post_end_finding(answers, forces, part, place, foot, tables);
  });
}

}  // namespace standtrue::check
