// All numbers SI (m, N, kg, rad).
#include "standtrue/solve/modes.hpp"

#include <algorithm>
#include <cmath>

#include "solve/lowest_pairs.hpp"
#include "solve/second_order.hpp"
#include "solve/spring_shares.hpp"
#include "solve/whole_frame.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

const double two_pi = 2.0 * std::acos(-1.0);

Refusal modes_unsettled() {
  return {Refusal::Why::modes_unsettled, "the shapes in which the frame swings do not settle",
          "make extreme stiffnesses rigid or free instead", std::nullopt};
}

/// Rows of what is free, out of all.
std::vector<Eigen::Index> free_rows(const WholeFrame& frame) {
  Panel free = Panel::Ones(frame.size(), 1);
  frame.hold(free);
  std::vector<Eigen::Index> rows;
  for (Eigen::Index i = 0; i < free.rows(); ++i) {
    if (free(i, 0) != 0.0) rows.push_back(i);
  }
  return rows;
}

/// In full: quicker for few unknowns, and every pair is found.
std::optional<Pairs> dense_pairs(const WholeFrame& frame, const WholeMass& mass,
                                 const std::vector<Eigen::Index>& rows, const PairsWanted& wanted) {
  const auto n = static_cast<Eigen::Index>(rows.size());
  Panel units = Panel::Zero(frame.size(), n);
  for (Eigen::Index j = 0; j < n; ++j) units(rows[static_cast<std::size_t>(j)], j) = 1.0;
  const Panel K_all = frame.forces_of(units), M_all = mass.times(units);
  Eigen::MatrixXd K(n, n), M(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    K.row(i) = K_all.row(rows[static_cast<std::size_t>(i)]);
    M.row(i) = M_all.row(rows[static_cast<std::size_t>(i)]);
  }
  std::optional<Pairs> pairs = all_pairs(K, M, wanted);
  if (!pairs || pairs->lambda.size() == 0) return pairs;
  Eigen::MatrixXd shapes = Eigen::MatrixXd::Zero(frame.size(), pairs->shapes.cols());
  for (Eigen::Index i = 0; i < n; ++i) {
    shapes.row(rows[static_cast<std::size_t>(i)]) = pairs->shapes.row(i);
  }
  pairs->shapes = std::move(shapes);
  return pairs;
}

std::optional<Pairs> pairs_of(const WholeFrame& frame, const WholeMass& mass,
                              const PairsWanted& wanted) {
  constexpr std::size_t small = 100;
  const std::vector<Eigen::Index> rows = free_rows(frame);
  if (rows.empty()) return Pairs{Eigen::VectorXd(0), Eigen::MatrixXd(frame.size(), 0)};
  if (rows.size() < small) return dense_pairs(frame, mass, rows, wanted);
  return lowest_pairs([&frame](const Panel& f) { return frame.movements_under(f); },
                      [&mass](const Panel& u) { return mass.times(u); }, frame.size(), wanted);
}

/// How far the worst shape is from balance: r = K φ - λ M φ by the work that it would do on the
/// frame, beside that of the shape's own forces,
///     sqrt(r^T K^-1 r / (φ^T K φ)),
/// in which newtons and newton metres count alike, slow shapes and quick ones. No λ is further than
/// this part of itself from a true one. K in r is that of the cells, not the condensed one.
double out_of_balance(const WholeFrame& frame, const WholeMass& mass, const Pairs& pairs) {
  const Panel shapes = pairs.shapes;
  const Panel left = frame.forces_of(shapes) - mass.times(shapes) * pairs.lambda.asDiagonal();
  const Eigen::VectorXd work = left.cwiseProduct(frame.movements_under(left)).colwise().sum();
  double worst = 0.0;
  for (Eigen::Index i = 0; i < work.size(); ++i) {
    const double off = std::sqrt(std::abs(work(i)) / pairs.lambda(i));
    if (!std::isfinite(off)) return off;
    worst = std::max(worst, off);
  }
  return worst;
}

Mode mode_of(const WholeFrame& frame, const WholeMass& mass, const Pairs& pairs, Eigen::Index i) {
  Mode mode;
  mode.frequency = std::sqrt(pairs.lambda(i)) / two_pi;
  const Eigen::VectorXd shape = pairs.shapes.col(i);
  mode.displacement =
      frame.inside().freedoms.to_global(Eigen::VectorXd(shape.head(frame.of_nodes())));
  for (std::size_t p = 0; p < frame.inside().plates.size(); ++p) {
    const auto rows = static_cast<Eigen::Index>(5 * frame.inside().model.plates[p].lines());
    mode.plates.emplace_back(shape.segment(frame.first(p), rows));
  }
  const Eigen::MatrixXd moved = mass.of_bodies(shape);
  for (Eigen::Index b = 0; b + 6 <= moved.rows(); b += 6) {
    std::array<double, 6>& body = mode.bodies.emplace_back();
    for (Eigen::Index f = 0; f < 6; ++f) body[static_cast<std::size_t>(f)] = moved(b + f, 0);
  }
  mode.in_springs = shares_in_springs(frame.inside(), mode, pairs.lambda(i));
  return mode;
}

}  // namespace

OrRefusal<std::vector<Mode>> modes(const Prepared& prepared, const ModesWanted& wanted) {
  expects(wanted.least >= 1 && std::isfinite(wanted.up_to), "modes: at least one");
  const Prepared::Inside& in = prepared.inside();
  WholeFrame frame(in);
  if (wanted.prestress != nullptr) {
    const std::vector<double> N = tension_with_plates(in.runs, in.plates, *wanted.prestress);
    if (!frame.press(geometric_matrix(in, N))) {
      return tl::unexpected(Refusal{
          Refusal::Why::buckles, "the frame gives way sideways under what presses it: it buckles",
          "less load", std::nullopt});
    }
  }
  const WholeMass mass(frame);
  const double omega = two_pi * wanted.up_to;
  std::optional<Pairs> pairs = pairs_of(frame, mass, {wanted.least, omega * std::abs(omega)});
  if (!pairs) return tl::unexpected(modes_unsettled());
  if (pairs->lambda.size() == 0) return std::vector<Mode>{};  // nothing with mass is free
  constexpr double balanced = 1e-4;
  if (!(out_of_balance(frame, mass, *pairs) <= balanced)) return tl::unexpected(modes_unsettled());
  std::vector<Mode> found;
  for (Eigen::Index i = 0; i < pairs->lambda.size(); ++i)
    found.push_back(mode_of(frame, mass, *pairs, i));
  return found;
}

}  // namespace standtrue::solve
