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

TEST_CASE("solve/contact: a foot that its grip would lift and that would sink without it slips") {
  // A raking leg on a foot: K (x along the floor, z up) couples what the foot does in the two. Over
  // a gap of 1 with the load p_z = -1 the gripped foot is pulled by K_zz - 1 = 0.1; free, the leg
  // would sink by K_xx / det K = 5.2. Held by the floor alone, u_x = K_xz / K_xx and the foot
  // presses with 1 - det K / K_xx. Source: statics; the ground's own springs give by 1e-6 of that.
  Eigen::Matrix2d K;
  K << 1.1, 1.0, 1.0, 1.1;
  const Eigen::Matrix2d S = 1e6 * Eigen::Matrix2d::Identity();
  const Eigen::Matrix2d hold = (K + S).inverse();
  const Eigen::Vector2d load(0.0, -1.0), floor(0.0, -1.0);
  const Eigen::Vector2d closed = S * (floor - hold * (load + S * floor));
  const Eigen::Matrix2d change = S - S * hold * S;
  // The foot presses, then what grips: order z, x.
  const Eigen::PermutationMatrix<2> swapped(Eigen::Vector2i(1, 0));
  const solve::ContactProblem problem{swapped * closed,
                                      swapped * change * swapped,
                                      Eigen::Vector2d(1e6, 1e6),
                                      {true, false},
                                      {0, 0}};
  CHECK(problem.force(0) == doctest::Approx(-0.1).epsilon(1e-5));
  const auto solution = solve::solve_contact(problem);
  REQUIRE(solution.has_value());
  CHECK_FALSE(solution->open[0]);
  CHECK(solution->slipping[0]);
  const Eigen::VectorXd force = problem.force + problem.change * solution->ground;
  CHECK(force(0) == doctest::Approx(1.0 - K.determinant() / K(0, 0)).epsilon(1e-5));
  CHECK(std::abs(force(1)) < 1e-8);
  CHECK(solution->ground(1) == doctest::Approx(K(0, 1) / K(0, 0)).epsilon(1e-5));
}
