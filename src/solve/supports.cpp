// All numbers SI (m, N, Pa, rad).
#include <Eigen/LU>
#include <algorithm>

#include "solve/prepared.hpp"

namespace standtrue::solve {

void Prepared::Inside::gather_rigid_supports() {
  std::vector<std::vector<std::size_t>> groups(2 * model.nodes.size());
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    const model::Support& support = model.supports[s];
    if (!support.stiffness) groups[2 * support.node + (support.rotation ? 1 : 0)].push_back(s);
  }
  for (std::size_t g = 0; g < groups.size(); ++g) {
    if (groups[g].empty()) continue;
    RigidSupports group{groups[g], {}, {}};
    const auto base = static_cast<Eigen::Index>(6 * (g / 2) + 3 * (g % 2));
    for (Eigen::Index i = 0; i < 3; ++i) {
      if (freedoms.number[static_cast<std::size_t>(base + i)] < 0) group.held.push_back(base + i);
    }
    group.directions.resize(static_cast<Eigen::Index>(group.which.size()),
                            static_cast<Eigen::Index>(group.held.size()));
    for (std::size_t row = 0; row < group.which.size(); ++row) {
      const Eigen::Matrix<double, 6, 1> n = own_direction(model.supports[group.which[row]]);
      for (std::size_t column = 0; column < group.held.size(); ++column) {
        group.directions(static_cast<Eigen::Index>(row), static_cast<Eigen::Index>(column)) =
            n(group.held[column] % 6);
      }
    }
    rigid.push_back(std::move(group));
  }
}

Eigen::VectorXd Prepared::Inside::held_part(const Eigen::VectorXd& own) const {
  Eigen::VectorXd part(static_cast<Eigen::Index>(freedoms.held.size()));
  for (std::size_t i = 0; i < freedoms.held.size(); ++i) {
    part(static_cast<Eigen::Index>(i)) = own(freedoms.held[i]);
  }
  return part;
}

std::vector<Field> Prepared::Inside::fields(const std::vector<Asked>& asked) const {
  // A column of a matrix without rows would be an offset from nowhere.
  if (freedoms.size() == 0) return std::vector<Field>(asked.size());
  const auto n = static_cast<Eigen::Index>(asked.size());
  Panel forces(freedoms.size(), n), right(freedoms.unknowns, n);
  Panel movements = Panel::Zero(freedoms.size(), n);
  for (Eigen::Index a = 0; a < n; ++a) {
    const Asked& one = asked[static_cast<std::size_t>(a)];
    forces.col(a) = one.forces;
    if (one.held.size() > 0) movements.col(a) = one.held;
    if (freedoms.unknowns == 0) continue;
    if (one.held.size() == 0) {
      right.col(a) = freedoms.free_part(one.forces);
    } else {
      right.col(a) = freedoms.free_part(one.forces - K * one.held);
    }
  }
  const Panel unknowns = factor->solve(right);
  for (Eigen::Index i = 0; i < freedoms.size(); ++i) {
    const Eigen::Index at = freedoms.number[static_cast<std::size_t>(i)];
    if (at >= 0) movements.row(i) = unknowns.row(at);
  }
  const Panel pull = K * movements - forces;
  std::vector<Field> fields;
  for (Eigen::Index a = 0; a < n; ++a) {
    const Eigen::VectorXd out = pull.col(a);
    fields.push_back({movements.col(a), freedoms.free_part(out).norm(), held_part(out)});
  }
  return fields;
}

Field Prepared::Inside::balance(Eigen::VectorXd movement, const Eigen::VectorXd& own_forces) const {
  const Eigen::VectorXd pull = K * movement - own_forces;
  return {std::move(movement), freedoms.free_part(pull).norm(), held_part(pull)};
}

Field Prepared::Inside::roughly(const Eigen::VectorXd& own_forces) const {
  Field field;
  field.movement = freedoms.with_free_part(factor->solve_once(freedoms.free_part(own_forces)),
                                           Eigen::VectorXd::Zero(freedoms.size()));
  field.held_forces = -held_part(own_forces);
  for (std::size_t i = 0; i < freedoms.held.size(); ++i) {
    field.held_forces(static_cast<Eigen::Index>(i)) += K.col(freedoms.held[i]).dot(field.movement);
  }
  return field;
}

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

Eigen::VectorXd Prepared::Inside::held_movements(const Eigen::VectorXd& movements) const {
  Eigen::VectorXd held;
  for (const RigidSupports& group : rigid) {
    Eigen::VectorXd wanted(static_cast<Eigen::Index>(group.which.size()));
    for (std::size_t i = 0; i < group.which.size(); ++i) {
      wanted(static_cast<Eigen::Index>(i)) = movements(static_cast<Eigen::Index>(group.which[i]));
    }
    if (wanted.isZero(0.0)) continue;
    if (held.size() == 0) held = Eigen::VectorXd::Zero(freedoms.size());
    const Eigen::VectorXd own = group.directions.fullPivLu().solve(wanted);
    for (std::size_t i = 0; i < group.held.size(); ++i) {
      held(group.held[i]) = own(static_cast<Eigen::Index>(i));
    }
  }
  return held;
}

std::vector<double> Prepared::Inside::support_forces(const Eigen::VectorXd& movement,
                                                     const Eigen::VectorXd& ground_movements,
                                                     const Eigen::VectorXd& held_forces) const {
  std::vector<double> forces(model.supports.size(), 0.0);
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    const model::Support& support = model.supports[s];
    if (!support.stiffness) continue;
    const double moved = own_direction(support).dot(
        movement.segment<6>(static_cast<Eigen::Index>(6 * support.node)));
    forces[s] = *support.stiffness * (ground_movements(static_cast<Eigen::Index>(s)) - moved);
  }
  for (const RigidSupports& group : rigid) {
    Eigen::VectorXd at_held(static_cast<Eigen::Index>(group.held.size()));
    for (std::size_t i = 0; i < group.held.size(); ++i) {
      const auto place =
          std::lower_bound(freedoms.held.begin(), freedoms.held.end(), group.held[i]);
      at_held(static_cast<Eigen::Index>(i)) = held_forces(place - freedoms.held.begin());
    }
    const Eigen::VectorXd f = group.directions.transpose().fullPivLu().solve(at_held);
    for (std::size_t i = 0; i < group.which.size(); ++i) {
      forces[group.which[i]] = f(static_cast<Eigen::Index>(i));
    }
  }
  return forces;
}

}  // namespace standtrue::solve
