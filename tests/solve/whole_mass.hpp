#pragma once

#include <Eigen/Eigenvalues>

#include "tests/solve/whole_system.hpp"

/// Mass of a frame with plates and bodies over the freedoms of tests::Whole, for tests: members as
/// many slices, cells by Gauss points of a higher order than they need, bodies by their own loads.
/// SI.
namespace standtrue::tests {

using quantity::in_si;

inline solve::Matrix12 sliced_mass(const solve::MemberKernel& kernel, const model::Member& member) {
  const double L = kernel.element.L, rho = in_si(member.elastic.density);
  const double A = in_si(member.section.A);
  const double I_y = in_si(member.section.I_y), I_z = in_si(member.section.I_z);
  const solve::Matrix12 t = kernel.inner_of_outer * kernel.outer_of_node;
  solve::Matrix12 M = solve::Matrix12::Zero();
  constexpr int slices = 2000;  // trapezia at their middles: error below 1e-6
  for (int s = 0; s < slices; ++s) {
    const Eigen::Matrix<double, 6, 12> moved =
        solve::section_motion(kernel.element, L * (s + 0.5) / slices) * t;
    M += rho * A * L / slices * moved.topRows<3>().transpose() * moved.topRows<3>();
    const Eigen::Vector3d turning(I_y + I_z, I_y, I_z);
    M += rho * L / slices * moved.bottomRows<3>().transpose() * turning.asDiagonal() *
         moved.bottomRows<3>();
  }
  return M;
}

/// ∫ N_i N_j over a cell a by b with three Gauss points each way.
inline Eigen::Matrix4d cell_shares(double a, double b) {
  const std::array<double, 3> points{-std::sqrt(0.6), 0.0, std::sqrt(0.6)};
  const std::array<double, 3> weights{5.0 / 9.0, 8.0 / 9.0, 5.0 / 9.0};
  Eigen::Matrix4d shares = Eigen::Matrix4d::Zero();
  for (std::size_t i = 0; i < 3; ++i) {
    for (std::size_t j = 0; j < 3; ++j) {
      const Eigen::Vector4d N = solve::shape_functions(points[i], points[j]);
      shares += 0.25 * a * b * weights[i] * weights[j] * N * N.transpose();
    }
  }
  return shares;
}

inline void add_to_nodes(Eigen::MatrixXd& M, const std::array<std::size_t, 2>& nodes,
                         const solve::Matrix12& m) {
  for (Eigen::Index r = 0; r < 2; ++r) {
    for (Eigen::Index c = 0; c < 2; ++c) {
      M.block<6, 6>(static_cast<Eigen::Index>(6 * nodes[static_cast<std::size_t>(r)]),
                    static_cast<Eigen::Index>(6 * nodes[static_cast<std::size_t>(c)])) +=
          m.block<6, 6>(6 * r, 6 * c);
    }
  }
}

/// What a load case pushes with: forces on nodes and patches between mesh lines.
inline Eigen::VectorXd pushes(const Whole& whole, const model::LoadCase& load_case) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(whole.stiffness().rows());
  for (const model::NodeLoad& load : load_case.node_loads) {
    f.segment<3>(static_cast<Eigen::Index>(6 * load.node)) += solve::vector_of(load.force);
    f.segment<3>(static_cast<Eigen::Index>(6 * load.node) + 3) += solve::vector_of(load.moment);
  }
  for (const model::PatchLoad& load : load_case.patch_loads) {
    const model::Plate& p = whole.model().plates[load.plate];
    const Eigen::Vector3d own =
        Whole::axes(p) * Eigen::Vector3d(load.force[0], load.force[1], load.force[2]);
    spread(p, load.where, [&](std::size_t n, double share) {
      f.segment<3>(whole.at(load.plate, n)) += share * own;
    });
  }
  return f;
}

inline Eigen::MatrixXd whole_mass(const Whole& whole) {
  const model::Model& m = whole.model();
  const Eigen::Index n = whole.stiffness().rows();
  Eigen::MatrixXd M = Eigen::MatrixXd::Zero(n, n);
  for (const model::Member& member : m.members) {
    add_to_nodes(M, {member.start, member.end},
                 sliced_mass(solve::member_kernel(m, member, whole.springs()), member));
  }
  for (const model::PointMass& mass : m.masses) {  // its centre moves by u - r × θ
    Eigen::Matrix<double, 3, 6> moves;
    moves << Eigen::Matrix3d::Identity(), -solve::cross_matrix(solve::vector_of(mass.offset));
    solve::Matrix12 own = solve::Matrix12::Zero();
    own.topLeftCorner<6, 6>() = in_si(mass.mass) * moves.transpose() * moves;
    own(3, 3) += in_si(mass.inertia.x);
    own(4, 4) += in_si(mass.inertia.y);
    own(5, 5) += in_si(mass.inertia.z);
    add_to_nodes(M, {mass.node, mass.node}, own);
  }
  for (std::size_t place = 0; place < m.plates.size(); ++place) {
    const model::Plate& p = m.plates[place];
    const double turning = p.mass_per_area * p.thickness * p.thickness / 12.0;
    for (std::size_t j = 0; j + 1 < p.y.size(); ++j) {
      for (std::size_t i = 0; i + 1 < p.x.size(); ++i) {
        if (!p.has_cell(i, j)) continue;
        const Eigen::Matrix4d shares = cell_shares(p.x[i + 1] - p.x[i], p.y[j + 1] - p.y[j]);
        const std::array<std::size_t, 4> c{p.node(i, j), p.node(i + 1, j), p.node(i + 1, j + 1),
                                           p.node(i, j + 1)};
        for (std::size_t r = 0; r < 4; ++r) {
          for (std::size_t k = 0; k < 4; ++k) {
            const double share = shares(static_cast<Eigen::Index>(r), static_cast<Eigen::Index>(k));
            for (Eigen::Index f = 0; f < 5; ++f) {
              M(whole.at(place, c[r]) + f, whole.at(place, c[k]) + f) +=
                  share * (f < 3 ? p.mass_per_area : turning);
            }
          }
        }
      }
    }
  }
  for (const model::Body& body : m.bodies) {
    const double mass = in_si(body.mass);
    const std::array<double, 6> masses{
        mass, mass, mass, in_si(body.inertia.x), in_si(body.inertia.y), in_si(body.inertia.z)};
    for (std::size_t i = 0; i < 6; ++i) {
      const Eigen::VectorXd b = pushes(whole, m.cases[body.unit[i]]);
      M += masses[i] * b * b.transpose();
    }
  }
  return M;
}

/// Frequencies in Hz, rising, of everything that is not held.
inline Eigen::VectorXd whole_frequencies(const Whole& whole) {
  std::vector<Eigen::Index> free;
  for (std::size_t i = 0; i < whole.held().size(); ++i) {
    if (!whole.held()[i]) free.push_back(static_cast<Eigen::Index>(i));
  }
  const Eigen::MatrixXd M_all = whole_mass(whole);
  const auto n = static_cast<Eigen::Index>(free.size());
  Eigen::MatrixXd K(n, n), M(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j) {
      const Eigen::Index r = free[static_cast<std::size_t>(i)],
                         c = free[static_cast<std::size_t>(j)];
      K(i, j) = whole.stiffness()(r, c);
      M(i, j) = M_all(r, c);
    }
  }
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(M, K,
                                                                        Eigen::EigenvaluesOnly);
  const Eigen::VectorXd theta = eigen.eigenvalues().reverse();
  return theta.cwiseMax(1e-300).cwiseSqrt().cwiseInverse() / (2.0 * std::acos(-1.0));
}

}  // namespace standtrue::tests
