#pragma once

#include <string_view>

#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {

/// A number as written, kept as a quotient so that `35 1/2 in` rounds only once.
struct Number {
  double numerator = 0.0;
  double denominator = 1.0;
  std::size_t end = 0;       ///< first byte after it
  bool is_whole = false;     ///< digits only
  bool is_fraction = false;  ///< written with a '/'
};

/// The number that begins exactly at `at`. Faults count from the start of `text`; their `instead`
/// is the whole text put right, or empty when only the caller can give an example.
[[nodiscard]] Parsed<Number> read_number(std::string_view text, std::size_t at);

}  // namespace standtrue::quantity
