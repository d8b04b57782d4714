// The member's matrices against their printed forms.
#include "solve/beam_element.hpp"

#include <doctest/doctest.h>

#include <Eigen/Dense>

#include "tests/solve/plate_models.hpp"

namespace beam_element_test {

using namespace standtrue;
using tests::close_to;

TEST_CASE("solve/beam_element: cantilever tip = P L³/3EI + P L/GA_s (Roark, Table 8.1, case 1a)") {
  const double EI = 2.2e4, GA_s = 1.9e6, L = 1.2, P = 400.0;
  const Eigen::Matrix4d k = solve::bending_stiffness(EI, solve::shear_parameter(EI, GA_s, L), L);
  const Eigen::Vector2d tip = k.bottomRightCorner<2, 2>().ldlt().solve(Eigen::Vector2d(P, 0.0));
  CHECK(tip(0) == close_to(P * L * L * L / (3 * EI) + P * L / GA_s, 1e-12));
  CHECK(tip(1) == close_to(P * L * L / (2 * EI), 1e-12));
  CHECK(solve::shear_parameter(EI, 0.0, L) == 0.0);
}

TEST_CASE("solve/beam_element: geometric stiffness of a cubic, 6/5L, 1/10, 2L/15, -L/30") {
  // Przemieniecki (1968), 15.3 (from memory), without shear. Freedoms w_1, θ_1, w_2, θ_2: z and ry,
  // whose sense turns against the slope.
  solve::BeamElement element;
  element.L = 1.5;
  element.EA = 1e7;
  element.GJ = 1e4;
  element.EI_y = element.EI_z = 2e4;
  const solve::Matrix12 k = solve::geometric_stiffness(element);
  const double L = element.L;
  CHECK(k(2, 2) == close_to(6.0 / (5.0 * L), 1e-12));
  CHECK(k(2, 8) == close_to(-6.0 / (5.0 * L), 1e-12));
  CHECK(k(2, 4) == close_to(-0.1, 1e-12));
  CHECK(k(4, 4) == close_to(2.0 * L / 15.0, 1e-12));
  CHECK(k(4, 10) == close_to(-L / 30.0, 1e-12));
  CHECK(k(1, 5) == close_to(0.1, 1e-12));
  CHECK(k(5, 11) == close_to(-L / 30.0, 1e-12));
}

TEST_CASE("solve/beam_element: a chord that leans does N θ² L/2 of work, sheared or not") {
  solve::BeamElement element{2.0, 1e7, 1e4, 2e4, 3e4, 4e5, 5e5};
  solve::Vector12 lean = solve::Vector12::Zero();
  const double angle = 0.01;  // all of it turns as one: no bending, no shear
  lean(2) = -0.5 * angle * element.L;
  lean(8) = 0.5 * angle * element.L;
  lean(4) = lean(10) = -angle;
  const double work = 0.5 * lean.dot(solve::geometric_stiffness(element) * lean);
  CHECK(work == close_to(0.5 * angle * angle * element.L, 1e-12));
}

}  // namespace beam_element_test
