// Feet that slip, by hand: Coulomb's friction, and the sum of what they hold.
#include "check/grips.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <random>

namespace grips_test {

using namespace standtrue;
using check::FootForce;
using doctest::Approx;

TEST_CASE("check/grips: what a light foot can not hold its neighbour does") {
  // 600 N on two feet, stuck 300 N each; the light one holds its 100 N, the other takes 200 N more.
  std::vector<FootForce> feet = {{500.0, 300.0, 0.0, 1.0}, {100.0, 300.0, 0.0, 1.0}};
  check::share_what_slips(feet);
  CHECK(feet[0].x == Approx(500.0));
  CHECK(feet[1].x == Approx(100.0));
}

TEST_CASE("check/grips: what feet push against each other with falls to what the lighter holds") {
  std::vector<FootForce> feet = {{100.0, 0.0, 300.0, 0.5}, {1000.0, 0.0, -300.0, 0.5}};
  check::share_what_slips(feet);
  CHECK(feet[0].y == Approx(50.0));
  CHECK(feet[1].y == Approx(-50.0));
}

TEST_CASE("check/grips: a bolted foot holds whatever comes, and all may slip") {
  const double bolted = std::numeric_limits<double>::infinity();
  std::vector<FootForce> feet = {
      {100.0, 400.0, 300.0, 0.4}, {0.0, 0.0, 0.0, bolted}, {50.0, 0.0, 0.0, bolted}};
  check::share_what_slips(feet);
  CHECK(feet[0].H() == Approx(40.0));
  CHECK(feet[0].y == Approx(24.0));  // the way it pushed
  CHECK(feet[2].x == Approx(400.0 - 32.0));
  feet = {{100.0, 90.0, 0.0, 0.4}, {100.0, 90.0, 0.0, 0.4}};
  check::share_what_slips(feet);
  for (const FootForce& foot : feet) CHECK(foot.x == Approx(40.0));
}

TEST_CASE("check/grips: nothing is lost while one holds, and none holds more than it can") {
  std::mt19937 draw(5);
  std::uniform_real_distribution<double> force(-400.0, 400.0), press(0.0, 900.0);
  for (int i = 0; i < 500; ++i) {
    std::vector<FootForce> feet(4);
    double x = 0.0, y = 0.0;
    for (FootForce& foot : feet) {
      foot = {press(draw), force(draw), force(draw), 0.6};
      x += foot.x;
      y += foot.y;
    }
    check::share_what_slips(feet);
    bool one_holds = false;
    for (const FootForce& foot : feet) {
      CHECK(foot.H() <= 0.6 * foot.N * (1.0 + 1e-12));
      one_holds = one_holds || foot.H() < 0.6 * foot.N * (1.0 - 1e-9);
      x -= foot.x;
      y -= foot.y;
    }
    if (one_holds) CHECK(std::hypot(x, y) <= 1e-9 * 1600.0);
  }
}

}  // namespace grips_test
