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

/// The ties between a plate's points and the frame.
void add_ties(Triplets& triplets, const Freedoms& freedoms, const model::Model& model,
              const model::Plate& plate, const PreparedPlate& prepared, model::SpringSet springs) {
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

/// What links nodes and tied points, and the plates, which are full squares on the diagonal: put
/// column by column, as they are the most of it.
SparseMatrix with_plates(const SparseMatrix& links, const std::vector<PreparedPlate>& plates) {
  Eigen::Index entries = links.nonZeros();
  for (const PreparedPlate& plate : plates) entries += plate.size() * plate.size();
  SparseMatrix K(links.rows(), links.cols());
  K.reserve(entries);
  const auto put_link = [&K](const SparseMatrix::InnerIterator& it) {
    K.insertBack(it.row(), it.col()) = it.value();
  };
  const Eigen::Index of_nodes = plates.empty() ? links.cols() : plates.front().first;
  for (Eigen::Index column = 0; column < of_nodes; ++column) {
    K.startVec(column);
    for (SparseMatrix::InnerIterator it(links, column); it; ++it) put_link(it);
  }
  for (const PreparedPlate& plate : plates) {
    for (Eigen::Index j = 0; j < plate.size(); ++j) {
      const Eigen::Index column = plate.first + j;
      K.startVec(column);
      SparseMatrix::InnerIterator it(links, column);
      for (; it && it.row() < plate.first; ++it) put_link(it);
      for (Eigen::Index i = 0; i < plate.size(); ++i) {
        double& entry = K.insertBack(plate.first + i, column) = plate.stiffness(i, j);
        if (!it || it.row() != plate.first + i) continue;
        entry += it.value();
        ++it;
      }
    }
  }
  K.finalize();
  return K;
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
  triplets.reserve(144 * model.members.size() + 36 * model.supports.size());
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
    add_ties(triplets, freedoms, model, model.plates[p], plates[p], springs);
  }
  SparseMatrix links(freedoms.size(), freedoms.size());
  links.setFromTriplets(triplets.begin(), triplets.end());
  return plates.empty() ? links : with_plates(links, plates);
}

SparseMatrix free_part(const SparseMatrix& K, const Freedoms& freedoms) {
  SparseMatrix result(freedoms.unknowns, freedoms.unknowns);
  result.reserve(K.nonZeros());
  // Free ones are numbered in their order, so that rows and columns stay sorted.
  for (Eigen::Index column = 0; column < K.outerSize(); ++column) {
    const Eigen::Index to = freedoms.number[static_cast<std::size_t>(column)];
    if (to < 0) continue;
    result.startVec(to);
    for (SparseMatrix::InnerIterator it(K, column); it; ++it) {
      const Eigen::Index from = freedoms.number[static_cast<std::size_t>(it.row())];
      if (from >= 0) result.insertBack(from, to) = it.value();
    }
  }
  result.finalize();
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
