#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "model/joint_stiffness.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/model/idealise.hpp"

/// The work of `idealise`, in the order of its functions: what stands, what spans, what lies on it,
/// what it stands on, what loads it. Each step adds to the Model and its Parts.
namespace standtrue::model {

/// Of standard gravity, m/s².
[[nodiscard]] inline double g() { return quantity::in_si(quantity::standard_gravity()); }

/// Along a rail, bearer or post: the places where something joins it, and their nodes.
struct Line {
  std::vector<std::pair<double, NodeId>> nodes;  ///< by rising coordinate (m)
  PartId part = 0;
  bool along_x = true;
  double from = 0.0, to = 0.0;  ///< flexible ends, along its coordinate
  double across = 0.0;          ///< the other plan coordinate of its axis
  double height = 0.0;          ///< of its axis
  double depth = 0.0, width = 0.0;
};

/// What carries a lying sheet at one place along its span: one line, or several end to end.
struct Carrier {
  double at = 0.0;  ///< its place along the span
  std::vector<Line*> lines;

  /// The line that reaches a coordinate across the span, or the nearest to it.
  [[nodiscard]] Line& line_at(double across) const;
};

/// A lying sheet and what carries it, square to its span.
struct Lying {
  std::size_t sheet = 0;
  bool along_x = false;  ///< the way it spans
  std::vector<Carrier> carriers;
};

struct PlannedStrip {
  std::size_t sheet = 0;
  std::size_t machine = 0;
  double at = 0.0;               ///< across the span
  double low = 0.0, high = 0.0;  ///< edges of its effective width
  struct Pad {
    std::size_t machine = 0;
    double along = 0.0;  ///< along the span
    double side = 0.0;
    double share = 0.0;  ///< of the machine's weight
  };
  std::vector<Pad> pads;
};

/// A stretch of a rail, bearer or post on which a plate is tied, in the plate's own coordinates,
/// which are two of the global ones.
struct PlannedSeam {
  Line* line = nullptr;             ///< of a rail or bearer
  std::optional<std::size_t> post;  ///< or this post
  bool along_x = false;             ///< runs along own x
  double at = 0.0;                  ///< its other own coordinate
  double from = 0.0, to = 0.0;      ///< tied from here to there
  std::vector<double> lines;        ///< the mesh lines that carry its ties, rising
};

/// The mesh of a sheet, and where it meets the frame.
struct PlannedPlate {
  std::size_t sheet = 0;
  std::vector<double> x, y;
  std::vector<PlannedSeam> seams;
};

struct Idealising {
  const bench::Bench& bench;
  const reference::Tables& tables;
  Assumptions assumptions;
  Model model;
  std::vector<std::string> said;
  std::vector<std::string> faults;

  std::vector<Line> posts, rails, bearers;  ///< as in the bench
  std::vector<Lying> lying;
  std::vector<PlannedStrip> strips;
  std::vector<PlannedPlate> plates;
  std::vector<std::vector<double>> post_heights;  ///< wanted by plates, per post

  [[nodiscard]] double k_def(reference::Material material) const;
  [[nodiscard]] double creep_divisor(reference::Material material) const;
  /// Moduli of a piece: mean, or where timber is low the least of twenty, or as its scale says;
  /// after creep divided.
  [[nodiscard]] Elastic elastic(const bench::Stock& stock, const std::string& piece) const;
  [[nodiscard]] JointStiffness stiffness_of(const bench::Joint& joint,
                                            const RailEndGeometry& geometry) const;
  /// What a screw's slip is multiplied by: what was measured, else the bound's band.
  [[nodiscard]] double screw_scale() const;
  NodeId add_node(std::string name, double x, double y, double z);
};

// In this order.
void plan_spans(Idealising& work);     ///< lying sheets, their carriers and strips
void plan_plates(Idealising& work);    ///< meshes, and the nodes that they want
void plan_fixings(Idealising& work);   ///< the nodes that a ledger and screws into the wall want
void build_posts(Idealising& work);    ///< and the nodes at which rails and braces meet them
void build_ledgers(Idealising& work);  ///< with the nodes that stand for posts on the wall
void build_rails(Idealising& work);    ///< with their end springs; then bearers on them
void build_braces(Idealising& work);
void build_shear_fields(Idealising& work);
void build_strips(Idealising& work);
void build_plates(Idealising& work);
void build_feet(Idealising& work);
void build_fixings(Idealising& work);  ///< what holds the bench to the wall
void build_cases(Idealising& work);
void build_people(Idealising& work);  ///< their cases: who stands and who shoves
void build_bodies(Idealising& work);  ///< machines as what swings and what is twisted
/// Of a bench that leans with its floor: 1 N along and 1 N across at the tops of its posts, by
/// which what stands on it pushes it downhill.
void build_leaning(Idealising& work);
[[nodiscard]] inline std::array<const char*, 2> lean_cases() {
  return {"leaning-along", "leaning-across"};
}
/// What the weights of a case press down with (N); of a push nothing.
[[nodiscard]] double pressing(const Model& model, CaseId load_case);
void build_combinations(Idealising& work);
/// Published tests of tables: cases of the forces that no other case has. At every bound, as sheets
/// under the same cases share their work.
void build_test_cases(Idealising& work);
/// Their combinations, and a machine that is let down too fast; factors of one. At mean joints
/// alone, of which they are told, and last, so that the places of the others are the same at every
/// bound.
void build_test_combinations(Idealising& work);

[[nodiscard]] bool has_shells(const bench::Bench& bench);
/// The plate of a sheet in the model.
[[nodiscard]] std::optional<std::size_t> plate_of(const Model& model, std::size_t sheet);
/// Whether any of a patch lies on the plate.
[[nodiscard]] bool touches(const Plate& plate, const Patch& patch);
/// Stiffness of a sheet as it is laid, own x and y (docs/method.md).
[[nodiscard]] PlateStiffness plate_stiffness(const bench::Sheet& sheet, bool grain_along_own_x);
/// Mesh lines of a sheet over [low, high]: through every wanted place (those that come first win
/// where two are nearer than 4 mm), and so that no cell is wider than `cell`.
[[nodiscard]] std::vector<double> mesh_lines(double low, double high,
                                             const std::vector<double>& wanted, double cell);
/// What of a seam [from, to] each mesh line stands for: the integral of its hat function.
[[nodiscard]] std::vector<double> tributary(const std::vector<double>& lines, double from,
                                            double to);

/// The pads of a machine, their middles on its sheet, and the share of its weight on each, by
/// statics of a rigid body: N_i/W = 1/n + c_x x_i/Σ x² + c_y y_i/Σ y².
struct Pad {
  double x = 0.0, y = 0.0, share = 0.0;
};
[[nodiscard]] std::vector<Pad> pads_of(const bench::Machine& machine);

[[nodiscard]] LoadCase& add_case(Idealising& work, std::string name, std::string title,
                                 Duration duration);
/// The outer posts that reach highest: where a shove at the top edge goes.
[[nodiscard]] std::vector<std::size_t> top_posts(const Idealising& work);
/// A square patch round a place; at an edge as much smaller as keeps its middle there.
[[nodiscard]] Patch patch_at(const bench::Sheet& sheet, double x, double y, double side);
/// The twisting stiffness of a machine's bed at this bound, N m/rad; what the file gives, at all.
[[nodiscard]] double bed_twist_of(const Idealising& work, const bench::Machine& machine);
/// Sideways forces without plates: on the posts that stand highest, through the sheet.
void push_top_posts(const Idealising& work, LoadCase& load_case, Force x, Force y);
/// Adds a downward force (N, positive down) on a square patch of a lying sheet to a case; without
/// plates through the two carriers beside it by the lever rule.
void press(const Idealising& work, LoadCase& load_case, const Lying& lying, double x, double y,
           double side, double force);
/// A sheet without its cut-outs, m².
[[nodiscard]] double area_of(const bench::Sheet& sheet);
/// Of a lying sheet with so much load (N/m²) all over, what each line that carries it gets (N).
[[nodiscard]] std::vector<std::pair<const Line*, double>> shares_of_lines(const Idealising& work,
                                                                          const Lying& lying,
                                                                          double load);
/// Adds a downward load (N/m², positive down) all over a lying sheet to a case.
void press_all_over(const Idealising& work, LoadCase& load_case, const Lying& lying, double load);
/// The mass of such a load goes where its weight does, evenly along each line; a plate has its own.
void carry_all_over(Idealising& work, const Lying& lying, double load);
/// The mass of an upright sheet that is no plate: along the posts at its corners; without a shear
/// field along all posts alike (ours: over their whole height).
void carry_upright(Idealising& work, std::size_t sheet, double weight);

/// "front top rail" to "front-top-rail".
[[nodiscard]] std::string slug(const std::string& name);
/// Asks for a node on a line; places nearer than a millimetre share one. Returns its coordinate,
/// kept off the flexible ends.
double want_node(Line& line, double coordinate);
/// The place along its ledger of a station: where a rail ends on it, else behind its post.
[[nodiscard]] double station_place(const Idealising& work, std::size_t post);
/// The node nearest to a coordinate.
[[nodiscard]] NodeId node_at(const Line& line, double coordinate);

}  // namespace standtrue::model
