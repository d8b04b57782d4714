// All numbers SI (m, N, rad).
#include "solve/second_order.hpp"

#include <Eigen/QR>
#include <algorithm>
#include <cmath>
#include <utility>

namespace standtrue::solve {

using quantity::in_si;

namespace {

/// The ends of a member of a frame that leans: each as far out as it is high, and turned as the
/// line between them, so that a leaning member stays straight.
Vector12 leaning_ends(const Prepared::Inside& in, model::MemberId m,
                      const std::array<double, 2>& lean) {
  const model::Member& member = in.model.members[m];
  const MemberKernel& kernel = in.kernels[m];
  const double L = kernel.element.L;
  const auto out = [&](model::NodeId node, const model::Point& offset) {
    const double z = in_si(in.model.nodes[node].at.z) + in_si(offset.z);
    return Eigen::Vector3d(kernel.R * Eigen::Vector3d(lean[0] * z, lean[1] * z, 0.0));
  };
  Vector12 ends = Vector12::Zero();
  ends.segment<3>(0) = out(member.start, member.start_offset);
  ends.segment<3>(6) = out(member.end, member.end_offset);
  ends(4) = ends(10) = -(ends(8) - ends(2)) / L;
  ends(5) = ends(11) = (ends(7) - ends(1)) / L;
  return ends;
}

}  // namespace

double axial_force(const State& state, model::MemberId member) {
  const std::array<double, 12>& end = state.end_forces.at(member);
  return 0.5 * (end[6] - end[0]);
}

SecondOrder::SecondOrder(const Prepared::Inside& in, const Loading& loading)
    : in_(in), N_(in.model.members.size(), 0.0), times_(loading.stiffness_over) {
  lean_.reserve(in.model.members.size());
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    lean_.push_back(leaning_ends(in, m, loading.lean));
  }
}

Eigen::VectorXd SecondOrder::push_of(const State& state, const std::vector<Vector12>& f) {
  Eigen::VectorXd push(static_cast<Eigen::Index>(12 * N_.size()));
  N_ = tension_with_plates(in_.runs, in_.plates, state);
  for (model::MemberId m = 0; m < N_.size(); ++m) {
    const Vector12 ends =
        times_ * in_.kernels[m].inner(in_.node_movements(m, state.displacement), f[m]) + lean_[m];
    push.segment<12>(static_cast<Eigen::Index>(12 * m)) = -N_[m] * (in_.kernels[m].k_g * ends);
  }
  return push;
}

Eigen::VectorXd SecondOrder::own_load(const Eigen::VectorXd& push, Resultant& resultant) const {
  Eigen::VectorXd global = Eigen::VectorXd::Zero(in_.freedoms.size());
  for (model::MemberId m = 0; m < N_.size(); ++m) {
    const model::Member& member = in_.model.members[m];
    const Vector12 at_nodes =
        in_.kernels[m].global_load(push.segment<12>(static_cast<Eigen::Index>(12 * m)));
    for (const bool is_end : {false, true}) {
      const model::NodeId node = is_end ? member.end : member.start;
      const Eigen::Matrix<double, 6, 1> f = at_nodes.segment<6>(is_end ? 6 : 0);
      global.segment<6>(static_cast<Eigen::Index>(6 * node)) += f;
      resultant.add(vector_of(in_.model.nodes[node].at), f.head<3>(), f.tail<3>());
    }
  }
  return in_.freedoms.to_own(global);
}

std::vector<State::Askew> SecondOrder::askew(const Eigen::VectorXd& push) const {
  std::vector<State::Askew> all(N_.size());
  for (std::size_t m = 0; m < all.size(); ++m) {
    for (std::size_t i = 0; i < 12; ++i) {
      all[m].forces[i] = push(static_cast<Eigen::Index>(12 * m + i));
    }
    all[m].N = N_[m];
    all[m].times = times_;
    all[m].lean_y = lean_[m](5);
    all[m].lean_z = -lean_[m](4);
  }
  return all;
}

bool SecondOrder::stands(const State& state) const {
  std::vector<double> N = N_;
  double greatest = 0.0;
  for (double& n : N) {
    n *= times_;
    greatest = std::max(greatest, std::abs(n));
  }
  std::vector<bool> lifted = lifted_springs(in_, state);
  if (in_.standing.covers(N, lifted)) return true;
  // Pushed by more than that, so that other loads are covered as well.
  std::vector<double> more = N;
  for (double& n : more) n -= 0.2 * greatest;
  if (holds(more, lifted)) {
    in_.standing.add(std::move(more), std::move(lifted));
    return true;
  }
  return holds(N, lifted);
}

bool SecondOrder::holds(const std::vector<double>& N, const std::vector<bool>& lifted) const {
  SparseMatrix change = geometric_matrix(in_, N);
  take_away(change, in_, lifted);
  return in_.laid_out().plus(solve::free_part(change, in_.freedoms)).ok();
}

Eigen::VectorXd Repetition::next(const Eigen::VectorXd& x, const Eigen::VectorXd& g) {
  constexpr std::size_t most = 6;
  g_.push_back(g);
  r_.emplace_back(g - x);
  if (g_.size() > most) {
    g_.erase(g_.begin());
    r_.erase(r_.begin());
  }
  const auto n = static_cast<Eigen::Index>(g_.size()) - 1;
  if (n == 0) return g;
  Eigen::MatrixXd dR(g.size(), n), dG(g.size(), n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    dR.col(i) = r_[at + 1] - r_[at];
    dG.col(i) = g_[at + 1] - g_[at];
  }
  return g - dG * dR.colPivHouseholderQr().solve(r_.back());
}

std::vector<bool> lifted_springs(const Prepared::Inside& in, const State& state) {
  std::vector<bool> lifted(state.touching.size());
  for (std::size_t i = 0; i < lifted.size(); ++i) {
    lifted[i] = !state.touching[i] && in.model.supports[i].stiffness.has_value();
  }
  return lifted;
}

void take_away(SparseMatrix& K, const Prepared::Inside& in, const std::vector<bool>& lifted) {
  for (std::size_t i = 0; i < lifted.size(); ++i) {
    if (!lifted[i]) continue;
    const model::Support& support = in.model.supports[i];
    const Eigen::Matrix<double, 6, 1> n = in.own_direction(support);
    const auto at = static_cast<Eigen::Index>(6 * support.node);
    for (Eigen::Index r = 0; r < 6; ++r) {
      for (Eigen::Index c = 0; c < 6; ++c) {
        if (n(r) != 0.0 && n(c) != 0.0)
          K.coeffRef(at + r, at + c) -= *support.stiffness * n(r) * n(c);
      }
    }
  }
}

SparseMatrix geometric_matrix(const Prepared::Inside& in, const std::vector<double>& N) {
  std::vector<Eigen::Triplet<double>> triplets;
  triplets.reserve(144 * in.model.members.size());
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    if (N[m] == 0.0) continue;
    const model::Member& member = in.model.members[m];
    add_pair(triplets, in.freedoms, member.start, member.end,
             N[m] * in.kernels[m].global_geometric());
  }
  SparseMatrix K(in.freedoms.size(), in.freedoms.size());
  K.setFromTriplets(triplets.begin(), triplets.end());
  return K;
}

}  // namespace standtrue::solve
