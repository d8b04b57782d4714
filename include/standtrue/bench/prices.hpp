#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/document/document.hpp"

/// What things cost where the builder buys them.
namespace standtrue::bench {

/// For everything bought whose name has this text in it.
struct Price {
  std::string of;      ///< "21 mm spruce plywood", "C24", "bracket"
  double money = 0.0;  ///< of one (bar, sheet, piece), or of a metre of it
  bool per_metre = false;
};

struct Prices {
  std::string currency;  ///< as written: "EUR"; may be empty
  std::vector<Price> all;
};

/// `prices: {currency: EUR, C24: 3.20 per m, spruce plywood: 62, bracket: 1.40}`; nothing without.
/// Faults go to `diagnostics`.
[[nodiscard]] std::optional<Prices> read_prices(const document::Document& document,
                                                std::vector<Diagnostic>& diagnostics);

}  // namespace standtrue::bench
