#pragma once

#include <Eigen/SparseCore>
#include <memory>
#include <mutex>
#include <vector>

#include "solve/supernodes.hpp"

/// Where the entries of a factor stand. That follows from the pattern of its matrix alone, and
/// costs as much as the numbers.
namespace standtrue::solve {

using SparseMatrix = Eigen::SparseMatrix<double>;

struct Layout {
  Supernodes nodes;
  std::vector<std::size_t> first_value;  ///< of each supernode, among the values
  std::size_t values = 0;                ///< how many there are
};

/// Of a square matrix with a symmetric pattern. Unknowns that are `kept` stand last.
[[nodiscard]] std::shared_ptr<const Layout> layout_of(const SparseMatrix& K,
                                                      const std::vector<int>& kept = {});

/// Layouts that have been found, of matrices in which nothing is kept: the same bench with stiffer
/// joints has the same pattern. Several threads may ask at once.
class Layouts {
 public:
  /// `K` compressed.
  [[nodiscard]] std::shared_ptr<const Layout> of(const SparseMatrix& K);

 private:
  struct Known {
    std::vector<int> outer, inner;  ///< the pattern
    std::shared_ptr<const Layout> layout;
  };
  std::mutex guard_;
  std::vector<Known> known_;
};

}  // namespace standtrue::solve
