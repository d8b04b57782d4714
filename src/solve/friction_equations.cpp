// All numbers SI (m, N).
#include "solve/friction_equations.hpp"

#include <Eigen/LU>
#include <cmath>

namespace standtrue::solve {

namespace {

/// Where nothing resists yet, a thousandth of the floor does, and the next look tells more.
Eigen::VectorXd solve_scaled(const Eigen::MatrixXd& a, const Eigen::VectorXd& b, double rounding) {
  Eigen::FullPivLU<Eigen::MatrixXd> lu(a);
  if (lu.matrixLU().diagonal().cwiseAbs().minCoeff() < rounding) {
    lu.compute(a + 1e-3 * Eigen::MatrixXd::Identity(a.rows(), a.cols()));
  }
  return lu.solve(b);
}

}  // namespace

FrictionEquations::FrictionEquations(const ContactProblem& problem, const std::vector<Grip>& grips)
    : problem_(problem), grips_(grips) {}

void FrictionEquations::look(const Eigen::VectorXd& ground) {
  const std::size_t n = problem_.press_only.size();
  scale_ = problem_.force.cwiseAbs().maxCoeff();
  force_ = problem_.force + problem_.change * ground;
  trial_ = force_ - problem_.stiffness.cwiseProduct(ground);
  residual_.resize(at(n));
  slope_.setZero(at(n), at(n));
  now_ = {ground, std::vector<bool>(n, false), std::vector<bool>(n, false)};
  for (std::size_t i = 0; i < n; ++i) {
    const bool open = trial_(at(presses(i))) < 0.0;
    now_.open[i] = problem_.press_only[i] && open;
    if (open) {
      carries(i, 0.0);
    } else {
      rests(i);
    }
  }
  for (const Grip& grip : grips_) slip(grip);
}

bool FrictionEquations::are_met() const {
  return residual_.cwiseAbs().maxCoeff() <= 1e-10 * scale_;
}

bool FrictionEquations::is_near() const {
  constexpr double far = 1e6;
  return now_.ground.allFinite() &&
         now_.ground.cwiseAbs().cwiseProduct(problem_.stiffness).maxCoeff() <= far * scale_;
}

void FrictionEquations::carries(std::size_t i, double force) {
  residual_(at(i)) = force_(at(i)) - force;
  slope_.row(at(i)) = problem_.change.row(at(i));
}

void FrictionEquations::rests(std::size_t i) {
  residual_(at(i)) = problem_.stiffness(at(i)) * now_.ground(at(i));
  slope_(at(i), at(i)) = problem_.stiffness(at(i));
}

void FrictionEquations::slip(const Grip& grip) {
  const double p = trial_(at(grip.presses));
  double square = 0.0;
  for (const std::size_t r : grip.riders) square += trial_(at(r)) * trial_(at(r));
  const double q = std::sqrt(square);
  if (p < 0.0 || q <= grip.friction * p) return;
  const double most = grip.friction * force_(at(grip.presses));
  for (const std::size_t r : grip.riders) {
    const double along = trial_(at(r)) / q;
    carries(r, most * along);
    slope_.row(at(r)) -= grip.friction * along * problem_.change.row(at(grip.presses));
    now_.sliding[r] = true;
  }
  // The direction turns with q: d(q_r/|q|) = (1 - q_r q_r'/|q|^2)/|q| dq.
  for (const std::size_t r : grip.riders) {
    for (const std::size_t other : grip.riders) {
      const double same = r == other ? 1.0 : 0.0;
      const double turns = (same - trial_(at(r)) * trial_(at(other)) / square) * most / q;
      slope_.row(at(r)) -= turns * problem_.change.row(at(other));
      slope_(at(r), at(other)) += turns * problem_.stiffness(at(other));
    }
  }
}

std::vector<Eigen::Index> FrictionEquations::moving() const {
  std::vector<Eigen::Index> places;
  for (std::size_t i = 0; i < now_.open.size(); ++i) {
    if (now_.open[presses(i)] || now_.sliding[i]) places.push_back(at(i));
  }
  return places;
}

// What rests goes back to where it was; the others' rows follow from that.
Eigen::VectorXd FrictionEquations::step() const {
  const std::vector<Eigen::Index> places = moving();
  const auto n = static_cast<Eigen::Index>(places.size());
  Eigen::VectorXd result = -now_.ground;
  for (const Eigen::Index i : places) result(i) = 0.0;
  if (n == 0) return result;
  const Eigen::VectorXd left = residual_ + slope_ * result;
  Eigen::MatrixXd scaled(n, n);
  Eigen::VectorXd wanted(n), root(n);
  for (Eigen::Index i = 0; i < n; ++i) {
    root(i) = 1.0 / std::sqrt(problem_.stiffness(places[static_cast<std::size_t>(i)]));
  }
  for (Eigen::Index i = 0; i < n; ++i) {
    const Eigen::Index row = places[static_cast<std::size_t>(i)];
    wanted(i) = -root(i) * left(row);
    for (Eigen::Index j = 0; j < n; ++j) {
      scaled(i, j) = root(i) * root(j) * slope_(row, places[static_cast<std::size_t>(j)]);
    }
  }
  const Eigen::VectorXd moved = solve_scaled(scaled, wanted, problem_.rounding);
  for (Eigen::Index i = 0; i < n; ++i) {
    result(places[static_cast<std::size_t>(i)]) = root(i) * moved(i);
  }
  return result;
}

}  // namespace standtrue::solve
