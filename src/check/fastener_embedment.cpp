#include <fmt/format.h>

#include <cmath>

#include "check/fastener_units.hpp"
#include "standtrue/check/fasteners.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

Stress newtons_per_mm2(double value) { return quantity::pascals(1e6 * value); }

double k_90(double d_mm, const reference::Timber& timber, const reference::Tables& tables) {
  const double slope = tables.constant("k_90 slope").value * d_mm;
  if (timber.material == reference::Material::lvl) return tables.constant("k_90 LVL").value + slope;
  return tables
             .constant(timber.species == reference::Species::softwood ? "k_90 softwood"
                                                                      : "k_90 hardwood")
             .value +
         slope;
}

}  // namespace

Stress embedment_bolt(Length d, const reference::Timber& timber, double angle,
                      const reference::Tables& tables) {
  const double d_mm = in_mm(d), rho_kg_m3 = in_si(timber.rho_k);
  expects(d_mm > 0.0 && rho_kg_m3 > 0.0, "embedment_bolt: diameter and density must be positive");
  const double f_h_0 = tables.constant("f_h factor").value *
                       (1.0 - tables.constant("f_h slope").value * d_mm) * rho_kg_m3;
  const double s = std::sin(angle), c = std::cos(angle);
  return newtons_per_mm2(f_h_0 / (k_90(d_mm, timber, tables) * s * s + c * c));
}

Stress embedment_screw(Length d_ef, const reference::Timber& timber, bool predrilled, double angle,
                       const reference::Tables& tables) {
  const double d_mm = in_mm(d_ef), rho_kg_m3 = in_si(timber.rho_k);
  expects(d_mm > 0.0 && rho_kg_m3 > 0.0, "embedment_screw: diameter and density must be positive");
  if (in_si(d_ef) > tables.constant("bolt rules above").value) {
    return embedment_bolt(d_ef, timber, angle, tables);
  }
  if (predrilled) return embedment_bolt(d_ef, timber, 0.0, tables);  // the same formula along grain
  return newtons_per_mm2(tables.constant("f_h factor").value * rho_kg_m3 *
                         std::pow(d_mm, tables.constant("f_h exponent").value));
}

OrWhy<Stress> embedment_panel(Length d_ef, Length thickness, Density rho_k,
                              reference::Material material, const reference::Tables& tables) {
  const double d_mm = in_mm(d_ef), t_mm = in_mm(thickness), rho_kg_m3 = in_si(rho_k);
  expects(d_mm > 0.0 && t_mm > 0.0, "embedment_panel: diameter and thickness must be positive");
  switch (material) {
    case reference::Material::plywood:
      return newtons_per_mm2(tables.constant("f_h plywood").value * rho_kg_m3 *
                             std::pow(d_mm, tables.constant("f_h exponent").value));
    case reference::Material::osb_2:
    case reference::Material::osb_3:
      return newtons_per_mm2(tables.constant("f_h board").value *
                             std::pow(d_mm, tables.constant("f_h board exponent").value) *
                             std::pow(t_mm, tables.constant("f_h board thickness exponent").value));
    default:
      return tl::unexpected(fmt::format("the code gives no strength of fasteners in {}",
                                        reference::to_text(material)));
  }
}

Moment yield_moment(Stress f_u, Length d, const reference::Tables& tables) {
  const double f_u_N_mm2 = 1e-6 * in_si(f_u), d_mm = in_mm(d);
  expects(f_u_N_mm2 > 0.0 && d_mm > 0.0, "yield_moment: strength and diameter must be positive");
  const double M_N_mm = tables.constant("M_y factor").value * f_u_N_mm2 *
                        std::pow(d_mm, tables.constant("M_y exponent").value);
  return quantity::newton_metres(1e-3 * M_N_mm);
}

Length effective_diameter(const reference::Screw& screw, Length shank_in_point_side,
                          const reference::Tables& tables) {
  const Length enough = tables.constant("d_ef shank depth").value * screw.diameter;
  if (shank_in_point_side >= enough) return screw.shank;
  return tables.constant("d_ef root").value * screw.root;
}

Length thread_length(const reference::Screw& screw, Length length) {
  return length <= screw.all_thread_to ? length : screw.thread_share * length;
}

}  // namespace standtrue::check
