#pragma once

#include <string_view>

#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {

/// Exponents of the base units. The radian counts, so that a moment per angle is no moment.
struct Dimension {
  int m = 0;
  int kg = 0;
  int s = 0;
  int rad = 0;
  friend bool operator==(const Dimension&, const Dimension&) = default;
};

/// A unit as written: one of it is top / bottom SI units. Kept as a quotient, since 1/1000 is exact
/// where 0.001 is not.
struct Unit {
  Dimension dimension;
  double top = 1.0;
  double bottom = 1.0;
  bool in_pounds = false;  ///< a pound where a force is meant is a pound-force
  std::size_t end = 0;     ///< first byte after it
};

/// The unit that begins exactly at `at`: terms such as `mm`, `mm2`, `m^3`, joined by a space, `.`,
/// `*`, `·` or `-`, with at most one `/`. When the text goes on in words after a unit that already
/// fits `wanted`, the fault proposes to leave them out.
[[nodiscard]] Parsed<Unit> read_unit(std::string_view text, std::size_t at, Dimension wanted);

/// The single length unit (mm, ft, a mark ...) that begins at `at`, without exponent; else nothing
/// (end == at).
[[nodiscard]] Unit read_length_unit(std::string_view text, std::size_t at);

}  // namespace standtrue::quantity
