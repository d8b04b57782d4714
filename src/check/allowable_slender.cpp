#include <fmt/format.h>

#include <algorithm>

#include "check/allowable_worst.hpp"
#include "check/each_part.hpp"
#include "check/held.hpp"
#include "check/laps.hpp"
#include "check/unheld.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Lengths of a member, by the axis about which it bends: 1 edgewise, 2 flatwise.
struct Lengths {
  Length l_e1, l_e2;  ///< as a column
  /// As a beam, between what holds the edge that is pressed where it sags, and where it hogs.
  Length l_u_sags, l_u_hogs;
  std::string said;
  Unheld unheld{};  ///< of beams
};

/// All that is the same at every cut under loads of one duration, while one edge is pressed.
struct Slender {
  Adjusted F;
  SlenderValues values;
  Length l_u;
  double slenderness = 0.0;  ///< the larger l_e/d
  double C_P = 1.0, R_B = 0.0, C_L = 1.0;
};
bool is_hogging(const Station& s) { return s.M_y > Moment{}; }

struct BothEdges {
  OrWhy<Slender> sags, hogs;
  [[nodiscard]] const OrWhy<Slender>& at(const Station& s) const {
    return is_hogging(s) ? hogs : sags;
  }
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
  return {factor(edgewise_along) * L, factor(!edgewise_along) * L, L, L,
          fmt::format("along {}; across {}", held_word(model, is_held.along),
                      held_word(model, is_held.across))};
}

/// Sideways as a column between what holds its upper edge: of studs that are sheathed on one side
/// only the depth counts.
Lengths lengths_of_beam(const model::Model& model, model::PartId id,
                        const reference::Tables& tables) {
  const model::Part& part = model.parts.parts[id];
  const Unheld unheld = unheld_of(model, id);
  const double held = tables.constant("effective length held").value;
  const Length upright = held * part.span, sideways = held * unheld.edge;
  // Laid flat it is bent edgewise by what pushes it sideways, which no sheet was looked at for.
  if (!bends_edgewise_about_y(part)) {
    return {sideways, upright, part.span, part.span, unheld.upper_said, unheld};
  }
  return {upright, sideways, unheld.upper, unheld.lower, unheld.upper_said, unheld};
}

Lengths lengths_of(const model::Model& model, model::PartId id, const reference::Tables& tables) {
  const model::Part& part = model.parts.parts[id];
  if (part.role == model::Role::post) return lengths_of_post(model, part, tables);
  if (part.role != model::Role::brace) return lengths_of_beam(model, id, tables);
  const double held = tables.constant("effective length held").value;
  const Length L = length_along(model, part);
  return {held * L, held * L, L, L, "a brace is taken as pinned at both ends"};
}

/// C_L is 1 where the member is no deeper than broad (3.3.3.1), though F_bE stays.
OrWhy<Slender> slender_of(const Adjusted& F, const model::Part& part, const Lengths& lengths,
                          Length l_u, const reference::Tables& tables) {
  Slender s;
  s.F = F;
  s.l_u = l_u;
  const double slender_1 = lengths.l_e1 / wide(part), slender_2 = lengths.l_e2 / narrow(part);
  s.slenderness = std::max(slender_1, slender_2);
  s.values.F_cE1 = column_buckling_stress(F.E_min, slender_1, tables);
  s.values.F_cE2 = column_buckling_stress(F.E_min, slender_2, tables);
  s.C_P = column_stability_factor(std::min(s.values.F_cE1, s.values.F_cE2), F.F_c, tables);
  const Length l_e = bending_length(l_u, wide(part), tables);
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

/// Stresses of what rails let into it leave of a part.
struct Whittled {
  const model::Model& model;
  const model::Part& part;
  Laps laps;

  [[nodiscard]] CutStresses at(const model::Member& member, const Station& s) const {
    return laps.none() ? cut_stresses(s, part) : cut_stresses(s, laps.left(member, s), part);
  }
  [[nodiscard]] CutStresses at(const Cut& cut) const {
    return at(model.members.at(cut.member), cut.station);
  }
};

void tell_slender(Finding& finding, const Whittled& whittled, const Lengths& lengths,
                  const Cut& cut, const Slender& s) {
  const model::Part& part = whittled.part;
  const CutStresses f = whittled.at(cut);
  finding.working.push_back(fmt::format("l_e1 = {} edgewise, l_e2 = {} flatwise: {}",
                                        shown(lengths.l_e1), shown(lengths.l_e2), lengths.said));
  finding.working.push_back(compression_values_line(part, s.F));
  finding.working.push_back(
      fmt::format("E_min' = {}, l_e/d = {:.1f}: F_cE1 = {}, F_cE2 = {}, C_P = {:.3f}, F_c' = {}",
                  shown(s.F.E_min), s.slenderness, shown(s.values.F_cE1), shown(s.values.F_cE2),
                  s.C_P, shown(s.values.F_c)));
  finding.working.push_back(bending_values_line(part, s.F));
  const char* edge = lengths.l_u_sags == lengths.l_u_hogs ? ""
                     : is_hogging(cut.station)            ? " of its lower edge"
                                                          : " of its upper edge";
  finding.working.push_back(
      fmt::format("l_u = {}{}, R_B = {:.1f}: F_bE = {}, C_L = {:.3f}, F_b1' = {}", shown(s.l_u),
                  edge, s.R_B, shown(s.values.F_bE), s.C_L, shown(s.values.F_b1)));
  finding.working.push_back(fmt::format("f_c = {}, f_t = {}, f_b1 = {}, f_b2 = {}", shown(f.f_c),
                                        shown(f.f_t), shown(f.f_b1), shown(f.f_b2)));
  if (f.f_t > Stress{}) {
    finding.working.push_back("pulled: eq. (3.9-3) with f_b1 - f_t and without f_c, eq. (3.9-2)");
  } else {
    finding.working.push_back(
        fmt::format("(3.9-3): {:.3f} at these stresses", compression_bending_sum(f, s.values)));
  }
  if (!(cut.ratio > 0.0)) return;
  finding.working.push_back(
      fmt::format("all stresses times {:.2f} would make the sum 1", 1.0 / cut.ratio));
}

/// Of a column, or of a beam at that cut; `gives_way` as for `sideways_cure`.
std::string cure_of(const model::Part& part, const Lengths& lengths, const Station& s,
                    bool gives_way) {
  switch (part.role) {
    case model::Role::brace:
      return "a thicker brace, or a cross of two";
    case model::Role::post:
      return "a diagonal in that plane, or a thicker post";
    default:
      return sideways_cure(part, lengths.unheld, is_hogging(s), gives_way);
  }
}

OrWhy<CutAgainst<BothEdges>> worst_slender(const Answers& answers, const SectionForces& forces,
                                           const Whittled& whittled, const Lengths& lengths,
                                           const Ends& ends, const reference::Tables& tables) {
  const model::Part& part = whittled.part;
  const auto air = answers.model.parts.bench.air.service_class;
  double so_far = 0.0;
  return worst_cut<BothEdges>(
      answers, forces, part,
      [&](reference::Duration duration) -> OrWhy<BothEdges> {
        const OrWhy<Adjusted> F = adjusted_values(part, air, duration, tables);
        if (!F) return tl::unexpected(F.error());
        return BothEdges{slender_of(*F, part, lengths, lengths.l_u_sags, tables),
                         slender_of(*F, part, lengths, lengths.l_u_hogs, tables)};
      },
      [&](const model::Member& member, const Station& s, const BothEdges& edges) -> OrWhy<double> {
        const OrWhy<Slender>& slender = edges.at(s);
        if (!slender) return tl::unexpected(slender.error());
        const OrWhy<double> ratio = slender_ratio(whittled.at(member, s), *slender, ends, so_far);
        if (ratio) so_far = std::max(so_far, *ratio);
        return ratio;
      });
}

/// The finding of a column or beam; its sentence is the caller's.
Finding slender_finding(const Answers& answers, const SectionForces& forces, model::PartId id,
                        const reference::Tables& tables, Finding finding) {
  const model::Part& part = answers.model.parts.parts[id];
  const Lengths lengths = lengths_of(answers.model, id, tables);
  if (!(lengths.l_u_sags > Length{})) {
    leave_unjudged(finding, "its span is not known");
    return finding;
  }
  const Ends ends{tables.constant("l_e/d most").value, tables.constant("push to bending").value};
  const Whittled whittled{answers.model, part, Laps(answers.model, part)};
  const OrWhy<CutAgainst<BothEdges>> worst =
      worst_slender(answers, forces, whittled, lengths, ends, tables);
  if (!worst) {
    leave_without_values(finding, part, worst.error(), tables);
    const double slenderness = std::max(static_cast<double>(lengths.l_e1 / wide(part)),
                                        static_cast<double>(lengths.l_e2 / narrow(part)));
    if (finding.advice.empty() && slenderness > ends.slenderness) {
      finding.advice = cure_of(part, lengths, {}, true);
    }
    return finding;
  }
  const Station& s = worst->cut.station;
  const Slender& values = *worst->values.at(s);
  tell_cut(finding, answers, part, worst->cut, values.F.C_D);
  tell_slender(finding, whittled, lengths, worst->cut, values);
  const bool is_cut =
      tell_left(finding, part, whittled.laps.left(answers.model.members.at(worst->cut.member), s));
  if (finding.judgement != Judgement::exceeded) return finding;
  constexpr double much = 1.1;
  const bool gives_way =
      worst->cut.ratio > much * tension_bending_ratio(whittled.at(worst->cut), values.F);
  finding.advice = is_cut ? cure_of_laps(part) : cure_of(part, lengths, s, gives_way);
  return finding;
}

Finding allowable_column_finding(const Answers& answers, const SectionForces& forces,
                                 model::PartId id, const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding = about(part, "buckling", "NDS 2018, 3.7.1 and 3.9.2, eq. (3.7-1) and (3.9-3)",
                          source_of(part, "F_c"));
  finding.sentence = fmt::format("Whether the {} buckles is not judged.", part.name);
  finding = slender_finding(answers, forces, id, tables, std::move(finding));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence = fmt::format("The {} is pressed and bent to {} what its grade allows.",
                                 part.name, share_of(finding.ratio));
  return finding;
}

Finding allowable_beam_finding(const Answers& answers, const SectionForces& forces,
                               model::PartId id, const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding =
      about(part, "lateral", "NDS 2018, 3.3.3, 3.7.1, 3.9.1 and 3.9.2, eq. (3.3-6) and (3.9-3)",
            source_of(part, "F_b"));
  finding.sentence = fmt::format("Whether the {} gives way sideways is not judged.", part.name);
  finding = slender_finding(answers, forces, id, tables, std::move(finding));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence =
      fmt::format("The {} is loaded to {} what its grade allows before it gives way sideways.",
                  part.name, share_of(finding.ratio));
  return finding;
}

}  // namespace

std::vector<Finding> allowable_columns(const Answers& answers, const SectionForces& forces,
                                       const reference::Tables& tables) {
  return each_part(answers, is_column, [&](const model::Part&, model::PartId id) {
    return allowable_column_finding(answers, forces, id, tables);
  });
}

std::vector<Finding> allowable_beams(const Answers& answers, const SectionForces& forces,
                                     const reference::Tables& tables) {
  return each_part(answers, is_beam, [&](const model::Part&, model::PartId id) {
    return allowable_beam_finding(answers, forces, id, tables);
  });
}

}  // namespace standtrue::check
