// What forces use of a sheet's strength, against stresses by hand; that a place is passed over only
// where it can not be the worst, and never where a force is no number.
#include "check/plate_stress.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

namespace plate_stress_test {

using namespace standtrue;
using check::PlateState;
using doctest::Approx;
using Forces = solve::PlateForces;

namespace {

constexpr std::array<PlateState, 3> states{PlateState::bending, PlateState::rolling,
                                           PlateState::panel_shear};
constexpr std::array<double Forces::*, 8> all{&Forces::N_x, &Forces::N_y, &Forces::N_xy,
                                              &Forces::M_x, &Forces::M_y, &Forces::M_xy,
                                              &Forces::Q_x, &Forces::Q_y};

/// 18 mm: W = t²/6 per metre of width.
constexpr check::PlateSection section{18e-3 * 18e-3 / 6.0, 18e-3, 18e-3, 1.5};
constexpr check::PlateStrengths strengths{.k_mod = 0.8,
                                          .gamma_M = 1.2,
                                          .m_x = 20e6,
                                          .m_y = 10e6,
                                          .t_x = 9e6,
                                          .t_y = 5e6,
                                          .c_x = 12e6,
                                          .c_y = 8e6,
                                          .r_x = 1e6,
                                          .r_y = 0.6e6,
                                          .v = 3e6};

double ratio(PlateState state, const Forces& f) {
  return check::plate_use(state, f, strengths, section).ratio();
}

}  // namespace

TEST_CASE("check/plate_stress: M/W, N/t and 1.5 Q/t over their strengths, by hand") {
  Forces f;
  f.M_x = -540.0;  // 540/54e-6 = 10 MPa of 20
  CHECK(ratio(PlateState::bending, f) == Approx(0.5));
  f.N_x = 16.2e3;  // 0.9 MPa of 9, pulled
  CHECK(ratio(PlateState::bending, f) == Approx(0.6));
  f.N_x = -21.6e3;  // 1.2 MPa of 12, pushed
  CHECK(ratio(PlateState::bending, f) == Approx(0.6));
  f.M_y = 432.0;  // 8 MPa of 10
  CHECK(ratio(PlateState::bending, f) == Approx(0.8));
  f.Q_y = 3600.0;  // 1.5 * 0.2 MPa of 0.6
  CHECK(ratio(PlateState::rolling, f) == Approx(0.5));
  f.M_xy = 54.0;  // 1 MPa, and 0.5 MPa in the plane, of 3
  f.N_xy = 9e3;
  CHECK(ratio(PlateState::panel_shear, f) == Approx(0.5));
}

TEST_CASE("check/plate_stress: no use is more than its bound, and one of a force alone is it") {
  std::mt19937 engine(5u);
  const auto number = [&engine] { return static_cast<double>(engine()) / 2147483648.0 - 1.0; };
  const check::PlateUseBound bound(strengths, section);
  for (int draw = 0; draw < 2000; ++draw) {
    Forces f;
    for (double Forces::*force : all) f.*force = 1e4 * number();
    for (const PlateState state : states) {
      CHECK(ratio(state, f) <= bound.of(state, f) * (1.0 + 1e-12));
    }
  }
  for (double Forces::*force : all) {
    if (force == &Forces::N_x || force == &Forces::N_y) continue;  // pulled is not pushed
    Forces f;
    f.*force = -700.0;
    for (const PlateState state : states) {
      CHECK(ratio(state, f) == Approx(bound.of(state, f)).epsilon(1e-12));
    }
  }
}

TEST_CASE("check/plate_stress: what is no number is worse than all, and stays") {
  const double none = std::numeric_limits<double>::quiet_NaN();
  const check::PlateUseBound bound(strengths, section);
  for (double Forces::*force : all) {
    Forces f{1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
    f.*force = none;
    int lost = 0;
    for (const PlateState state : states) {
      CHECK(std::isnan(ratio(state, f)) == std::isnan(bound.of(state, f)));
      lost += std::isnan(ratio(state, f)) ? 1 : 0;
    }
    CHECK(lost == 1);  // each force belongs to one state
  }
  // Nothing there: nothing used.
  for (const PlateState state : states) CHECK(ratio(state, Forces{}) == 0.0);
}

}  // namespace plate_stress_test
