#pragma once

#include <array>
#include <string_view>

#include "standtrue/reference/timber.hpp"

namespace standtrue::bench {

/// Strengths that a file may give of its timber, by the key that they have there.
struct OwnStrength {
  std::string_view key;
  quantity::Stress reference::Timber::*value;
};
inline constexpr std::array<OwnStrength, 6> own_strengths = {
    {{"bending", &reference::Timber::f_m_k},
     {"tension", &reference::Timber::f_t_0_k},
     {"tension_across", &reference::Timber::f_t_90_k},
     {"compression", &reference::Timber::f_c_0_k},
     {"compression_across", &reference::Timber::f_c_90_k},
     {"shear", &reference::Timber::f_v_k}}};

}  // namespace standtrue::bench
