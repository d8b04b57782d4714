// The order of elimination and its blocks against elimination by the letter, on random patterns of
// fixed seed.
#include <doctest/doctest.h>

#include <Eigen/Core>
#include <algorithm>
#include <cstdint>
#include <numeric>
#include <random>
#include <vector>

#include "solve/supernodes.hpp"

namespace supernodes_test {

using namespace standtrue;

namespace {

using Pattern = Eigen::Matrix<bool, Eigen::Dynamic, Eigen::Dynamic>;

std::size_t index(int i) { return static_cast<std::size_t>(i); }

Eigen::SparseMatrix<double> random_pattern(int n, int pairs, std::mt19937& engine) {
  std::vector<Eigen::Triplet<double>> entries;
  for (int i = 0; i < n; ++i) entries.emplace_back(i, i, 1.0);
  for (int p = 0; p < pairs; ++p) {
    const int a = static_cast<int>(engine() % static_cast<unsigned>(n));
    const int b = static_cast<int>(engine() % static_cast<unsigned>(n));
    entries.emplace_back(a, b, 1.0);
    entries.emplace_back(b, a, 1.0);
  }
  Eigen::SparseMatrix<double> K(n, n);
  K.setFromTriplets(entries.begin(), entries.end());
  return K;
}

/// Where L has entries: whoever is eliminated joins all that it meets.
Pattern filled(const Eigen::SparseMatrix<double>& K, const solve::Supernodes& nodes, int n_inner) {
  const auto n = static_cast<int>(K.cols());
  Pattern L = Pattern::Constant(n, n, false);
  for (int c = 0; c < n; ++c) {
    for (Eigen::SparseMatrix<double>::InnerIterator it(K, c); it; ++it) {
      L(nodes.place[index(static_cast<int>(it.row()))], nodes.place[index(c)]) = true;
    }
  }
  for (int p = 0; p < n_inner; ++p) {
    for (int i = p + 1; i < n; ++i) {
      for (int j = p + 1; j < n; ++j) L(i, j) = L(i, j) || (L(i, p) && L(j, p));
    }
  }
  return L;
}

/// Every entry of L has its room; returns how much room there is for nothing.
int check_blocks(const Eigen::SparseMatrix<double>& K, const std::vector<int>& kept) {
  const auto n = static_cast<int>(K.cols());
  const int n_inner = n - static_cast<int>(kept.size());
  const solve::Supernodes nodes = solve::supernodes_of(K, kept);
  REQUIRE(nodes.first.front() == 0);
  REQUIRE(nodes.first.back() == n);
  REQUIRE(nodes.first[index(nodes.eliminated)] == n_inner);
  REQUIRE(nodes.count() == nodes.eliminated + (kept.empty() ? 0 : 1));
  std::vector<int> sorted = nodes.unknown;
  std::sort(sorted.begin(), sorted.end());
  std::vector<int> all(index(n));
  std::iota(all.begin(), all.end(), 0);
  CHECK(sorted == all);
  for (int k = 0; k < n - n_inner; ++k) CHECK(nodes.place[index(kept[index(k)])] == n_inner + k);
  const Pattern L = filled(K, nodes, n_inner);
  int empty = 0;
  for (int s = 0; s < nodes.eliminated; ++s) {
    const int end = nodes.first[index(s + 1)];
    const auto from = nodes.rows.begin() + nodes.first_row[index(s)];
    const std::vector<int> rows(from, from + nodes.below(s));
    CHECK(std::is_sorted(rows.begin(), rows.end()));
    for (int p = nodes.first[index(s)]; p < end; ++p) {
      CHECK(nodes.of_place[index(p)] == s);
      for (int i = p + 1; i < n; ++i) {
        const bool has_room = i < end || std::binary_search(rows.begin(), rows.end(), i);
        if (L(i, p)) CHECK(has_room);
        empty += has_room && !L(i, p);
      }
    }
  }
  return empty;
}

}  // namespace

TEST_CASE("solve/supernodes: every entry of L has its room, whatever is kept") {
  std::mt19937 engine(2718u);
  for (const int n : {1, 2, 9, 40, 75}) {
    for (const int pairs : {0, n / 2, 2 * n, 6 * n}) {
      CAPTURE(n);
      CAPTURE(pairs);
      const Eigen::SparseMatrix<double> K = random_pattern(n, pairs, engine);
      check_blocks(K, {});
      std::vector<int> kept;
      for (int i = n - 1; i >= 0; i -= 4) kept.push_back(i);
      check_blocks(K, kept);
    }
  }
}

TEST_CASE("solve/supernodes: a dense matrix is one block, one of nothing but its diagonal none") {
  std::mt19937 engine(1u);
  const Eigen::SparseMatrix<double> dense = Eigen::MatrixXd::Ones(30, 30).sparseView();
  CHECK(solve::supernodes_of(dense, {}).eliminated == 1);
  CHECK(check_blocks(dense, {}) == 0);
  const solve::Supernodes apart = solve::supernodes_of(random_pattern(30, 0, engine), {});
  CHECK(apart.eliminated == 30);
  CHECK(apart.rows.empty());
}

}  // namespace supernodes_test
