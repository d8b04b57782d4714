#pragma once

#include <string>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/factors.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

/// One row of the load-case table. Zero means that the row has none of it.
struct Load {
  std::string key;           ///< "lean", "stand", "shove in use", "stored on shelf" ...
  quantity::Force down;      ///< at the worst place
  quantity::Force sideways;  ///< along and across, both senses
  quantity::Stress spread;   ///< over an area
  double share = 0.0;        ///< of the machine's weight
  quantity::Length patch;    ///< side of the square (diameter of the disc) under `down`
  quantity::Length edge;     ///< distance of `down` from the edge
  double strength = 1.0;     ///< partial factor where the load harms
  double favourable = 0.0;   ///< partial factor where it helps
  double tipping = 1.0;      ///< partial factor against tipping and sliding
  double tipping_favourable = 0.0;
  Duration duration = Duration::permanent;
  std::string combination;  ///< key of CombinationFactors; empty: permanent, or alone
  RecordSource source;
};

}  // namespace standtrue::reference
