// All numbers SI (m, N, rad).
#include "standtrue/solve/buckling.hpp"

#include <Spectra/SymGEigsSolver.h>
#include <Eigen/Eigenvalues>

#include <algorithm>

#include "solve/changes.hpp"
#include "solve/second_order.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// The frame as the eigenvalue solver sees it, over its unknowns: what its stiffness does and
/// undoes, open supports let go.
class Holding {
 public:
  using Scalar = double;
  Holding(const Prepared::Inside& in, const Changes& open) : in_(in), open_(open) {}
  [[nodiscard]] Eigen::Index rows() const { return in_.freedoms.unknowns; }
  [[nodiscard]] Eigen::Index cols() const { return rows(); }
  void perform_op(const double* x, double* y) const {
    const Eigen::VectorXd own = whole(x);
    Eigen::Map<Eigen::VectorXd>(y, rows()) = in_.freedoms.free_part(in_.K * own + open_.pull(own));
  }
  void solve(const double* x, double* y) const {
    Eigen::Map<Eigen::VectorXd>(y, rows()) =
        in_.freedoms.free_part(open_.correct(in_.solve(whole(x))));
  }
  [[nodiscard]] Eigen::VectorXd whole(const double* x) const {
    return in_.freedoms.with_free_part(Eigen::Map<const Eigen::VectorXd>(x, rows()),
                                       Eigen::VectorXd::Zero(in_.freedoms.size()));
  }

 private:
  const Prepared::Inside& in_;
  const Changes& open_;
};

/// What the axial forces push with, per movement.
class Pushing {
 public:
  using Scalar = double;
  Pushing(const Holding& frame, const Prepared::Inside& in, const SparseMatrix& K_G)
      : frame_(frame), in_(in), K_G_(K_G) {}
  [[nodiscard]] Eigen::Index rows() const { return frame_.rows(); }
  [[nodiscard]] Eigen::Index cols() const { return rows(); }
  void perform_op(const double* x, double* y) const {
    Eigen::Map<Eigen::VectorXd>(y, rows()) = -in_.freedoms.free_part(K_G_ * frame_.whole(x));
  }

 private:
  const Holding& frame_;
  const Prepared::Inside& in_;
  const SparseMatrix& K_G_;
};

/// BucklingPairs (1/α, φ over the unknowns), the largest 1/α first.
struct BucklingPairs {
  Eigen::VectorXd inverse_factor;
  Eigen::MatrixXd shape;
};

/// All pairs of a small frame.
BucklingPairs dense_buckling_pairs(const Holding& frame, const Pushing& pushing) {
  const Eigen::Index n = frame.rows();
  Eigen::MatrixXd K(n, n), P(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    const Eigen::VectorXd unit = Eigen::VectorXd::Unit(n, i);
    frame.perform_op(unit.data(), K.col(i).data());
    pushing.perform_op(unit.data(), P.col(i).data());
  }
  const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::MatrixXd> eigen(
      0.5 * (P + P.transpose().eval()), 0.5 * (K + K.transpose().eval()));
  return {eigen.eigenvalues().reverse(), eigen.eigenvectors().rowwise().reverse()};
}

std::optional<BucklingPairs> sparse_buckling_pairs(const Holding& frame, Pushing& pushing,
                                                   Eigen::Index count) {
  const Eigen::Index n = frame.rows();
  Holding holding = frame;
  Spectra::SymGEigsSolver<Pushing, Holding, Spectra::GEigsMode::RegularInverse> solver(
      pushing, holding, count, std::min(n, 2 * count + 12));
  solver.init();
  solver.compute(Spectra::SortRule::LargestAlge, 1000, 1e-8);
  if (solver.info() != Spectra::CompInfo::Successful) return std::nullopt;
  return BucklingPairs{solver.eigenvalues(), solver.eigenvectors()};
}

BucklingMode buckling_mode(const Prepared::Inside& in, const Holding& frame, double inverse_factor,
                           const Eigen::VectorXd& unknowns) {
  BucklingMode mode;
  mode.factor = 1.0 / inverse_factor;
  mode.shape = in.freedoms.to_global(frame.whole(unknowns.data())).head(in.freedoms.of_nodes());
  double largest = 0.0;
  for (Eigen::Index i = 0; i < mode.shape.size(); ++i) {
    if (i % 6 < 3 && std::abs(mode.shape(i)) > std::abs(largest)) largest = mode.shape(i);
  }
  if (largest != 0.0) mode.shape /= largest;
  return mode;
}

std::vector<StiffnessChange> open_supports(const model::Model& model, const State& state) {
  std::vector<StiffnessChange> open;
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    const model::Support& support = model.supports[s];
    // A rigid one stays: it can not be taken away without another factorisation.
    if (state.touching.at(s) || !support.stiffness || *support.stiffness == 0.0) continue;
    open.push_back(
        {support.node, std::nullopt, support.rotation, support.along, -*support.stiffness});
  }
  return open;
}

}  // namespace

OrRefusal<std::vector<BucklingMode>> buckling(const Prepared& prepared, const State& state,
                                              int count) {
  expects(count >= 1, "buckling: at least one mode");
  const Prepared::Inside& in = prepared.inside();
  std::vector<double> N;
  bool is_pressed = false;
  for (model::MemberId m = 0; m < in.model.members.size(); ++m) {
    N.push_back(axial_force(state, m));
    is_pressed = is_pressed || N.back() < 0.0;
  }
  if (!is_pressed || in.freedoms.unknowns == 0) return std::vector<BucklingMode>{};
  const SparseMatrix K_G = geometric_matrix(in, N);
  const OrRefusal<Changes> open = Changes::make(in, open_supports(in.model, state));
  if (!open) return tl::unexpected(open.error());
  const Holding frame(in, *open);
  Pushing pushing(frame, in, K_G);
  constexpr Eigen::Index small = 80;  // quicker in full
  std::optional<BucklingPairs> pairs = frame.rows() <= std::max<Eigen::Index>(small, 2 * count + 2)
                                           ? dense_buckling_pairs(frame, pushing)
                                           : sparse_buckling_pairs(frame, pushing, count);
  if (!pairs || !pairs->inverse_factor.allFinite()) {
    return tl::unexpected(Refusal{Refusal::Why::modes_unsettled,
                                  "the shapes in which the frame buckles do not settle",
                                  "make extreme stiffnesses rigid or free instead", std::nullopt});
  }
  std::vector<BucklingMode> modes;
  constexpr double nothing = 1e-12;  // presses and pulls cancel to rounding
  for (Eigen::Index i = 0; i < pairs->inverse_factor.size() && i < count; ++i) {
    if (pairs->inverse_factor(i) <= nothing) break;
    modes.push_back(buckling_mode(in, frame, pairs->inverse_factor(i), pairs->shape.col(i)));
  }
  return modes;
}

}  // namespace standtrue::solve
