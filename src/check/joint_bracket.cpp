// Doubles in SI where they multiply end forces.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/joint_screwed.hpp"
#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;
using enum Component;

namespace {

/// f_y w t²/4: the corner as a plastic hinge.
/// Source (from memory): EN 1993-1-1, 6.2.5, plastic modulus.
double plate_hinge(const reference::JointKind& kind, const reference::Steel& steel) {
  const double t = in_si(kind.thickness);
  return in_si(steel.f_y) * in_si(kind.width) * t * t / 4.0;
}

/// A bracket joint in the making. The plate has one hinge, in which all that bends its corner adds
/// up; a ribbed one has none.
struct Making {
  const Build& build;
  const Screwed& r;    ///< leg on the rail
  const Screwed& o;    ///< leg on the post (or carrying rail)
  double sides = 1.0;  ///< brackets that share
  FastenerGroup rail{}, onto{};
  SimpleMode plate{bracket_plate_mode, {}, 0.0, true, true};
  std::vector<SimpleMode> others{};
};

/// Lever of a couple between the bracket and the pressed butt of the rail, and what the butt
/// stands.
struct Butt {
  double lever = 0.0;
  double F_k = 0.0;
};
Butt butt_of(const Build& build) {
  const double pressed = build.tables.constant("butt pressed share").value;
  const double depth = in_si(build.site.rail->depth);
  return {depth * (1.0 - pressed / 2.0), in_si(build.site.onto->timber.f_c_90_k) *
                                             in_si(build.site.rail->width) * pressed * depth};
}
void press_butt(Making& making, Component sense, const Butt& butt) {
  SimpleMode mode{"the rail's butt pressed into the post", {}, butt.F_k, false, false};
  mode.demand[sense] = 1.0 / butt.lever;
  making.others.push_back(std::move(mode));
}

/// A way to bend: demand per newton metre on the pulled and the lateral screws and on the hinge.
struct WayToBend {
  double rail_axial = 0.0, rail_lateral = 0.0, onto_axial = 0.0, hinge = 0.0;
};

/// By the bracket alone: its corner, both legs pried off about their toes (it closes) or heels.
WayToBend by_corner(const Making& m, bool closes) {
  const Length toe = m.build.kind.leg;
  return {prying(m.r, toe, closes) / m.sides, 0.0, prying(m.o, toe, closes) / m.sides,
          1.0 / m.sides};
}
/// By a couple: one bracket pulled at its corner, against what presses on the rail's other side.
WayToBend by_couple(const Making& m, double lever) {
  return {0.0, along_leg(m.r) / lever, first_row(m.o) / lever, in_si(m.build.kind.first) / lever};
}

/// Characteristic; zero where its screws can not be pulled.
double resistance(const Making& m, const WayToBend& way) {
  if (!(way.onto_axial > 0.0)) return 0.0;
  double M = in_si(m.o.F_ax_k) / way.onto_axial;
  if (way.rail_axial > 0.0) M = std::min(M, in_si(m.r.F_ax_k) / way.rail_axial);
  if (way.rail_lateral > 0.0) M = std::min(M, in_si(m.r.F_v_k) / way.rail_lateral);
  return m.build.kind.ribbed ? M : std::min(M, m.build.M_pl / way.hinge);
}

void take(Making& m, Component sense, const WayToBend& way) {
  m.rail.axial[sense] = way.rail_axial;
  m.rail.first[sense] = way.rail_lateral;
  m.onto.axial[sense] = way.onto_axial;
  m.plate.demand[sense] = way.hinge;
}

/// One bracket: closing by its corner; opening by that or by the butt, whichever is stronger: the
/// plate yields, so that either is a lower bound.
void bend_one(Making& m, bool is_above) {
  const Component closing = is_above ? bottom : top, opening = is_above ? top : bottom;
  take(m, closing, by_corner(m, true));
  const Butt butt = butt_of(m.build);
  const WayToBend corner = by_corner(m, false), couple = by_couple(m, butt.lever);
  const double M_couple = std::min(resistance(m, couple), butt.F_k * butt.lever);
  const bool by_butt = m.build.site.butts && M_couple > resistance(m, corner);
  take(m, opening, by_butt ? couple : corner);
  if (by_butt) press_butt(m, opening, butt);
}

/// One on each side: the one that opens is pulled, the other side presses; or both by their
/// corners.
void bend_pair(Making& m) {
  const Butt butt = butt_of(m.build);
  const WayToBend couple = by_couple(m, butt.lever);
  const WayToBend closes = by_corner(m, true), opens = by_corner(m, false);
  const WayToBend corner{std::max(closes.rail_axial, opens.rail_axial), 0.0,
                         std::max(closes.onto_axial, opens.onto_axial), closes.hinge};
  const bool coupled = resistance(m, couple) > resistance(m, corner);
  for (const Component sense : {top, bottom}) {
    take(m, sense, coupled ? couple : corner);
    if (coupled && m.build.site.butts) press_butt(m, sense, butt);
  }
}

/// Under or above the rail: what is not bending in the upright plane.
void pass_on_under(Making& m, bool is_above) {
  const bool is_pair = m.sides > 1.0;
  const double pushed = m.build.site.butts ? 0.0 : 1.0;  // a butt takes the push
  m.rail.first[pull] = along_leg(m.r) / m.sides;
  m.rail.first[push] = pushed * along_leg(m.r) / m.sides;
  m.rail.second[sideways] = across_leg(m.r) / m.sides;
  m.rail.turning[flat] = turning(m.r) / m.sides;
  m.rail.axial[twist] = columns_pull(m.r, m.build) / m.sides;
  m.onto.axial[pull] = first_row(m.o) / m.sides;
  m.onto.second[sideways] = across_leg(m.o) / m.sides;
  m.onto.first[down] = m.onto.first[up] = along_leg(m.o);  // of a pair the pressed one alone
  m.onto.axial[flat] = columns_pull(m.o, m.build) / m.sides;
  m.onto.turning[twist] = turning(m.o) / m.sides;
  const double first = in_si(m.build.kind.first);
  m.plate.demand[pull] = first / m.sides;
  if (is_pair) return;
  // One alone carries what lifts off it by the screws of its rail leg and by its plate.
  const Component off = is_above ? down : up;
  m.rail.axial[off] = first_row(m.r);
  m.plate.demand[off] = first;
}

/// On the upright faces of the rail, bent about an upright line.
void pass_on_beside(Making& m) {
  const double pushed = m.build.site.butts ? 0.0 : 1.0;
  const double about_toe = prying(m.r, m.build.kind.leg, true) / m.sides;
  m.rail.first[pull] = along_leg(m.r) / m.sides;
  m.rail.first[push] = pushed * along_leg(m.r) / m.sides;
  m.rail.second[down] = m.rail.second[up] = across_leg(m.r) / m.sides;
  m.rail.axial[flat] = about_toe;
  m.rail.axial[twist] = columns_pull(m.r, m.build) / m.sides;
  m.onto.first[down] = m.onto.first[up] = across_leg(m.o) / m.sides;
  m.onto.second[sideways] = across_leg(m.o) / m.sides;
  m.onto.axial[pull] = first_row(m.o) / m.sides;
  m.onto.axial[flat] = prying(m.o, m.build.kind.leg, true) / m.sides;
  m.onto.turning[twist] = turning(m.o) / m.sides;
  m.plate.demand[pull] = in_si(m.build.kind.first) / m.sides;
  m.plate.demand[flat] = 1.0 / m.sides;
  const Length depth = m.build.site.rail->depth;
  const Length h_e = depth / 2.0 + m.r.lateral.across / 2.0;
  // b not more than what the screws reach into the wood, 8.1.4.
  const Length b =
      std::min(m.build.site.rail->width, m.build.kind.fastener_length - m.build.kind.thickness);
  SimpleMode splitting{"splitting of the rail", {}, 0.0, false, false};
  splitting.R_k = in_si(splitting_resistance(b, h_e, depth, m.build.tables));
  splitting.demand[down] = splitting.demand[up] = 1.0;
  m.others.push_back(std::move(splitting));
}

/// Against the butt's edge the middle of the bracket has half the rail's depth; without a butt its
/// own columns are the couple. False where there is no lever, or one screw on which the leg turns.
bool bend_beside(Making& m) {
  const Butt butt = butt_of(m.build);
  const double lever = m.build.site.butts ? butt.lever - in_si(m.build.site.rail->depth) / 2.0
                                          : in_si(m.o.axial.across);
  if (!(lever > 0.0) || m.r.lateral.count() < 2) return false;
  for (const Component sense : {top, bottom}) {
    m.rail.turning[sense] = turning(m.r) / m.sides;
    m.onto.axial[sense] = first_row(m.o) / lever / m.sides;
    m.plate.demand[sense] = in_si(m.build.kind.first) / lever / m.sides;
    if (m.build.site.butts) press_butt(m, sense, {lever, butt.F_k});
  }
  return true;
}

struct Legs {
  OrWhy<Screwed> rail, onto;
  bool is_beside = false, is_above = false, is_pair = false;
  std::string said{};
  [[nodiscard]] bool fit() const { return rail && onto; }
};

Legs legs_for(const Build& build, const std::string& place) {
  const Site& site = build.site;
  const auto make = [&](bool is_beside, bool is_above, bool is_pair) {
    return Legs{screwed(build, is_beside ? rail_leg_beside(site) : rail_leg_under(site)),
                screwed(build, is_beside ? onto_leg_beside(site) : onto_leg_under(site, is_above)),
                is_beside, is_above, is_pair};
  };
  if (place == "inside face") return make(true, false, false);
  if (place != "both faces" || build.kind.pieces < 2) return make(false, place == "above", false);
  // One above and one under the rail; where one of them has no post, both sides; else one of them.
  const Legs under = make(false, false, true), above = make(false, true, true);
  if (under.fit() && above.fit()) return under;
  const Legs sides = make(true, false, true);
  if (sides.fit()) return sides;
  Legs one = make(false, above.fit(), false);
  one.said = above.fit() ? "no room for the bracket under the rail: only the upper one is counted"
                         : "no room for the bracket above the rail: only the lower one is counted";
  return one;
}

/// A moment in the plane of a leg that a single screw is in: it turns.
void note_turning(JointStrength& joint, const Making& m, bool is_beside) {
  const bool rail_turns = !is_beside && m.r.lateral.count() < 2;
  const bool onto_turns = m.o.lateral.count() < 2;
  if (!rail_turns && !onto_turns) return;
  joint.why_pull = fmt::format("one screw alone lets the bracket turn on the {}",
                               rail_turns ? m.r.leg.on : m.o.leg.on);
  joint.advice = "a narrower bracket or thinner screws, or a wider rail or post";
  joint.pulls[flat] = rail_turns ? 1.0 : 0.0;
  joint.pulls[twist] = onto_turns ? 1.0 : 0.0;
}

/// What the screws can not be judged for where they may not or can not be pulled.
void note_pull(JointStrength& joint, const Making& m, bool is_above) {
  if (m.r.axial.count() == 0 || m.o.axial.count() == 0) {
    joint.why_pull = "the bracket's screws sit too near an end or edge to be pulled";
    joint.advice = "a narrower bracket or thinner screws, or a wider rail";
  } else if (!(m.r.F_ax_k > Force{}) || !(m.o.F_ax_k > Force{})) {
    joint.why_pull = "the screws are too short to be pulled";
    joint.advice = "longer screws";
  } else {
    return;
  }
  joint.why_bending = joint.why_pull;
  joint.pulls[pull] = joint.pulls[twist] = joint.pulls[flat] = 1.0;
  if (m.rail.axial[is_above ? down : up] > 0.0 || m.sides == 1.0) {
    joint.pulls[is_above ? down : up] = 1.0;
  }
}

void tell_bracket(JointStrength& joint, const Making& m, const Legs& legs,
                  const reference::Steel& steel) {
  const reference::JointKind& kind = m.build.kind;
  joint.working = {said(m.r, m.build), said(m.o, m.build)};
  if (!legs.said.empty()) {
    joint.working.push_back(legs.said);
    joint.advice = "set the second bracket where both of its legs find wood";
  }
  if (!kind.ribbed) {
    joint.working.push_back(fmt::format("plate: M_pl = f_y w t^2/4 = {} x {} x ({})^2/4 = {}",
                                        shown(steel.f_y), shown(kind.width), shown(kind.thickness),
                                        shown(quantity::newton_metres(m.build.M_pl))));
  }
  joint.working.push_back(
      "withdrawal: eq. (8.38) for 6 to 12 mm, else the usual measured value by (8.40a)");
}

}  // namespace

JointStrength bracket_strength(const model::Model& model, const model::RailEnd& end,
                               const reference::Tables& tables) {
  JointStrength joint;
  const reference::JointKind& kind = end.joint.kind;
  const reference::Screw* screw = tables.screw(kind.fastener_diameter);
  const reference::Steel* steel = tables.steel(kind.plate_steel);
  if (screw == nullptr || steel == nullptr || kind.fasteners < 1) {
    joint.why = "the screws or the steel of the bracket are not known";
    return joint;
  }
  const Build build{kind, *screw, tables, site_of(model, end), plate_hinge(kind, *steel)};
  const Legs legs = legs_for(build, end.joint.place);
  if (!legs.fit()) {
    joint.why = legs.rail ? legs.onto.error() : legs.rail.error();
    joint.advice =
        "a narrower bracket or thinner screws in pre-drilled holes, or a wider rail; see that the "
        "screws neither come out nor sit at an edge";
    return joint;
  }
  Making m{build, *legs.rail, *legs.onto, legs.is_pair ? 2.0 : 1.0};
  m.rail = group_of(m.r, build);
  m.onto = group_of(m.o, build);
  m.plate.R_k = build.M_pl;
  if (legs.is_beside) {
    pass_on_beside(m);
    if (!bend_beside(m)) joint.why_bending = "nothing holds such a bracket against bending";
  } else {
    pass_on_under(m, legs.is_above);
    if (legs.is_pair) bend_pair(m);
    if (!legs.is_pair) bend_one(m, legs.is_above);
  }
  note_turning(joint, m, legs.is_beside);
  note_pull(joint, m, legs.is_above);
  joint.groups = {m.rail, m.onto};
  joint.modes = m.others;
  if (!kind.ribbed) joint.modes.push_back(m.plate);
  tell_bracket(joint, m, legs, *steel);
  return joint;
}

}  // namespace standtrue::check
