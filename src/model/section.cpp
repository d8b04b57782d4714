#include <algorithm>
#include <cmath>
#include <numbers>

#include "standtrue/contract.hpp"
#include "standtrue/model/model.hpp"

namespace standtrue::model {

using std::numbers::pi;

namespace {

/// J of a rectangle, sides a >= b:  J = a b^3 (1/3 - 64/π^5 (b/a) Σ_odd tanh(n π a / 2b) / n^5).
/// The terms fall as n^-5, so 60 of them leave less than 1e-9.
/// Source (from memory): Timoshenko & Goodier, Theory of Elasticity, art. 109.
double torsion_constant(double side, double other) {
  const double a = std::max(side, other);
  const double b = std::min(side, other);
  double sum = 0.0;
  for (int n = 119; n >= 1; n -= 2) {
    sum += std::tanh(n * pi * a / (2.0 * b)) / std::pow(n, 5);
  }
  return a * b * b * b * (1.0 / 3.0 - 64.0 / std::pow(pi, 5) * (b / a) * sum);
}

}  // namespace

Section rectangle(Length width, Length depth) {
  const double b = quantity::in_si(width);
  const double h = quantity::in_si(depth);
  expects(b > 0.0 && h > 0.0, "rectangle: sides must be positive");
  constexpr double kappa = 5.0 / 6.0;
  Section section;
  section.A = width * depth;
  section.A_sy = section.A_sz = kappa * section.A;
  section.I_y = quantity::from_si<SecondMoment>(b * h * h * h / 12.0);
  section.I_z = quantity::from_si<SecondMoment>(h * b * b * b / 12.0);
  section.J = quantity::from_si<SecondMoment>(torsion_constant(b, h));
  section.width = width;
  section.depth = depth;
  return section;
}

}  // namespace standtrue::model
