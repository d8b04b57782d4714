#pragma once

#include <cmath>

#include "standtrue/solve/response.hpp"
#include "tests/fuzz/laws.hpp"

namespace fuzz {

/// Finite, and in equilibrium as nearly as an answer is let be (src/solve/respond.cpp).
inline void hold_state(const standtrue::solve::State& state) {
  law(state.audit.residual <= 1e-6, "the equations of an answer are met");
  law(state.audit.equilibrium <= 1e-6, "an answer is in equilibrium");
  law(state.displacement.allFinite() && state.tied_points.allFinite(), "movements are finite");
  for (const double force : state.support_forces) {
    law(std::isfinite(force), "support forces are finite");
  }
  for (const auto& ends : state.end_forces) {
    for (const double force : ends) law(std::isfinite(force), "end forces are finite");
  }
}

}  // namespace fuzz
