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

/// Rounding of printed sizes.
const Length bolt_slack = quantity::metres(1e-6);

/// What is left in the lap beyond the first bolt, to the far edges.
struct Room {
  Length along, upright;
  /// A row may lie as it likes there: no longer than the diagonal.
  [[nodiscard]] Length row() const {
    return quantity::metres(std::hypot(in_si(along), in_si(upright)));
  }
};

/// Upright it ends at the far edge of the rail, or where the post's other end comes too near.
Room room_of(const Site& site, Length lap, Length first, const Spacings& a) {
  const Length depth = site.rail->depth;
  Length upright = depth - a.a_4t;
  if (site.onto_post) {
    upright = std::min(upright, depth + std::max(site.above, site.below) - a.a_3t);
  }
  return {lap - first - a.a_4t, upright - first};
}

/// The row does not fit between the rail's end and the far edge of the post, and between the edges
/// of the rail: all of them loaded by bending.
std::string does_not_fit(const reference::JointKind& kind, const Site& site, Length lap,
                         const Spacings& a) {
  const Length first = kind.first, depth = site.rail->depth;
  if (first >= depth) return "the bolts do not lie in the rail";
  const char* onto = site.onto_post ? "post" : "carrying rail";
  if (first >= lap) return fmt::format("the bolts do not lie in the {}", onto);
  const Length to_end = first + std::min(site.above, site.below);
  if (site.onto_post && to_end + bolt_slack < a.a_3t) {
    return fmt::format("the bolts are {} from the end of the post, {} are needed", shown(to_end),
                       shown(a.a_3t));
  }
  const Room room = room_of(site, lap, first, a);
  if (room.along + bolt_slack < Length{}) {
    return fmt::format("the bolts are {} from the far edge of the {}, {} are needed",
                       shown(lap - first), onto, shown(a.a_4t));
  }
  if (room.upright + bolt_slack < Length{}) {
    return fmt::format("the bolts are {} from the far edge of the rail, {} are needed",
                       shown(depth - first), shown(depth - first - room.upright));
  }
  const Length row = static_cast<double>(kind.fasteners - 1) * kind.pitch;
  if (row > room.row() + bolt_slack) {
    return fmt::format("the row of bolts is {} long, the lap has room for {}", shown(row),
                       shown(room.row()));
  }
  return {};
}

/// The bolts lie in one row in the lap, the first one `first` from the rail's end and from its
/// edge, the one nearer to an end of the post.
std::string short_of(const reference::JointKind& kind, const Site& site, Length lap, Length d,
                     const reference::Tables& tables) {
  const reference::SpacingRule& rule = tables.spacing_rule("bolts");
  const Spacings along = least_spacings(rule, d, 0.0, Plate::none, tables);
  const Spacings square = least_spacings(rule, d, right_angle, Plate::none, tables);
  if (kind.fasteners > 1 && kind.pitch + bolt_slack < along.a_1) {
    return fmt::format("the bolts are {} apart, {} are needed", shown(kind.pitch),
                       shown(along.a_1));
  }
  if (kind.first + bolt_slack < square.a_4t) {
    return fmt::format("the bolts are {} from the edge, {} are needed", shown(kind.first),
                       shown(square.a_4t));
  }
  // The rail's end: pulled off it is loaded.
  if (kind.first + bolt_slack < along.a_3t) {
    return fmt::format("the bolts are {} from the end of the rail, {} are needed",
                       shown(kind.first), shown(along.a_3t));
  }
  return does_not_fit(kind, site, lap, square);
}

/// The bolts of this size set as near to the corner as they may, as far apart as they were or else
/// as near as they may; whether they keep their distances.
bool can_be_set(reference::JointKind& kind, const Site& site, Length lap,
                const reference::Bolt& bolt, const reference::Tables& tables) {
  const Length d = bolt.diameter;
  const Spacings a = least_spacings(tables.spacing_rule("bolts"), d, 0.0, Plate::none, tables);
  const Spacings square =
      least_spacings(tables.spacing_rule("bolts"), d, right_angle, Plate::none, tables);
  kind.fastener_diameter = d;
  kind.first = std::max(a.a_3t, square.a_4t);
  kind.pitch = std::max(kind.pitch, a.a_1);
  if (short_of(kind, site, lap, d, tables).empty()) return true;
  kind.pitch = a.a_1;
  return short_of(kind, site, lap, d, tables).empty();
}

/// The thickest bolts of the tables that fit in the lap, two of them if no more do; else brackets.
std::string cure_of_bolts(const reference::JointKind& kind, const Site& site, Length lap,
                          const reference::Tables& tables) {
  for (const int count : {std::max(kind.fasteners, 2), 2}) {
    const reference::Bolt* thickest = nullptr;
    reference::JointKind best;
    for (const reference::Bolt& bolt : tables.bolts) {
      reference::JointKind trial = kind;
      trial.fasteners = count;
      if (thickest != nullptr && bolt.diameter < thickest->diameter) continue;
      if (!can_be_set(trial, site, lap, bolt, tables)) continue;
      thickest = &bolt;
      best = trial;
    }
    if (thickest == nullptr) continue;
    // Of n in a line: root mean square distance from their middle p sqrt((n² - 1)/12).
    const Length radius = std::sqrt((count * count - 1.0) / 12.0) * best.pitch;
    return fmt::format(
        "the thickest bolts that fit: {{kind: bolted lap, bolts: {}, fasteners: {}, first: {}, "
        "pitch: {}, radius: {}}}",
        thickest->key, count, shown(best.first), shown(best.pitch), shown(radius));
  }
  return "two corner brackets in place of the lap: no bolts fit in it";
}

/// On one line through their centre, equally spaced: sum r² = p² n (n² - 1)/12.
FastenerGroup bolt_group(const reference::JointKind& kind, const Lateral& lateral,
                         const reference::Tables& tables) {
  using enum Component;
  const double n = kind.fasteners;
  FastenerGroup group;
  group.name = "bolts";
  group.ductile = true;
  group.F_v_k = lateral.F;
  group.first[pull] = group.first[push] =
      1.0 / effective_bolts(kind.fasteners, kind.pitch, kind.fastener_diameter, tables);
  group.second[down] = group.second[up] = 1.0 / n;
  if (kind.fasteners < 2) return group;
  const double p = in_si(kind.pitch);
  const double sum_r2 = p * p * n * (n * n - 1.0) / 12.0;
  group.turning[top] = group.turning[bottom] = (n - 1.0) / 2.0 * p / sum_r2;
  return group;
}

SimpleMode splitting_by_bolts(const reference::JointKind& kind, const Site& site,
                              const reference::Tables& tables) {
  using enum Component;
  const Length h = site.rail->depth;
  SimpleMode mode{"splitting of the rail", {}, 0.0, false, false};
  mode.demand[down] = mode.demand[up] = 1.0;
  mode.R_k = in_si(splitting_resistance(site.rail->width, h - kind.first, h, tables));
  return mode;
}

}  // namespace

JointStrength bolts_strength(const model::Model& model, const model::RailEnd& end,
                             const reference::Tables& tables) {
  JointStrength joint;
  const reference::JointKind& kind = end.joint.kind;
  const reference::Bolt* bolt = tables.bolt(kind.fastener_diameter);
  const reference::Steel* steel = tables.steel(kind.bolt_steel);
  if (bolt == nullptr || steel == nullptr || kind.fasteners < 1) {
    joint.why = "the bolts or their steel are not known";
    return joint;
  }
  const Site site = site_of(model, end);
  const Length d = bolt->diameter;
  const Length lap = lap_length(model, end);
  joint.why = short_of(kind, site, lap, d, tables);
  if (!joint.why.empty()) {
    joint.advice = cure_of_bolts(kind, site, lap, tables);
    return joint;
  }
  const Lateral lateral =
      timber_to_timber({embedment_bolt(d, site.rail->timber, right_angle, tables),
                        embedment_bolt(d, site.onto->timber, right_angle, tables), site.rail->width,
                        site.onto_behind, d, yield_moment(steel->f_u, d, tables), Force{},
                        tables.constant("rope limit bolts").value},
                       tables);
  joint.groups = {bolt_group(kind, lateral, tables)};
  if (kind.fasteners < 2) joint.why_bending = "one bolt does not hold a rail against bending";
  const SimpleMode splitting = splitting_by_bolts(kind, site, tables);
  joint.modes = {splitting};
  joint.working = {
      fmt::format("{} bolts {} of {}: f_h at 90 degrees in both, M_y,Rk = {}, mode {}: F_v,Rk = {} "
                  "each, without rope effect",
                  kind.fasteners, bolt->key, steel->key, shown(yield_moment(steel->f_u, d, tables)),
                  lateral.mode, shown(lateral.F)),
      fmt::format("splitting: F_90,Rk = 14 b sqrt(h_e/(1 - h_e/h)) = {}",
                  shown(quantity::newtons(splitting.R_k))),
      "sideways force and twist are taken by the faces that press on each other"};
  return joint;
}

}  // namespace standtrue::check
