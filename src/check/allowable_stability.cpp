#include <algorithm>
#include <cmath>
#include <limits>

#include "standtrue/check/allowable.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

Stress column_buckling_stress(Stress E_min, double slenderness, const reference::Tables& tables) {
  expects(slenderness > 0.0, "column_buckling_stress: the column must have a length");
  return tables.constant("F_cE factor").value * E_min / (slenderness * slenderness);
}

double column_stability_factor(Stress F_cE, Stress F_c, const reference::Tables& tables) {
  expects(F_c > Stress{}, "column_stability_factor: F_c must be positive");
  const double r = F_cE / F_c, c = tables.constant("C_P c sawn").value;
  const double half = (1.0 + r) / (2.0 * c);
  return half - std::sqrt(half * half - r / c);
}

Length bending_length(Length l_u, Length d, const reference::Tables& tables) {
  expects(d > Length{}, "bending_length: the depth must be positive");
  const double ratio = l_u / d;
  if (ratio < tables.constant("l_u/d short").value) {
    return tables.constant("l_e short").value * l_u;
  }
  if (ratio <= tables.constant("l_u/d long").value) {
    return tables.constant("l_e middle").value * l_u +
           tables.constant("l_e middle depths").value * d;
  }
  return tables.constant("l_e long").value * l_u;
}

double beam_slenderness(Length l_e, Length b, Length d) {
  expects(b > Length{}, "beam_slenderness: the breadth must be positive");
  return std::sqrt(in_si(l_e) * in_si(d)) / in_si(b);
}

Stress beam_buckling_stress(Stress E_min, double R_B, const reference::Tables& tables) {
  expects(R_B > 0.0, "beam_buckling_stress: the beam must have a length");
  return tables.constant("F_bE factor").value * E_min / (R_B * R_B);
}

double beam_stability_factor(Stress F_bE, Stress F_b, const reference::Tables& tables) {
  expects(F_b > Stress{}, "beam_stability_factor: F_b must be positive");
  const double r = F_bE / F_b;
  const double half = (1.0 + r) / tables.constant("C_L divisor").value;
  return half - std::sqrt(half * half - r / tables.constant("C_L product").value);
}

double tension_bending_ratio(const CutStresses& f, const Adjusted& F) {
  return f.f_t / F.F_t + f.f_b1 / F.F_b1 + f.f_b2 / F.F_b2;
}

namespace {

/// The sum with all stresses times `times`.
double sum_at(double times, const CutStresses& f, const SlenderValues& F) {
  const double along = times * (f.f_c / F.F_c);
  const double tipped = times * (f.f_b1 / F.F_bE);
  const double rest_1 = 1.0 - times * (f.f_c / F.F_cE1);
  const double rest_2 = 1.0 - times * (f.f_c / F.F_cE2) - tipped * tipped;
  // False for a NaN, which then comes out of the sum.
  if (rest_1 <= 0.0 || rest_2 <= 0.0) return std::numeric_limits<double>::infinity();
  return along * along + times * (f.f_b1 / F.F_b1) / rest_1 + times * (f.f_b2 / F.F_b2) / rest_2;
}

}  // namespace

double compression_bending_sum(const CutStresses& f, const SlenderValues& F) {
  return sum_at(1.0, f, F);
}

double compression_bending_ratio(const CutStresses& f, const SlenderValues& F, double so_far) {
  // No term alone may pass its limit: the multiplier lies below the least of these.
  const double least_ratio =
      std::max({f.f_c / F.F_c, f.f_c / F.F_cE1, f.f_c / F.F_cE2, f.f_b1 / F.F_b1, f.f_b2 / F.F_b2});
  if (std::isnan(sum_at(1.0, f, F))) return std::numeric_limits<double>::quiet_NaN();
  if (least_ratio == 0.0) return 0.0;
  if (so_far > 0.0 && sum_at(1.0 / so_far, f, F) <= 1.0) return least_ratio;
  double stands = 0.0, falls = 1.0 / least_ratio;
  // The sum rises with the multiplier; 60 halvings leave nothing of a double.
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (stands + falls);
    (sum_at(middle, f, F) <= 1.0 ? stands : falls) = middle;
  }
  return 1.0 / falls;
}

}  // namespace standtrue::check
