#include "model/joint_stiffness.hpp"

#include <algorithm>
#include <cmath>

#include "model/slip.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

using quantity::in_si;

namespace {

double in_series(std::initializer_list<double> stiffnesses) {
  double flexibility = 0.0;
  for (const double k : stiffnesses) {
    if (k <= 0.0) return 0.0;
    flexibility += 1.0 / k;
  }
  return 1.0 / flexibility;
}

/// Timber pressed across the grain behind a seat: E_90 times the area over the depth that takes
/// part, half of the piece behind (ours).
double bearing_spring(const RailEndGeometry& g, const reference::Tables& tables, double area) {
  const double depth = tables.constant("bearing depth share").value * in_si(g.post_behind);
  return in_si(g.post.E_90_mean) * area / depth;
}

struct Screws {
  double lateral = 0.0, axial = 0.0;  ///< of one, N/m
};

Screws screws_of(const reference::JointKind& kind, const RailEndGeometry& g,
                 const reference::Tables& tables, bool to_steel) {
  const quantity::Density rho = mean_of(g.rail.rho_mean, g.post.rho_mean);
  Length thread = kind.fastener_length - kind.thickness;
  if (const reference::Screw* screw = tables.screw(kind.fastener_diameter)) {
    if (kind.fastener_length > screw->all_thread_to) {
      thread = std::min(thread, screw->thread_share * kind.fastener_length);
    }
  }
  return {lateral_slip(tables, rho, kind.fastener_diameter, to_steel),
          axial_slip(tables, kind.fastener_diameter, thread)};
}

JointStiffness brackets(const reference::JointKind& kind, const RailEndGeometry& g,
                        const reference::Tables& tables) {
  const reference::Steel* steel = tables.steel(kind.plate_steel);
  expects(steel != nullptr, "joint_stiffness: a bracket without a steel");
  const double n = kind.fasteners;
  const double rows = std::max(1.0, n / std::max(1, kind.rows));
  const double pieces = kind.pieces;
  const double t = in_si(kind.thickness);
  const double first = in_si(kind.first);
  const double r = in_si(kind.radius);
  const double EI_plate = in_si(steel->E) * in_si(kind.width) * t * t * t / 12.0;
  const Screws screw = screws_of(kind, g, tables, true);
  // A rib keeps the corner square; then only the screws turn, and the plate between them a little:
  // a share of what the screws alone would give.
  const double leg = n * screw.axial * r * r;
  const double corner = kind.ribbed
                            ? tables.constant("ribbed leg share").value * in_series({leg, leg})
                            : in_series({EI_plate / first, leg, leg});
  // The couple: one side pulls the post leg off (its first row of screws and the plate between them
  // and the corner) and the rail leg along; the other side presses.
  const double first_row = n / rows;
  const double plate = kind.ribbed ? 1e12 : 3.0 * EI_plate / (first * first * first);
  const double pull = in_series({plate, first_row * screw.axial, n * screw.lateral});
  const double z = in_si(g.rail_depth);
  const double press = bearing_spring(g, tables, in_si(g.rail_width) * 0.25 * z);
  const double couple = z * z * in_series({pull, press});

  JointStiffness k;
  k.bend_closing = pieces * corner;
  k.bend_opening = pieces * corner;
  if (kind.pieces > 1) {
    const double share = tables.constant("bracket couple share").value;
    k.bend_closing += share * couple;
    k.bend_opening += share * couple;
  } else {
    k.bend_opening += tables.constant("butt contact share").value * couple;
  }
  k.sideways = k.twist = pieces * corner;
  k.along = pieces * in_series({n * screw.lateral, first_row * screw.axial});
  k.across = k.upright = pieces * n * screw.lateral;
  return k;
}

/// Fasteners in a line through rail and post, or a gusset's two groups: the group's own stiffness.
JointStiffness groups(const reference::JointKind& kind, const RailEndGeometry& g,
                      const reference::Tables& tables, double in_line) {
  quantity::Density rho = mean_of(g.rail.rho_mean, g.post.rho_mean);
  if (const reference::Panel* panel =
          kind.gusset_family.empty() ? nullptr : tables.panel(kind.gusset_family, kind.thickness)) {
    rho = mean_of(rho, panel->rho_mean);
  }
  const double n = kind.fasteners * std::max(1, kind.pieces);
  const double lateral = lateral_slip(tables, rho, kind.fastener_diameter, false);
  const double r = in_si(kind.radius);
  JointStiffness k;
  k.bend_closing = k.bend_opening = n * lateral * r * r / in_line;
  k.along = k.upright = n * lateral / in_line;
  k.across = n * lateral / in_line;
  // Out of its plane the lap or plate is held by its breadth of contact: as stiff as in its plane
  // for one fastener's distance (ours).
  k.sideways = k.twist = 0.5 * k.bend_closing;
  return k;
}

/// Of joints that turn in a glue line: what a low rail has of the stiffness of their record.
double share_of_band(const reference::JointKind& kind, const RailEndGeometry& g,
                     const reference::Tables& tables) {
  using reference::Fastening;
  const bool is_glued = kind.fastening == Fastening::half_lap ||
                        kind.fastening == Fastening::tenon || kind.fastening == Fastening::glue;
  if (!is_glued) return 1.0;
  const double part = in_si(g.rail_depth) / tables.constant("glued band depth").value;
  return std::min(1.0, part * part * part);
}

JointStiffness from_band(const reference::JointKind& kind, const RailEndGeometry& g,
                         const reference::Tables& tables) {
  JointStiffness k;
  const double bend = share_of_band(kind, g, tables) * in_si(kind.bend.mean);
  k.bend_closing = k.bend_opening = bend;
  k.sideways = k.twist = 0.5 * bend;
  const double seat = bearing_spring(g, tables, in_si(g.rail_width) * in_si(g.rail_depth));
  k.along = k.across = k.upright = seat;
  if (kind.fastening == reference::Fastening::none) {
    k.twist = 1e3;  // a rail on a pin is still kept from rolling over by its seat (ours)
  }
  return k;
}

void scale(JointStiffness& k, double by) {
  for (double* value :
       {&k.bend_closing, &k.bend_opening, &k.sideways, &k.twist, &k.along, &k.across, &k.upright}) {
    *value *= by;
  }
}

/// A bracket above a rail opens where the rail sags, one below closes.
double gravity_sense(const JointStiffness& k, const std::string& place) {
  return place == "above" ? k.bend_opening : k.bend_closing;
}

}  // namespace

JointStiffness joint_stiffness(const bench::Joint& joint, const RailEndGeometry& geometry,
                               const reference::Tables& tables, Bound bound, double times) {
  using reference::Fastening;
  const reference::JointKind& kind = joint.kind;
  JointStiffness k;
  switch (kind.fastening) {
    case Fastening::bracket:
      k = brackets(kind, geometry, tables);
      break;
    case Fastening::bolts:
    case Fastening::lap_screws:
      k = groups(kind, geometry, tables, 1.0);
      break;
    case Fastening::gusset:
      k = groups(kind, geometry, tables, 2.0);
      break;
    case Fastening::none:
    case Fastening::end_grain_screws:
    case Fastening::glue:
    case Fastening::pocket_screws:
    case Fastening::half_lap:
    case Fastening::tenon:
      k = from_band(kind, geometry, tables);
      break;
  }
  const double band = tables.constant("joint band").value;
  if (bound == Bound::soft) scale(k, 1.0 / band);
  if (bound == Bound::stiff) scale(k, band);
  scale(k, times);
  const bench::Joint::Stiffness& given = joint.stiffness;
  if (given.bend) k.bend_closing = k.bend_opening = in_si(*given.bend);
  if (given.sideways) k.sideways = in_si(*given.sideways);
  if (given.twist) k.twist = in_si(*given.twist);
  if (given.along) k.along = in_si(*given.along);
  if (given.across) k.across = k.upright = in_si(*given.across);
  k.bend_gravity = gravity_sense(k, joint.place);
  k.bend_sway = 0.5 * (k.bend_closing + k.bend_opening);
  return k;
}

JointStiffness after_creep(JointStiffness stiffness, double k_def_joint) {
  const double by = 1.0 / (1.0 + k_def_joint);
  scale(stiffness, by);
  stiffness.bend_gravity *= by;
  stiffness.bend_sway *= by;
  return stiffness;
}

}  // namespace standtrue::model
