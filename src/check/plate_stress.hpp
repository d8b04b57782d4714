#pragma once

#include "standtrue/bench/bench.hpp"
#include "standtrue/solve/plate_response.hpp"

/// What the forces at one place of a sheet use of its strength. All numbers SI (N, m, Pa). What is
/// no number stays none.
namespace standtrue::check {

enum class PlateState { bending, rolling, panel_shear };

/// Design strengths of a sheet along its plate's own x and y, under loads of one duration. Zero:
/// not known.
struct PlateStrengths {
  double k_mod = 0.0, gamma_M = 0.0;
  double m_x = 0.0, m_y = 0.0, t_x = 0.0, t_y = 0.0, c_x = 0.0, c_y = 0.0;
  double r_x = 0.0, r_y = 0.0, v = 0.0;
};

/// A sheet's section as its stresses see it.
struct PlateSection {
  double W = 0.0;          ///< per width
  double flat = 0.0;       ///< thickness that works in the plane
  double thickness = 0.0;  ///< of all layers
  double shape = 0.0;      ///< largest shear stress over the mean one
};

/// Stress and strength at one place.
struct PlateUse {
  double stress = 0.0, strength = 0.0;
  bool of_x = true;
  double force = 0.0;  ///< the moment or shear per width that leads
  [[nodiscard]] double ratio() const { return stress / strength; }
};

[[nodiscard]] PlateUse plate_use(PlateState state, const solve::PlateForces& f,
                                 const PlateStrengths& s, const PlateSection& section);

/// Never less than the ratio of `plate_use`, and quick to find: most places can be passed over.
class PlateUseBound {
 public:
  PlateUseBound(const PlateStrengths& s, const PlateSection& section);
  [[nodiscard]] double of(PlateState state, const solve::PlateForces& f) const;

 private:
  solve::PlateForces ratio_;  ///< of one of each force by itself, pulled or pushed
};

}  // namespace standtrue::check
