// All numbers SI.
#include "solve/substructure.hpp"

#include <cmath>

namespace standtrue::solve {

namespace {

/// Rows `rows` and columns `columns` of K, by their new places (-1: left out).
SparseMatrix part_of(const SparseMatrix& K, const std::vector<int>& row_place, int n_rows,
                     const std::vector<int>& columns) {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(static_cast<std::size_t>(K.nonZeros()));
  for (std::size_t c = 0; c < columns.size(); ++c) {
    for (SparseMatrix::InnerIterator it(K, columns[c]); it; ++it) {
      const int row = row_place[static_cast<std::size_t>(it.row())];
      if (row >= 0) entries.emplace_back(row, static_cast<int>(c), it.value());
    }
  }
  SparseMatrix part(n_rows, static_cast<Eigen::Index>(columns.size()));
  part.setFromTriplets(entries.begin(), entries.end());
  return part;
}

std::vector<int> places_of(const std::vector<int>& chosen, Eigen::Index n) {
  std::vector<int> places(static_cast<std::size_t>(n), -1);
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    places[static_cast<std::size_t>(chosen[i])] = static_cast<int>(i);
  }
  return places;
}

}  // namespace

Substructure::Substructure(const SparseMatrix& K, std::vector<int> kept)
    : n_(K.cols()), kept_(std::move(kept)) {
  const std::vector<int> kept_place = places_of(kept_, n_);
  for (int i = 0; i < static_cast<int>(n_); ++i) {
    if (kept_place[static_cast<std::size_t>(i)] < 0) inner_.push_back(i);
  }
  const std::vector<int> inner_place = places_of(inner_, n_);
  const int n_inner = static_cast<int>(inner_.size());
  const SparseMatrix K_ii = part_of(K, inner_place, n_inner, inner_);
  K_ik_ = part_of(K, inner_place, n_inner, kept_);
  factor_ = SparseLdlt(K_ii);
  // A pivot that is nothing beside the stiffness of its own unknown: rounding alone holds it. Thin
  // plates lose some seven figures between the two.
  constexpr double nothing = 1e-13;
  for (Eigen::Index p = 0; p < factor_.pivots().size() && ok_; ++p) {
    const Eigen::Index unknown = factor_.unknown_of_pivot(p);
    if (!(factor_.pivots()(p) > nothing * K_ii.coeff(unknown, unknown))) {
      ok_ = false;
      loosest_ = inner_[static_cast<std::size_t>(unknown)];
    }
  }
  if (!ok_) return;
  const SparseMatrix K_kk = part_of(K, kept_place, static_cast<int>(kept_.size()), kept_);
  S_ = Eigen::MatrixXd(K_kk);
  if (n_inner > 0) {
    const Panel X = factor_.solve(Panel(K_ik_));
    S_.noalias() -= K_ik_.transpose() * X;
  }
  S_ = 0.5 * (S_ + Eigen::MatrixXd(S_.transpose()));
}

Panel Substructure::inner_part(const Panel& all) const {
  Panel part(static_cast<Eigen::Index>(inner_.size()), all.cols());
  for (std::size_t i = 0; i < inner_.size(); ++i) {
    part.row(static_cast<Eigen::Index>(i)) = all.row(inner_[i]);
  }
  return part;
}

Panel Substructure::particular(const Panel& loads) const {
  Panel all = Panel::Zero(n_, loads.cols());
  const Panel x = factor_.solve(inner_part(loads));
  for (std::size_t i = 0; i < inner_.size(); ++i) {
    all.row(inner_[i]) = x.row(static_cast<Eigen::Index>(i));
  }
  return all;
}

Panel Substructure::condensed(const Panel& loads, const Panel& particular) const {
  Panel f(static_cast<Eigen::Index>(kept_.size()), loads.cols());
  for (std::size_t k = 0; k < kept_.size(); ++k) {
    f.row(static_cast<Eigen::Index>(k)) = loads.row(kept_[k]);
  }
  if (!inner_.empty()) f -= K_ik_.transpose() * inner_part(particular);
  return f;
}

Panel Substructure::follow(const Panel& kept_movements) const {
  Panel all(n_, kept_movements.cols());
  for (std::size_t k = 0; k < kept_.size(); ++k) {
    all.row(kept_[k]) = kept_movements.row(static_cast<Eigen::Index>(k));
  }
  if (inner_.empty()) return all;
  const Panel pushed = K_ik_ * kept_movements;
  const Panel x = factor_.solve(pushed);
  for (std::size_t i = 0; i < inner_.size(); ++i) {
    all.row(inner_[i]) = -x.row(static_cast<Eigen::Index>(i));
  }
  return all;
}

}  // namespace standtrue::solve
