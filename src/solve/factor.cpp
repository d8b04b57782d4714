// All numbers SI (m, N, Pa, rad).
#include "solve/factor.hpp"

#include <cmath>

namespace standtrue::solve {

struct Factor::Inside {
  SparseMatrix scaled;
  Eigen::VectorXd scale;
  SparseLdlt ldlt;
};

namespace {

/// Starts the iterations: no frame's weakest movement is likely to be square to it.
Eigen::VectorXd start_vector(Eigen::Index n) {
  Eigen::VectorXd v(n);
  for (Eigen::Index i = 0; i < n; ++i)
    v(i) = 1.0 + 0.5 * std::sin(12.9898 * static_cast<double>(i + 1));
  return v.normalized();
}

double largest_eigenvalue(const SparseMatrix& scaled) {
  Eigen::VectorXd v = start_vector(scaled.cols());
  double value = 1.0;
  for (int i = 0; i < 8; ++i) {
    v = scaled * v;
    value = v.norm();
    v /= value;
  }
  return value;
}

/// Inverse iteration; returns the smallest eigenvalue and leaves its vector in v.
double smallest_eigenvalue(const SparseLdlt& ldlt, const SparseMatrix& a, Eigen::VectorXd& v) {
  for (int i = 0; i < 5; ++i) {
    const Eigen::VectorXd next = ldlt.solve(v);
    const double length = next.norm();
    if (!(length > 0.0) || !std::isfinite(length)) break;
    v = next / length;
  }
  return v.dot(a * v);
}

}  // namespace

Factor::Factor(const SparseMatrix& K, Layouts& known) {
  auto inside = std::make_shared<Inside>();
  const Eigen::Index n = K.cols();
  inside->scale = Eigen::VectorXd::Ones(n);
  const Eigen::VectorXd diagonal = K.diagonal();
  for (Eigen::Index i = 0; i < n; ++i) {
    if (diagonal(i) > 0.0) {
      // By a power of two: no entry is rounded, so that what moves as a whole stays without force.
      inside->scale(i) = std::exp2(-std::round(0.5 * std::log2(diagonal(i))));
    } else {
      broke_down_ = true;
      if (weakest_.size() == 0) weakest_ = Eigen::VectorXd::Unit(n, i);
    }
  }
  inside_ = inside;
  if (n == 0) reciprocal_condition_ = 1.0;  // everything is held: nothing to solve, nothing to lose
  if (broke_down_ || n == 0) return;
  inside->scaled = inside->scale.asDiagonal() * K * inside->scale.asDiagonal();
  inside->ldlt = SparseLdlt(inside->scaled, known.of(inside->scaled));
  broke_down_ = !inside->ldlt.ok();
  Eigen::VectorXd v = start_vector(n);
  if (broke_down_) {
    // A little stiffness everywhere lets the factorisation through; the mechanism stays weakest.
    SparseMatrix shifted = inside->scaled;
    for (Eigen::Index i = 0; i < n; ++i) shifted.coeffRef(i, i) += 1e-8;
    const SparseLdlt ldlt(shifted);
    smallest_eigenvalue(ldlt, shifted, v);
  } else {
    const double least = smallest_eigenvalue(inside->ldlt, inside->scaled, v);
    reciprocal_condition_ = std::max(0.0, least / largest_eigenvalue(inside->scaled));
  }
  weakest_ = inside->scale.asDiagonal() * v;
}

Eigen::VectorXd Factor::solve(const Eigen::VectorXd& f) const {
  if (f.size() == 0) return f;
  const Eigen::VectorXd right = inside_->scale.asDiagonal() * f;
  Eigen::VectorXd x = inside_->ldlt.solve(right);
  const Eigen::VectorXd residual = right - inside_->scaled * x;
  x += inside_->ldlt.solve(residual);
  return inside_->scale.asDiagonal() * x;
}

Eigen::VectorXd Factor::solve_once(const Eigen::VectorXd& f) const {
  if (f.size() == 0) return f;
  const Eigen::VectorXd right = inside_->scale.asDiagonal() * f;
  return inside_->scale.asDiagonal() * inside_->ldlt.solve(right);
}

Panel Factor::solve(const Panel& F) const {
  if (F.size() == 0) return F;
  const Panel right = inside_->scale.asDiagonal() * F;
  Panel x = inside_->ldlt.solve(right);
  const Panel residual = right - inside_->scaled * x;
  x += inside_->ldlt.solve(residual);
  return inside_->scale.asDiagonal() * x;
}

Eigen::VectorXd Factor::first_half(const Eigen::VectorXd& f) const {
  return inside_->ldlt.first_half(inside_->scale.asDiagonal() * f);
}

Eigen::VectorXd Factor::second_half(const Eigen::VectorXd& y) const {
  return inside_->scale.asDiagonal() * inside_->ldlt.second_half(y);
}

}  // namespace standtrue::solve
