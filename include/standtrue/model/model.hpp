#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/model/parts.hpp"
#include "standtrue/model/plate.hpp"
#include "standtrue/quantity/quantity.hpp"

/// The analyst's idealisation: nodes, members with semi-rigid ends and rigid offsets, ties,
/// supports, loads, combinations. A plane frame is a space frame whose out-of-plane freedoms are
/// held. Axes and signs: docs/conventions.md (x along, y to the back, z up, right-handed).
namespace standtrue::model {

using quantity::Area;
using quantity::Density;
using quantity::Force;
using quantity::Length;
using quantity::LineLoad;
using quantity::Mass;
using quantity::MassMoment;
using quantity::Moment;
using quantity::SecondMoment;
using quantity::Stress;

/// Places in the vectors of one Model. Names are for people and for stable output.
using NodeId = std::size_t;
using MemberId = std::size_t;
using CaseId = std::size_t;

template <class Quantity>
struct Vector {
  Quantity x{}, y{}, z{};
};
using Point = Vector<Length>;
using Direction = Vector<double>;
using ForceVector = Vector<Force>;
using MomentVector = Vector<Moment>;
using LineLoadVector = Vector<LineLoad>;

/// The six freedoms of a node or a member end: three movements, then three rotations about the same
/// axes by the right-hand rule. Global for nodes and supports, local for member ends.
enum class Freedom { x, y, z, rx, ry, rz };
inline constexpr std::array<Freedom, 6> all_freedoms = {Freedom::x,  Freedom::y,  Freedom::z,
                                                        Freedom::rx, Freedom::ry, Freedom::rz};

struct Node {
  std::string name;
  Point at;
};

struct Elastic {
  Stress E, G;
  Density density;
};

/// Of the local axes y (width) and z (depth). I_y bends in the x-z plane, over the depth. A shear
/// area of zero means no shear deformation. Width and depth are zero unless it is a rectangle.
struct Section {
  Area A, A_sy, A_sz;
  SecondMoment I_y, I_z, J;
  Length width, depth;
};
/// Rectangle width (along y) x depth (along z): shear areas 5/6 A, J by St Venant's series
/// (Timoshenko & Goodier, Theory of Elasticity, art. 109).
[[nodiscard]] Section rectangle(Length width, Length depth);

/// Which set of end-spring values a loading uses: a joint closes and opens with different
/// stiffness. Sag takes the value of its own sense, sway the mean of both.
enum class SpringSet { gravity, sway };

/// One freedom of a member end against its node: rigid, free, or a spring in N/m or N m/rad.
struct EndSpring {
  enum class Kind { rigid, free, elastic };
  Kind kind = Kind::rigid;
  double gravity = 0.0;  ///< stiffness under SpringSet::gravity
  double sway = 0.0;     ///< stiffness under SpringSet::sway
  [[nodiscard]] static EndSpring free_end() { return {Kind::free, 0.0, 0.0}; }
  [[nodiscard]] static EndSpring elastic(double both) { return {Kind::elastic, both, both}; }
  [[nodiscard]] static EndSpring elastic(double gravity, double sway) {
    return {Kind::elastic, gravity, sway};
  }
};
using EndSprings = std::array<EndSpring, 6>;  ///< in the order of Freedom, local axes

/// A prismatic member. Its flexible part runs from start + start_offset to end + end_offset; the
/// offsets (global) are rigid and the end springs sit at the flexible ends. Local x runs from start
/// to end; local z is `depth` made square to x, then rolled about +x. Without `depth`: global z,
/// and for members along z, global x.
struct Member {
  std::string name;
  NodeId start = 0, end = 0;
  Elastic elastic;
  Section section;
  std::optional<Direction> depth;
  double roll = 0.0;
  Point start_offset, end_offset;
  EndSprings start_springs{}, end_springs{};
  LineLoad carries;  ///< weight of what lies on it: swings with it, its load is in a load case
  std::optional<PartId> part;  ///< what it stands for; none in a frame case
};

/// Springs between two nodes at the same place, global axes; N/m and N m/rad, zero where free.
struct Tie {
  std::string name;
  NodeId a = 0, b = 0;
  std::array<double, 6> stiffness{};
};

/// One held freedom of a node: along `along` (a unit vector, global), a movement or a rotation.
/// Rigid without `stiffness`. `imposed` moves its ground (m or rad). A press-only support pushes
/// along +`along` and never pulls; its ground may lie `gap` below. A support that rides on another
/// lets go when that one opens.
struct Support {
  std::string name;
  NodeId node = 0;
  bool rotation = false;
  Direction along{0.0, 0.0, 1.0};
  std::optional<double> stiffness;  ///< N/m or N m/rad
  double imposed = 0.0;
  bool press_only = false;
  double gap = 0.0;                     ///< m, press-only supports
  std::optional<std::size_t> rides_on;  ///< place in Model::supports of a press-only support
  /// Coulomb, of supports that ride: all that ride on one foot together hold no more than this
  /// times what the foot presses. Counts only in loadings that let feet slide.
  std::optional<double> friction;
};

/// A mass fixed to a node; its centre lies `offset` away.
struct PointMass {
  std::string name;
  NodeId node = 0;
  Mass mass;
  Point offset;
  Vector<MassMoment> inertia;
};

/// A rigid body that stands on the frame without stiffening it: a machine. `unit` are its load
/// cases: 1 N along x, y, z and 1 N m about x, y, z at its centre of mass, spread over its pads as
/// statics of a rigid body would. The body moves as these forces do work. Counts in vibration.
struct Body {
  std::string name;
  Mass mass;
  Vector<MassMoment> inertia;  ///< about its centre of mass
  std::array<CaseId, 6> unit{};
};

struct NodeLoad {
  NodeId node = 0;
  ForceVector force;
  MomentVector moment;
  Point offset;  ///< the force acts this far from the node
};
/// At a distance from the flexible start, along local x; global components.
struct MemberPointLoad {
  MemberId member = 0;
  Length at;
  ForceVector force;
  MomentVector moment;
};
/// Linear from `from` to `to` (from the flexible start); force per length of member, global.
struct MemberLineLoad {
  MemberId member = 0;
  Length from, to;
  LineLoadVector at_from, at_to;
};

using reference::Duration;  ///< load-duration classes of EN 1995-1-1, 2.3.1.2

struct LoadCase {
  std::string name;   ///< stable id, "stored-top"
  std::string title;  ///< for people, "what is stored on the top"
  Duration duration = Duration::permanent;
  bool self_weight = false;  ///< members, point masses and plates, downward
  bool weight = false;       ///< presses on what holds by weight alone (PlateTie::gravity_only)
  std::vector<NodeLoad> node_loads;
  std::vector<MemberPointLoad> point_loads;
  std::vector<MemberLineLoad> line_loads;
  std::vector<PatchLoad> patch_loads;
};

/// What a combination is for. `sway` holds the vertical loads alone with sway springs, from which
/// the movement under a shove is counted. `allowable`: loads without factors, for allowable-stress
/// rules. `test`: the forces of a published test, as it states them.
enum class Purpose { as_given, strength, service, sway, allowable, test };
/// The load that a combination is about.
enum class Leading { permanent, stored, lean, stand, shove, strong_shove, test };

struct Factored {
  CaseId load_case = 0;
  double factor = 1.0;
  double bare = 1.0;  ///< what it is without partial factors; another than one where the case is a
                      ///< unit of its load
};
struct Combination {
  std::string name;
  std::string title;
  Purpose purpose = Purpose::as_given;
  Leading leading = Leading::permanent;
  /// The PersonPlace or ShovePlace of the leading load.
  std::optional<std::size_t> place;
  Duration duration = Duration::permanent;  ///< the shortest of its loads: sets kmod
  SpringSet springs = SpringSet::gravity;
  std::vector<Factored> terms;
  /// A push (place in `terms`) that can not grow past what tips the frame: where its full factor
  /// would, the answer is that of the largest that does not.
  std::optional<std::size_t> limited;
  bool second_order = false;     ///< equilibrium of the frame where it has moved to
  std::array<double, 2> lean{};  ///< second order: slopes along x and y by which all stands askew
  /// Second order: forces are those of a frame whose stiffness is divided by this (gamma_M); its
  /// movements stay those of the whole stiffness.
  double stiffness_over = 1.0;
  bool slides = false;  ///< supports with friction slide
};

struct Model {
  std::string title;
  std::vector<Node> nodes;
  std::vector<Member> members;
  std::vector<Tie> ties;
  std::vector<Plate> plates;
  std::vector<Support> supports;
  std::vector<PointMass> masses;
  std::vector<Body> bodies;
  std::vector<LoadCase> cases;
  std::vector<Combination> combinations;
  Parts parts;  ///< what the members stand for, for the checks; empty in a frame case
};

/// Local axes as rows: v_local = R v_global, and the flexible length.
struct MemberFrame {
  std::array<Direction, 3> axes;
  Length length;
};
[[nodiscard]] MemberFrame member_frame(const Model& model, const Member& member);

}  // namespace standtrue::model
