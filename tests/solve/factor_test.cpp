// The scaled factor against the unscaled one, and layouts that are known against those found anew.
#include <doctest/doctest.h>

#include <Eigen/SparseCore>
#include <cmath>
#include <vector>

#include "solve/factor.hpp"

namespace factor_test {

using namespace standtrue;

namespace {

/// A chain of springs from 1 to 1e9 in turn, its first end held: condition some 1e10.
Eigen::SparseMatrix<double> chain(int n, double stiffer = 1.0) {
  std::vector<Eigen::Triplet<double>> entries{{0, 0, 7.0}};
  for (int i = 1; i < n; ++i) {
    const double k = stiffer * std::pow(10.0, i % 10) / 3.0;
    for (const int a : {i - 1, i}) {
      entries.emplace_back(a, a, k);
      entries.emplace_back(a, a == i ? i - 1 : i, -k);
    }
  }
  Eigen::SparseMatrix<double> K(n, n);
  K.setFromTriplets(entries.begin(), entries.end());
  return K;
}

Eigen::VectorXd waves(Eigen::Index n) {
  Eigen::VectorXd f(n);
  for (Eigen::Index i = 0; i < n; ++i) f(i) = std::sin(static_cast<double>(i + 1));
  return f;
}

}  // namespace

TEST_CASE("solve/factor: scaling rounds nothing: the numbers are those of the matrix as it is") {
  const Eigen::SparseMatrix<double> K = chain(60);
  solve::Layouts layouts;
  const solve::Factor scaled(K, layouts);
  const solve::SparseLdlt plain(K);
  const Eigen::VectorXd f = waves(60);
  CHECK(scaled.solve_once(f) == plain.solve(f));
  // The roots of the pivots are rounded otherwise: a few last places.
  const Eigen::VectorXd whole = scaled.second_half(scaled.first_half(f));
  CHECK((whole - plain.solve(f)).norm() <= 1e-13 * plain.solve(f).norm());
}

TEST_CASE("solve/factor: a layout that is known gives the numbers of one that is not") {
  solve::Layouts layouts;
  const auto first = layouts.of(chain(40));
  CHECK(layouts.of(chain(40, 5.0)) == first);  // the same pattern
  CHECK(layouts.of(chain(41)) != first);
  Eigen::SparseMatrix<double> ring = chain(40);
  ring.coeffRef(0, 39) = ring.coeffRef(39, 0) = -0.1;
  ring.makeCompressed();
  CHECK(layouts.of(ring) != first);
  CHECK(layouts.of(ring)->nodes.rows == solve::layout_of(ring)->nodes.rows);
  const Eigen::VectorXd f = waves(40);
  solve::Layouts none;
  const Eigen::VectorXd known = solve::Factor(chain(40, 5.0), layouts).solve(f);
  CHECK(known == solve::Factor(chain(40, 5.0), none).solve(f));
}

}  // namespace factor_test
