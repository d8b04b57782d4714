#pragma once

#include <string>

#include "standtrue/bench/bench.hpp"

namespace standtrue::check {

constexpr double readable = 1e-4;  ///< m: what a rule could read

/// Text of numbers in the bench's units, for sentences.
class Printer {
 public:
  explicit Printer(const bench::Bench& bench) : units_(bench.units) {}
  [[nodiscard]] std::string length(double metres) const;
  /// A length that a rule could read; else "less than 0.1 mm".
  [[nodiscard]] std::string movement(double metres) const;
  /// Of what is nearly level, as a level reads it: "0.04 mm/m", "0.0005 in/ft".
  [[nodiscard]] std::string level(double slope) const;
  [[nodiscard]] std::string force(double newtons) const;
  [[nodiscard]] std::string moment(double newton_metres) const;
  [[nodiscard]] std::string stress(double pascals) const;
  [[nodiscard]] std::string stiffness(double newtons_per_metre) const;
  /// A force as the mass that weighs as much: "18 kg".
  [[nodiscard]] std::string as_mass(double newtons) const;

 private:
  quantity::UnitSystem units_;
};

}  // namespace standtrue::check
