#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/fastener_units.hpp"
#include "check/words.hpp"
#include "standtrue/check/fasteners.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// f_ax = 0.52 d^-0.5 l_ef^-0.1 ρ_k^0.8 in N/mm².
double f_ax_N_mm2(double d_mm, double l_ef_mm, double rho_kg_m3, const reference::Tables& tables) {
  return tables.constant("f_ax factor").value *
         std::pow(d_mm, tables.constant("f_ax diameter exponent").value) *
         std::pow(l_ef_mm, tables.constant("f_ax length exponent").value) *
         std::pow(rho_kg_m3, tables.constant("f_ax density exponent").value);
}

double density_factor(Density rho_k, Density rho_a, const reference::Tables& tables) {
  return std::pow(in_si(rho_k) / in_si(rho_a), tables.constant("f_ax density exponent").value);
}

bool is_in_range(const reference::Screw& screw, const reference::Tables& tables) {
  const double d = in_si(screw.diameter);
  const double root = in_si(screw.root) / d;
  return d >= tables.constant("f_ax diameter from").value &&
         d <= tables.constant("f_ax diameter to").value &&
         root >= tables.constant("f_ax root from").value &&
         root <= tables.constant("f_ax root to").value;
}

}  // namespace

OrWhy<Withdrawal> withdrawal(const reference::Screw& screw, Length l_ef, Density rho_k,
                             double angle, const reference::Tables& tables) {
  expects(screw.diameter > Length{} && rho_k > Density{},
          "withdrawal: diameter and density must be positive");
  constexpr double degree = 3.14159265358979323846 / 180.0;
  if (!(angle >= tables.constant("F_ax degrees from").value * degree)) {
    return tl::unexpected(
        std::string("screws pulled along the grain: the code gives them no strength"));
  }
  const Length least = tables.constant("penetration axial").value * screw.diameter;
  if (!(l_ef >= least)) {
    return tl::unexpected(
        fmt::format("only {} of thread in the wood, {} are needed", shown(l_ef), shown(least)));
  }
  const double s = std::sin(angle), c = std::cos(angle);
  const double slant = tables.constant("F_ax cos factor").value * c * c + s * s;
  if (is_in_range(screw, tables)) {
    const double d_mm = in_mm(screw.diameter), l_ef_mm = in_mm(l_ef);
    const double k_d = std::min(in_si(screw.diameter) / tables.constant("k_d diameter").value, 1.0);
    const double F_N =
        f_ax_N_mm2(d_mm, l_ef_mm, in_si(rho_k), tables) * d_mm * l_ef_mm * k_d / slant;
    return Withdrawal{quantity::newtons(F_N), true};
  }
  const Force F =
      screw.f_ax_k * screw.diameter * l_ef / slant * density_factor(rho_k, screw.rho_a, tables);
  return Withdrawal{F, false};
}

Force head_pull_through(const reference::Screw& screw, Density rho_k,
                        const reference::Tables& tables) {
  return screw.f_head_k * screw.head * screw.head * density_factor(rho_k, screw.rho_a, tables);
}

double effective_axial(int n, const reference::Tables& tables) {
  expects(n >= 1, "effective_axial: at least one screw");
  return std::pow(n, tables.constant("n_ef axial exponent").value);
}

double combined_ratio(double axial_ratio, double lateral_ratio) {
  return std::hypot(axial_ratio, lateral_ratio);
}

}  // namespace standtrue::check
