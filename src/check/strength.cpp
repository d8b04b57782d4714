#include "standtrue/check/strength.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;
using reference::Material;

OrWhy<double> k_mod(Material material, reference::ServiceClass air, reference::Duration duration,
                    const reference::Tables& tables) {
  const reference::MaterialFactors& factors = tables.material(material);
  const auto& value =
      factors.k_mod[static_cast<std::size_t>(air)][static_cast<std::size_t>(duration)];
  if (value) return *value;
  return tl::unexpected(fmt::format("the code gives no strength of {} in air of service class {}",
                                    reference::to_text(material), static_cast<int>(air) + 1));
}

double size_factor(Length h, const reference::Timber& timber, const reference::Tables& tables) {
  expects(h > Length{}, "size_factor: a side must be positive");
  const reference::MaterialFactors& factors = tables.material(timber.material);
  if (h >= factors.k_h_reference) return 1.0;
  if (timber.material == Material::solid_timber &&
      in_si(timber.rho_k) > tables.constant("k_h density").value) {
    return 1.0;
  }
  const double ratio = in_si(factors.k_h_reference) / in_si(h);
  return std::min(std::pow(ratio, factors.k_h_exponent), factors.k_h_max);
}

Stress compression_at_angle(Stress f_c_0, Stress f_c_90, double k_c_90, double angle) {
  expects(f_c_0 > Stress{} && f_c_90 > Stress{} && k_c_90 > 0.0,
          "compression_at_angle: strengths must be positive");
  const double s = std::sin(angle), c = std::cos(angle);
  const double across = f_c_0 / (k_c_90 * f_c_90);
  return f_c_0 / (across * s * s + c * c);
}

OrWhy<Strengths> strengths(const model::Part& part, reference::ServiceClass air,
                           reference::Duration duration, const reference::Tables& tables) {
  const reference::Timber& timber = part.timber;
  const reference::MaterialFactors& factors = tables.material(timber.material);
  const OrWhy<double> k = k_mod(timber.material, air, duration, tables);
  if (!k) return tl::unexpected(k.error());
  Strengths f;
  f.k_mod = *k;
  f.gamma_M = factors.gamma_M.value;
  f.k_m = factors.k_m.value;
  f.k_cr = factors.k_cr.value;
  f.beta_c = factors.beta_c.value;
  f.k_h = {size_factor(part.depth, timber, tables), size_factor(part.width, timber, tables)};
  f.k_h_tension = size_factor(std::max(part.width, part.depth), timber, tables);
  const auto design = [&f](Stress f_k) { return design_value(f_k, f.k_mod, f.gamma_M); };
  f.f_m = {f.k_h.y * design(timber.f_m_k), f.k_h.z * design(timber.f_m_k)};
  f.f_t_0 = f.k_h_tension * design(timber.f_t_0_k);
  f.f_c_0 = design(timber.f_c_0_k);
  f.f_c_90 = design(timber.f_c_90_k);
  f.f_v = design(timber.f_v_k);
  for (const Stress& strength : {f.f_m.y, f.f_m.z, f.f_t_0, f.f_c_0, f.f_c_90, f.f_v}) {
    if (!(strength > Stress{})) {
      return tl::unexpected(fmt::format("a strength of {} is not known", timber.key));
    }
  }
  return f;
}

}  // namespace standtrue::check
