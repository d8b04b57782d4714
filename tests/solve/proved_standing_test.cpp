// Source: K + sum N_m k_m - lifted springs, k_m positive semi-definite: monotonic in both.
#include "solve/proved_standing.hpp"

#include <doctest/doctest.h>

namespace proved_standing_test {

using namespace standtrue;

TEST_CASE(
    "solve/proved_standing: covers what is pushed no harder and lifts no more, nothing else") {
  solve::ProvedStanding standing;
  CHECK_FALSE(standing.covers({-10.0, 5.0}, {false, false}));
  standing.add({-100.0, -20.0}, {false, true});
  CHECK(standing.covers({-100.0, -20.0}, {false, true}));
  CHECK(standing.covers({-99.0, 300.0}, {false, false}));
  CHECK_FALSE(standing.covers({-101.0, 300.0}, {false, false}));
  CHECK_FALSE(standing.covers({0.0, -21.0}, {false, true}));
  CHECK_FALSE(standing.covers({0.0, 0.0}, {true, false}));
  standing.add({-200.0, 0.0}, {true, true});
  CHECK(standing.covers({-150.0, 0.0}, {true, false}));
  CHECK_FALSE(standing.covers({-150.0, -1.0}, {false, false}));
}

}  // namespace proved_standing_test
