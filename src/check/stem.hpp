#pragma once

#include "standtrue/bench/bench.hpp"

namespace standtrue::check {

/// Stress (Pa) of a foot's stem, held in the post and pushed at the pad: N/A + H e/W_pl, the
/// plastic modulus d³/6 of the thread's root, e its free length (m). N, H in N.
/// Source (from memory): EN 1993-1-1, 6.2.1(7) and 6.2.5(2), a round bar is of class 1.
[[nodiscard]] double stem_stress(const bench::Foot& foot, double e, double N, double H);

}  // namespace standtrue::check
