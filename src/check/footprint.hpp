#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"

/// A bench as a rigid body on its feet: the outline of the feet and the moments about its edges.
/// Doubles in SI (N, m, N m); plan places x, y.
namespace standtrue::check {

struct PlanPoint {
  double x = 0.0, y = 0.0;
};

/// Corners of the convex outline, anticlockwise; fewer than three if the points lie in a row.
[[nodiscard]] std::vector<PlanPoint> convex_outline(std::vector<PlanPoint> points);

/// A line over which the bench can tip. Distances inwards are positive.
struct TippingEdge {
  PlanPoint from;
  PlanPoint outwards;  ///< unit vector, the way in which it tips
  [[nodiscard]] double inside(double x, double y) const {
    return -((x - from.x) * outwards.x + (y - from.y) * outwards.y);
  }
  /// "to the front", "to the right": the nearest of the four.
  [[nodiscard]] std::string towards() const;
};
/// Round what carries, from its points; empty where they span no area.
[[nodiscard]] std::vector<TippingEdge> edges_round(std::vector<PlanPoint> points);
/// How a post that stands on the floor itself is taken: on its whole end, or, as in the frame
/// model, on the middle of it.
enum class BareEnds { whole, middles };
/// Of the pad centres of a bench, and of the corners of bare posts' ends: a sawn end bears up to
/// its edge. A bolted one is free to turn at its bolt. Empty where fewer than three feet span an
/// area.
[[nodiscard]] std::vector<TippingEdge> tipping_edges(const model::Parts& parts,
                                                     BareEnds ends = BareEnds::whole);
/// Said of the frame's answers where the model's feet are not those that it tips over: " (on the
/// middle of its posts' ends)"; else empty.
[[nodiscard]] std::string on_middles(const model::Parts& parts);

/// Of those the ones over which it can tip: none where a wall holds it, and not those with a bolted
/// foot inside them.
[[nodiscard]] std::vector<TippingEdge> free_edges(const model::Parts& parts,
                                                  BareEnds ends = BareEnds::whole);
/// Whether a wall or any bolted foot holds the bench.
[[nodiscard]] bool is_held(const model::Parts& parts);

/// Which weights stand on the bench.
enum class Laden { as_planned, empty };
/// Weights of the bench; as planned also its machines, and what is stored where the file gives it.
[[nodiscard]] std::vector<model::Weight> standing_weights(const model::Parts& parts, Laden laden);
/// The same where they press on a bench that leans with its floor: see `leaned`.
[[nodiscard]] std::vector<model::Weight> leaning_weights(const model::Parts& parts, Laden laden);
/// A place on a bench that leans lies downhill by the fall times its height over what it tips
/// about; on an upright bench where it is.
[[nodiscard]] PlanPoint leaned(const bench::Bench& bench, const PlanPoint& at, double height);
/// Whether a weight counts as planned: the bench itself does not, and what is stored only where the
/// file gives it.
[[nodiscard]] bool is_planned(const bench::Bench& bench, const model::Weight& weight);
/// Whether anything is planned to stand on the bench.
[[nodiscard]] bool is_anything_planned(const model::Parts& parts);

/// The edge beyond which the middle of all weights lies: the bench tips over it by itself.
struct Beyond {
  TippingEdge edge;
  double distance = 0.0;  ///< m, past the edge
};
[[nodiscard]] std::optional<Beyond> beyond_feet(const model::Parts& parts, Laden laden);

/// Height of the worktop's surface; of the post tops where there is no top.
[[nodiscard]] double worktop_height(const bench::Bench& bench);
/// Height of the surface of a lying sheet.
[[nodiscard]] double surface_height(const bench::Sheet& sheet);

}  // namespace standtrue::check
