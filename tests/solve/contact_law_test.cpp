// A rigid plate on springs that only press, uneven ground: as long as the load lies within the feet
// there is an answer, and it obeys the laws of contact. Source: statics; the problem is convex.
#include <doctest/doctest.h>

#include <Eigen/LU>
#include <cmath>
#include <random>

#include "solve/contact.hpp"

namespace contact_law_test {

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

namespace {

/// A rigid bar (up, turning, along the floor) on feet whose legs rake: each foot presses and grips
/// through a stiffness that couples the two, over gaps. Order: press and grip of each foot in turn.
solve::ContactProblem raking_legs(std::mt19937& random, Eigen::Index n_feet) {
  std::uniform_real_distribution<double> part(-1.0, 1.0);
  const Eigen::Index n = 2 * n_feet;
  Eigen::MatrixXd C = Eigen::MatrixXd::Zero(n, n), B = Eigen::MatrixXd::Zero(n, 3);
  Eigen::VectorXd g = Eigen::VectorXd::Zero(n);
  for (Eigen::Index i = 0; i < n_feet; ++i) {
    const double kz = 1.5 + part(random), kx = 1.5 + part(random);
    const double both = 0.95 * part(random) * std::sqrt(kz * kx);
    C.block<2, 2>(2 * i, 2 * i) << kz, both, both, kx;
    B.block<2, 3>(2 * i, 0) << 1.0, part(random), 0.0, 0.0, 0.0, 1.0;
    g(2 * i) = part(random);
  }
  // r = C (g - B q), B^T r = f.
  const Eigen::MatrixXd hold = (B.transpose() * C * B).inverse();
  const Eigen::MatrixXd change = C - C * B * hold * B.transpose() * C;
  const Eigen::Vector3d load(1.0, 0.2 * part(random), 0.3 * part(random));
  const auto size = static_cast<std::size_t>(n);
  solve::ContactProblem problem{change * g + C * B * hold * load, change, C.diagonal(),
                                std::vector<bool>(size), std::vector<std::size_t>(size)};
  for (std::size_t i = 0; i < size; ++i) {
    problem.press_only[i] = i % 2 == 0;
    problem.rides_on[i] = i / 2 * 2;
  }
  return problem;
}

/// Whether these feet (0 grips, 1 slips, 2 open) are a balance without pull and without sinking.
bool balances(const solve::ContactProblem& problem, const std::vector<int>& feet) {
  std::vector<Eigen::Index> free;
  for (std::size_t f = 0; f < feet.size(); ++f) {
    if (feet[f] == 2) free.push_back(static_cast<Eigen::Index>(2 * f));
    if (feet[f] > 0) free.push_back(static_cast<Eigen::Index>(2 * f + 1));
  }
  Eigen::VectorXd ground = Eigen::VectorXd::Zero(problem.force.size());
  if (!free.empty()) {
    Eigen::FullPivLU<Eigen::MatrixXd> lu;
    lu.setThreshold(1e-9);
    lu.compute(problem.change(free, free));
    if (lu.rank() < static_cast<Eigen::Index>(free.size())) return false;
    ground(free) = lu.solve(-problem.force(free));
  }
  const Eigen::VectorXd force = problem.force + problem.change * ground;
  for (std::size_t f = 0; f < feet.size(); ++f) {
    const auto z = static_cast<Eigen::Index>(2 * f);
    if (feet[f] == 2 ? ground(z) < 1e-9 : force(z) < 1e-9) return false;
  }
  return true;
}

}  // namespace

TEST_CASE(
    "solve/contact: refused only where no set of feet, gripping, slipping or open, balances") {
  std::mt19937 random(5);
  int n_slipping = 0, n_refused = 0;
  for (int trial = 0; trial < 3000; ++trial) {
    const Eigen::Index n_feet = 3 + trial % 3;
    const solve::ContactProblem problem = raking_legs(random, n_feet);
    const auto solution = solve::solve_contact(problem);
    std::vector<int> feet(static_cast<std::size_t>(n_feet), 0);
    CAPTURE(trial);
    if (solution) {
      for (std::size_t f = 0; f < feet.size(); ++f) {
        feet[f] = solution->open[2 * f] ? 2 : solution->slipping[2 * f] ? 1 : 0;
        n_slipping += feet[f] == 1;
      }
      CHECK(balances(problem, feet));
      continue;
    }
    ++n_refused;
    int n_balances = 0;
    for (int code = 0; code < std::pow(3, n_feet); ++code) {
      int rest = code;
      for (int& foot : feet) {
        foot = rest % 3;
        rest /= 3;
      }
      n_balances += balances(problem, feet);
    }
    CHECK(n_balances == 0);
  }
  CHECK(n_slipping > 100);
  CHECK(n_refused > 100);
}

}  // namespace contact_law_test
