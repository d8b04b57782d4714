#pragma once

#include "standtrue/solve/solve.hpp"

namespace standtrue::report {

/// Internal forces at one end of the flexible part of a member, signs as in docs/conventions.md.
struct EndForces {
  double N = 0.0, V_y = 0.0, V_z = 0.0, T = 0.0, M_y = 0.0, M_z = 0.0;
};
[[nodiscard]] EndForces internal_forces(const solve::State& state, model::MemberId member,
                                        bool at_end);

}  // namespace standtrue::report
