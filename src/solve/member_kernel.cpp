// All numbers SI (m, N, Pa, rad).
#include "solve/member_kernel.hpp"

#include <Eigen/Eigenvalues>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

using quantity::in_si;

namespace {

Eigen::Vector3d xyz(double x, double y, double z) { return {x, y, z}; }

BeamElement element_of(const model::Member& member, double L) {
  const double E = in_si(member.elastic.E);
  const double G = in_si(member.elastic.G);
  const model::Section& s = member.section;
  expects(E > 0.0 && G > 0.0 && in_si(s.A) > 0.0, "member_kernel: E, G and A must be positive");
  expects(in_si(s.I_y) > 0.0 && in_si(s.I_z) > 0.0 && in_si(s.J) > 0.0,
          "member_kernel: I_y, I_z and J must be positive");
  return {L,
          E * in_si(s.A),
          G * in_si(s.J),
          E * in_si(s.I_y),
          E * in_si(s.I_z),
          G * in_si(s.A_sy),
          G * in_si(s.A_sz)};
}

/// Outer end movements in local axes from the global movements of the two nodes.
Matrix12 outer_of_node(const Eigen::Matrix3d& R, const Eigen::Vector3d& start_offset,
                       const Eigen::Vector3d& end_offset) {
  Matrix12 t = Matrix12::Zero();
  const auto place = [&](Eigen::Index at, const Eigen::Vector3d& offset) {
    t.block<3, 3>(at, at) = R;
    t.block<3, 3>(at, at + 3) = -R * cross_matrix(offset);  // θ × r = -r × θ
    t.block<3, 3>(at + 3, at + 3) = R;
  };
  place(0, start_offset);
  place(6, end_offset);
  return t;
}

double value(const model::EndSpring& spring, model::SpringSet set) {
  if (spring.kind != model::EndSpring::Kind::elastic) return 0.0;
  return set == model::SpringSet::gravity ? spring.gravity : spring.sway;
}

/// Eliminates the inner freedoms that are not rigidly joined (set S; spring k_s, zero where free):
///     (K_SS + k_s) u_S = f_S - K_SR v_R + k_s v_S.
/// K_SS + k_s is singular where the flexible part can turn about itself; the pseudo-inverse then
/// leaves it at rest, which is right as long as no load turns it (`sets_spinning`).
void condense(MemberKernel& kernel, const Vector12& spring,
              const Eigen::Matrix<bool, 12, 1>& loose) {
  std::vector<Eigen::Index> S;
  for (Eigen::Index i = 0; i < 12; ++i) {
    if (loose(i)) S.push_back(i);
  }
  kernel.inner_of_outer = Matrix12::Identity();
  kernel.inner_of_load = Matrix12::Zero();
  kernel.outer_load_of_load = Matrix12::Identity();
  kernel.k_outer = kernel.k;
  kernel.spin = Matrix12::Zero();
  if (S.empty()) return;
  const auto n = static_cast<Eigen::Index>(S.size());
  Eigen::MatrixXd K_SS(n, n);
  Eigen::VectorXd scale(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < n; ++j)
      K_SS(i, j) = kernel.k(S[static_cast<std::size_t>(i)], S[static_cast<std::size_t>(j)]);
    K_SS(i, i) += spring(S[static_cast<std::size_t>(i)]);
    scale(i) = 1.0 / std::sqrt(K_SS(i, i));
  }
  const Eigen::MatrixXd scaled = scale.asDiagonal() * K_SS * scale.asDiagonal();
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(scaled);
  Eigen::MatrixXd inverse = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index m = 0; m < n; ++m) {
    const Eigen::VectorXd mode = scale.asDiagonal() * eigen.eigenvectors().col(m);
    if (eigen.eigenvalues()(m) > 1e-13) {
      inverse += mode * mode.transpose() / eigen.eigenvalues()(m);
    } else {
      kernel.can_spin = true;
      const Eigen::VectorXd shape = mode.normalized();
      for (Eigen::Index i = 0; i < n; ++i) {
        for (Eigen::Index j = 0; j < n; ++j)
          kernel.spin(S[static_cast<std::size_t>(i)], S[static_cast<std::size_t>(j)]) +=
              shape(i) * shape(j);
      }
    }
  }
  Matrix12 A = Matrix12::Zero();  // the inverse, spread over the twelve freedoms
  Matrix12 P_R = Matrix12::Identity();
  Matrix12 k_s = Matrix12::Zero();
  for (Eigen::Index i = 0; i < n; ++i) {
    const Eigen::Index I = S[static_cast<std::size_t>(i)];
    for (Eigen::Index j = 0; j < n; ++j) A(I, S[static_cast<std::size_t>(j)]) = inverse(i, j);
    P_R(I, I) = 0.0;
    k_s(I, I) = spring(I);
  }
  kernel.inner_of_load = A;
  kernel.inner_of_outer = P_R - A * kernel.k * P_R + A * k_s;
  kernel.outer_load_of_load = P_R - P_R * kernel.k * A + k_s * A;
  const Matrix12 inner = kernel.inner_of_outer;
  // Outer forces: of the flexible part where rigidly joined, of the springs elsewhere.
  kernel.k_outer = P_R * kernel.k * inner + k_s * (Matrix12::Identity() - inner);
  kernel.k_outer = 0.5 * (kernel.k_outer + kernel.k_outer.transpose().eval());
}

}  // namespace

Eigen::Vector3d vector_of(const model::Point& p) { return xyz(in_si(p.x), in_si(p.y), in_si(p.z)); }
Eigen::Vector3d vector_of(const model::Direction& d) { return xyz(d.x, d.y, d.z); }
Eigen::Vector3d vector_of(const model::ForceVector& f) {
  return xyz(in_si(f.x), in_si(f.y), in_si(f.z));
}
Eigen::Vector3d vector_of(const model::MomentVector& m) {
  return xyz(in_si(m.x), in_si(m.y), in_si(m.z));
}
Eigen::Vector3d vector_of(const model::LineLoadVector& q) {
  return xyz(in_si(q.x), in_si(q.y), in_si(q.z));
}

Eigen::Matrix3d cross_matrix(const Eigen::Vector3d& r) {
  Eigen::Matrix3d m;
  // clang-format off
  m <<    0.0, -r.z(),  r.y(),
       r.z(),     0.0, -r.x(),
      -r.y(),   r.x(),    0.0;
  // clang-format on
  return m;
}

bool MemberKernel::sets_spinning(const Vector12& f) const {
  return can_spin && (spin * f).norm() > 1e-9 * f.norm();
}

MemberKernel member_kernel(const model::Model& model, const model::Member& member,
                           model::SpringSet springs) {
  const model::MemberFrame frame = model::member_frame(model, member);
  MemberKernel kernel;
  kernel.element = element_of(member, in_si(frame.length));
  kernel.k = stiffness(kernel.element);
  kernel.k_g = geometric_stiffness(kernel.element);
  for (std::size_t i = 0; i < 3; ++i) {
    kernel.R.row(static_cast<Eigen::Index>(i)) = vector_of(frame.axes[i]).transpose();
  }
  kernel.outer_of_node =
      outer_of_node(kernel.R, vector_of(member.start_offset), vector_of(member.end_offset));
  Vector12 spring = Vector12::Zero();
  Eigen::Matrix<bool, 12, 1> loose = Eigen::Matrix<bool, 12, 1>::Constant(false);
  for (std::size_t i = 0; i < 12; ++i) {
    const model::EndSpring& end = i < 6 ? member.start_springs[i] : member.end_springs[i - 6];
    const auto at = static_cast<Eigen::Index>(i);
    loose(at) = end.kind != model::EndSpring::Kind::rigid;
    spring(at) = value(end, springs);
    expects(spring(at) >= 0.0, "member_kernel: an end spring is negative");
  }
  condense(kernel, spring, loose);
  kernel.end_forces_of_node = kernel.k * kernel.inner_of_outer * kernel.outer_of_node;
  kernel.end_forces_of_load = kernel.k * kernel.inner_of_load - Matrix12::Identity();
  return kernel;
}

Vector12 member_load(const model::Model& model, const MemberKernel& kernel, model::MemberId member,
                     const model::LoadCase& load_case) {
  Vector12 f = Vector12::Zero();
  const double L = kernel.element.L;
  for (const model::MemberPointLoad& load : load_case.point_loads) {
    if (load.member != member) continue;
    Eigen::Matrix<double, 6, 1> local;
    local << kernel.R * vector_of(load.force), kernel.R * vector_of(load.moment);
    f += equivalent_forces(kernel.element, in_si(load.at), local);
  }
  for (const model::MemberLineLoad& load : load_case.line_loads) {
    if (load.member != member) continue;
    f += equivalent_forces(kernel.element, in_si(load.from), in_si(load.to),
                           kernel.R * vector_of(load.at_from), kernel.R * vector_of(load.at_to));
  }
  if (load_case.self_weight) {
    const model::Member& m = model.members.at(member);
    const double weight =
        in_si(m.elastic.density) * in_si(m.section.A) * in_si(quantity::standard_gravity());
    const Eigen::Vector3d q = kernel.R * Eigen::Vector3d(0.0, 0.0, -weight);
    f += equivalent_forces(kernel.element, 0.0, L, q, q);
  }
  return f;
}

}  // namespace standtrue::solve
