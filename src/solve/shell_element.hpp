#pragma once

#include <Eigen/Core>

/// One four-node flat shell element: a shear-flexible plate that does not lock, and a membrane.
/// They do not meet inside a plate that is alike from both faces. All numbers SI (m, N, rad).
///
/// Corners go round counter-clockwise seen from +z. Freedoms of a corner: w rx ry in bending, u v
/// in the plane; rotations by the right-hand rule about x and y, so that u(z) = z ry, v(z) = -z rx.
///     κ_x = ry,x     κ_y = -rx,y     κ_xy = ry,y - rx,x     γ_xz = w,x + ry     γ_yz = w,y - rx
/// A positive moment puts tension on the +z side.
namespace standtrue::solve {

using Corners = Eigen::Matrix<double, 4, 2>;  ///< x, y of each
using Matrix8 = Eigen::Matrix<double, 8, 8>;
using PlateMatrix = Eigen::Matrix<double, 12, 12>;
using CurvatureMatrix = Eigen::Matrix<double, 3, 12>;
using ShearMatrix = Eigen::Matrix<double, 2, 12>;
using MembraneMatrix = Eigen::Matrix<double, 3, 8>;

/// N_i of the corners at (ξ, η) in [-1, 1]².
[[nodiscard]] Eigen::Vector4d shape_functions(double xi, double eta);

/// κ = curvature_matrix * freedoms, at (ξ, η).
[[nodiscard]] CurvatureMatrix curvature_matrix(const Corners& corners, double xi, double eta);

/// γ = shear_matrix * freedoms: interpolated from the middles of the sides, where the natural shear
/// strains of a bending plate are right; without it thin plates lock.
/// Source (from memory): Bathe & Dvorkin, Int. J. Num. Meth. Engng 21 (1985) 367, MITC4.
[[nodiscard]] ShearMatrix shear_matrix(const Corners& corners, double xi, double eta);

/// Stiffness in bending and transverse shear; 2 x 2 Gauss. Rank 9: three rigid movements. D in N m,
/// S in N/m, of the axes of the corners. Contract: a convex quadrilateral.
[[nodiscard]] PlateMatrix plate_stiffness(const Corners& corners, const Eigen::Matrix3d& D,
                                          const Eigen::Vector2d& S);

/// ε = membrane_matrix * freedoms at the middle, where the bending modes of `membrane_stiffness`
/// bring none.
[[nodiscard]] MembraneMatrix membrane_matrix(const Corners& corners, double xi, double eta);

/// Stiffness in the plane, with two bending modes per direction eliminated inside the element, so
/// that a wall of few elements bends as a beam does. Passes the patch test. Rank 5. A in N/m.
/// Source (from memory): Taylor et al., Int. J. Num. Meth. Engng 10 (1976) 1211.
[[nodiscard]] Matrix8 membrane_stiffness(const Corners& corners, const Eigen::Matrix3d& A);

}  // namespace standtrue::solve
