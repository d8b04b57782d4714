#include "solve/sparse_ldlt.hpp"

#include <algorithm>
#include <array>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// What the sweeps are made of, on `Width` columns that lie next to each other. A fixed width lets
/// the compiler keep a row in vector registers.
struct LowerTriangle {
  const int* outer;
  const int* inner;
  const double* value;
  const double* pivot;
  std::ptrdiff_t n;
};

/// L y = x, y /= d, L^T z = y in place; `stride` between rows. Plain loops: each compiler makes of
/// them what the machine has.
template <std::size_t Width>
[[gnu::always_inline]] inline void sweep(const LowerTriangle& L, double* x, std::ptrdiff_t stride) {
  std::array<double, Width> xj;
  for (std::ptrdiff_t j = 0; j < L.n; ++j) {
    const double* row = x + j * stride;
    for (std::size_t k = 0; k < Width; ++k) xj[k] = row[k];
    for (int p = L.outer[j]; p < L.outer[j + 1]; ++p) {
      double* below = x + L.inner[p] * stride;
      for (std::size_t k = 0; k < Width; ++k) below[k] -= L.value[p] * xj[k];
    }
  }
  for (std::ptrdiff_t j = L.n; j-- > 0;) {
    double* row = x + j * stride;
    for (std::size_t k = 0; k < Width; ++k) xj[k] = row[k] / L.pivot[j];
    for (int p = L.outer[j]; p < L.outer[j + 1]; ++p) {
      const double* below = x + L.inner[p] * stride;
      for (std::size_t k = 0; k < Width; ++k) xj[k] -= L.value[p] * below[k];
    }
    for (std::size_t k = 0; k < Width; ++k) row[k] = xj[k];
  }
}

// On x86 also a version for wider registers, chosen when the program starts; the same operations in
// the same order, so the same answers to the last bit. Sanitizers can not start with it.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_UNDEFINED__)
#define STANDTRUE_WIDE [[gnu::target_clones("avx2", "default")]]
#else
#define STANDTRUE_WIDE
#endif

STANDTRUE_WIDE void sweep_32(const LowerTriangle& L, double* x, std::ptrdiff_t stride) {
  sweep<32>(L, x, stride);
}
STANDTRUE_WIDE void sweep_16(const LowerTriangle& L, double* x, std::ptrdiff_t stride) {
  sweep<16>(L, x, stride);
}
STANDTRUE_WIDE void sweep_8(const LowerTriangle& L, double* x, std::ptrdiff_t stride) {
  sweep<8>(L, x, stride);
}

LowerTriangle triangle(const Eigen::SparseMatrix<double>& L, const Eigen::VectorXd& d) {
  return {L.outerIndexPtr(), L.innerIndexPtr(), L.valuePtr(), d.data(), L.cols()};
}

}  // namespace

SparseLdlt::SparseLdlt(const Eigen::SparseMatrix<double>& K) : n_(K.cols()) {
  if (n_ == 0) return;
  const Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>> ldlt(K);
  order_ = ldlt.permutationP().indices();
  d_ = ldlt.vectorD();
  if (ldlt.info() != Eigen::Success) {
    // It stops at a pivot of exactly zero; those after it were never made.
    const double* zero = std::find(d_.data(), d_.data() + n_, 0.0);
    d_.conservativeResize(std::min<Eigen::Index>(zero - d_.data() + 1, n_));
    ok_ = false;
    return;
  }
  L_ = ldlt.matrixL().nestedExpression();
  L_.makeCompressed();
  ok_ = d_.minCoeff() > 0.0;
}

Eigen::VectorXd SparseLdlt::solve(const Eigen::VectorXd& f) const {
  Eigen::VectorXd x(n_);
  for (Eigen::Index i = 0; i < n_; ++i) x(order_(i)) = f(i);
  if (n_ > 0) sweep<1>(triangle(L_, d_), x.data(), 1);
  Eigen::VectorXd result(n_);
  for (Eigen::Index i = 0; i < n_; ++i) result(i) = x(order_(i));
  return result;
}

Panel SparseLdlt::solve(const Panel& F) const {
  constexpr Eigen::Index width = 32;
  Panel result(n_, F.cols());
  Panel x(n_, width);  // one contiguous panel: rows a cache line apart, not a whole matrix
  for (Eigen::Index from = 0; from < F.cols() && n_ > 0; from += width) {
    const Eigen::Index count = std::min(width, F.cols() - from);
    if (count < width) x.setZero();
    for (Eigen::Index i = 0; i < n_; ++i) {
      x.row(order_(i)).head(count) = F.row(i).segment(from, count);
    }
    const LowerTriangle L = triangle(L_, d_);
    if (count <= 8) {
      sweep_8(L, x.data(), width);
    } else if (count <= 16) {
      sweep_16(L, x.data(), width);
    } else {
      sweep_32(L, x.data(), width);
    }
    for (Eigen::Index i = 0; i < n_; ++i) {
      result.row(i).segment(from, count) = x.row(order_(i)).head(count);
    }
  }
  return result;
}

Eigen::VectorXd SparseLdlt::first_half(const Eigen::VectorXd& f) const {
  expects(ok_, "SparseLdlt: no roots of its pivots");
  Eigen::VectorXd x(n_);
  for (Eigen::Index i = 0; i < n_; ++i) x(order_(i)) = f(i);
  L_.triangularView<Eigen::UnitLower>().solveInPlace(x);
  return x.array() / d_.array().sqrt();
}

Eigen::VectorXd SparseLdlt::second_half(const Eigen::VectorXd& y) const {
  expects(ok_, "SparseLdlt: no roots of its pivots");
  Eigen::VectorXd x = y.array() / d_.array().sqrt();
  L_.transpose().triangularView<Eigen::UnitUpper>().solveInPlace(x);
  Eigen::VectorXd result(n_);
  for (Eigen::Index i = 0; i < n_; ++i) result(i) = x(order_(i));
  return result;
}

Eigen::Index SparseLdlt::unknown_of_pivot(Eigen::Index pivot) const {
  const int* found = std::find(order_.data(), order_.data() + n_, static_cast<int>(pivot));
  return found - order_.data();
}

}  // namespace standtrue::solve
