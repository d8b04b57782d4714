// All numbers SI (m, N, rad).
#include "standtrue/solve/buckling.hpp"

#include <Spectra/SymGEigsSolver.h>
#include <Eigen/Eigenvalues>

#include <algorithm>
#include <limits>

#include "solve/second_order.hpp"
#include "solve/sparse_ldlt.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// K = C C^T, as the eigenvalue solver asks for its halves.
template <class Factored>
class Halves {
 public:
  using Scalar = double;
  explicit Halves(const Factored& K, Eigen::Index rows) : K_(K), rows_(rows) {}
  [[nodiscard]] Eigen::Index rows() const { return rows_; }
  [[nodiscard]] Eigen::Index cols() const { return rows_; }
  void lower_triangular_solve(const double* f, double* y) const {
    Eigen::Map<Eigen::VectorXd>(y, rows_) =
        K_.first_half(Eigen::Map<const Eigen::VectorXd>(f, rows_));
  }
  void upper_triangular_solve(const double* y, double* x) const {
    Eigen::Map<Eigen::VectorXd>(x, rows_) =
        K_.second_half(Eigen::Map<const Eigen::VectorXd>(y, rows_));
  }

 private:
  const Factored& K_;
  Eigen::Index rows_;
};

/// What the axial forces push with, per movement.
class Pushing {
 public:
  using Scalar = double;
  explicit Pushing(const SparseMatrix& K_G) : K_G_(K_G) {}
  [[nodiscard]] Eigen::Index rows() const { return K_G_.rows(); }
  [[nodiscard]] Eigen::Index cols() const { return K_G_.cols(); }
  void perform_op(const double* x, double* y) const {
    Eigen::Map<Eigen::VectorXd>(y, rows()) = -(K_G_ * Eigen::Map<const Eigen::VectorXd>(x, rows()));
  }

 private:
  const SparseMatrix& K_G_;
};

/// BucklingPairs (1/α, φ over the unknowns), the largest 1/α first.
struct BucklingPairs {
  Eigen::VectorXd inverse_factor;
  Eigen::MatrixXd shape;
};

/// All pairs of a small frame.
BucklingPairs dense_buckling_pairs(const SparseMatrix& K, const SparseMatrix& K_G) {
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(Eigen::MatrixXd(-K_G),
                                                                        Eigen::MatrixXd(K));
  return {eigen.eigenvalues().reverse(), eigen.eigenvectors().rowwise().reverse()};
}

template <class Factored>
std::optional<BucklingPairs> sparse_buckling_pairs(const Factored& K, const SparseMatrix& K_G,
                                                   Eigen::Index count) {
  const Eigen::Index n = K_G.rows();
  Halves<Factored> halves(K, n);
  Pushing pushing(K_G);
  Spectra::SymGEigsSolver<Pushing, Halves<Factored>, Spectra::GEigsMode::Cholesky> solver(
      pushing, halves, count, std::min(n, 2 * count + 12));
  solver.init();
  solver.compute(Spectra::SortRule::LargestAlge, 1000, 1e-6);
  if (solver.info() != Spectra::CompInfo::Successful) return std::nullopt;
  return BucklingPairs{solver.eigenvalues(), solver.eigenvectors()};
}

BucklingMode buckling_mode(const Prepared::Inside& in, double inverse_factor,
                           const Eigen::VectorXd& unknowns) {
  BucklingMode mode;
  mode.factor = 1.0 / inverse_factor;
  const Eigen::VectorXd own =
      in.freedoms.with_free_part(unknowns, Eigen::VectorXd::Zero(in.freedoms.size()));
  mode.shape = in.freedoms.to_global(own).head(in.freedoms.of_nodes());
  double largest = 0.0;
  for (Eigen::Index i = 0; i < mode.shape.size(); ++i) {
    if (i % 6 < 3 && std::abs(mode.shape(i)) > std::abs(largest)) largest = mode.shape(i);
  }
  if (largest != 0.0) mode.shape /= largest;
  return mode;
}

/// Of all members, by their axial forces.
Eigen::MatrixXd pressed_by(const std::vector<double>& N,
                           const std::vector<Eigen::MatrixXd>& geometric) {
  Eigen::MatrixXd sum = Eigen::MatrixXd::Zero(geometric.front().rows(), geometric.front().cols());
  for (model::MemberId m = 0; m < geometric.size(); ++m) sum += N[m] * geometric[m];
  return sum;
}

Refusal loose_on_its_feet() {
  return {Refusal::Why::mechanism, "what still touches the floor does not hold the frame",
          "spread the supports, or fix one", std::nullopt};
}

}  // namespace

/// What lifted supports take away, and the factor of what is left; where none has lifted it is that
/// of the frame.
struct Buckling::Held {
  SparseMatrix lifted;
  std::optional<SparseLdlt> factor;
};

Buckling::Buckling(const Prepared& prepared, const State& state) : prepared_(prepared) {
  const Prepared::Inside& in = prepared_.inside();
  const std::vector<bool> springs = lifted_springs(in, state);
  auto held = std::make_shared<Held>();
  if (std::find(springs.begin(), springs.end(), true) != springs.end()) {
    SparseMatrix lifted(in.K.rows(), in.K.cols());
    take_away(lifted, in, springs);
    held->lifted = free_part(lifted, in.freedoms);
    held->factor = in.laid_out().plus(held->lifted);
  }
  held_ = std::move(held);
}

OrRefusal<std::vector<BucklingMode>> Buckling::modes(const State& state, int count) const {
  expects(count >= 1, "buckling: at least one mode");
  const Prepared::Inside& in = prepared_.inside();
  const std::vector<double> N = tension_with_plates(in.runs, in.plates, state);
  const bool is_pressed = std::any_of(N.begin(), N.end(), [](double n) { return n < 0.0; });
  if (!is_pressed || in.freedoms.unknowns == 0) return std::vector<BucklingMode>{};
  if (held_->factor && !held_->factor->ok()) return tl::unexpected(loose_on_its_feet());
  const SparseMatrix K_G = free_part(geometric_matrix(in, N), in.freedoms);
  constexpr Eigen::Index small = 80;  // quicker in full
  std::optional<BucklingPairs> pairs;
  if (K_G.rows() <= std::max<Eigen::Index>(small, 2 * count + 2)) {
    SparseMatrix K = free_part(in.K, in.freedoms);
    if (held_->factor) K += held_->lifted;
    pairs = dense_buckling_pairs(K, K_G);
  } else {
    pairs = held_->factor ? sparse_buckling_pairs(*held_->factor, K_G, count)
                          : sparse_buckling_pairs(*in.factor, K_G, count);
  }
  if (!pairs || !pairs->inverse_factor.allFinite()) {
    return tl::unexpected(Refusal{Refusal::Why::modes_unsettled,
                                  "the shapes in which the frame buckles do not settle",
                                  "make extreme stiffnesses rigid or free instead", std::nullopt});
  }
  std::vector<BucklingMode> modes;
  constexpr double nothing = 1e-12;  // presses and pulls cancel to rounding
  for (Eigen::Index i = 0; i < pairs->inverse_factor.size() && i < count; ++i) {
    if (pairs->inverse_factor(i) <= nothing) break;
    modes.push_back(buckling_mode(in, pairs->inverse_factor(i), pairs->shape.col(i)));
  }
  return modes;
}

OrRefusal<std::vector<BucklingMode>> buckling(const Prepared& prepared, const State& state,
                                              int count) {
  return Buckling(prepared, state).modes(state, count);
}

AlikeBuckling::AlikeBuckling(const Prepared& prepared, const State& state,
                             const std::vector<BucklingMode>& modes)
    : prepared_(prepared) {
  const Prepared::Inside& in = prepared.inside();
  const auto n = static_cast<Eigen::Index>(modes.size());
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    Eigen::MatrixXd ends(12, n);
    for (Eigen::Index i = 0; i < n; ++i) {
      ends.col(i) = in.node_movements(m, modes[static_cast<std::size_t>(i)].shape);
    }
    geometric_.emplace_back(ends.transpose() * in.kernels[m].global_geometric() * ends);
  }
  // K φ = -α K_G φ, of the state that they come from.
  stiffness_ = -pressed_by(tension_with_plates(in.runs, in.plates, state), geometric_).diagonal();
  for (Eigen::Index i = 0; i < n; ++i) stiffness_(i) *= modes[static_cast<std::size_t>(i)].factor;
}

double AlikeBuckling::trial_factor(const State& state) const {
  const Prepared::Inside& in = prepared_.inside();
  const std::vector<double> N = tension_with_plates(in.runs, in.plates, state);
  const Eigen::VectorXd scale = stiffness_.cwiseSqrt().cwiseInverse();
  const Eigen::MatrixXd pushing =
      -(scale.asDiagonal() * pressed_by(N, geometric_) * scale.asDiagonal());
  const double largest =
      Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(pushing, Eigen::EigenvaluesOnly)
          .eigenvalues()
          .maxCoeff();
  return largest > 0.0 ? 1.0 / largest : std::numeric_limits<double>::infinity();
}

}  // namespace standtrue::solve
