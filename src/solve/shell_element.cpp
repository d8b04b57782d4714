// All numbers SI (m, N, rad).
#include "solve/shell_element.hpp"

#include <Eigen/LU>
#include <array>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

constexpr std::array<double, 4> corner_xi{-1.0, 1.0, 1.0, -1.0};
constexpr std::array<double, 4> corner_eta{-1.0, -1.0, 1.0, 1.0};

/// Rows ξ and η: derivatives of the N_i.
using Slopes = Eigen::Matrix<double, 2, 4>;

Slopes natural_slopes(double xi, double eta) {
  Slopes d;
  for (Eigen::Index i = 0; i < 4; ++i) {
    const auto c = static_cast<std::size_t>(i);
    d(0, i) = 0.25 * corner_xi[c] * (1.0 + corner_eta[c] * eta);
    d(1, i) = 0.25 * corner_eta[c] * (1.0 + corner_xi[c] * xi);
  }
  return d;
}

/// J = [x,ξ y,ξ; x,η y,η], so that [∂x; ∂y] = J^-1 [∂ξ; ∂η].
Eigen::Matrix2d jacobian(const Corners& corners, const Slopes& natural) {
  return natural * corners;
}

std::array<Eigen::Vector2d, 4> gauss_points() {
  const double a = 1.0 / std::sqrt(3.0);
  return {Eigen::Vector2d{-a, -a}, {a, -a}, {a, a}, {-a, a}};
}

/// The natural shear strain w,s + x,s ry - y,s rx along s = ξ (row 0) or η (row 1).
Eigen::Matrix<double, 1, 12> natural_shear(const Corners& corners, double xi, double eta,
                                           Eigen::Index row) {
  const Slopes d = natural_slopes(xi, eta);
  const Eigen::Vector4d N = shape_functions(xi, eta);
  const Eigen::RowVector2d g = d.row(row) * corners;
  Eigen::Matrix<double, 1, 12> b;
  for (Eigen::Index i = 0; i < 4; ++i) {
    b(3 * i) = d(row, i);
    b(3 * i + 1) = -g(1) * N(i);
    b(3 * i + 2) = g(0) * N(i);
  }
  return b;
}

/// Natural shear strains interpolated between the middles of the sides.
ShearMatrix assumed_natural_shear(const Corners& corners, double xi, double eta) {
  ShearMatrix b;
  b.row(0) = 0.5 * (1.0 - eta) * natural_shear(corners, 0.0, -1.0, 0) +
             0.5 * (1.0 + eta) * natural_shear(corners, 0.0, 1.0, 0);
  b.row(1) = 0.5 * (1.0 - xi) * natural_shear(corners, -1.0, 0.0, 1) +
             0.5 * (1.0 + xi) * natural_shear(corners, 1.0, 0.0, 1);
  return b;
}

/// ε of the bending modes 1 - ξ² and 1 - η² of u and v, their slopes taken with the Jacobian of the
/// middle, which keeps the patch test.
Eigen::Matrix<double, 3, 4> bending_modes(const Eigen::Matrix2d& J_middle, double xi, double eta) {
  const Eigen::Matrix2d inverse = J_middle.inverse();
  const Eigen::Vector2d first = inverse * Eigen::Vector2d(-2.0 * xi, 0.0);
  const Eigen::Vector2d second = inverse * Eigen::Vector2d(0.0, -2.0 * eta);
  Eigen::Matrix<double, 3, 4> b;
  // clang-format off
  b << first(0), second(0), 0.0,      0.0,
       0.0,      0.0,       first(1), second(1),
       first(1), second(1), first(0), second(0);
  // clang-format on
  return b;
}

}  // namespace

Eigen::Vector4d shape_functions(double xi, double eta) {
  Eigen::Vector4d N;
  for (Eigen::Index i = 0; i < 4; ++i) {
    const auto c = static_cast<std::size_t>(i);
    N(i) = 0.25 * (1.0 + corner_xi[c] * xi) * (1.0 + corner_eta[c] * eta);
  }
  return N;
}

CurvatureMatrix curvature_matrix(const Corners& corners, double xi, double eta) {
  const Slopes natural = natural_slopes(xi, eta);
  const Slopes d = jacobian(corners, natural).inverse() * natural;
  CurvatureMatrix b = CurvatureMatrix::Zero();
  for (Eigen::Index i = 0; i < 4; ++i) {
    b(0, 3 * i + 2) = d(0, i);
    b(1, 3 * i + 1) = -d(1, i);
    b(2, 3 * i + 2) = d(1, i);
    b(2, 3 * i + 1) = -d(0, i);
  }
  return b;
}

ShearMatrix shear_matrix(const Corners& corners, double xi, double eta) {
  return jacobian(corners, natural_slopes(xi, eta)).inverse() *
         assumed_natural_shear(corners, xi, eta);
}

PlateMatrix plate_stiffness(const Corners& corners, const Eigen::Matrix3d& D,
                            const Eigen::Vector2d& S) {
  PlateMatrix k = PlateMatrix::Zero();
  for (const Eigen::Vector2d& p : gauss_points()) {
    const double area = jacobian(corners, natural_slopes(p(0), p(1))).determinant();
    expects(area > 0.0, "plate_stiffness: the corners must go round counter-clockwise");
    const CurvatureMatrix b = curvature_matrix(corners, p(0), p(1));
    const ShearMatrix s = shear_matrix(corners, p(0), p(1));
    k.noalias() += area * (b.transpose() * D * b);
    k.noalias() += area * (s.transpose() * S.asDiagonal() * s);
  }
  return k;
}

MembraneMatrix membrane_matrix(const Corners& corners, double xi, double eta) {
  const Slopes natural = natural_slopes(xi, eta);
  const Slopes d = jacobian(corners, natural).inverse() * natural;
  MembraneMatrix b = MembraneMatrix::Zero();
  for (Eigen::Index i = 0; i < 4; ++i) {
    b(0, 2 * i) = d(0, i);
    b(1, 2 * i + 1) = d(1, i);
    b(2, 2 * i) = d(1, i);
    b(2, 2 * i + 1) = d(0, i);
  }
  return b;
}

Matrix8 membrane_stiffness(const Corners& corners, const Eigen::Matrix3d& A) {
  const Eigen::Matrix2d J_middle = jacobian(corners, natural_slopes(0.0, 0.0));
  Matrix8 k = Matrix8::Zero();
  Eigen::Matrix<double, 4, 8> coupling = Eigen::Matrix<double, 4, 8>::Zero();
  Eigen::Matrix4d inner = Eigen::Matrix4d::Zero();
  for (const Eigen::Vector2d& p : gauss_points()) {
    const double area = jacobian(corners, natural_slopes(p(0), p(1))).determinant();
    expects(area > 0.0, "membrane_stiffness: the corners must go round counter-clockwise");
    const MembraneMatrix b = membrane_matrix(corners, p(0), p(1));
    const Eigen::Matrix<double, 3, 4> m =
        (J_middle.determinant() / area) * bending_modes(J_middle, p(0), p(1));
    k.noalias() += area * (b.transpose() * A * b);
    coupling.noalias() += area * (m.transpose() * A * b);
    inner.noalias() += area * (m.transpose() * A * m);
  }
  const Eigen::Matrix<double, 4, 8> follows = inner.inverse() * coupling;
  k.noalias() -= coupling.transpose() * follows;
  return 0.5 * (k + Matrix8(k.transpose()));
}

}  // namespace standtrue::solve
