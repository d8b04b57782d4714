// All numbers SI (m, kg).
#include "solve/member_mass.hpp"
#include "solve/whole_frame.hpp"

namespace standtrue::solve {

using quantity::in_si;

namespace {

/// A rigid mass seen from its node: its centre moves by u + θ × r.
Eigen::Matrix<double, 6, 6> mass_about_node(const model::PointMass& mass) {
  const double m = in_si(mass.mass);
  const Eigen::Matrix3d r = cross_matrix(vector_of(mass.offset));
  Eigen::Matrix<double, 6, 6> M;
  M.topLeftCorner<3, 3>() = m * Eigen::Matrix3d::Identity();
  M.topRightCorner<3, 3>() = -m * r;
  M.bottomLeftCorner<3, 3>() = m * r;
  M.bottomRightCorner<3, 3>() = -m * r * r;
  M(3, 3) += in_si(mass.inertia.x);
  M(4, 4) += in_si(mass.inertia.y);
  M(5, 5) += in_si(mass.inertia.z);
  return M;
}

SparseMatrix mass_of_nodes(const Prepared::Inside& in) {
  Triplets triplets;
  triplets.reserve(144 * in.model.members.size() + 36 * in.model.masses.size());
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    const model::Member& member = in.model.members[m];
    if (mass_per_length(member).m == 0.0) continue;
    add_pair(triplets, in.freedoms, member.start, member.end, global_mass(in.kernels[m], member));
  }
  for (const model::PointMass& mass : in.model.masses) {
    Matrix12 both = Matrix12::Zero();
    both.topLeftCorner<6, 6>() = mass_about_node(mass);
    add_pair(triplets, in.freedoms, mass.node, mass.node, both);
  }
  SparseMatrix M(in.freedoms.of_nodes(), in.freedoms.of_nodes());
  M.setFromTriplets(triplets.begin(), triplets.end());
  return M;
}

}  // namespace

WholeMass::WholeMass(const WholeFrame& frame)
    : frame_(frame), of_nodes_(mass_of_nodes(frame.inside())) {
  const model::Model& model = frame_.inside().model;
  for (const model::Plate& plate : model.plates) plates_.emplace_back(plate);
  const auto n_bodies = static_cast<Eigen::Index>(model.bodies.size());
  bodies_.resize(frame_.size(), 6 * n_bodies);
  body_masses_.resize(6 * n_bodies);
  for (Eigen::Index b = 0; b < n_bodies; ++b) {
    const model::Body& body = model.bodies[static_cast<std::size_t>(b)];
    for (Eigen::Index i = 0; i < 6; ++i) {
      bodies_.col(6 * b + i) = frame_.load_of(body.unit[static_cast<std::size_t>(i)]);
    }
    const double m = in_si(body.mass);
    body_masses_.segment<6>(6 * b) << m, m, m, in_si(body.inertia.x), in_si(body.inertia.y),
        in_si(body.inertia.z);
  }
}

Panel WholeMass::times(const Panel& movements) const {
  Panel forces(movements.rows(), movements.cols());
  forces.topRows(frame_.of_nodes()) = of_nodes_ * movements.topRows(frame_.of_nodes());
  for (std::size_t p = 0; p < plates_.size(); ++p) {
    const Eigen::Index rows = 5 * plates_[p].shares().rows();
    forces.middleRows(frame_.first(p), rows) =
        plates_[p].times(movements.middleRows(frame_.first(p), rows));
  }
  if (bodies_.cols() > 0) {
    const Eigen::MatrixXd moved = body_masses_.asDiagonal() * of_bodies(movements);
    forces += bodies_ * moved;
  }
  frame_.hold(forces);
  return forces;
}

}  // namespace standtrue::solve
