#pragma once

#include <Eigen/Core>

/// One prismatic Timoshenko member between its flexible ends, local axes. All numbers SI.
/// Freedoms: start x y z rx ry rz, end x y z rx ry rz (docs/conventions.md).
namespace standtrue::solve {

using Matrix12 = Eigen::Matrix<double, 12, 12>;
using Vector12 = Eigen::Matrix<double, 12, 1>;

struct BeamElement {
  double L = 0.0;
  double EA = 0.0, GJ = 0.0, EI_y = 0.0, EI_z = 0.0;
  double GA_sy = 0.0, GA_sz = 0.0;  ///< zero: no shear deformation in that plane
};

/// Φ = 12 E I / (G A_s L²), zero without shear deformation.
[[nodiscard]] double shear_parameter(double EI, double GA_s, double L);

/// Stiffness in one plane. Freedoms w_1, ψ_1, w_2, ψ_2; ψ turns the section the way a slope w' > 0
/// does. Exact for any loads at the ends. Symmetric, rank 2: rigid motions carry no force.
/// Source (from memory): Przemieniecki, Theory of Matrix Structural Analysis (1968), 5.6.
[[nodiscard]] Eigen::Matrix4d bending_stiffness(double EI, double Phi, double L);

/// Bending of both planes, stretching and St Venant torsion together.
[[nodiscard]] Matrix12 stiffness(const BeamElement& element);

/// What 1 N of tension adds to the stiffness: ∫ w'² dx in both planes, w of the shapes above. So
/// the force does work on the slope of the axis, not on the turn of the section (Engesser).
/// Source (from memory): Timoshenko & Gere, Theory of Elastic Stability, 2.17.
[[nodiscard]] Matrix12 geometric_stiffness(const BeamElement& element);

/// The movements (rows x y z rx ry rz) of the section at x due to unit end movements: the exact
/// solution of the unloaded member, so that its transpose turns a force at x into equivalent end
/// forces, and those into exact end movements.
[[nodiscard]] Eigen::Matrix<double, 6, 12> section_motion(const BeamElement& element, double x);

/// Equivalent end forces of a force and moment (local, x y z rx ry rz) at x.
[[nodiscard]] Vector12 equivalent_forces(const BeamElement& element, double x,
                                         const Eigen::Matrix<double, 6, 1>& load);
/// The same of a line load (local, x y z) that runs linearly from q_from at `from` to q_to at `to`.
[[nodiscard]] Vector12 equivalent_forces(const BeamElement& element, double from, double to,
                                         const Eigen::Vector3d& q_from,
                                         const Eigen::Vector3d& q_to);

}  // namespace standtrue::solve
