#include "solve/lowest_pairs.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

namespace standtrue::solve {

namespace {

/// |K^-1 M φ - φ/λ| beside |φ/λ|, in the norm of M; one more round with K^-1 then betters it.
constexpr double settled_within = 1e-4;
/// θ = 1/λ below this part of the largest is rounding: such a movement has no mass to speak of.
constexpr double massless = 1e-10;

/// No frame's movements are likely to be square to these.
Panel start_block(Eigen::Index n, Eigen::Index columns) {
  Panel x(n, columns);
  for (Eigen::Index i = 0; i < n; ++i) {
    for (Eigen::Index j = 0; j < columns; ++j) {
      const double turn =
          12.9898 * static_cast<double>(i + 1) + 78.233 * static_cast<double>(j + 1);
      const double far = 43758.5453 * std::sin(turn);
      x(i, j) = far - std::floor(far) - 0.5;
    }
  }
  return x;
}

Eigen::VectorXd lengths(const Eigen::MatrixXd& W, const Eigen::MatrixXd& MW) {
  return W.cwiseProduct(MW).colwise().sum().cwiseMax(0.0).cwiseSqrt();
}

/// Gram and Schmidt, column by column, in the inner product of M; drops those of which no more than
/// `least` is left. Returns what is left of the others, at worst, of their `before`.
double make_square(Eigen::MatrixXd& W, Eigen::MatrixXd& MW, const Eigen::VectorXd& before,
                   double least) {
  Eigen::Index kept = 0;
  double worst = 1.0;
  for (Eigen::Index c = 0; c < W.cols(); ++c) {
    Eigen::VectorXd w = W.col(c), m = MW.col(c);
    for (int twice = 0; twice < 2 && kept > 0; ++twice) {
      const Eigen::VectorXd along = MW.leftCols(kept).transpose() * w;
      w.noalias() -= W.leftCols(kept) * along;
      m.noalias() -= MW.leftCols(kept) * along;
    }
    const double length = std::sqrt(std::max(0.0, w.dot(m)));
    if (!(length > least * before(c))) continue;
    worst = std::min(worst, length / before(c));
    W.col(kept) = w / length;
    MW.col(kept) = m / length;
    ++kept;
  }
  W.conservativeResize(Eigen::NoChange, kept);
  MW.conservativeResize(Eigen::NoChange, kept);
  return worst;
}

/// A basis that grows block by block, square in the inner product of M.
class Basis {
 public:
  Basis(const PanelOperator& M, Eigen::Index n) : M_(M), Q_(n, 0), MQ_(n, 0) {}

  [[nodiscard]] Eigen::Index size() const { return size_; }
  [[nodiscard]] auto vectors() const { return Q_.leftCols(size_); }
  [[nodiscard]] auto times_mass() const { return MQ_.leftCols(size_); }
  /// How far W lies along the basis.
  [[nodiscard]] Eigen::MatrixXd along(const Eigen::MatrixXd& W) const {
    return times_mass().transpose() * W;
  }

  /// Adds what of W is new; returns how many columns that were.
  Eigen::Index add(Eigen::MatrixXd W) {
    Eigen::VectorXd known = Eigen::VectorXd::Zero(W.cols());
    if (size_ > 0) {
      const Eigen::MatrixXd by = along(W);
      known = by.colwise().squaredNorm();
      W.noalias() -= vectors() * by;
    }
    Eigen::MatrixXd MW = M_(Panel(W));
    const Eigen::VectorXd before = (known + lengths(W, MW).cwiseAbs2()).cwiseSqrt();
    constexpr double rounding = 1e-12;
    const double left = make_square(W, MW, before, rounding);
    // Where little was left of much it has rounding of the rest in it, which a second round takes.
    constexpr double little = 1e-4;
    if (left < little) {
      if (size_ > 0) W -= vectors() * along(W);
      MW = M_(Panel(W));
      make_square(W, MW, Eigen::VectorXd::Ones(W.cols()), 0.5);
    }
    if (size_ + W.cols() > Q_.cols()) {
      const Eigen::Index room = size_ + std::max<Eigen::Index>(64, W.cols());
      Q_.conservativeResize(Eigen::NoChange, room);
      MQ_.conservativeResize(Eigen::NoChange, room);
    }
    Q_.middleCols(size_, W.cols()) = W;
    MQ_.middleCols(size_, W.cols()) = MW;
    size_ += W.cols();
    return W.cols();
  }

 private:
  const PanelOperator& M_;
  Eigen::MatrixXd Q_, MQ_;
  Eigen::Index size_ = 0;
};

/// How many of the pairs, the lowest first, have settled; `next` is how far K^-1 M takes the last
/// block out of the basis.
Eigen::Index settled_pairs(const Eigen::VectorXd& theta, const Eigen::MatrixXd& S,
                           const Eigen::MatrixXd& next) {
  Eigen::Index count = 0;
  while (count < theta.size() && theta(count) > massless * theta(0)) {
    const double off = (next * S.col(count).tail(next.cols())).norm();
    if (!(off <= settled_within * theta(count))) break;
    ++count;
  }
  return count;
}

Eigen::Index asked_for(const Eigen::VectorXd& lambda, const PairsWanted& wanted) {
  Eigen::Index count = std::min(wanted.least, lambda.size());
  while (count < lambda.size() && lambda(count) <= wanted.up_to) ++count;
  return count;
}

/// The movement under the shape's own inertia forces is smoother than the shape: what is left of
/// far higher ones, which M hardly sees and K greatly, goes.
Pairs once_more(const PanelOperator& K_inverse, const PanelOperator& M,
                const Eigen::MatrixXd& shapes) {
  const Panel inertia = M(Panel(shapes));
  Pairs pairs{Eigen::VectorXd(shapes.cols()), K_inverse(inertia)};
  const Panel moved_inertia = M(Panel(pairs.shapes));
  for (Eigen::Index i = 0; i < shapes.cols(); ++i) {
    const double mass = pairs.shapes.col(i).dot(moved_inertia.col(i));
    pairs.lambda(i) = pairs.shapes.col(i).dot(inertia.col(i)) / mass;  // Rayleigh's quotient
    pairs.shapes.col(i) /= std::sqrt(mass);
  }
  return pairs;
}

}  // namespace

std::optional<Pairs> lowest_pairs(const PanelOperator& K_inverse, const PanelOperator& M,
                                  Eigen::Index n, const PairsWanted& wanted) {
  constexpr Eigen::Index width = 8, most = 800;
  Basis basis(M, n);
  Eigen::Index block = basis.add(K_inverse(M(start_block(n, std::min(width, n)))));
  if (block == 0) return Pairs{Eigen::VectorXd(0), Eigen::MatrixXd(n, 0)};
  // Pairs of a large basis take longest: of frames with hundreds of them they are not asked for at
  // every step.
  constexpr Eigen::Index asked_each_time = 200;
  double asked_at = 0.0;
  Eigen::MatrixXd T;  // Q^T M K^-1 M Q
  while (basis.size() <= most) {
    const Eigen::Index size = basis.size();
    const Eigen::MatrixXd W = K_inverse(Panel(basis.times_mass().rightCols(block)));
    if (!W.allFinite()) return std::nullopt;
    T.conservativeResize(size, size);
    T.rightCols(block) = basis.along(W);
    T.bottomRows(block) = T.rightCols(block).transpose().eval();
    const bool is_asked = size <= asked_each_time || static_cast<double>(size) > 1.15 * asked_at;
    if (!is_asked && size + width <= most) {
      block = basis.add(W);
      if (block > 0) continue;
    }
    asked_at = static_cast<double>(size);
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(
        0.5 * (T + Eigen::MatrixXd(T.transpose())));
    const Eigen::VectorXd theta = eigen.eigenvalues().reverse();
    const Eigen::MatrixXd S = eigen.eigenvectors().rowwise().reverse();
    const Eigen::Index added = basis.add(W);
    const Eigen::MatrixXd next = basis.times_mass().rightCols(added).transpose() * W;
    const Eigen::Index count = settled_pairs(theta, S, next);
    // Nothing added: the basis holds all that has mass.
    if (added == 0 || (count >= wanted.least && 1.0 / theta(count - 1) > wanted.up_to)) {
      const Eigen::Index asked = asked_for(theta.head(count).cwiseInverse(), wanted);
      return once_more(K_inverse, M, basis.vectors().leftCols(size) * S.leftCols(asked));
    }
    block = added;
  }
  return std::nullopt;
}

std::optional<Pairs> all_pairs(const Eigen::MatrixXd& K, const Eigen::MatrixXd& M,
                               const PairsWanted& wanted) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(0.5 * (M + M.transpose()),
                                                                        0.5 * (K + K.transpose()));
  if (eigen.info() != Eigen::Success || !eigen.eigenvalues().allFinite()) return std::nullopt;
  const Eigen::VectorXd theta = eigen.eigenvalues().reverse();
  const Eigen::MatrixXd shapes = eigen.eigenvectors().rowwise().reverse();
  Eigen::Index count = 0;
  while (count < theta.size() && theta(count) > 0.0 && theta(count) > massless * theta(0)) ++count;
  count = asked_for(theta.head(count).cwiseInverse(), wanted);
  const Eigen::VectorXd scale = theta.head(count).cwiseSqrt().cwiseInverse();
  return Pairs{theta.head(count).cwiseInverse(), shapes.leftCols(count) * scale.asDiagonal()};
}

}  // namespace standtrue::solve
