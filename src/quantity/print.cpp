#include <fmt/format.h>

#include <array>
#include <cmath>
#include <map>
#include <span>
#include <string>

#include "quantity/kind.hpp"
#include "quantity/unit.hpp"
#include "quantity/wording.hpp"
#include "standtrue/contract.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {
namespace {

/// Three significant figures, more when the whole part has more; no zeros at the end.
std::string three_figures(double value) {
  const double magnitude = std::abs(value);
  if (magnitude == 0.0) return "0";
  if (magnitude < 1e-3 || magnitude >= 1e7) return fmt::format("{:.2e}", value);
  const int decimals = std::max(0, 2 - static_cast<int>(std::floor(std::log10(magnitude))));
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (decimals == 0) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

/// A unit that a kind is printed in, from this magnitude in SI units on; the largest that fits
/// wins.
struct Step {
  Kind kind = Kind::ratio;
  std::string_view unit;
  double from = 0.0;
};

// clang-format off
constexpr std::array metric = {
    Step{Kind::length,          "mm",       0.0},
    Step{Kind::area,            "mm2",      0.0},
    Step{Kind::area,            "m2",       0.1},
    Step{Kind::section_modulus, "mm3",      0.0},
    Step{Kind::second_moment,   "mm4",      0.0},
    Step{Kind::mass,            "kg",       0.0},
    Step{Kind::density,         "kg/m3",    0.0},
    Step{Kind::force,           "N",        0.0},
    Step{Kind::force,           "kN",       1e4},
    Step{Kind::moment,          "N m",      0.0},
    Step{Kind::moment,          "kN m",     1e4},
    Step{Kind::stress,          "N/mm2",    0.0},
    Step{Kind::area_load,       "kN/m2",    0.0},
    Step{Kind::line_load,       "kN/m",     0.0},
    Step{Kind::linear_stiffness,     "N/mm",     0.0},
    Step{Kind::rotational_stiffness, "kN m/rad", 0.0},
    Step{Kind::mass_moment,     "kg m2",    0.0},
    Step{Kind::speed,           "rpm",      0.0},
    Step{Kind::acceleration,    "m/s2",     0.0},
    Step{Kind::angle,           "deg",      0.0},
    Step{Kind::slope,           "%",        0.0},
    Step{Kind::ratio,           "",         0.0},
    Step{Kind::time,            "s",        0.0},
    Step{Kind::time,            "min",      60.0},
    Step{Kind::time,            "h",        3600.0},
    Step{Kind::time,            "days",     86400.0},
    Step{Kind::time,            "years",    31557600.0},
    Step{Kind::mass_per_area,   "kg/m2",    0.0},
    Step{Kind::moment_per_length, "N m/m",  0.0},
};
constexpr std::array imperial = {
    Step{Kind::length,          "in",       0.0},
    Step{Kind::area,            "in2",      0.0},
    Step{Kind::section_modulus, "in3",      0.0},
    Step{Kind::second_moment,   "in4",      0.0},
    Step{Kind::mass,            "lb",       0.0},
    Step{Kind::density,         "lb/ft3",   0.0},
    Step{Kind::force,           "lbf",      0.0},
    Step{Kind::moment,          "lbf in",   0.0},
    Step{Kind::stress,          "psi",      0.0},
    Step{Kind::area_load,       "psf",      0.0},
    Step{Kind::line_load,       "lbf/ft",   0.0},
    Step{Kind::linear_stiffness,     "lbf/in",     0.0},
    Step{Kind::rotational_stiffness, "kip in/rad", 0.0},
    Step{Kind::mass_moment,     "lb ft2",   0.0},
    Step{Kind::acceleration,    "ft/s2",    0.0},
    Step{Kind::mass_per_area,   "lb/ft2",   0.0},
    Step{Kind::moment_per_length, "lbf in/in", 0.0},
};
// clang-format on

std::string_view unit_for(double value_si, Kind kind, std::span<const Step> steps) {
  std::string_view unit;
  for (const Step& step : steps) {
    if (step.kind == kind && std::abs(value_si) >= step.from) unit = step.unit;
  }
  return unit;
}

/// Read once.
std::map<std::string_view, Unit> layout_units() {
  std::map<std::string_view, Unit> all;
  for (const std::span<const Step> steps : {std::span<const Step>(metric), {imperial}}) {
    for (const Step& step : steps) {
      if (step.unit.empty()) continue;
      const Parsed<Unit> read = read_unit(step.unit, 0, {});
      expects(read && read->end == step.unit.size(),
              "print: a layout unit is not in the unit table");
      all[step.unit] = *read;
    }
  }
  return all;
}

double in_unit(double value_si, std::string_view unit) {
  static const std::map<std::string_view, Unit> units = layout_units();
  if (unit.empty()) return value_si;
  const Unit& known = units.at(unit);
  return value_si * known.bottom / known.top;
}

/// `57 1/16 in`. Below a quarter inch sixteenths would say too little: decimals instead.
std::string inches(double value) {
  const double magnitude = std::abs(value);
  if (magnitude < 0.25 || magnitude >= 1e6) return three_figures(value) + " in";
  const auto sixteenths = static_cast<int>(std::lround(magnitude * 16.0));
  const int whole = sixteenths / 16;
  int over = sixteenths % 16, under = 16;
  while (over != 0 && over % 2 == 0) {
    over /= 2;
    under /= 2;
  }
  std::string text = value < 0 ? "-" : "";
  if (whole > 0 || over == 0) text += fmt::format("{}", whole);
  if (whole > 0 && over > 0) text += " ";
  if (over > 0) text += fmt::format("{}/{}", over, under);
  return text + " in";
}

/// `1 in 80`; percent when steep, as a level reads it when nearly level: `0.04 mm/m`.
std::string slope(double value, UnitSystem system) {
  const double magnitude = std::abs(value);
  if (magnitude == 0.0 || magnitude > 0.2) return three_figures(value * 100.0) + " %";
  if (magnitude < 1e-3) {
    return system == UnitSystem::imperial ? fmt::format("{:.3g} in/ft", value * 12.0)
                                          : fmt::format("{:.3g} mm/m", value * 1e3);
  }
  return (value < 0 ? "-1 in " : "1 in ") + three_figures(1.0 / magnitude);
}

}  // namespace

std::string print(double value_si, Kind kind, UnitSystem system) {
  if (std::isnan(value_si)) return "not a number";
  if (std::isinf(value_si)) return value_si < 0 ? "-infinite" : "infinite";
  if (kind == Kind::slope) return slope(value_si, system);
  std::string_view unit;
  if (system == UnitSystem::imperial) unit = unit_for(value_si, kind, imperial);
  if (unit.empty()) unit = unit_for(value_si, kind, metric);
  const double value = in_unit(value_si, unit);
  if (unit == "in") return inches(value);
  std::string text = three_figures(value);
  if (text == "1" && kind == Kind::time && unit.back() == 's' && unit.size() > 1) {
    unit.remove_suffix(1);
  }
  if (!unit.empty()) text += " ";
  return text += unit;
}

std::string print_exact(double value_si, Kind kind) {
  expects(std::isfinite(value_si), "print_exact: the value is not finite");
  const std::string_view unit = facts_of(kind).si_unit;
  return fmt::format("{}{}{}", value_si, unit.empty() ? "" : " ", unit);
}

}  // namespace standtrue::quantity
