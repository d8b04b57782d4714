#pragma once

#include <array>
#include <string_view>

#include "quantity/unit.hpp"

/// Spellings of single units. All factors are exact by definition (from memory: the international
/// yard and pound agreement of 1959, in = 25.4 mm and lb = 0.45359237 kg; CGPM 1901,
/// g_n = 9.80665 m/s2), but for the year, taken as 365.25 days.
namespace standtrue::quantity {

struct UnitSpelling {
  std::string_view spelling;
  Dimension dimension;
  double top = 1.0;
  double bottom = 1.0;
  bool in_pounds = false;
};

namespace dimension {
inline constexpr Dimension none{};
inline constexpr Dimension length{.m = 1};
inline constexpr Dimension mass{.kg = 1};
inline constexpr Dimension force{.m = 1, .kg = 1, .s = -2};
inline constexpr Dimension moment{.m = 2, .kg = 1, .s = -2};
inline constexpr Dimension stress{.m = -1, .kg = 1, .s = -2};
inline constexpr Dimension frequency{.s = -1};
inline constexpr Dimension angle{.rad = 1};
inline constexpr Dimension time{.s = 1};
}  // namespace dimension

namespace exact {
inline constexpr double pi = 3.14159265358979323846;
inline constexpr double lb_top = 45359237.0, lb_bottom = 1e8;
inline constexpr double g_n_top = 980665.0, g_n_bottom = 1e5;
inline constexpr double lbf_top = lb_top * g_n_top, lbf_bottom = lb_bottom * g_n_bottom;
inline constexpr double in_top = 127.0, in_bottom = 5000.0;
inline constexpr double per_in2_top = in_bottom * in_bottom, per_in2_bottom = in_top * in_top;
}  // namespace exact

// clang-format off
inline constexpr std::array unit_spellings = {
    UnitSpelling{"mm",      dimension::length, 1, 1000},
    UnitSpelling{"cm",      dimension::length, 1, 100},
    UnitSpelling{"m",       dimension::length},
    UnitSpelling{"km",      dimension::length, 1000},
    UnitSpelling{"\xC2\xB5m", dimension::length, 1, 1e6},  // U+00B5, the micro sign
    UnitSpelling{"\xCE\xBCm", dimension::length, 1, 1e6},  // U+03BC, the Greek letter
    UnitSpelling{"in",      dimension::length, exact::in_top, exact::in_bottom},
    UnitSpelling{"inch",    dimension::length, exact::in_top, exact::in_bottom},
    UnitSpelling{"inches",  dimension::length, exact::in_top, exact::in_bottom},
    UnitSpelling{"\"",      dimension::length, exact::in_top, exact::in_bottom},
    UnitSpelling{"\xE2\x80\xB3", dimension::length, exact::in_top, exact::in_bottom},  // U+2033
    UnitSpelling{"\xE2\x80\x9D", dimension::length, exact::in_top, exact::in_bottom},  // U+201D
    UnitSpelling{"ft",      dimension::length, 12 * exact::in_top, exact::in_bottom},
    UnitSpelling{"foot",    dimension::length, 12 * exact::in_top, exact::in_bottom},
    UnitSpelling{"feet",    dimension::length, 12 * exact::in_top, exact::in_bottom},
    UnitSpelling{"'",       dimension::length, 12 * exact::in_top, exact::in_bottom},
    UnitSpelling{"\xE2\x80\xB2", dimension::length, 12 * exact::in_top, exact::in_bottom},  // U+2032
    UnitSpelling{"\xE2\x80\x99", dimension::length, 12 * exact::in_top, exact::in_bottom},  // U+2019

    UnitSpelling{"g",       dimension::mass, 1, 1000},
    UnitSpelling{"kg",      dimension::mass},
    UnitSpelling{"t",       dimension::mass, 1000},
    UnitSpelling{"lb",      dimension::mass, exact::lb_top, exact::lb_bottom, true},
    UnitSpelling{"lbs",     dimension::mass, exact::lb_top, exact::lb_bottom, true},
    UnitSpelling{"oz",      dimension::mass, exact::lb_top, 16 * exact::lb_bottom},

    UnitSpelling{"N",       dimension::force},
    UnitSpelling{"daN",     dimension::force, 10},
    UnitSpelling{"kN",      dimension::force, 1000},
    UnitSpelling{"MN",      dimension::force, 1e6},
    UnitSpelling{"lbf",     dimension::force, exact::lbf_top, exact::lbf_bottom},
    UnitSpelling{"kip",     dimension::force, 1000 * exact::lbf_top, exact::lbf_bottom},
    UnitSpelling{"kips",    dimension::force, 1000 * exact::lbf_top, exact::lbf_bottom},

    UnitSpelling{"Nm",      dimension::moment},
    UnitSpelling{"kNm",     dimension::moment, 1000},
    UnitSpelling{"Nmm",     dimension::moment, 1, 1000},
    UnitSpelling{"kNmm",    dimension::moment},

    UnitSpelling{"Pa",      dimension::stress},
    UnitSpelling{"kPa",     dimension::stress, 1000},
    UnitSpelling{"MPa",     dimension::stress, 1e6},
    UnitSpelling{"GPa",     dimension::stress, 1e9},
    UnitSpelling{"psi",     dimension::stress, exact::lbf_top * exact::per_in2_top,
                                               exact::lbf_bottom * exact::per_in2_bottom},
    UnitSpelling{"ksi",     dimension::stress, 1000 * exact::lbf_top * exact::per_in2_top,
                                               exact::lbf_bottom * exact::per_in2_bottom},
    UnitSpelling{"psf",     dimension::stress, exact::lbf_top * exact::per_in2_top,
                                               144 * exact::lbf_bottom * exact::per_in2_bottom},

    UnitSpelling{"Hz",      dimension::frequency},
    UnitSpelling{"rpm",     dimension::frequency, 1, 60},

    UnitSpelling{"rad",     dimension::angle},
    UnitSpelling{"mrad",    dimension::angle, 1, 1000},
    UnitSpelling{"deg",     dimension::angle, exact::pi, 180},
    UnitSpelling{"\xC2\xB0", dimension::angle, exact::pi, 180},  // the degree sign

    UnitSpelling{"s",       dimension::time},
    UnitSpelling{"min",     dimension::time, 60},
    UnitSpelling{"h",       dimension::time, 3600},
    UnitSpelling{"hour",    dimension::time, 3600},
    UnitSpelling{"hours",   dimension::time, 3600},
    UnitSpelling{"day",     dimension::time, 86400},
    UnitSpelling{"days",    dimension::time, 86400},
    UnitSpelling{"week",    dimension::time, 7 * 86400},
    UnitSpelling{"weeks",   dimension::time, 7 * 86400},
    UnitSpelling{"month",   dimension::time, 31557600, 12},
    UnitSpelling{"months",  dimension::time, 31557600, 12},
    UnitSpelling{"year",    dimension::time, 31557600},
    UnitSpelling{"years",   dimension::time, 31557600},

    UnitSpelling{"%",       dimension::none, 1, 100},
};
// clang-format on

/// Spellings that mean something other than their writer thinks, and what to write.
struct RefusedSpelling {
  std::string_view spelling;
  std::string_view what;
  std::string_view instead;
};
inline constexpr std::array refused_spellings = {
    RefusedSpelling{"Mm", "'Mm' is a megametre", "mm"},
    RefusedSpelling{"Mg", "'Mg' is a megagram", "t"},
    RefusedSpelling{"mg", "'mg' is a milligram, not used here", "g"},
    RefusedSpelling{"mN", "'mN' is a millinewton, not used here", "N"},
    RefusedSpelling{"mPa", "'mPa' is a millipascal, not used here", "MPa"},
    RefusedSpelling{"mpa", "'mpa' is not a unit", "MPa"},
    RefusedSpelling{"ton", "'ton' is 907, 1000 or 1016 kg, depending on the country", "t"},
    RefusedSpelling{"tons", "'tons' are 907, 1000 or 1016 kg, depending on the country", "t"},
};

}  // namespace standtrue::quantity
