#pragma once

#include <vector>

#include "solve/member_kernel.hpp"
#include "solve/plates.hpp"
#include "solve/sparse_ldlt.hpp"
#include "standtrue/model/model.hpp"

/// From a Model to K u = f. All numbers SI.
namespace standtrue::solve {

/// The six freedoms of each node in a basis of its own, turned so that every rigid support holds
/// whole freedoms: global = basis * own. After them three of each tied point of each plate, along
/// the plate's axes. `number[i]` is the place of a free one among the unknowns, -1 if held.
struct Freedoms {
  std::vector<Eigen::Matrix<double, 6, 6>> basis;  ///< per node, block diagonal 3 + 3, orthonormal
  std::vector<Eigen::Index> number;                ///< 6 per node, 3 per tied point
  std::vector<Eigen::Index> held;                  ///< own freedoms that are held, rising
  Eigen::Index unknowns = 0;

  [[nodiscard]] Eigen::Index of_nodes() const {
    return 6 * static_cast<Eigen::Index>(basis.size());
  }

  [[nodiscard]] Eigen::Index size() const { return static_cast<Eigen::Index>(number.size()); }
  [[nodiscard]] Eigen::VectorXd to_own(const Eigen::VectorXd& global) const;
  [[nodiscard]] Eigen::VectorXd to_global(const Eigen::VectorXd& own) const;
  [[nodiscard]] Eigen::VectorXd free_part(const Eigen::VectorXd& own) const;
  /// Spreads the unknowns over all own freedoms; held ones keep the value in `at_held`.
  [[nodiscard]] Eigen::VectorXd with_free_part(const Eigen::VectorXd& unknowns,
                                               const Eigen::VectorXd& at_held) const;
};
[[nodiscard]] Freedoms freedoms(const model::Model& model, std::vector<PreparedPlate>& plates);

/// The global direction of a support as a vector over the six freedoms of its node.
[[nodiscard]] Eigen::Matrix<double, 6, 1> direction(bool rotation, const model::Direction& along);

using Triplets = std::vector<Eigen::Triplet<double>>;
/// A stiffness (or mass) over the global freedoms of two nodes, turned into their own.
void add_pair(Triplets& triplets, const Freedoms& freedoms, model::NodeId a, model::NodeId b,
              const Matrix12& k);

/// Stiffness over all own freedoms: members, ties, plates, spring supports.
[[nodiscard]] SparseMatrix stiffness_matrix(const model::Model& model, const Freedoms& freedoms,
                                            const std::vector<MemberKernel>& kernels,
                                            const std::vector<PreparedPlate>& plates,
                                            model::SpringSet springs);
/// Rows and columns of the unknowns alone.
[[nodiscard]] SparseMatrix free_part(const SparseMatrix& K, const Freedoms& freedoms);

/// Loads on nodes (6 per node, global) of node loads and, for self weight, of point masses.
[[nodiscard]] Eigen::VectorXd node_forces(const model::Model& model,
                                          const std::vector<model::NodeLoad>& loads,
                                          bool self_weight);

}  // namespace standtrue::solve
