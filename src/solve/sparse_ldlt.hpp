#pragma once

#include <Eigen/Core>
#include <Eigen/SparseCore>
#include <vector>

#include "solve/blocks.hpp"
#include "solve/layouts.hpp"

/// A sparse symmetric matrix as L D L^T, block by block, with solves for many right-hand sides at
/// once; or the same for most of its unknowns, and what is left of it for the others.
namespace standtrue::solve {

/// Right-hand sides side by side: row-major, so that one entry of L meets a whole row of them.
using Panel = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

class SparseLdlt {
 public:
  SparseLdlt() = default;
  /// K square and symmetric (both triangles). May break down; see `ok`. Unknowns that are `kept`
  /// are not eliminated: solves leave them at rest.
  explicit SparseLdlt(const SparseMatrix& K, const std::vector<int>& kept = {});
  /// The same with nothing kept, where the layout of its pattern is known.
  SparseLdlt(const SparseMatrix& K, std::shared_ptr<const Layout> layout);

  /// K in the places of its factor, of which `plus` makes factors.
  [[nodiscard]] static SparseLdlt laid_out(const SparseMatrix& K,
                                           std::shared_ptr<const Layout> layout);
  /// The factor of that K and a change of it.   Contract: laid out; the change is symmetric and has
  /// entries only where K has (zeros count).
  [[nodiscard]] SparseLdlt plus(const SparseMatrix& change) const;

  /// True if every pivot is positive.
  [[nodiscard]] bool ok() const { return ok_; }
  /// As far as they were made: a pivot of exactly zero is the last.
  [[nodiscard]] const Eigen::VectorXd& pivots() const { return d_; }
  /// Which unknown the pivot belongs to.
  [[nodiscard]] Eigen::Index unknown_of_pivot(Eigen::Index pivot) const;

  /// Over all unknowns; zero where they are kept.   Contract: not broken down.
  [[nodiscard]] Eigen::VectorXd solve(const Eigen::VectorXd& f) const;
  /// All columns at once: the same numbers as column by column, and many times as quick.
  [[nodiscard]] Panel solve(const Panel& F) const;
  /// The halves of a solve, K = C C^T: C^-1 f and C^-T y.   Contract: ok(), nothing kept.
  [[nodiscard]] Eigen::VectorXd first_half(const Eigen::VectorXd& f) const;
  [[nodiscard]] Eigen::VectorXd second_half(const Eigen::VectorXd& y) const;

  /// K_kk - K_ki K_ii^-1 K_ik of the kept unknowns.
  [[nodiscard]] Eigen::MatrixXd rest() const;
  /// The movements of all unknowns that go with those of the kept ones: -K_ii^-1 K_ik u_k.
  [[nodiscard]] Panel follow(const Panel& kept_movements) const;

 private:
  void put(const SparseMatrix& K, std::shared_ptr<const Layout> layout);
  void add(const SparseMatrix& K);
  void factorise();
  [[nodiscard]] Triangle lower(int rows) const;

  [[nodiscard]] const Supernodes& nodes() const { return layout_->nodes; }

  std::shared_ptr<const Layout> layout_ = std::make_shared<Layout>();
  /// By rows of each supernode: L of its own places, then of `rows`. The kept ones hold what is
  /// left of K.
  std::vector<double> values_;
  Eigen::VectorXd d_;
  int n_inner_ = 0;  ///< how many are eliminated
  bool ok_ = true;
};

}  // namespace standtrue::solve
