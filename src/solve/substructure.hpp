#pragma once

#include <Eigen/Core>
#include <vector>

#include "solve/sparse_ldlt.hpp"

/// Static condensation: the unknowns of a symmetric stiffness that meet others are kept, the rest
/// eliminated exactly. All numbers SI.
///     K_ii x_i + K_ik x_k = f_i      S = K_kk - K_ki K_ii^-1 K_ik      S x_k = f_k - K_ki K_ii^-1
///     f_i
namespace standtrue::solve {

class Substructure {
 public:
  /// K square and symmetric; `kept` rising places.
  Substructure(const SparseMatrix& K, std::vector<int> kept);

  /// False if what is eliminated can move while the kept unknowns rest; `loosest` is then the
  /// unknown that nothing resists.
  [[nodiscard]] bool ok() const { return ok_; }
  [[nodiscard]] int loosest() const { return loosest_; }

  [[nodiscard]] const Eigen::MatrixXd& stiffness() const { return S_; }
  /// K_ii^-1 f_i over all unknowns (zero at kept ones), for each column.
  [[nodiscard]] Panel particular(const Panel& loads) const;
  /// f_k - K_ki K_ii^-1 f_i, given `particular` of the loads.
  [[nodiscard]] Panel condensed(const Panel& loads, const Panel& particular) const;
  /// The movements of all unknowns that go with those of the kept ones, nothing being loaded.
  [[nodiscard]] Panel follow(const Panel& kept_movements) const;

 private:
  std::vector<int> kept_;
  SparseLdlt factor_;
  SparseMatrix K_ki_;
  Eigen::MatrixXd S_;
  bool ok_ = true;
  int loosest_ = -1;
};

}  // namespace standtrue::solve
