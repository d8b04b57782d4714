// Doubles in SI where they multiply end forces.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/fastener_units.hpp"
#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Heights of the screws over the underside of the rail: in a column about its middle.
struct ScrewColumn {
  int n = 0;
  double across = 0.0, depth = 0.0, pressed = 0.0;  ///< m; pressed: depth of the butt that presses
  /// Share of a moment that pulls the worst screw, about the pressed part of the butt.
  [[nodiscard]] double pulled_by_bending() const {
    double sum = 0.0, most = 0.0;
    for (int i = 0; i < n; ++i) {
      const double at = 0.5 * depth + (n > 1 ? (i / (n - 1.0) - 0.5) * across : 0.0);
      const double r = std::max(0.0, at - 0.5 * pressed);
      sum += r * r;
      most = std::max(most, r);
    }
    return sum > 0.0 ? most / sum : 0.0;
  }
};

/// The rail's piece under the slant is loaded along its grain: a share of side grain, as in end
/// grain.
Lateral lateral_of(const reference::JointKind& kind, const reference::Screw& screw,
                   const Site& site, Length in_post, const reference::Tables& tables) {
  const bool predrilled = true;  // the pocket's drill goes through the rail
  const Length thread = thread_length(screw, kind.fastener_length), in_rail = kind.first;
  const Length d_ef = effective_diameter(screw, kind.fastener_length - thread - in_rail, tables);
  return timber_to_timber({embedment_screw(d_ef, site.rail->timber, predrilled, 0.0, tables),
                           embedment_screw(d_ef, site.onto->timber, false, right_angle, tables),
                           in_rail, in_post, d_ef, screw.M_y_k, Force{}, 0.0},
                          tables);
}

}  // namespace

/// Screws through slanted pockets in the side of the rail into the side grain of the post: pulled
/// out of the post or through the wood under their heads; lateral as in end grain, for the rail's
/// part lies along its grain. Bending by the screws against the pressed edge of the butt.
/// Source (second hand): EN 1995-1-1, 8.2.2, 8.3.1.2(4), 8.7.2, eq. (8.6), (8.38) to (8.40b); the
/// lever is ours.
JointStrength pocket_screws_strength(const model::Model& model, const model::RailEnd& end,
                                     const reference::Tables& tables) {
  using enum Component;
  JointStrength joint;
  const reference::JointKind& kind = end.joint.kind;
  const reference::Screw* screw = tables.screw(kind.fastener_diameter);
  const Site site = site_of(model, end);
  if (screw == nullptr || kind.fasteners < 1) {
    joint.why = "the screws are not known";
    return joint;
  }
  const Length d = screw->diameter, in_post = kind.fastener_length - kind.first;
  const Length thread = thread_length(*screw, kind.fastener_length);
  const OrWhy<Withdrawal> pulled = withdrawal(*screw, std::min(thread, in_post) - d,
                                              site.onto->timber.rho_k, right_angle, tables);
  if (!pulled || in_post >= site.onto_behind) {
    joint.why =
        pulled ? std::string("the screws come out at the back of the post") : pulled.error();
    joint.advice = pulled ? "shorter screws" : "longer screws";
    return joint;
  }
  const double pressed = tables.constant("butt pressed share").value * in_si(site.rail->depth);
  const ScrewColumn column{kind.fasteners, in_si(kind.pitch) * (kind.fasteners - 1),
                           in_si(site.rail->depth), pressed};
  const Lateral side_grain = lateral_of(kind, *screw, site, in_post, tables);
  const double n = kind.fasteners, n_ax = effective_axial(kind.fasteners, tables);
  FastenerGroup group;
  group.name = "pocket screws";
  group.F_v_k = tables.constant("end grain lateral").value * side_grain.F;
  group.F_ax_k = std::min(pulled->F, head_pull_through(*screw, site.rail->timber.rho_k, tables));
  group.F_tens_k = screw->f_tens_k;
  group.first[down] = group.first[up] = group.second[sideways] = 1.0 / n;
  group.axial[pull] = 1.0 / n_ax;
  group.axial[top] = group.axial[bottom] = column.pulled_by_bending();
  // About the upright axis the butt's edge is half the rail's width away.
  group.axial[flat] = 1.0 / (n_ax * 0.5 * in_si(site.rail->width));
  if (kind.fasteners > 1) {
    group.turning[twist] = 1.0 / column.across;
  } else {
    joint.why_pull = "one screw does not keep the rail from turning";
    joint.pulls[twist] = 1.0;
  }
  joint.groups = {group};
  SimpleMode butt{"the rail's butt pressed into the post",
                  {},
                  in_si(site.onto->timber.f_c_90_k) * in_si(site.rail->width) * pressed,
                  false,
                  false};
  butt.demand[top] = butt.demand[bottom] = 1.0 / (0.5 * (column.depth - pressed));
  joint.modes = {butt};
  joint.working = {fmt::format(
      "{} screws {} x {}, {} of them in the post: F_ax,Rk = {} each (thread or head); side grain "
      "mode {}: {}, along the rail's grain {:.2f} of it",
      kind.fasteners, shown(d), shown(kind.fastener_length), shown(in_post), shown(group.F_ax_k),
      side_grain.mode, shown(side_grain.F), tables.constant("end grain lateral").value)};
  return joint;
}

}  // namespace standtrue::check
