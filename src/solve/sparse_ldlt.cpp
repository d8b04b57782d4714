#include "solve/sparse_ldlt.hpp"

#include <algorithm>
#include <array>

namespace standtrue::solve {

namespace {

/// L y = x, y /= d, L^T z = y on `Width` columns that lie next to each other; `stride` between
/// rows. A fixed width lets the compiler keep a row in vector registers.
template <int Width>
void sweep(const Eigen::SparseMatrix<double>& L, const Eigen::VectorXd& d, double* x,
           Eigen::Index stride) {
  using Row = Eigen::Map<Eigen::Array<double, 1, Width>>;
  const int* outer = L.outerIndexPtr();
  const int* inner = L.innerIndexPtr();
  const double* value = L.valuePtr();
  const Eigen::Index n = L.cols();
  for (Eigen::Index j = 0; j < n; ++j) {
    const Eigen::Array<double, 1, Width> xj = Row(x + j * stride);
    for (int p = outer[j]; p < outer[j + 1]; ++p) Row(x + inner[p] * stride) -= value[p] * xj;
  }
  for (Eigen::Index j = n; j-- > 0;) {
    Eigen::Array<double, 1, Width> xj = Row(x + j * stride) / d(j);
    for (int p = outer[j]; p < outer[j + 1]; ++p) xj -= value[p] * Row(x + inner[p] * stride);
    Row(x + j * stride) = xj;
  }
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
  if (n_ > 0) sweep<1>(L_, d_, x.data(), 1);
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
    if (count <= 8) {
      sweep<8>(L_, d_, x.data(), width);
    } else {
      sweep<32>(L_, d_, x.data(), width);
    }
    for (Eigen::Index i = 0; i < n_; ++i) {
      result.row(i).segment(from, count) = x.row(order_(i)).head(count);
    }
  }
  return result;
}

Eigen::Index SparseLdlt::unknown_of_pivot(Eigen::Index pivot) const {
  const int* found = std::find(order_.data(), order_.data() + n_, static_cast<int>(pivot));
  return found - order_.data();
}

}  // namespace standtrue::solve
