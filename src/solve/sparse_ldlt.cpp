#include "solve/sparse_ldlt.hpp"

#include <algorithm>

#include "solve/subtract_product.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// Columns that go together: at most four cache lines a row.
Eigen::Index panel_width(Eigen::Index columns) {
  constexpr Eigen::Index most = 4 * strip_width;
  return std::min(most, (columns + strip_width - 1) / strip_width * strip_width);
}

using Order = std::vector<int>;  // unknown of each place

Eigen::VectorXd by_place(const Eigen::VectorXd& f, const Order& unknown) {
  Eigen::VectorXd x(f.size());
  for (Eigen::Index p = 0; p < x.size(); ++p) x(p) = f(unknown[static_cast<std::size_t>(p)]);
  return x;
}
Eigen::VectorXd by_unknown(const Eigen::VectorXd& x, const Order& unknown) {
  Eigen::VectorXd f(x.size());
  for (Eigen::Index p = 0; p < x.size(); ++p) f(unknown[static_cast<std::size_t>(p)]) = x(p);
  return f;
}
/// `count` columns from `from` on.
void put_by_unknown(const Panel& x, const Order& unknown, Eigen::Index from, Eigen::Index count,
                    Panel& into) {
  for (Eigen::Index p = 0; p < x.rows(); ++p) {
    into.row(unknown[static_cast<std::size_t>(p)]).segment(from, count) = x.row(p).head(count);
  }
}

}  // namespace

SparseLdlt::SparseLdlt(const SparseMatrix& K, const std::vector<int>& kept) {
  n_inner_ = static_cast<int>(K.cols()) - static_cast<int>(kept.size());
  put(K, layout_of(K, kept));
  factorise();
}

SparseLdlt::SparseLdlt(const SparseMatrix& K, std::shared_ptr<const Layout> layout)
    : SparseLdlt(laid_out(K, std::move(layout))) {
  factorise();
}

SparseLdlt SparseLdlt::laid_out(const SparseMatrix& K, std::shared_ptr<const Layout> layout) {
  SparseLdlt whole;
  whole.n_inner_ = static_cast<int>(K.cols());
  whole.put(K, std::move(layout));
  return whole;
}

SparseLdlt SparseLdlt::plus(const SparseMatrix& change) const {
  expects(d_.size() == 0, "SparseLdlt: factored, not laid out");
  SparseLdlt sum = *this;
  sum.add(change);
  sum.factorise();
  return sum;
}

void SparseLdlt::factorise() {
  d_ = Eigen::VectorXd::Zero(n_inner_);
  const int made = eliminate(nodes(), layout_->first_value, values_.data(), d_.data());
  if (made < n_inner_) {
    d_.conservativeResize(made + 1);
    ok_ = false;
  } else {
    ok_ = n_inner_ == 0 || d_.minCoeff() > 0.0;
  }
}

void SparseLdlt::put(const SparseMatrix& K, std::shared_ptr<const Layout> layout) {
  layout_ = std::move(layout);
  values_.assign(layout_->values, 0.0);
  add(K);
}

/// The entries of K to their places in the lower triangle.
void SparseLdlt::add(const SparseMatrix& K) {
  std::vector<int> row_of_place(static_cast<std::size_t>(K.cols()), -1);
  for (int s = 0; s < nodes().count(); ++s) {
    const BlockOf<double> block{nodes(), layout_->first_value, values_.data(), s};
    for (int i = 0; i < block.width; ++i) {
      row_of_place[static_cast<std::size_t>(block.first + i)] = i;
    }
    for (int i = 0; i < block.below; ++i) {
      row_of_place[static_cast<std::size_t>(block.rows[i])] = block.width + i;
    }
    for (int c = 0; c < block.width; ++c) {
      const int unknown = nodes().unknown[static_cast<std::size_t>(block.first + c)];
      for (SparseMatrix::InnerIterator it(K, unknown); it; ++it) {
        const int place = nodes().place[static_cast<std::size_t>(it.row())];
        if (place < block.first + c) continue;
        const int row = row_of_place[static_cast<std::size_t>(place)];
        expects(row >= 0, "SparseLdlt: an entry where the matrix laid out has none");
        block.row(row)[c] += it.value();
      }
    }
    for (int i = 0; i < block.width; ++i) {
      row_of_place[static_cast<std::size_t>(block.first + i)] = -1;
    }
    for (int i = 0; i < block.below; ++i) {
      row_of_place[static_cast<std::size_t>(block.rows[i])] = -1;
    }
  }
}

Triangle SparseLdlt::lower(int rows) const {
  return {nodes(), layout_->first_value, values_.data(), rows};
}

Eigen::VectorXd SparseLdlt::solve(const Eigen::VectorXd& f) const {
  Eigen::VectorXd x = by_place(f, nodes().unknown);
  x.tail(f.size() - n_inner_).setZero();
  forward(lower(n_inner_), x.data());
  x.head(n_inner_).array() /= d_.array();
  backward(lower(n_inner_), x.data());
  return by_unknown(x, nodes().unknown);
}

Panel SparseLdlt::solve(const Panel& F) const {
  Panel result(F.rows(), F.cols());
  const Eigen::Index width = panel_width(F.cols());
  Panel x(F.rows(), width);
  const Triangle L = lower(n_inner_);
  for (Eigen::Index from = 0; from < F.cols() && F.rows() > 0; from += width) {
    const Eigen::Index count = std::min(width, F.cols() - from);
    if (count < width) x.setZero();
    for (Eigen::Index p = 0; p < n_inner_; ++p) {
      x.row(p).head(count) =
          F.row(nodes().unknown[static_cast<std::size_t>(p)]).segment(from, count);
    }
    x.bottomRows(F.rows() - n_inner_).setZero();
    forward(L, x.data(), width, count);
    for (Eigen::Index p = 0; p < n_inner_; ++p) x.row(p).head(count) /= d_(p);
    backward(L, x.data(), width, count);
    put_by_unknown(x, nodes().unknown, from, count, result);
  }
  return result;
}

Eigen::VectorXd SparseLdlt::first_half(const Eigen::VectorXd& f) const {
  expects(ok_ && n_inner_ == f.size(), "SparseLdlt: no roots of its pivots");
  Eigen::VectorXd x = by_place(f, nodes().unknown);
  forward(lower(n_inner_), x.data());
  return x.array() / d_.array().sqrt();
}

Eigen::VectorXd SparseLdlt::second_half(const Eigen::VectorXd& y) const {
  expects(ok_ && n_inner_ == y.size(), "SparseLdlt: no roots of its pivots");
  Eigen::VectorXd x = y.array() / d_.array().sqrt();
  backward(lower(n_inner_), x.data());
  return by_unknown(x, nodes().unknown);
}

Eigen::MatrixXd SparseLdlt::rest() const {
  const auto n = static_cast<Eigen::Index>(nodes().place.size()) - n_inner_;
  if (n == 0) return Eigen::MatrixXd(0, 0);
  const Eigen::Map<const Panel> lower(values_.data() + layout_->first_value.back(), n, n);
  return Eigen::MatrixXd(lower).selfadjointView<Eigen::Lower>();
}

Panel SparseLdlt::follow(const Panel& kept_movements) const {
  const auto n = static_cast<Eigen::Index>(nodes().place.size());
  if (n == n_inner_) return Panel::Zero(n, kept_movements.cols());  // nothing to follow
  Panel result(n, kept_movements.cols());
  const Eigen::Index width = panel_width(kept_movements.cols());
  Panel x(n, width);
  const Triangle L = lower(static_cast<int>(n));
  for (Eigen::Index from = 0; from < kept_movements.cols(); from += width) {
    const Eigen::Index count = std::min(width, kept_movements.cols() - from);
    x.setZero();
    x.bottomRows(n - n_inner_).leftCols(count) = kept_movements.middleCols(from, count);
    backward(L, x.data(), width, count);
    put_by_unknown(x, nodes().unknown, from, count, result);
  }
  return result;
}

Eigen::Index SparseLdlt::unknown_of_pivot(Eigen::Index pivot) const {
  return nodes().unknown[static_cast<std::size_t>(pivot)];
}

}  // namespace standtrue::solve
