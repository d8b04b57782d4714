#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <tl/expected.hpp>

#include "standtrue/quantity/quantity.hpp"

/// Text to quantity and back. The number grammar is our own: an optional sign, digits with an
/// optional point and exponent, or a fraction (`3/4`), or a whole number and a fraction
/// (`35 1/2`). No nan, inf, hexadecimal, octal or thousands separator. A unit is required except
/// for ratios and counts; `6 ft 2 in` adds up. Case matters in units (mm, MPa) but common slips
/// (MM, KN, Kg) are named in the suggestion.
namespace standtrue::quantity {

/// What a text stands for. Several kinds share a dimension (N/mm is a stiffness or a line load) but
/// each accepts only the spellings that mean it.
enum class Kind {
  length,
  area,
  section_modulus,
  second_moment,
  mass,
  density,
  force,                 ///< N, kN, lbf, kip; kg and lb are refused with the advice "9.81 N"
  moment,                ///< N m, N mm, kN m, lb in, kip in
  stress,                ///< N/mm2, MPa, GPa, kN/mm2, psi, ksi
  area_load,             ///< N/m2, kN/m2, kg/m2, lb/ft2, psf: masses count with standard gravity
  line_load,             ///< N/m, N/mm, kN/m, kg/m, lb/ft, kip/in
  linear_stiffness,      ///< N/mm, N/m, kN/mm, kN/m, lb/in, kip/in
  rotational_stiffness,  ///< N m/rad, kN m/rad, N mm/rad, kip in/rad
  mass_moment,           ///< kg m2
  speed,                 ///< of a spindle: rpm, 1/min, Hz; stored in Hz
  acceleration,
  angle,  ///< rad, deg, °
  slope,  ///< 1 in 80, 1:80, 2 %, 5 mm/m; stored as rise over run
  ratio,  ///< 0.3 or 30 %
  time,
  mass_per_area,     ///< kg/m2, lb/ft2: a mass, unlike in area_load
  moment_per_length  ///< of a plate: N m/m, N mm/mm, which is N
};

/// Why a text is not a quantity. `offset` and `length` count bytes of the text.
struct TextFault {
  std::size_t offset = 0;
  std::size_t length = 0;
  std::string what{};     ///< "'2100' has no unit"
  std::string instead{};  ///< "2100 mm"
};

template <class T>
using Parsed = tl::expected<T, TextFault>;

/// The number in SI base units (line loads and area loads given as masses count as weights).
[[nodiscard]] Parsed<double> parse_si(std::string_view text, Kind kind);

template <class Quantity>
[[nodiscard]] Parsed<Quantity> parse(std::string_view text, Kind kind) {
  return parse_si(text, kind).map([](double v) { return from_si<Quantity>(v); });
}

/// A bare number such as `0.3` or `1e-6` (no unit allowed); and a bare whole number.
[[nodiscard]] Parsed<double> parse_number(std::string_view text);
[[nodiscard]] Parsed<int> parse_count(std::string_view text);

/// Two or three lengths joined by `x` (or ×): `38 x 89 mm`, `1 1/2 x 3 1/2 in`,
/// `2050 x 680 x 900 mm`, `38 mm x 3 1/2 in`. A unit at the end serves all the figures without one.
[[nodiscard]] Parsed<std::array<Length, 2>> parse_pair(std::string_view text);
[[nodiscard]] Parsed<std::array<Length, 3>> parse_triple(std::string_view text);

/// Splits `C16 38 x 89 mm` or `18 mm spruce plywood`: the byte range of the first run that reads as
/// a length, pair or triple of lengths with its unit; empty if there is none.
struct LengthRun {
  std::size_t offset = 0;
  std::size_t length = 0;
};
[[nodiscard]] LengthRun find_length_run(std::string_view text);

enum class UnitSystem { metric, imperial };

/// For people: `1450 mm`, `57 1/16 in` (to the sixteenth, but decimals below a quarter inch),
/// `60 kg`, `132 lb`; three figures or so. "infinite" and "not a number" for what is not finite.
[[nodiscard]] std::string print(double value_si, Kind kind, UnitSystem system = UnitSystem::metric);
/// For machines: the shortest text that parse_si reads back to the same double, in plain SI units
/// (m, N, Pa, N m, kg, ...). Contract: finite.
[[nodiscard]] std::string print_exact(double value_si, Kind kind);

/// The word of `known` nearest to `word` by edit distance, or "" if none is near (more than about a
/// third of its letters differ).
[[nodiscard]] std::string nearest(std::string_view word, const std::vector<std::string>& known);

}  // namespace standtrue::quantity
