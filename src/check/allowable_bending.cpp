#include <fmt/format.h>

#include "check/allowable_worst.hpp"
#include "check/each_part.hpp"
#include "check/laps.hpp"

namespace standtrue::check {

namespace {

/// Held all along: nothing buckles, and of eq. (3.9-3) its squares and sums are left.
double allowable_bending_ratio(const CutStresses& f, const Adjusted& F) {
  const double along = f.f_c / F.F_c;
  return along * along + tension_bending_ratio(f, F);
}

/// `there`: with the sides that it has at that cut.
void tell_allowable_bending(Finding& finding, const model::Part& part, const model::Part& there,
                            const CutAgainst<Adjusted>& worst) {
  const CutStresses f = cut_stresses(worst.cut.station, there, part);
  const Adjusted& F = worst.values;
  finding.working.push_back(bending_values_line(part, F));
  finding.working.push_back(fmt::format("f_b1 = 6 M/(b d^2) = {} edgewise, f_b2 = 6 M/(d b^2) = {}",
                                        shown(f.f_b1), shown(f.f_b2)));
  if (f.f_c > Stress{}) {
    finding.working.push_back(
        fmt::format("f_c = {}, {}", shown(f.f_c), compression_values_line(part, F)));
    finding.working.push_back(fmt::format(
        "(f_c/F_c*)^2 + f_b1/F_b1* + f_b2/F_b2*, nothing buckles: {:.3f}", worst.cut.ratio));
    return;
  }
  finding.working.push_back(
      fmt::format("f_t = {}, ", shown(f.f_t)) +
      value_line("F_t'", part.timber.allowable->F_t,
                 {{"C_D", F.C_D}, {"C_M", F.C_M.tension}, {"C_F", F.C_F.tension}}, F.F_t));
  finding.working.push_back(
      fmt::format("(3.9-1): f_t/F_t' + f_b1/F_b1* + f_b2/F_b2*: {:.3f}", worst.cut.ratio));
}

Finding allowable_bending_of(const Answers& answers, const SectionForces& forces,
                             const model::Part& part, const reference::Tables& tables) {
  Finding finding = about(part, "bending", "NDS 2018, 3.3.1, 3.9.1 and 3.9.2, eq. (3.9-1)",
                          source_of(part, "F_b"));
  finding.sentence = fmt::format("Whether the {} stands its bending is not judged.", part.name);
  const auto air = answers.model.parts.bench.air.service_class;
  const Laps laps(answers.model, part);
  const OrWhy<CutAgainst<Adjusted>> worst = worst_cut<Adjusted>(
      answers, forces, part,
      [&](reference::Duration duration) { return adjusted_values(part, air, duration, tables); },
      [&](const model::Member& member, const Station& s, const Adjusted& F) -> OrWhy<double> {
        return allowable_bending_ratio(
            laps.none() ? cut_stresses(s, part) : cut_stresses(s, laps.left(member, s), part), F);
      });
  if (!worst) {
    leave_without_values(finding, part, worst.error(), tables);
    return finding;
  }
  tell_cut(finding, answers, part, worst->cut, worst->values.C_D);
  const Cut& cut = worst->cut;
  const model::Part there = laps.left(answers.model.members.at(cut.member), cut.station);
  tell_allowable_bending(finding, part, there, *worst);
  const bool is_cut = tell_left(finding, part, there);
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is bent to {} what its grade allows.", part.name,
                                 share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = is_cut ? cure_of_laps(part)
                            : fmt::format("a deeper {}, a shorter span, or less on it", part.name);
  }
  return finding;
}

}  // namespace

std::vector<Finding> allowable_bending(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  return each_part(answers, is_timber_member, [&](const model::Part& part, model::PartId) {
    return allowable_bending_of(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
