// All numbers SI (m, N, Pa, rad).
#include "solve/assembly.hpp"

#include <algorithm>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

using quantity::in_si;

namespace {

template <class Block>
void add_block(Triplets& triplets, std::size_t row_node, std::size_t column_node,
               const Block& block) {
  for (Eigen::Index i = 0; i < 6; ++i) {
    for (Eigen::Index j = 0; j < 6; ++j) {
      if (block(i, j) != 0.0) {
        triplets.emplace_back(static_cast<int>(6 * row_node) + static_cast<int>(i),
                              static_cast<int>(6 * column_node) + static_cast<int>(j), block(i, j));
      }
    }
  }
}

/// The condensed plate, and the ties between its points and the frame.
void add_plate(Triplets& triplets, const Freedoms& freedoms, const model::Model& model,
               const model::Plate& plate, const PreparedPlate& prepared, model::SpringSet springs) {
  for (Eigen::Index j = 0; j < prepared.size(); ++j) {
    for (Eigen::Index i = 0; i < prepared.size(); ++i) {
      triplets.emplace_back(static_cast<int>(prepared.first + i),
                            static_cast<int>(prepared.first + j), prepared.stiffness(i, j));
    }
  }
  for (const model::PlateTie& tie : plate.ties) {
    if (tie.gravity_only && springs == model::SpringSet::sway) continue;
    const Eigen::Index point = prepared.freedom_of(plate.node(tie.i, tie.j));
    Eigen::Matrix<double, 9, 9> Q = Eigen::Matrix<double, 9, 9>::Identity();
    Q.topLeftCorner<6, 6>() = freedoms.basis[tie.node];
    const Eigen::Matrix<double, 9, 9> k = Q.transpose() * tie_stiffness(model, plate, tie) * Q;
    const auto place = [&](Eigen::Index i) {
      return static_cast<int>(i < 6 ? 6 * static_cast<Eigen::Index>(tie.node) + i : point + i - 6);
    };
    for (Eigen::Index i = 0; i < 9; ++i) {
      for (Eigen::Index j = 0; j < 9; ++j) {
        if (k(i, j) != 0.0) triplets.emplace_back(place(i), place(j), k(i, j));
      }
    }
  }
}

}  // namespace

void add_pair(Triplets& triplets, const Freedoms& freedoms, model::NodeId a, model::NodeId b,
              const Matrix12& k) {
  Matrix12 Q = Matrix12::Zero();
  Q.topLeftCorner<6, 6>() = freedoms.basis[a];
  Q.bottomRightCorner<6, 6>() = freedoms.basis[b];
  const Matrix12 own = Q.transpose() * k * Q;
  add_block(triplets, a, a, own.topLeftCorner<6, 6>());
  add_block(triplets, a, b, own.topRightCorner<6, 6>());
  add_block(triplets, b, a, own.bottomLeftCorner<6, 6>());
  add_block(triplets, b, b, own.bottomRightCorner<6, 6>());
}

SparseMatrix stiffness_matrix(const model::Model& model, const Freedoms& freedoms,
                              const std::vector<MemberKernel>& kernels,
                              const std::vector<PreparedPlate>& plates, model::SpringSet springs) {
  Triplets triplets;
  std::size_t dense = 0;
  for (const PreparedPlate& plate : plates) {
    dense += static_cast<std::size_t>(plate.size() * plate.size());
  }
  triplets.reserve(144 * model.members.size() + 36 * model.supports.size() + dense);
  for (model::MemberId m = 0; m < model.members.size(); ++m) {
    const model::Member& member = model.members[m];
    add_pair(triplets, freedoms, member.start, member.end, kernels[m].global_stiffness());
  }
  for (const model::Tie& tie : model.ties) {
    Matrix12 k = Matrix12::Zero();
    for (std::size_t i = 0; i < 6; ++i) {
      const auto a = static_cast<Eigen::Index>(i);
      expects(tie.stiffness[i] >= 0.0, "stiffness_matrix: a tie is negative");
      k(a, a) = k(a + 6, a + 6) = tie.stiffness[i];
      k(a, a + 6) = k(a + 6, a) = -tie.stiffness[i];
    }
    add_pair(triplets, freedoms, tie.a, tie.b, k);
  }
  for (const model::Support& support : model.supports) {
    if (!support.stiffness) continue;
    const Eigen::Matrix<double, 6, 1> n =
        freedoms.basis[support.node].transpose() * direction(support.rotation, support.along);
    const Eigen::Matrix<double, 6, 6> k = *support.stiffness * (n * n.transpose());
    add_block(triplets, support.node, support.node, k);
  }
  for (std::size_t p = 0; p < plates.size(); ++p) {
    add_plate(triplets, freedoms, model, model.plates[p], plates[p], springs);
  }
  SparseMatrix K(freedoms.size(), freedoms.size());
  K.setFromTriplets(triplets.begin(), triplets.end());
  return K;
}

SparseMatrix free_part(const SparseMatrix& K, const Freedoms& freedoms) {
  Triplets triplets;
  triplets.reserve(static_cast<std::size_t>(K.nonZeros()));
  for (int column = 0; column < K.outerSize(); ++column) {
    const Eigen::Index to = freedoms.number[static_cast<std::size_t>(column)];
    if (to < 0) continue;
    for (SparseMatrix::InnerIterator it(K, column); it; ++it) {
      const Eigen::Index from = freedoms.number[static_cast<std::size_t>(it.row())];
      if (from >= 0)
        triplets.emplace_back(static_cast<int>(from), static_cast<int>(to), it.value());
    }
  }
  SparseMatrix result(freedoms.unknowns, freedoms.unknowns);
  result.setFromTriplets(triplets.begin(), triplets.end());
  return result;
}

Eigen::VectorXd node_forces(const model::Model& model, const std::vector<model::NodeLoad>& loads,
                            bool self_weight) {
  Eigen::VectorXd f = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(6 * model.nodes.size()));
  const auto push = [&f](model::NodeId node, const Eigen::Vector3d& force,
                         const Eigen::Vector3d& moment, const Eigen::Vector3d& offset) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    f.segment<3>(at) += force;
    f.segment<3>(at + 3) += moment + offset.cross(force);
  };
  for (const model::NodeLoad& load : loads) {
    push(load.node, vector_of(load.force), vector_of(load.moment), vector_of(load.offset));
  }
  if (self_weight) {
    for (const model::PointMass& mass : model.masses) {
      const double weight = in_si(mass.mass) * in_si(quantity::standard_gravity());
      push(mass.node, {0.0, 0.0, -weight}, Eigen::Vector3d::Zero(), vector_of(mass.offset));
    }
  }
  return f;
}

}  // namespace standtrue::solve
