// All numbers SI (m, N, Pa, rad).
#include "solve/beam_element.hpp"

#include <array>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// Where a plane's w_1, ψ_1, w_2, ψ_2 stand among the twelve freedoms, and the sign of ψ:
/// a section that turns by θ_z > 0 slopes up in y, one that turns by θ_y > 0 slopes down in z.
struct Plane {
  std::array<Eigen::Index, 4> place;
  double sign;
};
constexpr Plane plane_xy{{1, 5, 7, 11}, 1.0};
constexpr Plane plane_xz{{2, 4, 8, 10}, -1.0};

double sign_of(const Plane& plane, std::size_t i) { return i % 2 == 0 ? 1.0 : plane.sign; }

/// A matrix over w_1, ψ_1, w_2, ψ_2 of one plane, added to the twelve freedoms.
void add_plane(Matrix12& k, const Plane& plane, const Eigen::Matrix4d& b) {
  for (std::size_t i = 0; i < 4; ++i) {
    for (std::size_t j = 0; j < 4; ++j) {
      k(plane.place[i], plane.place[j]) +=
          sign_of(plane, i) * sign_of(plane, j) *
          b(static_cast<Eigen::Index>(i), static_cast<Eigen::Index>(j));
    }
  }
}

/// Deflection w and section rotation ψ at ξ = x/L due to w_1, ψ_1, w_2, ψ_2.
struct Shapes {
  std::array<double, 4> w, psi;
};
Shapes shapes(double Phi, double L, double x) {
  const double xi = x / L;
  const double xi2 = xi * xi;
  const double xi3 = xi2 * xi;
  const double s = 1.0 / (1.0 + Phi);
  // clang-format off
  return {{s * (1 - 3*xi2 + 2*xi3 + Phi * (1 - xi)),
           s * L * (xi - 2*xi2 + xi3 + Phi/2 * (xi - xi2)),
           s * (3*xi2 - 2*xi3 + Phi * xi),
           s * L * (xi3 - xi2 - Phi/2 * (xi - xi2))},
          {s * 6/L * (xi2 - xi),
           s * (1 - 4*xi + 3*xi2 + Phi * (1 - xi)),
           s * 6/L * (xi - xi2),
           s * (3*xi2 - 2*xi + Phi * xi)}};
  // clang-format on
}

/// The slope of the axis w' at ξ = x/L due to w_1, ψ_1, w_2, ψ_2.
Eigen::Vector4d slopes(double Phi, double L, double xi) {
  const double xi2 = xi * xi;
  const double s = 1.0 / (1.0 + Phi);
  return {s / L * (6 * xi2 - 6 * xi - Phi), s * (1 - 4 * xi + 3 * xi2 + Phi / 2 * (1 - 2 * xi)),
          s / L * (6 * xi - 6 * xi2 + Phi), s * (3 * xi2 - 2 * xi - Phi / 2 * (1 - 2 * xi))};
}

}  // namespace

double shear_parameter(double EI, double GA_s, double L) {
  return GA_s > 0.0 ? 12.0 * EI / (GA_s * L * L) : 0.0;
}

Eigen::Matrix4d bending_stiffness(double EI, double Phi, double L) {
  expects(EI > 0.0 && Phi >= 0.0 && L > 0.0, "bending_stiffness: EI and L must be positive");
  Eigen::Matrix4d k;
  // clang-format off
  k << 12.0,               6.0*L, -12.0,               6.0*L,
      6.0*L, (4.0 + Phi) * L * L, -6.0*L, (2.0 - Phi) * L * L,
      -12.0,              -6.0*L,  12.0,              -6.0*L,
      6.0*L, (2.0 - Phi) * L * L, -6.0*L, (4.0 + Phi) * L * L;
  // clang-format on
  return (EI / ((1.0 + Phi) * L * L * L)) * k;
}

Matrix12 stiffness(const BeamElement& element) {
  const double L = element.L;
  Matrix12 k = Matrix12::Zero();
  const auto add_spring = [&k](Eigen::Index i, Eigen::Index j, double value) {
    k(i, i) += value;
    k(j, j) += value;
    k(i, j) -= value;
    k(j, i) -= value;
  };
  add_spring(0, 6, element.EA / L);
  add_spring(3, 9, element.GJ / L);
  const auto add_bending = [&](const Plane& plane, double EI, double GA_s) {
    add_plane(k, plane, bending_stiffness(EI, shear_parameter(EI, GA_s, L), L));
  };
  add_bending(plane_xy, element.EI_z, element.GA_sy);
  add_bending(plane_xz, element.EI_y, element.GA_sz);
  return k;
}

Matrix12 geometric_stiffness(const BeamElement& element) {
  const double L = element.L;
  // Slopes are quadratic: three Gauss points integrate their products exactly.
  const std::array<double, 3> points{-std::sqrt(0.6), 0.0, std::sqrt(0.6)};
  const std::array<double, 3> weights{5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0};
  Matrix12 k = Matrix12::Zero();
  const auto add_slopes = [&](const Plane& plane, double EI, double GA_s) {
    const double Phi = shear_parameter(EI, GA_s, L);
    for (std::size_t p = 0; p < 3; ++p) {
      const Eigen::Vector4d slope = slopes(Phi, L, 0.5 * (1.0 + points[p]));
      add_plane(k, plane, (0.5 * L * weights[p]) * slope * slope.transpose());
    }
  };
  add_slopes(plane_xy, element.EI_z, element.GA_sy);
  add_slopes(plane_xz, element.EI_y, element.GA_sz);
  return k;
}

Eigen::Matrix<double, 6, 12> section_motion(const BeamElement& element, double x) {
  const double L = element.L;
  Eigen::Matrix<double, 6, 12> n = Eigen::Matrix<double, 6, 12>::Zero();
  n(0, 0) = n(3, 3) = 1.0 - x / L;
  n(0, 6) = n(3, 9) = x / L;
  const auto add_bending = [&](const Plane& plane, double EI, double GA_s) {
    const Shapes s = shapes(shear_parameter(EI, GA_s, L), L, x);
    for (std::size_t i = 0; i < 4; ++i) {
      n(plane.place[0], plane.place[i]) = sign_of(plane, i) * s.w[i];
      n(plane.place[1], plane.place[i]) = plane.sign * sign_of(plane, i) * s.psi[i];
    }
  };
  add_bending(plane_xy, element.EI_z, element.GA_sy);
  add_bending(plane_xz, element.EI_y, element.GA_sz);
  return n;
}

Vector12 equivalent_forces(const BeamElement& element, double x,
                           const Eigen::Matrix<double, 6, 1>& load) {
  return section_motion(element, x).transpose() * load;
}

Vector12 equivalent_forces(const BeamElement& element, double from, double to,
                           const Eigen::Vector3d& q_from, const Eigen::Vector3d& q_to) {
  // Cubic shapes times a linear load: three Gauss points integrate degree 5 exactly.
  const double root = std::sqrt(0.6);
  const std::array<double, 3> points{-root, 0.0, root};
  const std::array<double, 3> weights{5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0};
  Vector12 f = Vector12::Zero();
  const double half = 0.5 * (to - from);
  for (std::size_t i = 0; i < 3; ++i) {
    const double share = 0.5 * (1.0 + points[i]);
    Eigen::Matrix<double, 6, 1> load = Eigen::Matrix<double, 6, 1>::Zero();
    load.head<3>() = (1.0 - share) * q_from + share * q_to;
    f += weights[i] * half * equivalent_forces(element, from + share * (to - from), load);
  }
  return f;
}

}  // namespace standtrue::solve
