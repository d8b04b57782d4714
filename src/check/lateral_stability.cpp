#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/each_part.hpp"
#include "check/worst.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// What is the same at every cut of a beam.
struct Beam {
  Length l_ef;
  Stress sigma_m_crit;
  double lambda_rel_m = 0.0;
  double k_crit = 1.0;
  AboutAxes<double> lambda_rel;
  AboutAxes<std::optional<double>> k_c;
};

/// Held at its ends only, its load on the compression edge, the moment constant: all cautious.
Beam beam_of(const model::Part& part, const reference::Tables& tables) {
  const reference::Timber& t = part.timber;
  Beam beam;
  beam.l_ef = tables.constant("l_ef constant moment").value * part.span +
              tables.constant("l_ef load on compression edge").value * part.depth;
  const model::Section section = model::rectangle(part.width, part.depth);
  beam.sigma_m_crit =
      critical_bending_stress(t, part.width, part.depth, section.J, beam.l_ef, tables);
  beam.lambda_rel_m = std::sqrt(in_si(t.f_m_k) / in_si(beam.sigma_m_crit));
  beam.k_crit = k_crit(beam.lambda_rel_m, tables);
  const Length L = tables.constant("effective length held").value * part.span;
  beam.lambda_rel = {relative_slenderness(L, part.depth, t.f_c_0_k, t.E_0_05),
                     relative_slenderness(L, part.width, t.f_c_0_k, t.E_0_05)};
  beam.k_c = buckling_factors(beam.lambda_rel, tables.material(t.material).beta_c.value, tables);
  return beam;
}

/// (6.33); with compression also (6.35) and, as a column, (6.23) and (6.24). (6.35) squares the
/// bending; its ratio is the share of the loads that just meets it, a² x² + c x = 1, so that twice
/// the load is twice the ratio.
double beam_ratio(const Station& s, const model::Part& part, const Strengths& f, const Beam& beam) {
  const AboutAxes<Stress> sigma_m = bending_stress({s.M_y, s.M_z}, part.width, part.depth);
  const double tipped = std::abs(in_si(sigma_m.y)) / (beam.k_crit * in_si(f.f_m.y));
  if (s.N >= Force{}) return tipped;
  const Stress sigma_c = -s.N / (part.width * part.depth);
  const double pressed = in_si(sigma_c) / (beam.k_c.z.value_or(1.0) * in_si(f.f_c_0));
  const double together = 0.5 * (pressed + std::sqrt(pressed * pressed + 4.0 * tipped * tipped));
  return std::max({tipped, together, column_ratio(sigma_m, sigma_c, f, beam.k_c)});
}

void tell_beam(Finding& finding, const model::Part& part, const Worst& worst, const Beam& beam) {
  const Strengths& f = worst.f;
  const AboutAxes<Stress> sigma_m =
      bending_stress({worst.station.M_y, worst.station.M_z}, part.width, part.depth);
  finding.working.push_back(fmt::format(
      "held at its ends only: l_ef = span + 2 h = {}, sigma_m,crit = {}, lambda_rel,m = "
      "{:.2f}, k_crit = {:.3f}",
      shown(beam.l_ef), shown(beam.sigma_m_crit), beam.lambda_rel_m, beam.k_crit));
  finding.working.push_back(fmt::format(
      "as a column of its span {}: lambda_rel,y = {:.2f}, "
      "lambda_rel,z = {:.2f}, k_c,z = {:.3f}",
      shown(part.span), beam.lambda_rel.y, beam.lambda_rel.z, beam.k_c.z.value_or(1.0)));
  finding.working.push_back(fmt::format(
      "sigma_m,y = {}, f_m,y,d = {}; sigma_m,z = {}, f_m,z,d = {}; f_c,0,d = {}", shown(sigma_m.y),
      shown(f.f_m.y), shown(sigma_m.z), shown(f.f_m.z), shown(f.f_c_0)));
}

Finding beam_finding(const Answers& answers, const SectionForces& forces, const model::Part& part,
                     const reference::Tables& tables) {
  Finding finding =
      about(part, "lateral", "EN 1995-1-1, 6.3.2 and 6.3.3, eq. (6.23), (6.24), (6.30) to (6.35)",
            source_of(part, "f_m_k"));
  finding.sentence = fmt::format("Whether the {} gives way sideways is not judged.", part.name);
  if (!(part.span > Length{})) {
    leave_unjudged(finding, "its span is not known");
    return finding;
  }
  const Beam beam = beam_of(part, tables);
  const OrWhy<std::optional<Worst>> worst =
      worst_of(answers, forces, part, tables,
               [&](const model::Member&, const Station& s, const Strengths& f) {
                 return beam_ratio(s, part, f, beam);
               });
  if (!tell_worst(finding, answers, part, worst)) return finding;
  tell_beam(finding, part, **worst, beam);
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is loaded to {} what makes it give way sideways.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = fmt::format("a wider {}, or a bearer that holds it in the middle", part.name);
  }
  return finding;
}

}  // namespace

std::vector<Finding> lateral_stability(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  return each_part(answers, is_beam, [&](const model::Part& part, model::PartId) {
    return beam_finding(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
