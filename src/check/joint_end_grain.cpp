#include <fmt/format.h>

#include <algorithm>

#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "check/words.hpp"

namespace standtrue::check {

namespace {

/// The same screws in side grain.
Lateral in_side_grain(const reference::JointKind& kind, const reference::Screw& screw,
                      const Site& site, Length in_rail, const reference::Tables& tables) {
  const bool predrilled = must_predrill(screw.diameter, site.rail->timber.rho_k, tables);
  const Length thread = thread_length(screw, kind.fastener_length);
  const Length d_ef =
      effective_diameter(screw, kind.fastener_length - thread - site.onto_behind, tables);
  return timber_to_timber({embedment_screw(d_ef, site.onto->timber, predrilled, 0.0, tables),
                           embedment_screw(d_ef, site.rail->timber, predrilled, 0.0, tables),
                           site.onto_behind, in_rail, d_ef, screw.M_y_k, Force{}, 0.0},
                          tables);
}

}  // namespace

/// Screws through the post into the end of the rail: lateral in end grain a share of that in side
/// grain; pulled along the grain they have no strength, so neither bending nor pull is judged.
/// Source (second hand): EN 1995-1-1, 8.3.1.2(4), across screws in end grain.
/// Source (second hand): EN 1995-1-1, 8.7.2(2), none along them.
JointStrength end_grain_strength(const model::Model& model, const model::RailEnd& end,
                                 const reference::Tables& tables) {
  using enum Component;
  JointStrength joint;
  const reference::JointKind& kind = end.joint.kind;
  const reference::Screw* screw = tables.screw(kind.fastener_diameter);
  const Site site = site_of(model, end);
  joint.why_bending = "screws pulled along the grain: the code gives them no strength";
  joint.why_pull = joint.why_bending;
  joint.pulls[pull] = joint.pulls[flat] = 1.0;
  joint.advice = "a bracket or a screwed block in the corner";
  if (screw == nullptr || kind.fasteners < 1) {
    joint.why = "the screws are not known";
    return joint;
  }
  const Length d = screw->diameter;
  const Length in_rail = kind.fastener_length - site.onto_behind;
  const Length least = tables.constant("penetration lateral").value * d;
  if (in_rail < least) {
    joint.why = fmt::format("the screws reach {} into the rail, {} are needed", shown(in_rail),
                            shown(least));
    joint.advice = "longer screws, or a bracket";
    return joint;
  }
  const Lateral side_grain = in_side_grain(kind, *screw, site, in_rail, tables);
  const double share = tables.constant("end grain lateral").value;
  FastenerGroup group;
  group.name = "screws into the end grain";
  group.ductile = true;
  group.F_v_k = share * side_grain.F;
  const double n = kind.fasteners;
  group.first[down] = group.first[up] = group.second[sideways] = 1.0 / n;
  joint.groups = {group};
  joint.working = {
      fmt::format("{} screws {} x {}: side grain mode {}: {} each; in end grain {:.2f} "
                  "of it: F_v,Rk = {}",
                  kind.fasteners, shown(d), shown(kind.fastener_length), side_grain.mode,
                  shown(side_grain.F), share, shown(group.F_v_k))};
  return joint;
}

}  // namespace standtrue::check
