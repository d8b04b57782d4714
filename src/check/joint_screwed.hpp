#pragma once

#include <string>

#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"

/// The leg of a bracket with what its screws carry. Doubles in SI: they multiply end forces.
namespace standtrue::check {

struct Screwed {
  Leg leg;
  Pattern lateral, axial;
  Force F_v_k, F_ax_k;      ///< of one screw; F_ax_k zero: too short to be pulled
  double n_ef_row = 0.0;    ///< of the lateral rows, along the leg
  double n_ef_axial = 0.0;  ///< of the columns of one row
};

/// A bracket where it stands.
struct Build {
  const reference::JointKind& kind;
  const reference::Screw& screw;
  const reference::Tables& tables;
  Site site;
  double M_pl = 0.0;  ///< of one plate at its corner, characteristic
};

/// The screws that keep their distances; the reason where none does, or they do not fit the wood.
[[nodiscard]] OrWhy<Screwed> screwed(const Build& build, Leg leg);
/// A line for the working.
[[nodiscard]] std::string said(const Screwed& leg, const Build& build);
/// With its resistances and no demand yet.
[[nodiscard]] FastenerGroup group_of(const Screwed& leg, const Build& build);

// Demand on the worst screw, per newton or newton metre on the leg.

/// Of a moment that prises the leg off about its heel (the corner) or its toe: r_max/sum r².
[[nodiscard]] double prying(const Screwed& leg, Length toe, bool from_toe);
/// Of a moment in the leg's plane.
[[nodiscard]] double turning(const Screwed& leg);
/// Of a force along the leg, and across it.
[[nodiscard]] double along_leg(const Screwed& leg);
[[nodiscard]] double across_leg(const Screwed& leg);
/// Of a force that pulls the corner off: the first row.
[[nodiscard]] double first_row(const Screwed& leg);
/// Of a moment about the leg's own length: its columns pull or, of one column, its rows against the
/// plate's edge.
[[nodiscard]] double columns_pull(const Screwed& leg, const Build& build);

}  // namespace standtrue::check
