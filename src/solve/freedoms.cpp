// All numbers SI (m, N, Pa, rad).
#include <cmath>

#include "solve/assembly.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// The held directions of a node's movements (or rotations), made orthonormal in the order of its
/// supports, then filled up to a whole basis. Columns; the first `held` of them are held.
struct NodeBasis {
  Eigen::Matrix3d columns = Eigen::Matrix3d::Zero();
  Eigen::Index held = 0;
};

bool extend(NodeBasis& basis, Eigen::Index count, Eigen::Vector3d v) {
  v.normalize();
  for (int twice = 0; twice < 2; ++twice) {  // the second pass removes the rounding of the first
    for (Eigen::Index i = 0; i < count; ++i) {
      v -= basis.columns.col(i).dot(v) * basis.columns.col(i);
    }
  }
  if (v.norm() < 1e-6) return false;
  basis.columns.col(count) = v.normalized();
  return true;
}

NodeBasis basis_of(const model::Model& model, model::NodeId node, bool rotation) {
  NodeBasis basis;
  for (const model::Support& support : model.supports) {
    if (support.node != node || support.rotation != rotation || support.stiffness) continue;
    if (basis.held < 3 && extend(basis, basis.held, vector_of(support.along))) ++basis.held;
  }
  if (basis.held == 0) {
    basis.columns = Eigen::Matrix3d::Identity();
    return basis;
  }
  Eigen::Index count = basis.held;
  for (Eigen::Index axis = 0; axis < 3 && count < 3; ++axis) {
    if (extend(basis, count, Eigen::Vector3d::Unit(axis))) ++count;
  }
  return basis;
}

}  // namespace

Eigen::Matrix<double, 6, 1> direction(bool rotation, const model::Direction& along) {
  Eigen::Matrix<double, 6, 1> d = Eigen::Matrix<double, 6, 1>::Zero();
  d.segment<3>(rotation ? 3 : 0) = vector_of(along).normalized();
  return d;
}

Freedoms freedoms(const model::Model& model, std::vector<PreparedPlate>& plates) {
  Freedoms result;
  result.basis.reserve(model.nodes.size());
  result.number.assign(6 * model.nodes.size(), -1);
  for (model::NodeId node = 0; node < model.nodes.size(); ++node) {
    Eigen::Matrix<double, 6, 6> whole = Eigen::Matrix<double, 6, 6>::Zero();
    for (const bool rotation : {false, true}) {
      const NodeBasis basis = basis_of(model, node, rotation);
      const Eigen::Index at = rotation ? 3 : 0;
      whole.block<3, 3>(at, at) = basis.columns;
      for (Eigen::Index i = basis.held; i < 3; ++i) {
        result.number[6 * node + static_cast<std::size_t>(at + i)] = result.unknowns++;
      }
    }
    result.basis.push_back(whole);
  }
  for (PreparedPlate& plate : plates) {
    plate.first = result.size();
    for (Eigen::Index i = 0; i < plate.size(); ++i) result.number.push_back(result.unknowns++);
  }
  for (Eigen::Index i = 0; i < result.size(); ++i) {
    if (result.number[static_cast<std::size_t>(i)] < 0) result.held.push_back(i);
  }
  return result;
}

Eigen::VectorXd Freedoms::to_own(const Eigen::VectorXd& global) const {
  Eigen::VectorXd own = Eigen::VectorXd::Zero(size());
  const Eigen::Index tail = global.size() - of_nodes();
  own.segment(of_nodes(), tail) = global.tail(tail);
  for (std::size_t node = 0; node < basis.size(); ++node) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    own.segment<6>(at) = basis[node].transpose() * global.segment<6>(at);
  }
  return own;
}

Eigen::VectorXd Freedoms::to_global(const Eigen::VectorXd& own) const {
  Eigen::VectorXd global = own;
  for (std::size_t node = 0; node < basis.size(); ++node) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    global.segment<6>(at) = basis[node] * own.segment<6>(at);
  }
  return global;
}

Eigen::VectorXd Freedoms::free_part(const Eigen::VectorXd& own) const {
  Eigen::VectorXd result(unknowns);
  for (Eigen::Index i = 0; i < size(); ++i) {
    const Eigen::Index at = number[static_cast<std::size_t>(i)];
    if (at >= 0) result(at) = own(i);
  }
  return result;
}

Eigen::VectorXd Freedoms::with_free_part(const Eigen::VectorXd& values,
                                         const Eigen::VectorXd& at_held) const {
  Eigen::VectorXd result = at_held;
  for (Eigen::Index i = 0; i < size(); ++i) {
    const Eigen::Index at = number[static_cast<std::size_t>(i)];
    if (at >= 0) result(i) = values(at);
  }
  return result;
}

}  // namespace standtrue::solve
