#pragma once

#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

/// A size that timber is sold in, as it measures.
struct Section {
  std::string key;                 ///< "38 x 89 mm"
  std::string family;              ///< "CLS", "regularised", "planed square", "US dressed" ...
  std::vector<std::string> names;  ///< "2x4", "CLS 4x2"
  quantity::Length thickness;      ///< the smaller side
  quantity::Length depth;          ///< the larger side
  Source source;
};

/// How far a size may be off at 20 % moisture. EN 336.
struct Tolerance {
  std::string key;         ///< "T1, up to 100 mm" (sawn), "T2, over 100 mm" (planed) ...
  quantity::Length below;  ///< positive: how much smaller it may be
  quantity::Length above;
  Source source;
};

struct StockLength {
  quantity::Length length;
  Source source;
};

}  // namespace standtrue::reference
