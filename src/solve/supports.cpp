// All numbers SI (m, N, Pa, rad).
#include <Eigen/LU>

#include "solve/prepared.hpp"

namespace standtrue::solve {

namespace {

/// The rigid supports of one node's movements (or rotations), and their directions in its basis.
struct RigidSupports {
  std::vector<std::size_t> which;
  Eigen::MatrixXd directions;  ///< one row per support over the held own freedoms
  std::vector<Eigen::Index> held;
};

std::vector<RigidSupports> rigid_supports(const Prepared::Inside& in) {
  std::vector<std::vector<std::size_t>> groups(2 * in.model.nodes.size());
  for (std::size_t s = 0; s < in.model.supports.size(); ++s) {
    const model::Support& support = in.model.supports[s];
    if (!support.stiffness) groups[2 * support.node + (support.rotation ? 1 : 0)].push_back(s);
  }
  std::vector<RigidSupports> result;
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (groups[g].empty()) continue;
    RigidSupports rigid{groups[g], {}, {}};
    const auto base = static_cast<Eigen::Index>(6 * (g / 2) + 3 * (g % 2));
    for (Eigen::Index i = 0; i < 3; ++i) {
      if (in.freedoms.number[static_cast<std::size_t>(base + i)] < 0)
        rigid.held.push_back(base + i);
    }
    rigid.directions.resize(static_cast<Eigen::Index>(rigid.which.size()),
                            static_cast<Eigen::Index>(rigid.held.size()));
    for (std::size_t row = 0; row < rigid.which.size(); ++row) {
      const Eigen::Matrix<double, 6, 1> n = in.own_direction(in.model.supports[rigid.which[row]]);
      for (std::size_t column = 0; column < rigid.held.size(); ++column) {
        rigid.directions(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column)) =
            n(rigid.held[column] % 6);
      }
    }
    result.push_back(std::move(rigid));
  }
  return result;
}

}  // namespace

Eigen::Matrix<double, 6, 1> Prepared::Inside::own_direction(const model::Support& support) const {
  return freedoms.basis[support.node].transpose() * direction(support.rotation, support.along);
}

Eigen::VectorXd Prepared::Inside::ground_forces(const Eigen::VectorXd& movements) const {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(freedoms.size());
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    const model::Support& support = model.supports[s];
    const double movement = movements(static_cast<Eigen::Index>(s));
    if (!support.stiffness || movement == 0.0) continue;
    f.segment<6>(static_cast<Eigen::Index>(6 * support.node)) +=
        *support.stiffness * movement * own_direction(support);
  }
  return f;
}

Eigen::VectorXd Prepared::Inside::solve_ground(const Eigen::VectorXd& movements) const {
  Eigen::VectorXd held = Eigen::VectorXd::Zero(freedoms.size());
  for (const RigidSupports& rigid : rigid_supports(*this)) {
    Eigen::VectorXd wanted(static_cast<Eigen::Index>(rigid.which.size()));
    for (std::size_t i = 0; i < rigid.which.size(); ++i) {
      wanted(static_cast<Eigen::Index>(i)) = movements(static_cast<Eigen::Index>(rigid.which[i]));
    }
    const Eigen::VectorXd own = rigid.directions.fullPivLu().solve(wanted);
    for (std::size_t i = 0; i < rigid.held.size(); ++i) {
      held(rigid.held[i]) = own(static_cast<Eigen::Index>(i));
    }
  }
  const Eigen::VectorXd right = ground_forces(movements) - K * held;
  return freedoms.with_free_part(factor->solve(freedoms.free_part(right)), held);
}

std::vector<double> Prepared::Inside::support_forces(const Eigen::VectorXd& movement,
                                                     const Eigen::VectorXd& ground_movements,
                                                     const Eigen::VectorXd& pull) const {
  std::vector<double> forces(model.supports.size(), 0.0);
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    const model::Support& support = model.supports[s];
    if (!support.stiffness) continue;
    const double moved = own_direction(support).dot(
        movement.segment<6>(static_cast<Eigen::Index>(6 * support.node)));
    forces[s] = *support.stiffness * (ground_movements(static_cast<Eigen::Index>(s)) - moved);
  }
  for (const RigidSupports& rigid : rigid_supports(*this)) {
    Eigen::VectorXd at_held(static_cast<Eigen::Index>(rigid.held.size()));
    for (std::size_t i = 0; i < rigid.held.size(); ++i) {
      at_held(static_cast<Eigen::Index>(i)) = pull(rigid.held[i]);
    }
    const Eigen::VectorXd f = rigid.directions.transpose().fullPivLu().solve(at_held);
    for (std::size_t i = 0; i < rigid.which.size(); ++i) {
      forces[rigid.which[i]] = f(static_cast<Eigen::Index>(i));
    }
  }
  return forces;
}

}  // namespace standtrue::solve
