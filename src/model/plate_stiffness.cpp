#include <algorithm>

#include "model/idealising.hpp"

// All numbers SI.
namespace standtrue::model {

using quantity::in_si;

namespace {

double known(quantity::Stress value, double otherwise) {
  return in_si(value) > 0.0 ? in_si(value) : otherwise;
}

}  // namespace

/// From the published moduli of the sheet, which refer to its full thickness; layers that are not
/// glued bend beside each other, and only the lowest is held in its plane. Where a modulus is not
/// known: in the plane that of bending; through the thickness that of the plane; in the plane a
/// sixteenth of the lower bending modulus (ours, as softwood). Poisson's ratio of sheets is not in
/// their tables and left out.
PlateStiffness plate_stiffness(const bench::Sheet& sheet, bool grain_along_own_x) {
  const reference::Panel& p = sheet.panel;
  const double t = in_si(p.thickness), n = sheet.layers;
  const double I = t * t * t / 12.0;
  double E_m_0 = in_si(p.E_m_0), E_m_90 = known(p.E_m_90, E_m_0);
  double E_t_0 = known(p.E_t_0, E_m_0), E_t_90 = known(p.E_t_90, E_m_90);
  const double G_v = known(p.G_v, std::min(E_m_0, E_m_90) / 16.0);
  double G_r_0 = known(p.G_r_0, G_v), G_r_90 = known(p.G_r_90, G_v);
  if (!grain_along_own_x) {
    std::swap(E_m_0, E_m_90);
    std::swap(E_t_0, E_t_90);
    std::swap(G_r_0, G_r_90);
  }
  const bool glued = sheet.between_layers == bench::Bond::glued;
  // Glued layers stand (n² - 1) t³/12 each, on average, off the common middle.
  const double steiner = glued ? n * (n * n - 1.0) * I : 0.0;
  const double flat = glued ? n : 1.0;
  constexpr double shear_share = 5.0 / 6.0;  // G_r of a sheet is defined by 6/5 V²/(2 G_r t)
  PlateStiffness s;
  s.A_11 = flat * E_t_0 * t;
  s.A_22 = flat * E_t_90 * t;
  s.A_66 = flat * G_v * t;
  s.D_11 = n * E_m_0 * I + steiner * E_t_0;
  s.D_22 = n * E_m_90 * I + steiner * E_t_90;
  s.D_66 = (n * I + steiner) * G_v;
  s.S_x = n * shear_share * G_r_0 * t;
  s.S_y = n * shear_share * G_r_90 * t;
  return s;
}

}  // namespace standtrue::model
