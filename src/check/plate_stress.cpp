#include "check/plate_stress.hpp"

#include <array>
#include <cmath>
#include <utility>

namespace standtrue::check {

namespace {

/// Exactly, unlike `is_worse`: ratios of unit forces are small. Nothing is worse than what is no
/// number.
bool exceeds(double b, double a) { return !std::isnan(a) && !(b <= a); }
double worse_of(double a, double b) { return exceeds(b, a) ? b : a; }
PlateUse worse_of(const PlateUse& a, const PlateUse& b) {
  return exceeds(b.ratio(), a.ratio()) ? b : a;
}

/// |M|/W with |N|/t brought to the scale of bending.
PlateUse bending_use(double M, double N, double f_m, double f_t, double f_c,
                     const PlateSection& section, bool of_x) {
  constexpr double stand_in = 0.5;  // of the bending strength, where that in the plane is not known
  const double known = N > 0.0 ? f_t : f_c;
  const double flat = known > 0.0 ? known : stand_in * f_m;
  const double stress = std::abs(M) / section.W + std::abs(N) / section.flat * f_m / flat;
  return {stress, f_m, of_x, M};
}

}  // namespace

PlateUse plate_use(PlateState state, const solve::PlateForces& f, const PlateStrengths& s,
                   const PlateSection& section) {
  const double sheared = section.shape / section.thickness;
  switch (state) {
    case PlateState::bending:
      return worse_of(bending_use(f.M_x, f.N_x, s.m_x, s.t_x, s.c_x, section, true),
                      bending_use(f.M_y, f.N_y, s.m_y, s.t_y, s.c_y, section, false));
    case PlateState::rolling:
      return worse_of(PlateUse{sheared * std::abs(f.Q_x), s.r_x, true, f.Q_x},
                      PlateUse{sheared * std::abs(f.Q_y), s.r_y, false, f.Q_y});
    case PlateState::panel_shear:
      break;
  }
  return {std::abs(f.M_xy) / section.W + std::abs(f.N_xy) / section.flat, s.v, true, f.M_xy};
}

PlateUseBound::PlateUseBound(const PlateStrengths& s, const PlateSection& section) {
  using Forces = solve::PlateForces;
  const std::array<std::pair<double Forces::*, PlateState>, 8> all{
      {{&Forces::N_x, PlateState::bending},
       {&Forces::N_y, PlateState::bending},
       {&Forces::N_xy, PlateState::panel_shear},
       {&Forces::M_x, PlateState::bending},
       {&Forces::M_y, PlateState::bending},
       {&Forces::M_xy, PlateState::panel_shear},
       {&Forces::Q_x, PlateState::rolling},
       {&Forces::Q_y, PlateState::rolling}}};
  for (const auto& [force, state] : all) {
    for (const double one : {1.0, -1.0}) {
      Forces alone{};
      alone.*force = one;
      ratio_.*force = worse_of(ratio_.*force, plate_use(state, alone, s, section).ratio());
    }
  }
}

double PlateUseBound::of(PlateState state, const solve::PlateForces& f) const {
  switch (state) {
    case PlateState::bending:
      return worse_of(ratio_.M_x * std::abs(f.M_x) + ratio_.N_x * std::abs(f.N_x),
                      ratio_.M_y * std::abs(f.M_y) + ratio_.N_y * std::abs(f.N_y));
    case PlateState::rolling:
      return worse_of(ratio_.Q_x * std::abs(f.Q_x), ratio_.Q_y * std::abs(f.Q_y));
    case PlateState::panel_shear:
      break;
  }
  return ratio_.M_xy * std::abs(f.M_xy) + ratio_.N_xy * std::abs(f.N_xy);
}

}  // namespace standtrue::check
