// Static condensation against the dense Schur complement and the solution of the whole system.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include "solve/substructure.hpp"

namespace substructure_test {

using namespace standtrue;

namespace {

using Sparse = Eigen::SparseMatrix<double>;
using Triplets = std::vector<Eigen::Triplet<double>>;

void spring(Triplets& entries, int a, int b, double k) {
  entries.emplace_back(a, a, k);
  entries.emplace_back(b, b, k);
  entries.emplace_back(a, b, -k);
  entries.emplace_back(b, a, -k);
}
Sparse matrix_of(int n, const Triplets& entries) {
  Sparse K(n, n);
  K.setFromTriplets(entries.begin(), entries.end());
  return K;
}

/// A sheet of springs on soft ground, rows x columns of unknowns; the numbers vary without a
/// library's random distribution.
Sparse net(int rows, int columns) {
  std::mt19937 engine(314159u);
  const auto number = [&engine] { return 0.5 + static_cast<double>(engine()) / 4294967296.0; };
  Triplets entries;
  for (int r = 0; r < rows; ++r) {
    for (int c = 0; c < columns; ++c) {
      const int here = r * columns + c;
      entries.emplace_back(here, here, 0.05 * number());
      if (c + 1 < columns) spring(entries, here, here + 1, number());
      if (r + 1 < rows) spring(entries, here, here + columns, number());
    }
  }
  return matrix_of(rows * columns, entries);
}

solve::Panel some_loads(Eigen::Index n, Eigen::Index columns) {
  solve::Panel F(n, columns);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index c = 0; c < columns; ++c) {
      F(i, c) = std::sin(1.7 * static_cast<double>(i + 1) * static_cast<double>(c + 1));
    }
  }
  return F;
}

/// The two roads: condensed, kept ones solved, the rest recovered; and the whole at once.
void check_both_roads(const Sparse& K, const std::vector<int>& kept) {
  const solve::Substructure part(K, kept);
  REQUIRE(part.ok());
  const solve::Panel loads = some_loads(K.cols(), 5);
  const Eigen::MatrixXd whole = Eigen::MatrixXd(K).partialPivLu().solve(Eigen::MatrixXd(loads));
  const solve::Panel particular = part.particular(loads);
  const solve::Panel condensed = part.condensed(loads, particular);
  REQUIRE(condensed.rows() == static_cast<Eigen::Index>(kept.size()));
  REQUIRE(part.stiffness().rows() == static_cast<Eigen::Index>(kept.size()));
  solve::Panel of_kept(condensed.rows(), condensed.cols());
  if (!kept.empty()) of_kept = part.stiffness().partialPivLu().solve(Eigen::MatrixXd(condensed));
  const solve::Panel all = part.follow(of_kept) + particular;
  CHECK((all - whole).norm() < 1e-12 * whole.norm());  // rounding by a condition of some thousand
  for (const int k : kept) CHECK(particular.row(k).isZero(0.0));
}

const std::vector<int> scattered{0, 3, 17, 18, 40, 62};

}  // namespace

TEST_CASE("solve/substructure: the stiffness is the dense Schur complement") {
  const Sparse K = net(7, 9);
  const solve::Substructure part(K, scattered);
  std::vector<int> inner;
  for (int i = 0; i < 63; ++i) {
    if (std::find(scattered.begin(), scattered.end(), i) == scattered.end()) inner.push_back(i);
  }
  const Eigen::MatrixXd D(K);
  const Eigen::MatrixXd K_kk = D(scattered, scattered), K_ki = D(scattered, inner),
                        K_ii = D(inner, inner);
  const Eigen::MatrixXd S = K_kk - K_ki * K_ii.partialPivLu().solve(K_ki.transpose());
  CHECK((part.stiffness() - S).norm() < 1e-13 * S.norm());
  CHECK(part.stiffness() == part.stiffness().transpose());
}

TEST_CASE("solve/substructure: condensed, solved and recovered is the solution of the whole") {
  const Sparse K = net(7, 9);
  check_both_roads(K, scattered);
  check_both_roads(K, {31});
}

TEST_CASE("solve/substructure: nothing kept, or nothing eliminated") {
  const Sparse K = net(3, 4);
  check_both_roads(K, {});
  std::vector<int> all;
  for (int i = 0; i < 12; ++i) all.push_back(i);
  check_both_roads(K, all);
  CHECK(Eigen::MatrixXd(K).isApprox(solve::Substructure(K, all).stiffness(), 1e-15));
}

TEST_CASE("solve/substructure: what follows the kept ones is in equilibrium without loads") {
  const Sparse K = net(6, 6);
  const solve::Substructure part(K, {0, 5, 30});
  const solve::Panel moved = part.follow(some_loads(3, 2));
  const Eigen::MatrixXd f = K * moved;
  for (Eigen::Index i = 0; i < 36; ++i) {
    if (i != 0 && i != 5 && i != 30) CHECK(f.row(i).norm() < 1e-13 * moved.norm());
  }
}

TEST_CASE("solve/substructure: what floats inside is named, exact zero or rounding") {
  // 0-1-2 on the ground, 3-4-5 on nothing; by the spring values the last pivot is zero or rounding
  // of either sign. Any of the floating three is right.
  for (int i = 0; i < 40; ++i) {
    const double k = 1.0 + i / 7.0;
    CAPTURE(k);
    Triplets entries;
    entries.emplace_back(0, 0, 5.0);
    spring(entries, 0, 1, 1.0);
    spring(entries, 1, 2, 2.0);
    spring(entries, 3, 4, k);
    spring(entries, 4, 5, 7.0 * k);
    spring(entries, 3, 5, 0.7 * k);
    const solve::Substructure part(matrix_of(6, entries), {2});
    CHECK_FALSE(part.ok());
    CHECK(part.loosest() >= 3);
    CHECK(part.loosest() <= 5);
    // Held by what is kept, it floats no more.
    CHECK(solve::Substructure(matrix_of(6, entries), {2, 4}).ok());
  }
}

TEST_CASE("solve/substructure: an unknown without any stiffness is named") {
  Triplets entries;
  entries.emplace_back(0, 0, 5.0);
  spring(entries, 0, 1, 1.0);
  spring(entries, 1, 3, 1.0);
  const solve::Substructure part(matrix_of(4, entries), {0});
  CHECK_FALSE(part.ok());
  CHECK(part.loosest() == 2);
}

TEST_CASE("solve/substructure: a soft unknown is not a loose one") {
  // Twelve figures softer than its neighbours, yet held: its pivot is small, its own stiffness too.
  Triplets entries;
  entries.emplace_back(0, 0, 5.0);
  spring(entries, 0, 1, 1.0);
  entries.emplace_back(2, 2, 1e-12);
  check_both_roads(matrix_of(3, entries), {0});
}

}  // namespace substructure_test
