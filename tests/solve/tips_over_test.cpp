// A frame tips where its load lies outside the figure that its feet span. Source: statics of a
// rigid body; the figure by Andrew's monotone chain.
#include "solve/tips_over.hpp"

#include <doctest/doctest.h>

#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

namespace tips_over_test {

using namespace standtrue;
using namespace standtrue::quantity;

namespace {

using Places = std::vector<Eigen::Vector2d>;

/// Twice the area of a b c, positive anticlockwise.
double turn(const Eigen::Vector2d& a, const Eigen::Vector2d& b, const Eigen::Vector2d& c) {
  return (b.x() - a.x()) * (c.y() - a.y()) - (b.y() - a.y()) * (c.x() - a.x());
}

/// Corners, anticlockwise.
Places hull(Places p) {
  std::sort(p.begin(), p.end(), [](const auto& a, const auto& b) {
    return a.x() < b.x() || (a.x() == b.x() && a.y() < b.y());
  });
  Places corners;
  for (const bool back : {false, true}) {
    const std::size_t first = corners.size();
    for (std::size_t k = 0; k < p.size(); ++k) {
      const Eigen::Vector2d& next = back ? p[p.size() - 1 - k] : p[k];
      while (corners.size() >= first + 2 && turn(corners.end()[-2], corners.back(), next) <= 0.0) {
        corners.pop_back();
      }
      corners.push_back(next);
    }
    corners.pop_back();
  }
  return corners;
}

/// Distance to the nearest edge, positive inside.
double within(const Places& corners, const Eigen::Vector2d& at) {
  double least = 1e9;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const Eigen::Vector2d &a = corners[i], &b = corners[(i + 1) % corners.size()];
    least = std::min(least, turn(a, b, at) / (b - a).norm());
  }
  return least;
}

/// Feet on a level floor that press, with grips along and across, on one node each.
model::Model standing_at(const Places& feet) {
  model::Model m;
  for (const Eigen::Vector2d& foot : feet) {
    m.nodes.push_back({"foot", {metres(foot.x()), metres(foot.y()), metres(0.07)}});
    for (const model::Direction along :
         {model::Direction{0, 0, 1}, model::Direction{1, 0, 0}, model::Direction{0, 1, 0}}) {
      model::Support support;
      support.node = m.nodes.size() - 1;
      support.along = along;
      support.press_only = along.z != 0.0;
      if (!support.press_only) support.rides_on = m.supports.size() / 3 * 3;
      m.supports.push_back(support);
    }
  }
  return m;
}

}  // namespace

TEST_CASE("solve/tips_over: a load tips the frame if and only if it lies outside its feet") {
  std::mt19937 random(11);
  std::uniform_real_distribution<double> part(-1.0, 1.0);
  int n_tipping = 0, n_standing = 0;
  for (int trial = 0; trial < 2000; ++trial) {
    const int n = 3 + trial % 6;
    Places feet;
    for (int i = 0; i < n; ++i) feet.push_back({2.0 * part(random), part(random)});
    if (trial % 3 == 0) {  // in two rows, as those of a bench
      for (std::size_t i = 0; i < feet.size(); ++i) feet[i].y() = i % 2 == 0 ? -0.4 : 0.4;
    }
    const Eigen::MatrixXd lifts = solve::free_lifts(standing_at(feet));
    REQUIRE(lifts.rows() == n);
    REQUIRE(lifts.cols() == 3);
    const Eigen::Vector2d at(2.5 * part(random), 1.2 * part(random));
    const double inside = within(hull(feet), at);
    if (std::abs(inside) < 1e-3) continue;
    // Any balance in which feet may pull: that of equal springs.
    Eigen::MatrixXd B(n, 3);
    for (int i = 0; i < n; ++i) B.row(i) << 1.0, feet[static_cast<std::size_t>(i)].transpose();
    const Eigen::Vector3d load(600.0, 600.0 * at.x(), 600.0 * at.y());
    const Eigen::VectorXd force = B * (B.transpose() * B).inverse() * load;
    CAPTURE(trial);
    CAPTURE(inside);
    CHECK(solve::tips_over(lifts, force) == (inside < 0.0));
    ++(inside < 0.0 ? n_tipping : n_standing);
  }
  CHECK(n_tipping > 500);
  CHECK(n_standing > 250);
}

TEST_CASE("solve/tips_over: what holds the frame against the wall takes its lifts away") {
  const Places feet{{0.0, 0.0}, {1.2, 0.0}, {1.2, 0.6}, {0.0, 0.6}};
  model::Model m = standing_at(feet);
  model::Support wall;
  wall.node = 3;
  wall.along = {0, 0, 1};
  m.supports.push_back(wall);
  // It may turn about the wall fixing, along and across.
  CHECK(solve::free_lifts(m).cols() == 2);
  wall.node = 2;
  m.supports.push_back(wall);
  CHECK(solve::free_lifts(m).cols() == 1);
  wall.node = 0;
  m.supports.push_back(wall);
  const Eigen::MatrixXd held = solve::free_lifts(m);
  CHECK(held.cols() == 0);
  CHECK_FALSE(solve::tips_over(held, Eigen::VectorXd::Constant(4, -1.0)));
}

TEST_CASE("solve/tips_over: pulled by less than answers may be wrong by is not called tipping") {
  const Places feet{{0.0, 0.0}, {1.0, 0.0}, {1.0, 1.0}, {0.0, 1.0}};
  const Eigen::MatrixXd lifts = solve::free_lifts(standing_at(feet));
  CHECK_FALSE(solve::tips_over(lifts, Eigen::Vector4d(500.0, 500.0, -1e-5, -1e-5)));
  CHECK(solve::tips_over(lifts, Eigen::Vector4d(500.0, 500.0, -1.0, -1.0)));
}

}  // namespace tips_over_test
