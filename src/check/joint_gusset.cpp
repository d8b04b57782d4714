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

/// One side of a gusset with what its screws carry.
struct Side {
  Leg leg;
  Pattern pattern;
  Force F_v_k, F_ax_k;
  char mode = '?';
};

OrWhy<Side> side_of(Leg leg, const reference::JointKind& kind, const reference::Screw& screw,
                    const reference::Panel& panel, reference::Material material,
                    const reference::Tables& tables) {
  const Length d = screw.diameter;
  const Length in_wood = kind.fastener_length - kind.thickness;
  const Length least = tables.constant("penetration lateral").value * d;
  if (in_wood >= leg.behind) {
    return tl::unexpected(fmt::format("the screws come out at the back of the {}", leg.on));
  }
  if (in_wood < least) {
    return tl::unexpected(fmt::format("the screws reach {} into the {}, {} are needed",
                                      shown(in_wood), leg.on, shown(least)));
  }
  Side side{std::move(leg), {}, {}, {}, '?'};
  side.pattern = lateral_pattern(grid_of(kind), side.leg, d, Plate::panel, tables);
  if (side.pattern.count() == 0) {
    return tl::unexpected(
        fmt::format("the gusset's screws sit too near an end or edge of the {}", side.leg.on));
  }
  if (side.pattern.count() < 2) {
    return tl::unexpected(
        fmt::format("one screw alone lets the gusset turn on the {}", side.leg.on));
  }
  const Length thread = thread_length(screw, kind.fastener_length);
  const Length d_ef =
      effective_diameter(screw, kind.fastener_length - thread - kind.thickness, tables);
  const OrWhy<Stress> f_h_1 = embedment_panel(d_ef, panel.thickness, panel.rho_k, material, tables);
  if (!f_h_1) return tl::unexpected(f_h_1.error());
  const Stress f_h_2 =
      embedment_screw(d_ef, side.leg.timber, side.pattern.predrilled, side.leg.angle, tables);
  const OrWhy<Withdrawal> pulled =
      withdrawal(screw, std::min(thread, in_wood) - d, side.leg.timber.rho_k, right_angle, tables);
  // Held by its thread and by its head.
  side.F_ax_k =
      pulled ? std::min(pulled->F, head_pull_through(screw, panel.rho_k, tables)) : Force{};
  const Lateral lateral =
      timber_to_timber({*f_h_1, f_h_2, panel.thickness, in_wood, d_ef, screw.M_y_k, side.F_ax_k,
                        tables.constant("rope limit screws").value},
                       tables);
  side.F_v_k = lateral.F;
  side.mode = lateral.mode;
  return side;
}

/// All in the plane of the gusset but what pulls it off: bending about an upright line prises at
/// the rows along the rail and the columns on the post, twist the other way about.
FastenerGroup gusset_group(const Side& side, bool is_rail, const Site& site,
                           const reference::JointKind& kind, const reference::Screw& screw,
                           const reference::Tables& tables) {
  using enum Component;
  const double pieces = std::max(1, kind.pieces);
  const double n = pieces * side.pattern.count();
  const double middle = in_si(kind.first) + 0.5 * (grid_of(kind).rows - 1) * in_si(kind.pitch);
  const double arm = is_rail ? middle : in_si(site.post_half);  // joint to the group's centre
  const Arms a = arms_about_centre(side.pattern);
  const double turn = a.r_max / a.sum_r2 / pieces;
  FastenerGroup group;
  group.name = fmt::format("screws of the gusset in the {}", side.leg.on);
  group.ductile = true;
  group.F_v_k = side.F_v_k;
  group.F_ax_k = side.F_ax_k;
  group.F_tens_k = screw.f_tens_k;
  group.first[pull] = 1.0 / n;
  group.first[push] = site.butts ? 0.0 : 1.0 / n;
  group.second[down] = group.second[up] = 1.0 / n;
  group.turning[top] = group.turning[bottom] = turn;
  group.turning[down] = group.turning[up] = arm * turn;
  group.axial[sideways] = 1.0 / (pieces * effective_axial(side.pattern.count(), tables));
  const Length first = side.pattern.rows.front();
  group.axial[is_rail ? flat : twist] =
      pried_by_rows(side.pattern, std::min(first, kind.leg - first)) / pieces;
  group.axial[is_rail ? twist : flat] =
      pried_by_columns(side.pattern, std::min(side.leg.half_width, kind.leg / 2.0)) / pieces;
  return group;
}

SimpleMode splitting_by_gusset(const Side& rail, const Site& site, const reference::JointKind& kind,
                               const reference::Tables& tables) {
  using enum Component;
  const Length h = site.rail->depth;
  const Length b = std::min(site.rail->width, kind.fastener_length - kind.thickness);
  SimpleMode mode{"splitting of the rail", {}, 0.0, false, false};
  mode.demand[down] = mode.demand[up] = 1.0;
  mode.R_k = in_si(splitting_resistance(b, h / 2.0 + rail.pattern.across / 2.0, h, tables));
  return mode;
}

/// The sheet as a deep beam of its side, by its tension strength in the weaker of both ways.
SimpleMode gusset_bending(const reference::Panel& panel, const reference::JointKind& kind) {
  using enum Component;
  const double f_t = in_si(std::min(panel.f_t_0_k, panel.f_t_90_k));
  const double side = in_si(kind.leg);
  SimpleMode mode{"bending of the gusset", {}, 0.0, false, false};
  mode.demand[top] = mode.demand[bottom] = 1.0;
  mode.R_k = std::max(1, kind.pieces) * f_t * in_si(panel.thickness) * side * side / 6.0;
  return mode;
}

std::string said_of_side(const Side& side, const reference::JointKind& kind) {
  return fmt::format(
      "{}: {} of {} screws keep their distances{}; mode {}: F_v,Rk = {} each, "
      "F_ax,Rk = {}",
      side.leg.on, side.pattern.count(), kind.fasteners,
      side.pattern.predrilled ? ", holes pre-drilled" : "", side.mode, shown(side.F_v_k),
      shown(side.F_ax_k));
}

/// The last rows lie in the gusset, or why not.
std::string off_the_sheet(const reference::JointKind& kind) {
  const Length last = kind.first + static_cast<double>(grid_of(kind).rows - 1) * kind.pitch;
  if (last < kind.leg) return {};
  return fmt::format("the last screws are {} from the corner, the gusset ends at {}", shown(last),
                     shown(kind.leg));
}

}  // namespace

JointStrength gusset_strength(const model::Model& model, const model::RailEnd& end,
                              const reference::Tables& tables) {
  using enum Component;
  JointStrength joint;
  const reference::JointKind& kind = end.joint.kind;
  const reference::Screw* screw = tables.screw(kind.fastener_diameter);
  const reference::Panel* panel = tables.panel(kind.gusset_family, kind.thickness);
  const reference::PanelFamily* family = tables.panel_family(kind.gusset_family);
  if (screw == nullptr || panel == nullptr || family == nullptr || kind.fasteners < 1) {
    joint.why = "the screws or the sheet of the gusset are not known";
    return joint;
  }
  joint.why = off_the_sheet(kind);
  if (!joint.why.empty()) {
    joint.advice = "a larger gusset, or its screws closer together";
    return joint;
  }
  joint.other = family->material;
  const Site site = site_of(model, end);
  // Along the post, its grain upright: below the rail, or above it where it is set so or the post
  // ends too soon below.
  const bool is_above =
      end.joint.place == "above" ||
      (end.joint.place != "under" && site.below < kind.leg && site.above > site.below);
  Leg post_leg = onto_leg_under(site, is_above);
  post_leg.half_width = site.post_half;
  const auto side = [&](Leg leg) {
    return side_of(std::move(leg), kind, *screw, *panel, family->material, tables);
  };
  const OrWhy<Side> r = side(rail_leg_beside(site)), o = side(post_leg);
  if (!r || !o) {
    joint.why = r ? o.error() : r.error();
    joint.advice = r ? "a smaller gusset, thinner screws, or the rail farther from the post's end"
                     : "thinner screws in pre-drilled holes, or a wider rail";
    return joint;
  }
  joint.groups = {gusset_group(*r, true, site, kind, *screw, tables),
                  gusset_group(*o, false, site, kind, *screw, tables)};
  if (!(r->F_ax_k > Force{}) || !(o->F_ax_k > Force{})) {
    joint.why_pull = "the screws are too short to be pulled";
    joint.pulls[sideways] = joint.pulls[flat] = joint.pulls[twist] = 1.0;
  }
  joint.modes = {splitting_by_gusset(*r, site, kind, tables)};
  const SimpleMode sheet = gusset_bending(*panel, kind);
  if (sheet.R_k > 0.0) {
    joint.modes.push_back(sheet);
  } else {
    joint.why_bending = "the strength of the gusset's sheet is not known";
  }
  joint.working = {said_of_side(*r, kind), said_of_side(*o, kind)};
  return joint;
}

}  // namespace standtrue::check
