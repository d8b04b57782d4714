#pragma once

#include <Eigen/SparseCore>
#include <vector>

/// Which unknowns of a sparse symmetric matrix are eliminated in which order, and which of them
/// together.
namespace standtrue::solve {

/// A supernode is a run of places whose columns of L have entries in the same rows below the run.
/// Where that saves more than it costs, runs that are nearly so are one as well, and hold zeros.
struct Supernodes {
  /// Of an unknown, its place in the order of elimination.
  std::vector<int> place;
  std::vector<int> unknown;  ///< of a place
  std::vector<int> first;    ///< place of each supernode, and the number of places
  /// Of supernode s the rows [first_row[s], first_row[s + 1]): places after the run, rising.
  std::vector<int> first_row, rows;
  std::vector<int> of_place;  ///< the supernode of a place
  int eliminated = 0;         ///< how many supernodes; one more holds what is kept, if anything is

  [[nodiscard]] int count() const { return static_cast<int>(first.size()) - 1; }
  [[nodiscard]] int width(int s) const {
    const auto i = static_cast<std::size_t>(s);
    return first[i + 1] - first[i];
  }
  [[nodiscard]] int below(int s) const {
    const auto i = static_cast<std::size_t>(s);
    return first_row[i + 1] - first_row[i];
  }
};

/// K square with a symmetric pattern; by approximate minimum degree. `kept`: unknowns that are not
/// eliminated, and have the last places in this order as one supernode.
Supernodes supernodes_of(const Eigen::SparseMatrix<double>& K, const std::vector<int>& kept);

}  // namespace standtrue::solve
