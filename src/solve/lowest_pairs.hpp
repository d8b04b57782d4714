#pragma once

#include <functional>
#include <optional>

#include "solve/sparse_ldlt.hpp"

/// The lowest pairs of K φ = λ M φ for many unknowns, K positive definite, M semidefinite.
namespace standtrue::solve {

/// What a matrix does to columns side by side.
using PanelOperator = std::function<Panel(const Panel&)>;

struct Pairs {
  Eigen::VectorXd lambda;  ///< rising
  Eigen::MatrixXd shapes;  ///< φ^T M φ = 1, square to each other
};

struct PairsWanted {
  Eigen::Index least = 1;  ///< so many, if there are so many with mass
  double up_to = 0.0;      ///< and all with λ up to this
};

/// Block Lanczos with K^-1 M, in the inner product of M, every block made square to all before it.
/// A block of 8: what repeats up to eight times is found, which one vector would miss. Nothing if
/// it does not settle.
/// Source (from memory): Golub & Van Loan, Matrix Computations, 10.3.6.
/// Source (from memory): Grimes et al., SIAM J. Matrix Anal. Appl. 15 (1994) 228.
[[nodiscard]] std::optional<Pairs> lowest_pairs(const PanelOperator& K_inverse,
                                                const PanelOperator& M, Eigen::Index n,
                                                const PairsWanted& wanted);

/// The same for few unknowns, in full.
[[nodiscard]] std::optional<Pairs> all_pairs(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M,
                                             const PairsWanted& wanted);

}  // namespace standtrue::solve
