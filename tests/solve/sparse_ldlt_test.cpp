// Panel solves against column by column and against dense LU, on random matrices of fixed seed.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <cmath>
#include <cstdint>
#include <random>
#include <set>
#include <utility>
#include <vector>

#include "solve/sparse_ldlt.hpp"

namespace sparse_ldlt_test {

using namespace standtrue;

namespace {

/// The same numbers with every library: only the engine is specified, its distributions are not.
class Numbers {
 public:
  explicit Numbers(std::uint32_t seed) : engine_(seed) {}
  double operator()() { return static_cast<double>(engine_()) / 4294967296.0 - 0.5; }
  Eigen::Index below(Eigen::Index n) {
    return static_cast<Eigen::Index>(engine_() % static_cast<std::uint32_t>(n));
  }

 private:
  std::mt19937 engine_;
};

/// Springs between random unknowns, and a spring of each to the ground: positive definite,
/// condition at most some hundred.
Eigen::SparseMatrix<double> random_stiffness(Eigen::Index n, Numbers& number) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < static_cast<int>(n); ++i) entries.emplace_back(i, i, 1.0);
  for (Eigen::Index spring = 0; spring < 3 * n; ++spring) {
    const int a = static_cast<int>(number.below(n)), b = static_cast<int>(number.below(n));
    const double k = 10.0 * (number() + 0.5);
    if (a == b) continue;
    entries.emplace_back(a, a, k);
    entries.emplace_back(b, b, k);
    entries.emplace_back(a, b, -k);
    entries.emplace_back(b, a, -k);
  }
  Eigen::SparseMatrix<double> K(n, n);
  K.setFromTriplets(entries.begin(), entries.end());
  return K;
}

solve::Panel random_panel(Eigen::Index rows, Eigen::Index columns, Numbers& number) {
  solve::Panel F(rows, columns);
  for (Eigen::Index i = 0; i < F.size(); ++i) F.data()[i] = number();
  return F;
}

}  // namespace

TEST_CASE("solve/sparse_ldlt: a panel answers as its columns one by one and as dense LU") {
  Numbers number(20240917u);
  for (const Eigen::Index n : {1, 2, 7, 60, 233}) {
    const Eigen::SparseMatrix<double> K = random_stiffness(n, number);
    const solve::SparseLdlt ldlt(K);
    REQUIRE(ldlt.ok());
    const Eigen::PartialPivLU<Eigen::MatrixXd> lu{Eigen::MatrixXd(K)};
    // Below, at and above the narrow sweeps (8, 16), one panel (32) and two.
    for (const Eigen::Index columns : {0, 1, 3, 8, 9, 15, 16, 17, 31, 32, 33, 40, 41, 49, 64, 70}) {
      CAPTURE(n);
      CAPTURE(columns);
      const solve::Panel F = random_panel(n, columns, number);
      const solve::Panel X = ldlt.solve(F);
      REQUIRE(X.rows() == n);
      REQUIRE(X.cols() == columns);
      if (columns == 0) continue;
      const Eigen::MatrixXd dense = lu.solve(Eigen::MatrixXd(F));
      CHECK((X - dense).norm() < 1e-13 * dense.norm());  // rounding by a condition of hundreds
      CHECK((K * X - F).norm() < 1e-13 * F.norm());
      for (Eigen::Index c = 0; c < columns; ++c) {
        const Eigen::VectorXd f = F.col(c);
        const Eigen::VectorXd x = ldlt.solve(f);
        CHECK(x == X.col(c));  // no sum is split otherwise for being one of many
      }
    }
  }
}

TEST_CASE("solve/sparse_ldlt: each pivot is that of its unknown") {
  // Those of dense Cholesky without pivoting, in the order of elimination: d_p = (L_pp)².
  Numbers number(7u);
  const Eigen::Index n = 40;
  const Eigen::SparseMatrix<double> K = random_stiffness(n, number);
  const solve::SparseLdlt ldlt(K);
  REQUIRE(ldlt.ok());
  std::vector<Eigen::Index> order;
  for (Eigen::Index p = 0; p < n; ++p) order.push_back(ldlt.unknown_of_pivot(p));
  CHECK(std::set<Eigen::Index>(order.begin(), order.end()).size() == order.size());
  const Eigen::MatrixXd ordered = Eigen::MatrixXd(K)(order, order);
  const Eigen::MatrixXd L = ordered.llt().matrixL();
  CHECK((ldlt.pivots() - Eigen::VectorXd(L.diagonal().array().square())).norm() <
        1e-14 * ldlt.pivots().norm());
}

TEST_CASE("solve/sparse_ldlt: it stops at a pivot of exactly zero, which is the last") {
  // Unknown 3 has nothing; every other pivot that was made is its own entry.
  Eigen::SparseMatrix<double> K(9, 9);
  for (Eigen::Index i = 0; i < 9; ++i) K.insert(i, i) = i == 3 ? 0.0 : 1.0 + static_cast<double>(i);
  const solve::SparseLdlt ldlt(K);
  CHECK_FALSE(ldlt.ok());
  const Eigen::Index made = ldlt.pivots().size();
  REQUIRE(made > 0);
  for (Eigen::Index p = 0; p < made; ++p) {
    const Eigen::Index unknown = ldlt.unknown_of_pivot(p);
    CHECK(ldlt.pivots()(p) == K.coeff(unknown, unknown));
    CHECK((unknown == 3) == (p == made - 1));
  }
}

TEST_CASE("solve/sparse_ldlt: blocks wider than what is eliminated at once") {
  // Dense, and two dense ones that share some unknowns: pivots and answers against dense Cholesky.
  Numbers number(11u);
  const Eigen::Index n = 150, shared = 13;
  Eigen::MatrixXd D = Eigen::MatrixXd::Zero(2 * n - shared, 2 * n - shared);
  for (const Eigen::Index from : {Eigen::Index{0}, n - shared}) {
    const Eigen::MatrixXd A = random_panel(n, n, number);
    D.block(from, from, n, n) += A * A.transpose() + Eigen::MatrixXd::Identity(n, n);
  }
  for (const Eigen::MatrixXd& dense : {Eigen::MatrixXd(D.topLeftCorner(n, n)), D}) {
    const solve::SparseLdlt ldlt{Eigen::SparseMatrix<double>(dense.sparseView())};
    REQUIRE(ldlt.ok());
    const solve::Panel F = random_panel(dense.rows(), 9, number);
    const Eigen::MatrixXd X = dense.llt().solve(Eigen::MatrixXd(F));
    CHECK((ldlt.solve(F) - X).norm() <
          1e-12 * X.norm());  // rounding by a condition of some thousand
    const double log_det = 2.0 * dense.llt().matrixLLT().diagonal().array().log().sum();
    CHECK(std::abs(ldlt.pivots().array().log().sum() - log_det) < 1e-12 * std::abs(log_det));
    const Eigen::VectorXd f = F.col(0);
    const Eigen::VectorXd x = ldlt.second_half(ldlt.first_half(f));
    CHECK((x - X.col(0)).norm() < 1e-12 * X.col(0).norm());
  }
}

TEST_CASE("solve/sparse_ldlt: a pivot of zero in the midst of a wide block") {
  // The 41st row repeats the 7th: whichever comes later in the order has nothing left. Small whole
  // numbers with a diagonal of powers of two, so that the zero is exact.
  const Eigen::Index n = 60;
  Eigen::SparseMatrix<double> K(n, n);
  for (Eigen::Index i = 0; i < n; ++i) K.insert(i, i) = i == 40 ? 0.5 : 2.0;
  for (const auto& [i, j] : {std::pair<Eigen::Index, Eigen::Index>{7, 40}, {40, 7}}) {
    K.insert(i, j) = 1.0;
  }
  for (Eigen::Index i = 0; i + 1 < n; ++i) {  // zeros in the pattern make it one block
    for (Eigen::Index j = 0; j < n; ++j) K.coeffRef(j, i) += 0.0;
  }
  const solve::SparseLdlt ldlt(K);
  CHECK_FALSE(ldlt.ok());
  const Eigen::Index made = ldlt.pivots().size();
  REQUIRE(made > 0);
  CHECK(ldlt.pivots()(made - 1) == 0.0);
  CHECK(ldlt.pivots().head(made - 1).minCoeff() > 0.0);
  const Eigen::Index unknown = ldlt.unknown_of_pivot(made - 1);
  CHECK((unknown == 7 || unknown == 40));
}

TEST_CASE(
    "solve/sparse_ldlt: what is kept stays, and the rest of the matrix is its Schur complement") {
  Numbers number(5u);
  for (const Eigen::Index n : {8, 60, 233}) {
    const Eigen::SparseMatrix<double> K = random_stiffness(n, number);
    std::vector<int> kept, inner;
    for (int i = 0; i < static_cast<int>(n); ++i) (i % 5 == 3 ? kept : inner).push_back(i);
    const solve::SparseLdlt ldlt(K, kept);
    REQUIRE(ldlt.ok());
    const Eigen::MatrixXd D(K);
    const Eigen::MatrixXd K_ii = D(inner, inner), K_ik = D(inner, kept);
    const Eigen::MatrixXd X = K_ii.llt().solve(K_ik);
    const Eigen::MatrixXd S = D(kept, kept) - K_ik.transpose() * X;
    CHECK((ldlt.rest() - S).norm() < 1e-13 * S.norm());
    const solve::Panel moved = random_panel(static_cast<Eigen::Index>(kept.size()), 37, number);
    const Eigen::MatrixXd all = ldlt.follow(moved);
    CHECK(all(kept, Eigen::all) == moved);
    CHECK((all(inner, Eigen::all) + X * moved).norm() < 1e-13 * all.norm());
    const solve::Panel F = random_panel(n, 37, number);
    const Eigen::MatrixXd u = ldlt.solve(F);
    CHECK(u(kept, Eigen::all).isZero(0.0));
    const Eigen::MatrixXd of_inner = K_ii.llt().solve(Eigen::MatrixXd(F)(inner, Eigen::all));
    CHECK((u(inner, Eigen::all) - of_inner).norm() < 1e-13 * u.norm());
    CHECK(Eigen::VectorXd(ldlt.solve(Eigen::VectorXd(F.col(4)))) == u.col(4));
  }
}

TEST_CASE("solve/sparse_ldlt: nothing to solve is solved") {
  const solve::SparseLdlt none(Eigen::SparseMatrix<double>(0, 0));
  CHECK(none.ok());
  CHECK(none.pivots().size() == 0);
  CHECK(none.solve(Eigen::VectorXd(0)).size() == 0);
  const solve::Panel X = none.solve(solve::Panel(0, 5));
  CHECK(X.rows() == 0);
  CHECK(X.cols() == 5);
}

TEST_CASE("solve/sparse_ldlt: laid out once, the factors of what differs are those made anew") {
  Numbers number(20261127u);
  const Eigen::SparseMatrix<double> K = random_stiffness(60, number);
  const solve::SparseLdlt places = solve::SparseLdlt::laid_out(K, solve::layout_of(K));
  for (const double by : {0.3, -0.2, -9.0}) {
    Eigen::SparseMatrix<double> change = by * K;
    change.prune([](Eigen::Index row, Eigen::Index column, double) { return row + column < 40; });
    const solve::SparseLdlt updated = places.plus(change), anew(K + change);
    CHECK(updated.ok() == anew.ok());
    CHECK(updated.pivots() == anew.pivots());
  }
}

TEST_CASE("solve/sparse_ldlt: what is not positive definite is not ok") {
  Eigen::SparseMatrix<double> K(3, 3);
  K.insert(0, 0) = 2.0;
  K.insert(1, 1) = -1.0;
  K.insert(2, 2) = 3.0;
  CHECK_FALSE(solve::SparseLdlt(K).ok());
  K.coeffRef(1, 1) = 0.0;  // breaks down
  CHECK_FALSE(solve::SparseLdlt(K).ok());
}

}  // namespace sparse_ldlt_test
