#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/model/plate.hpp"
#include "standtrue/quantity/quantity.hpp"

/// What the members stand for: all that the checks need to know of the bench beside the forces.
/// Places are indices: PartId into Parts::parts, members into Model::members, supports into
/// Model::supports, cases into Model::cases.
namespace standtrue::model {

using PartId = std::size_t;

enum class Role { post, rail, bearer, brace, strip, stem };

/// One piece, made of members in a row from its start to its end (a rail is divided where something
/// joins it). Diagrams of the members follow each other.
struct Part {
  std::string name;  ///< "front top rail"
  Role role = Role::rail;
  std::vector<std::size_t> members;
  reference::Timber timber;  ///< not of strips and stems
  quantity::Length width;    ///< side along local y
  quantity::Length depth;    ///< side along local z, the upright one of rails
  quantity::Length span;     ///< clear length between faces (posts: free height; braces: length)
  quantity::Length bearing;  ///< of rails and bearers: contact length at each seat, zero if they
                             ///< hang in brackets
  std::size_t source = 0;    ///< place in the bench's posts, rails, bearers, braces or sheets
};

/// Stiffness of a joint at the end of a rail or bearer, N m/rad and N/m, at one bound.
struct JointStiffness {
  double bend_closing = 0.0;  ///< the angle on the bracket's side gets smaller
  double bend_opening = 0.0;
  double bend_gravity = 0.0;  ///< the sense in which the rail's sag turns it
  double bend_sway = 0.0;     ///< mean of both senses
  double sideways = 0.0, twist = 0.0;
  double along = 0.0, across = 0.0, upright = 0.0;
};

/// A semi-rigid end of a rail or bearer. Its forces are those of `member` at that end: by
/// State::end_forces, local axes of the member (x along the rail, z up).
struct RailEnd {
  std::string name;  ///< "front top rail, left end"
  PartId rail = 0;
  std::size_t member = 0;
  bool at_end = false;  ///< the member's end, not its start
  PartId onto = 0;      ///< the post (or rail, for a bearer) that it is joined to
  bench::Joint joint;
  JointStiffness stiffness;  ///< as used at this bound
  bool released = false;     ///< its bending was let go: a ductile joint over its resistance
};

/// An end of a brace. Its pull or push is that of `member` at that end.
struct BraceEnd {
  std::string name;  ///< "back brace, lower end"
  PartId brace = 0;
  std::size_t member = 0;
  bool at_end = false;  ///< the member's end, not its start
  PartId onto = 0;      ///< the post or rail that it is fastened to
};

/// A strip of a lying sheet under one or more pads, spanning between its carriers.
struct Strip {
  PartId part = 0;
  std::size_t sheet = 0;
  bool along_x = false;                    ///< the way it spans
  bool grain_along = false;                ///< face grain runs along the span
  quantity::Length at;                     ///< of its middle line, across the span
  quantity::Length width;                  ///< effective, clipped by edges and neighbours
  quantity::Length bay;                    ///< longest distance between neighbouring carriers
  std::vector<quantity::Length> carriers;  ///< their places along the span
};

/// Between which carriers a point of a lying sheet lies, for loads given straight to the carriers.
struct SheetSpan {
  std::size_t sheet = 0;
  bool along_x = false;
  bool grain_along = false;
  quantity::Length bay;              ///< longest
  quantity::Length overhang;         ///< longest reach past the outer carriers, square to them
  quantity::Length overhang_side;    ///< past the ends of the carriers (along them)
  quantity::Length effective_width;  ///< of a point load in the middle of the longest bay
};

struct FootPlace {
  std::string name;                              ///< "front-left foot"
  std::size_t post = 0;                          ///< place in the bench's posts, none on a wall
  std::optional<PartId> stem;                    ///< none where the post stands on the floor itself
  std::size_t down = 0, grip_x = 0, grip_y = 0;  ///< supports
};

/// A rail held by a wall: three supports, which pull as well as press.
struct WallPlace {
  std::string name;  ///< "back top rail, 300 mm from its left end"
  std::size_t x = 0, y = 0, z = 0;
  /// Of a ledger one more: it lies flat on the wall, and what would roll it about its axis pulls
  /// its screw against the edge that presses, half its depth away.
  std::optional<std::size_t> roll;
};

/// A place where a person may lean or stand.
struct PersonPlace {
  std::string name;  ///< "front edge, middle"
  std::size_t sheet = 0;
  quantity::Length x, y;
  std::size_t load_case = 0;  ///< of 1 kN downward
};

/// Where a published test of tables presses, and the case of its vertical force.
struct TestPlace {
  std::string test;  ///< key of the test's load: "disc test"
  std::string name;  ///< "disc test, middle"
  std::size_t sheet = 0;
  quantity::Length x, y;
  std::size_t load_case = 0;
};

enum class ShoveWay { along, across };
/// "to the right", "to the front": for people, whose bench has a back.
[[nodiscard]] inline const char* towards(ShoveWay way, double sense) {
  if (way == ShoveWay::along) return sense > 0.0 ? "to the right" : "to the left";
  return sense > 0.0 ? "to the back" : "to the front";
}

/// A shove at the top edge. Its cases are 1 N in +x or +y. At one corner it pulls away from the
/// bench, so that what lies between is drawn along: the corner that "forth" pulls at is not that of
/// "back".
struct ShovePlace {
  std::string name;  ///< "across, at the left end"
  ShoveWay way = ShoveWay::along;
  std::size_t forth = 0, back = 0;  ///< its case for each sense

  [[nodiscard]] std::size_t case_of(double sense) const { return sense < 0.0 ? back : forth; }
  [[nodiscard]] const char* towards(double sense) const { return model::towards(way, sense); }
  [[nodiscard]] bool is_case(std::size_t load_case) const {
    return load_case == forth || load_case == back;
  }
};

/// The panel of a sheet that holds four posts square in its plane (a shear field): stiffness of one
/// side against the other, N/m, with its two crossing bars in the model.
struct ShearField {
  std::string sheet;
  std::size_t sheet_place = 0;
  double stiffness = 0.0;
  std::vector<std::size_t> members;
};

/// A line of a plate along which it lies on a rail, bearer or post: the ties [first, last) of that
/// plate, one per mesh line that crosses it, each standing for a length of the seam.
struct Seam {
  std::size_t plate = 0;  ///< place in Model::plates
  std::size_t sheet = 0;
  PartId part = 0;       ///< what it is tied to
  std::string name;      ///< "top on the front top rail"
  bool along_x = false;  ///< runs along the plate's own x
  std::size_t first = 0, last = 0;
  std::vector<quantity::Length> lengths;  ///< per tie
};

/// A pad of a machine on a plate, in the plate's own coordinates.
struct PadPlace {
  std::size_t machine = 0;
  std::size_t plate = 0;
  Patch where;
};

/// The bed of a machine on four pads: how the sheet under it would twist it.
struct BedPlace {
  std::size_t machine = 0;
  std::size_t plate = 0;
  std::array<Patch, 4> pads;  ///< in turn round it, the first at the least x and y
  double length = 0.0;        ///< between its lines of pads, along its longer side, m
  double breadth = 0.0;       ///< between the pads of one line
  bool along_x = true;        ///< the longer side lies along x
  /// Twisting moment per angle (N m/rad) between its lines of pads, at this bound.
  double stiffness = 0.0;
  bool in_model = false;      ///< bolted: the plate carries it as a body that resists
  std::size_t load_case = 0;  ///< 1 N up, down, up, down on the pads in turn
};

/// A weight for rigid-body statics: where it acts and who it belongs to.
struct Weight {
  enum class Of { bench, machine, stored, added } of = Of::bench;
  std::string name;
  quantity::Force force;  ///< downward, positive
  quantity::Length x, y, z;
};

struct Parts {
  bench::Bench bench;
  std::vector<Part> parts;
  std::vector<RailEnd> rail_ends;
  std::vector<BraceEnd> brace_ends;
  std::vector<Strip> strips;
  std::vector<SheetSpan> spans;
  std::vector<ShearField> shear_fields;
  std::vector<std::size_t> plate_sheets;  ///< per plate of the model: its sheet
  std::vector<Seam> seams;
  std::vector<PadPlace> pads;
  std::vector<BedPlace> beds;
  std::vector<FootPlace> feet;
  std::vector<WallPlace> wall;
  std::vector<PersonPlace> persons;
  std::vector<ShovePlace> shoves;
  std::vector<TestPlace> tests;
  std::vector<Weight> weights;
  std::vector<std::size_t> top_corners;  ///< nodes at the tops of the outer posts
  /// Where a load hangs on in the cases: place in Model::cases.
  std::optional<std::size_t> self_case;
  std::vector<std::size_t> machine_cases;  ///< per machine: its weight
  std::vector<std::size_t> stored_cases;   ///< per sheet with a stored load
  std::vector<std::size_t> added_cases;    ///< per load that the file adds
};

}  // namespace standtrue::model
