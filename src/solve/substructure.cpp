// All numbers SI.
#include "solve/substructure.hpp"

#include <cmath>

namespace standtrue::solve {

namespace {

/// Rows of a symmetric matrix.
SparseMatrix rows_of(const SparseMatrix& K, const std::vector<int>& rows) {
  SparseMatrix columns(K.rows(), static_cast<Eigen::Index>(rows.size()));
  for (std::size_t c = 0; c < rows.size(); ++c) {
    columns.startVec(static_cast<Eigen::Index>(c));
    for (SparseMatrix::InnerIterator it(K, rows[c]); it; ++it) {
      columns.insertBack(it.row(), static_cast<Eigen::Index>(c)) = it.value();
    }
  }
  columns.finalize();
  return columns.transpose();
}

}  // namespace

Substructure::Substructure(const SparseMatrix& K, std::vector<int> kept)
    : kept_(std::move(kept)), factor_(K, kept_) {
  // A pivot that is nothing beside the stiffness of its own unknown: rounding alone holds it. Thin
  // plates lose some seven figures between the two.
  constexpr double nothing = 1e-13;
  for (Eigen::Index p = 0; p < factor_.pivots().size() && ok_; ++p) {
    const Eigen::Index unknown = factor_.unknown_of_pivot(p);
    if (!(factor_.pivots()(p) > nothing * K.coeff(unknown, unknown))) {
      ok_ = false;
      loosest_ = static_cast<int>(unknown);
    }
  }
  if (!ok_) return;
  K_ki_ = rows_of(K, kept_);
  S_ = factor_.rest();
}

Panel Substructure::particular(const Panel& loads) const { return factor_.solve(loads); }

Panel Substructure::condensed(const Panel& loads, const Panel& particular) const {
  Panel f(static_cast<Eigen::Index>(kept_.size()), loads.cols());
  for (std::size_t k = 0; k < kept_.size(); ++k) {
    f.row(static_cast<Eigen::Index>(k)) = loads.row(kept_[k]);
  }
  f -= K_ki_ * particular;  // zero at what is kept
  return f;
}

Panel Substructure::follow(const Panel& kept_movements) const {
  return factor_.follow(kept_movements);
}

}  // namespace standtrue::solve
