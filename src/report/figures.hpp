#pragma once

#include <string>

#include "standtrue/check/finding.hpp"

/// Numbers as a builder reads them: two figures, whole kilograms, shares of strength in fractions.
namespace standtrue::report {

/// "at most 1/3" (rounded up to a shop fraction), "nearly all", "0.8 to 1.3 times", "1.4 times".
/// Contract: 0 <= least <= greatest; infinite reads "more than 20 times".
[[nodiscard]] std::string share(double least, double greatest);

/// The numbers beside the rod: "2.2 to 2.9 mm, 6 allowed", "at most 1/3 of its strength", "3 to 7.1
/// mm at 10 kg, 4.9 allowed". Contract: the finding is judged.
[[nodiscard]] std::string amount(const check::Finding& finding, quantity::UnitSystem units);

/// A sway stiffness as it is felt: the movement under a hand pull of 10 kg (20 lb), m.
struct HandPull {
  std::string pull;  ///< "10 kg"
  double force;      ///< N
};
[[nodiscard]] HandPull hand_pull(quantity::UnitSystem units);

/// A length or mass with two figures: "4.9 mm", "0.19 in", "118 kg".
[[nodiscard]] std::string rough(double si, quantity::Kind kind, quantity::UnitSystem units);

}  // namespace standtrue::report
