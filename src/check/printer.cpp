#include "check/printer.hpp"

#include <cmath>

namespace standtrue::check {

std::string Printer::length(double metres) const {
  return quantity::print(metres, quantity::Kind::length, units_);
}
std::string Printer::movement(double metres) const {
  constexpr double readable = 1e-4;  // m
  if (!(std::abs(metres) < readable)) return length(metres);
  return units_ == quantity::UnitSystem::metric ? "less than 0.1 mm" : "less than 0.004 in";
}
std::string Printer::force(double newtons) const {
  return quantity::print(newtons, quantity::Kind::force, units_);
}
std::string Printer::moment(double newton_metres) const {
  return quantity::print(newton_metres, quantity::Kind::moment, units_);
}
std::string Printer::stress(double pascals) const {
  return quantity::print(pascals, quantity::Kind::stress, units_);
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
