// A rigid plate on springs that only press, uneven ground: as long as the load lies within the feet
// there is an answer, and it obeys the laws of contact. Source: statics; the problem is convex.
#include <doctest/doctest.h>

#include <Eigen/LU>
#include <cmath>
#include <random>

#include "solve/contact.hpp"

using namespace standtrue;

namespace {

/// Feet at random on an ellipse, all of one stiffness, ground heights g, a unit load at the middle.
/// r = k (g - B q), B^T r = f: with everything closed the forces, and what a ground changes in
/// them.
solve::ContactProblem plate(std::mt19937& random, Eigen::Index n) {
  std::uniform_real_distribution<double> part(0.0, 1.0);
  Eigen::MatrixXd B(n, 3);
  for (Eigen::Index i = 0; i < n; ++i) {
    // One foot in each sector: the middle always lies within them.
    const double a = (static_cast<double>(i) + 0.8 * part(random)) * 2.0 * std::acos(-1.0) /
                     static_cast<double>(n);
    B.row(i) << 1.0, std::cos(a), 0.6 * std::sin(a);
  }
  Eigen::VectorXd g(n);
  for (Eigen::Index i = 0; i < n; ++i) g(i) = 4.0 * part(random);
  const Eigen::MatrixXd hold = (B.transpose() * B).inverse();
  const Eigen::MatrixXd change = Eigen::MatrixXd::Identity(n, n) - B * hold * B.transpose();
  const Eigen::Vector3d load(1.0, 0.0, 0.0);
  const auto size = static_cast<std::size_t>(n);
  return {change * g + B * hold * load, change, Eigen::VectorXd::Ones(n),
          std::vector<bool>(size, true), std::vector<std::size_t>(size, 0)};
}

}  // namespace

TEST_CASE(
    "solve/contact: a load within the feet always finds an answer, pressing or open, never both") {
  std::mt19937 random(7);
  int opened = 0;
  for (int trial = 0; trial < 3000; ++trial) {
    const solve::ContactProblem problem = plate(random, 4 + trial % 4);
    const auto solution = solve::solve_contact(problem);
    CAPTURE(trial);
    REQUIRE(solution.has_value());
    const Eigen::VectorXd force = problem.force + problem.change * solution->ground;
    for (Eigen::Index i = 0; i < force.size(); ++i) {
      const bool open = solution->open[static_cast<std::size_t>(i)];
      if (open) ++opened;
      CHECK(force(i) >= -1e-8);
      CHECK(solution->ground(i) >= -1e-8);
      CHECK((open ? std::abs(force(i)) : std::abs(solution->ground(i))) < 1e-8);
    }
    CHECK(force.sum() == doctest::Approx(1.0).epsilon(1e-8));
  }
  CHECK(opened > 1000);
}
