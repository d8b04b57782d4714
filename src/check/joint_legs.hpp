#pragma once

#include <string>
#include <vector>

#include "standtrue/check/fasteners.hpp"
#include "standtrue/model/model.hpp"

/// Where the fasteners of a plate sit in one piece of timber, and which of them may be counted.
namespace standtrue::check {

/// A leg of a bracket, or one side of a gusset or lap, on one piece. Distances in its plane.
struct Leg {
  std::string on;  ///< "rail", "post"
  reference::Timber timber;
  Length behind;            ///< timber behind the plate
  bool along_grain = true;  ///< the leg points along the grain
  double angle = 0.0;       ///< between the main force and the grain
  Length back, ahead;       ///< from the corner to the timber's end (edge) behind it and ahead
  Length half_width;        ///< from the plate's middle line to the nearer parallel edge (end)
};

/// Rows go along the leg, columns lie beside each other across it.
struct Grid {
  int rows = 0, columns = 0;
  Length first, pitch;  ///< corner to the first row, row to row
  Length across;        ///< column to column; zero for one
};
[[nodiscard]] Grid grid_of(const reference::JointKind& kind);

/// The rows of the grid that keep their distances, from the corner, and how many columns do.
struct Pattern {
  std::vector<Length> rows;
  int columns = 0;
  Length across;
  bool predrilled = false;  ///< only so are they enough
  [[nodiscard]] int count() const { return columns * static_cast<int>(rows.size()); }
};
/// Least distances of the leg, with and without the rule's own angle, are those of `a`. If not all
/// columns keep their edge distance one may: the plate set with that one on its middle line.
[[nodiscard]] Pattern pattern_of(const Grid& grid, const Leg& leg, const Spacings& a);

/// Of screws across their axis: as many without pre-drilling as with it, or those with it.
[[nodiscard]] Pattern lateral_pattern(const Grid& grid, const Leg& leg, Length d, Plate plate,
                                      const reference::Tables& tables);
/// Of screws along their axis.
/// Source (second hand): EN 1995-1-1, Table 8.6.
[[nodiscard]] Pattern axial_pattern(const Grid& grid, const Leg& leg, Length d,
                                    const reference::Tables& tables);

/// Sum of squares of the distances from the corner line (`from_toe`: from the line `toe` away) and
/// the greatest, per column.
struct Arms {
  double sum_r2 = 0.0, r_max = 0.0;
};
[[nodiscard]] Arms arms(const Pattern& pattern, Length toe, bool from_toe);
/// The same about the middle of the pattern, of all its fasteners.
[[nodiscard]] Arms arms_about_centre(const Pattern& pattern);
/// Pull of the worst fastener per moment that prises the pattern off about a line across its rows
/// (along its columns), the elastic share about the middle; one line alone works against an edge,
/// `to_edge` away. 1/m.
[[nodiscard]] double pried_by_rows(const Pattern& pattern, Length to_edge);
[[nodiscard]] double pried_by_columns(const Pattern& pattern, Length to_edge);

/// The pieces of a joint.
struct Site {
  const model::Part* rail = nullptr;
  const model::Part* onto = nullptr;
  bool onto_post = false;
  bool butts = false;   ///< the rail's end stands against the piece
  Length shoulder;      ///< from the rail's side to the farther edge of the post's face
  Length post_half;     ///< from the rail's axis to the nearer edge of the post's face
  Length above, below;  ///< of the piece, over the rail's top and under its underside
  Length onto_behind;   ///< of the piece, behind the face
};
[[nodiscard]] Site site_of(const model::Model& model, const model::RailEnd& end);
/// The breadth of the piece along the rail: how far a lapped rail covers it.
[[nodiscard]] Length lap_length(const model::Model& model, const model::RailEnd& end);

/// Legs of a bracket under (or above) the rail.
[[nodiscard]] Leg rail_leg_under(const Site& site);
[[nodiscard]] Leg onto_leg_under(const Site& site, bool is_above);
/// Legs of a bracket, or sides of a gusset, on the upright face of the rail.
[[nodiscard]] Leg rail_leg_beside(const Site& site);
[[nodiscard]] Leg onto_leg_beside(const Site& site);

}  // namespace standtrue::check
