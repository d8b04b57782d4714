#pragma once

#include "solve/prepared.hpp"
#include "standtrue/solve/modes.hpp"

namespace standtrue::solve {

/// Of a movement with φ^T K φ = λ: each spring's k (its stretch)² over λ. End springs from what
/// they are pushed with, F²/k, as their far ends are condensed.
[[nodiscard]] Mode::InSprings shares_in_springs(const Prepared::Inside& in, const Mode& mode,
                                                double lambda);

}  // namespace standtrue::solve
