#include <fmt/format.h>

#include <algorithm>

#include "check/allowable_worst.hpp"
#include "check/each_part.hpp"
#include "check/held.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Lengths of a member, by the axis about which it bends: 1 edgewise, 2 flatwise.
struct Lengths {
  Length l_e1, l_e2;  ///< as a column
  Length l_u;         ///< as a beam, between what holds it from tipping
  std::string said;
};

/// All that is the same at every cut under loads of one duration.
struct Slender {
  Adjusted F;
  SlenderValues values;
  double slenderness = 0.0;  ///< the larger l_e/d
  double C_P = 1.0, R_B = 0.0, C_L = 1.0;
};

Length wide(const model::Part& part) { return std::max(part.width, part.depth); }
Length narrow(const model::Part& part) { return std::min(part.width, part.depth); }

Length length_along(const model::Model& model, const model::Part& part) {
  Length L{};
  for (const model::MemberId m : part.members) {
    L += model::member_frame(model, model.members[m]).length;
  }
  return L;
}

Lengths lengths_of_post(const model::Model& model, const model::Part& part,
                        const reference::Tables& tables) {
  const double sway = tables.constant("effective length sway").value;
  const double held = tables.constant("effective length held").value;
  const Length L = height_of(model, part);
  const Held is_held = held_planes(model, part);
  // Bending edgewise moves the post along x, or across.
  const bool edgewise_along = bends_along_x(model, part) == bends_edgewise_about_y(part);
  const auto factor = [&](bool along) {
    return (along ? is_held.along : is_held.across) ? held : sway;
  };
  return {factor(edgewise_along) * L, factor(!edgewise_along) * L, L,
          fmt::format("along {}; across {}", held_word(model, is_held.along),
                      held_word(model, is_held.across))};
}

Lengths lengths_of(const model::Model& model, const model::Part& part,
                   const reference::Tables& tables) {
  if (part.role == model::Role::post) return lengths_of_post(model, part, tables);
  const double held = tables.constant("effective length held").value;
  if (part.role == model::Role::brace) {
    const Length L = length_along(model, part);
    return {held * L, held * L, L, "a brace is taken as pinned at both ends"};
  }
  return {held * part.span, held * part.span, part.span, "held at its ends only"};
}

/// C_L is 1 where the member is no deeper than broad (3.3.3.1), though F_bE stays.
OrWhy<Slender> slender_of(const Adjusted& F, const model::Part& part, const Lengths& lengths,
                          const reference::Tables& tables) {
  Slender s;
  s.F = F;
  const double slender_1 = lengths.l_e1 / wide(part), slender_2 = lengths.l_e2 / narrow(part);
  s.slenderness = std::max(slender_1, slender_2);
  s.values.F_cE1 = column_buckling_stress(F.E_min, slender_1, tables);
  s.values.F_cE2 = column_buckling_stress(F.E_min, slender_2, tables);
  s.C_P = column_stability_factor(std::min(s.values.F_cE1, s.values.F_cE2), F.F_c, tables);
  const Length l_e = bending_length(lengths.l_u, wide(part), tables);
  s.R_B = beam_slenderness(l_e, narrow(part), wide(part));
  const double most = tables.constant("R_B most").value;
  if (s.R_B > most) {
    return tl::unexpected(fmt::format(
        "its slenderness as a beam R_B = {:.0f} is over {:.0f}, where the rule ends", s.R_B, most));
  }
  s.values.F_bE = beam_buckling_stress(F.E_min, s.R_B, tables);
  if (wide(part) > narrow(part)) {
    s.C_L = beam_stability_factor(s.values.F_bE, F.F_b1, tables);
  }
  s.values.F_c = s.C_P * F.F_c;
  s.values.F_b1 = s.C_L * F.F_b1;
  s.values.F_b2 = F.F_b2;
  return s;
}

/// Where the column's rule ends, what may still be judged.
struct Ends {
  double slenderness = 0.0, share = 0.0;
};

/// As far as it is worse than `so_far`.
OrWhy<double> slender_ratio(const CutStresses& f, const Slender& s, const Ends& ends,
                            double so_far) {
  const Stress F_cE = std::min(s.values.F_cE1, s.values.F_cE2);
  if (s.slenderness > ends.slenderness && f.f_c > ends.share * F_cE) {
    return tl::unexpected(
        fmt::format("it is pushed along, and its slenderness l_e/d = {:.0f} is over {:.0f}, where "
                    "the rule ends",
                    s.slenderness, ends.slenderness));
  }
  const bool is_pulled = !(f.f_t <= Stress{});  // or not a number, which then comes out
  if (is_pulled) {
    // Tension keeps the compression edge from buckling, eq. (3.9-2).
    CutStresses eased = f;
    eased.f_b1 = std::max(f.f_b1 - f.f_t, Stress{});
    return compression_bending_ratio(eased, s.values, so_far);
  }
  return compression_bending_ratio(f, s.values, so_far);
}

void tell_slender(Finding& finding, const model::Part& part, const Lengths& lengths,
                  const CutAgainst<Slender>& worst) {
  const Slender& s = worst.values;
  const CutStresses f = cut_stresses(worst.cut.station, part);
  finding.working.push_back(fmt::format("l_e1 = {} edgewise, l_e2 = {} flatwise: {}",
                                        shown(lengths.l_e1), shown(lengths.l_e2), lengths.said));
  finding.working.push_back(compression_values_line(part, s.F));
  finding.working.push_back(
      fmt::format("E_min' = {}, l_e/d = {:.1f}: F_cE1 = {}, F_cE2 = {}, C_P = {:.3f}, F_c' = {}",
                  shown(s.F.E_min), s.slenderness, shown(s.values.F_cE1), shown(s.values.F_cE2),
                  s.C_P, shown(s.values.F_c)));
  finding.working.push_back(bending_values_line(part, s.F));
  finding.working.push_back(
      fmt::format("l_u = {}, R_B = {:.1f}: F_bE = {}, C_L = {:.3f}, F_b1' = {}", shown(lengths.l_u),
                  s.R_B, shown(s.values.F_bE), s.C_L, shown(s.values.F_b1)));
  finding.working.push_back(fmt::format("f_c = {}, f_t = {}, f_b1 = {}, f_b2 = {}", shown(f.f_c),
                                        shown(f.f_t), shown(f.f_b1), shown(f.f_b2)));
  if (f.f_t > Stress{}) {
    finding.working.push_back("pulled: eq. (3.9-3) with f_b1 - f_t and without f_c, eq. (3.9-2)");
  } else {
    finding.working.push_back(
        fmt::format("(3.9-3): {:.3f} at these stresses", compression_bending_sum(f, s.values)));
  }
  if (!(worst.cut.ratio > 0.0)) return;
  finding.working.push_back(
      fmt::format("all stresses times {:.2f} would make the sum 1", 1.0 / worst.cut.ratio));
}

std::string cure_of(const model::Part& part) {
  switch (part.role) {
    case model::Role::brace:
      return "a thicker brace, or a cross of two";
    case model::Role::post:
      return "a diagonal in that plane, or a thicker post";
    default:
      return fmt::format("a wider {}, or a bearer that holds it in the middle", part.name);
  }
}

/// The finding of a column or beam; its sentence is the caller's.
Finding slender_finding(const Answers& answers, const SectionForces& forces,
                        const model::Part& part, const reference::Tables& tables, Finding finding) {
  const Lengths lengths = lengths_of(answers.model, part, tables);
  if (!(lengths.l_u > Length{})) {
    leave_unjudged(finding, "its span is not known");
    return finding;
  }
  const auto air = answers.model.parts.bench.air.service_class;
  const Ends ends{tables.constant("l_e/d most").value, tables.constant("push to bending").value};
  double so_far = 0.0;
  const OrWhy<CutAgainst<Slender>> worst = worst_cut<Slender>(
      answers, forces, part,
      [&](reference::Duration duration) -> OrWhy<Slender> {
        const OrWhy<Adjusted> F = adjusted_values(part, air, duration, tables);
        if (!F) return tl::unexpected(F.error());
        return slender_of(*F, part, lengths, tables);
      },
      [&](const model::Member&, const Station& s, const Slender& slender) {
        const OrWhy<double> ratio = slender_ratio(cut_stresses(s, part), slender, ends, so_far);
        if (ratio) so_far = std::max(so_far, *ratio);
        return ratio;
      });
  if (!worst) {
    leave_without_values(finding, part, worst.error(), tables);
    const double slenderness = std::max(static_cast<double>(lengths.l_e1 / wide(part)),
                                        static_cast<double>(lengths.l_e2 / narrow(part)));
    if (finding.advice.empty() && slenderness > ends.slenderness) finding.advice = cure_of(part);
    return finding;
  }
  tell_cut(finding, answers, part, worst->cut, worst->values.F.C_D);
  tell_slender(finding, part, lengths, *worst);
  return finding;
}

Finding allowable_column_finding(const Answers& answers, const SectionForces& forces,
                                 const model::Part& part, const reference::Tables& tables) {
  Finding finding = about(part, "buckling", "NDS 2018, 3.7.1 and 3.9.2, eq. (3.7-1) and (3.9-3)",
                          source_of(part, "F_c"));
  finding.sentence = fmt::format("Whether the {} buckles is not judged.", part.name);
  finding = slender_finding(answers, forces, part, tables, std::move(finding));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is pressed and bent to {} what its grade allows.",
                                 part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) finding.advice = cure_of(part);
  return finding;
}

Finding allowable_beam_finding(const Answers& answers, const SectionForces& forces,
                               const model::Part& part, const reference::Tables& tables) {
  Finding finding =
      about(part, "lateral", "NDS 2018, 3.3.3, 3.7.1, 3.9.1 and 3.9.2, eq. (3.3-6) and (3.9-3)",
            source_of(part, "F_b"));
  finding.sentence = fmt::format("Whether the {} gives way sideways is not judged.", part.name);
  finding = slender_finding(answers, forces, part, tables, std::move(finding));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence =
      fmt::format("The {} is loaded to {} what its grade allows before it gives way sideways.",
                  part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) finding.advice = cure_of(part);
  return finding;
}

}  // namespace

std::vector<Finding> allowable_columns(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  return each_part(answers, is_column, [&](const model::Part& part, model::PartId) {
    return allowable_column_finding(answers, forces, part, tables);
  });
}

std::vector<Finding> allowable_beams(const Answers& answers, const SectionForces& forces,
                                     const reference::Tables& tables) {
  return each_part(answers, is_beam, [&](const model::Part& part, model::PartId) {
    return allowable_beam_finding(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
