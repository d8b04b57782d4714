#include "model/slip.hpp"

#include <cmath>

namespace standtrue::model {

using quantity::in_si;

double lateral_slip(const reference::Tables& tables, quantity::Density rho_mean,
                    quantity::Length diameter, bool to_steel) {
  const double rho_m = in_si(rho_mean);
  const double d_mm = 1e3 * in_si(diameter);
  const double K_N_mm = std::pow(rho_m, tables.constant("K_ser density exponent").value) * d_mm /
                        tables.constant("K_ser divisor screws").value;
  return 1e3 * K_N_mm * (to_steel ? tables.constant("K_ser steel").value : 1.0);
}

double axial_slip(const reference::Tables& tables, quantity::Length diameter,
                  quantity::Length thread_in_timber) {
  const double d_mm = 1e3 * in_si(diameter);
  const double l_mm = 1e3 * in_si(thread_in_timber);
  return 1e3 * tables.constant("K_ax factor").value *
         std::pow(d_mm, tables.constant("K_ax diameter exponent").value) *
         std::pow(l_mm, tables.constant("K_ax length exponent").value);
}

quantity::Density mean_of(quantity::Density a, quantity::Density b) {
  return quantity::from_si<quantity::Density>(std::sqrt(in_si(a) * in_si(b)));
}

}  // namespace standtrue::model
