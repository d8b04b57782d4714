// All numbers SI (m, kg).
#include "solve/member_mass.hpp"

#include <array>
#include <cmath>

namespace standtrue::solve {

using quantity::in_si;

MassPerLength mass_per_length(const model::Member& member) {
  const double rho = in_si(member.elastic.density);
  const double I_y = in_si(member.section.I_y), I_z = in_si(member.section.I_z);
  const double carried = in_si(member.carries) / in_si(quantity::standard_gravity());
  return {rho * in_si(member.section.A) + carried, rho * (I_y + I_z), rho * I_y, rho * I_z};
}

Matrix12 consistent_mass(const BeamElement& element, const MassPerLength& mass) {
  // Shapes are cubic: four Gauss points integrate their products exactly.
  const double inner = std::sqrt(3.0 / 7.0 - 2.0 / 7.0 * std::sqrt(6.0 / 5.0));
  const double outer = std::sqrt(3.0 / 7.0 + 2.0 / 7.0 * std::sqrt(6.0 / 5.0));
  const double w_inner = (18.0 + std::sqrt(30.0)) / 36.0, w_outer = 1.0 - w_inner;
  const std::array<double, 4> points{-outer, -inner, inner, outer};
  const std::array<double, 4> weights{w_outer, w_inner, w_inner, w_outer};
  Eigen::Matrix<double, 6, 1> density;
  density << mass.m, mass.m, mass.m, mass.i_x, mass.i_y, mass.i_z;
  Matrix12 M = Matrix12::Zero();
  for (std::size_t p = 0; p < points.size(); ++p) {
    const Eigen::Matrix<double, 6, 12> N =
        section_motion(element, 0.5 * element.L * (1.0 + points[p]));
    M.noalias() += (0.5 * element.L * weights[p]) * (N.transpose() * density.asDiagonal() * N);
  }
  return M;
}

Matrix12 global_mass(const MemberKernel& kernel, const model::Member& member) {
  const Matrix12 t = kernel.inner_of_outer * kernel.outer_of_node;
  return t.transpose() * consistent_mass(kernel.element, mass_per_length(member)) * t;
}

}  // namespace standtrue::solve
