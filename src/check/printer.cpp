#include "check/printer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/words.hpp"

namespace standtrue::check {

std::string Printer::length(double metres) const {
  return quantity::print(metres, quantity::Kind::length, units_);
}
std::string Printer::movement(double metres) const {
  if (!(std::abs(metres) < readable)) return length(metres);
  return units_ == quantity::UnitSystem::metric ? "less than 0.1 mm" : "less than 0.004 in";
}
std::string Printer::level(double slope) const {
  constexpr double nothing = 5e-7;  // half a micrometre per metre: finer than any level
  const bool metric = units_ == quantity::UnitSystem::metric;
  if (std::abs(slope) < nothing) return metric ? "0 mm/m" : "0 in/ft";
  // Two figures, and no more decimals than levels have.
  const double value = metric ? slope * 1e3 : slope * 12.0;
  const double step = metric ? 1e-3 : 1e-5;
  const double figure = std::pow(10.0, std::floor(std::log10(std::abs(value))) - 1.0);
  const double unit = std::max(step, figure);
  std::string text = fmt::format("{:.{}f}", std::round(value / unit) * unit, metric ? 3 : 5);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text + (metric ? " mm/m" : " in/ft");
}
std::string Printer::force(double newtons) const {
  constexpr auto kind = quantity::Kind::force;
  return quantity::print(but_rounding(newtons, kind), kind, units_);
}
std::string Printer::moment(double newton_metres) const {
  constexpr auto kind = quantity::Kind::moment;
  return quantity::print(but_rounding(newton_metres, kind), kind, units_);
}
std::string Printer::stress(double pascals) const {
  constexpr auto kind = quantity::Kind::stress;
  return quantity::print(but_rounding(pascals, kind), kind, units_);
}
std::string Printer::stiffness(double newtons_per_metre) const {
  return quantity::print(newtons_per_metre, quantity::Kind::linear_stiffness, units_);
}
std::string Printer::as_mass(double newtons) const {
  const double mass = newtons / quantity::in_si(quantity::standard_gravity());
  // A push in whole kilograms is as fine as a spring balance in the shop reads.
  return quantity::print(mass < 10.0 ? mass : std::round(mass), quantity::Kind::mass, units_);
}

}  // namespace standtrue::check
