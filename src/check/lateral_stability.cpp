#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/each_part.hpp"
#include "check/unheld.hpp"
#include "check/worst.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// While one of its edges is pressed.
struct PressedEdge {
  Length l_ef;
  Stress sigma_m_crit;
  double lambda_rel_m = 0.0;
  double k_crit = 1.0;
};

/// What is the same at every cut of a beam.
struct Beam {
  Unheld unheld;
  PressedEdge upper, lower;
  AboutAxes<double> lambda_rel;
  AboutAxes<std::optional<double>> k_c;

  [[nodiscard]] bool hogs(const Station& s) const { return s.M_y > Moment{}; }
  [[nodiscard]] const PressedEdge& pressed(const Station& s) const {
    return hogs(s) ? lower : upper;
  }
};

/// Its load on the pressed edge, the moment constant between what holds it: both cautious.
PressedEdge pressed_edge(const model::Part& part, Length free, const reference::Tables& tables) {
  const reference::Timber& t = part.timber;
  PressedEdge edge;
  edge.l_ef = tables.constant("l_ef constant moment").value * free +
              tables.constant("l_ef load on compression edge").value * part.depth;
  const model::Section section = model::rectangle(part.width, part.depth);
  edge.sigma_m_crit =
      critical_bending_stress(t, part.width, part.depth, section.J, edge.l_ef, tables);
  edge.lambda_rel_m = std::sqrt(in_si(t.f_m_k) / in_si(edge.sigma_m_crit));
  edge.k_crit = k_crit(edge.lambda_rel_m, tables);
  return edge;
}

/// Between what holds all of it; or, if that is better, between what holds its upper edge, where it
/// may turn about that.
double slenderness_sideways(const model::Part& part, const Unheld& unheld,
                            const reference::Tables& tables) {
  const double held = tables.constant("effective length held").value;
  const auto over = [&](Length free) {
    return relative_slenderness(held * free, part.width, part.timber.f_c_0_k, part.timber.E_0_05);
  };
  const double whole = over(unheld.whole);
  if (!unheld.by_sheet) return whole;
  return std::min(whole, std::max(over(unheld.edge), slenderness_about_edge(part, tables)));
}

Beam beam_of(const model::Model& model, model::PartId id, const reference::Tables& tables) {
  const model::Part& part = model.parts.parts[id];
  const reference::Timber& t = part.timber;
  Beam beam;
  beam.unheld = unheld_of(model, id);
  beam.upper = pressed_edge(part, beam.unheld.upper, tables);
  beam.lower = pressed_edge(part, beam.unheld.lower, tables);
  const Length L = tables.constant("effective length held").value * part.span;
  beam.lambda_rel = {relative_slenderness(L, part.depth, t.f_c_0_k, t.E_0_05),
                     slenderness_sideways(part, beam.unheld, tables)};
  beam.k_c = buckling_factors(beam.lambda_rel, tables.material(t.material).beta_c.value, tables);
  return beam;
}

/// (6.33); with compression also (6.35) and, as a column, (6.23) and (6.24). (6.35) squares the
/// bending; its ratio is the share of the loads that just meets it, a² x² + c x = 1, so that twice
/// the load is twice the ratio.
double beam_ratio(const Station& s, const model::Part& part, const Strengths& f, const Beam& beam) {
  const AboutAxes<Stress> sigma_m = bending_stress({s.M_y, s.M_z}, part.width, part.depth);
  const double tipped = std::abs(in_si(sigma_m.y)) / (beam.pressed(s).k_crit * in_si(f.f_m.y));
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
  const PressedEdge& edge = beam.pressed(worst.station);
  const Unheld& unheld = beam.unheld;
  const bool hogs = beam.hogs(worst.station);
  const Length free = hogs ? unheld.lower : unheld.upper;
  const std::string l =
      free < part.span ? fmt::format(": its {} edge is pressed, {} of it free at most, l_ef = that",
                                     hogs ? "lower" : "upper", shown(free))
                       : std::string(": l_ef = span");
  finding.working.push_back(
      fmt::format("{}{} + 2 h = {}, sigma_m,crit = {}, lambda_rel,m = {:.2f}, k_crit = {:.3f}",
                  hogs ? unheld.lower_said : unheld.upper_said, l, shown(edge.l_ef),
                  shown(edge.sigma_m_crit), edge.lambda_rel_m, edge.k_crit));
  const bool is_held = unheld.edge < part.span;
  finding.working.push_back(fmt::format(
      "as a column of its span {}{}: lambda_rel,y = {:.2f}, lambda_rel,z = {:.2f}, k_c,z = {:.3f}",
      shown(part.span),
      is_held ? fmt::format(", {} free sideways, {} at its upper edge", shown(unheld.whole),
                            shown(unheld.edge))
              : std::string(),
      beam.lambda_rel.y, beam.lambda_rel.z, beam.k_c.z.value_or(1.0)));
  finding.working.push_back(fmt::format(
      "sigma_m,y = {}, f_m,y,d = {}; sigma_m,z = {}, f_m,z,d = {}; f_c,0,d = {}", shown(sigma_m.y),
      shown(f.f_m.y), shown(sigma_m.z), shown(f.f_m.z), shown(f.f_c_0)));
}

/// How the worst cut would be cured.
std::string cure_of_beam(const model::Part& part, const Worst& worst, const Beam& beam) {
  const Station& s = worst.station;
  const AboutAxes<Stress> sigma_m = bending_stress({s.M_y, s.M_z}, part.width, part.depth);
  constexpr double much = 1.1;
  const bool gives_way = worst.ratio > much * bending_ratio(sigma_m, worst.f.f_m, worst.f.k_m);
  return sideways_cure(part, beam.unheld, beam.hogs(s), gives_way);
}

Finding beam_finding(const Answers& answers, const SectionForces& forces, model::PartId id,
                     const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding =
      about(part, "lateral", "EN 1995-1-1, 6.3.2 and 6.3.3, eq. (6.23), (6.24), (6.30) to (6.35)",
            source_of(part, "f_m_k"));
  finding.sentence = fmt::format("Whether the {} gives way sideways is not judged.", part.name);
  if (!(part.span > Length{})) {
    leave_unjudged(finding, "its span is not known");
    return finding;
  }
  const Beam beam = beam_of(answers.model, id, tables);
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
    finding.advice = cure_of_beam(part, **worst, beam);
  }
  return finding;
}

}  // namespace

std::vector<Finding> lateral_stability(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  return each_part(answers, is_beam, [&](const model::Part&, model::PartId id) {
    return beam_finding(answers, forces, id, tables);
  });
}

}  // namespace standtrue::check
