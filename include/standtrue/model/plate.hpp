#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"

/// A flat sheet as the analyst sees it: a plate on a mesh of straight lines, tied to the frame by
/// springs at its nodes. Its own axes: x and y in its plane, the normal x × y. Doubles in SI (m, N,
/// rad, kg). Signs: docs/conventions.md.
namespace standtrue::model {

/// Stiffness of a plate that is alike from both faces, its axes being those of its material:
///     N = A ε (N/m)       M = D κ (N m)       Q_x = S_x γ_xz, Q_y = S_y γ_yz (N/m)
/// The shear stiffness holds the shear correction already.
struct PlateStiffness {
  double A_11 = 0.0, A_12 = 0.0, A_22 = 0.0, A_66 = 0.0;
  double D_11 = 0.0, D_12 = 0.0, D_22 = 0.0, D_66 = 0.0;
  double S_x = 0.0, S_y = 0.0;
};

/// A rectangle in the plate's own coordinates.
struct Patch {
  double x0 = 0.0, x1 = 0.0, y0 = 0.0, y1 = 0.0;
  bool operator==(const Patch&) const = default;
};

/// Freedoms of every mesh node within a patch (to 1e-9 m) that are held rigidly: u v w rx ry, own
/// axes.
struct PlateHold {
  Patch where;
  std::array<bool, 5> freedoms{};
};

/// Springs between a mesh node and a node of the frame, N/m along the plate's x, y and normal. They
/// act at the point `Plate::tie_level` along the normal from the mesh node; the frame's node
/// carries that point rigidly.
struct PlateTie {
  std::size_t i = 0, j = 0;  ///< mesh lines x[i], y[j]
  std::size_t node = 0;      ///< place in Model::nodes
  std::array<double, 3> stiffness{};
  /// Contact by weight: under SpringSet::sway it holds for weights (LoadCase::weight) and not for
  /// what comes on top of them. A shove would lift it on one side.
  bool gravity_only = false;
};

/// A body on four pads, rigid but for its own twist: it resists the warping of its pads
///     q = w_1 - w_2 + w_3 - w_4     (pads in turn round it, w the mean over each pad)
/// with the force pattern stiffness * q on them.
struct PlateBody {
  std::string name;
  std::array<Patch, 4> pads;
  double stiffness = 0.0;  ///< N/m of q
};

struct Plate {
  std::string name;
  std::array<double, 3> origin{};  ///< of own (0, 0), at mid-thickness, global
  std::array<double, 3> x_axis{1, 0, 0}, y_axis{0, 1, 0};  ///< unit, square, global
  std::vector<double> x, y;  ///< mesh lines, rising; at least two each
  std::vector<Patch> holes;  ///< between mesh lines
  PlateStiffness stiffness;  ///< before creep
  double creep = 1.0;        ///< every stiffness is divided by this
  double thickness = 0.0;
  double mass_per_area = 0.0;
  double carries = 0.0;    ///< kg/m² of what lies on it: swings with it, its weight is a load case
  double tie_level = 0.0;  ///< where ties act, along the normal from mid-thickness
  std::vector<PlateHold> holds;
  std::vector<PlateTie> ties;
  std::vector<PlateBody> bodies;

  [[nodiscard]] std::size_t lines() const { return x.size() * y.size(); }
  [[nodiscard]] std::size_t node(std::size_t i, std::size_t j) const { return j * x.size() + i; }
  /// Whether the cell between x[i], x[i+1] and y[j], y[j+1] is there.
  [[nodiscard]] bool has_cell(std::size_t i, std::size_t j) const;
  [[nodiscard]] double area() const;  ///< of the cells that are there
  [[nodiscard]] std::array<double, 3> normal() const {
    const std::array<double, 3>&a = x_axis, &b = y_axis;
    return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
  }
};

/// A force spread evenly over the part of a patch that is there; a patch without area is a point.
/// Global components, of the whole patch.
struct PatchLoad {
  std::size_t plate = 0;  ///< place in Model::plates
  Patch where;
  std::array<double, 3> force{};
};

}  // namespace standtrue::model
