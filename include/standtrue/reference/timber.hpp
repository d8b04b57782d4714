#pragma once

#include <optional>
#include <string>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/factors.hpp"
#include "standtrue/reference/source.hpp"

namespace standtrue::reference {

enum class Species { softwood, hardwood };

/// Design values of a grade under allowable-stress rules: dry, for a load of ten years, before any
/// adjustment.
struct Allowable {
  quantity::Stress F_b;       ///< bending
  quantity::Stress F_t;       ///< tension along the grain
  quantity::Stress F_v;       ///< shear
  quantity::Stress F_c_perp;  ///< compression across
  quantity::Stress F_c;       ///< compression along
  quantity::Stress E_min;     ///< for buckling
  double specific_gravity = 0.0;
  bool sized = false;  ///< already of its size: no size factor
};

/// A strength class. Characteristic (5 %) strengths of the reference size, mean moduli free of
/// shear, moisture content about 12 %. A grade of allowable-stress rules has `allowable`, and its
/// characteristic strengths are made from those: for joints alone, members are judged by these.
struct Timber {
  std::string key;                 ///< "C16"
  std::vector<std::string> names;  ///< other words for it: "softwood"
  Species species = Species::softwood;
  Material material = Material::solid_timber;
  quantity::Stress f_m_k;     ///< bending
  quantity::Stress f_t_0_k;   ///< tension along the grain
  quantity::Stress f_t_90_k;  ///< tension across the grain
  quantity::Stress f_c_0_k;   ///< compression along
  quantity::Stress f_c_90_k;  ///< compression across
  quantity::Stress f_v_k;     ///< shear; meant for use with k_cr
  quantity::Stress E_0_mean;
  quantity::Stress E_0_05;
  quantity::Stress E_90_mean;
  quantity::Stress G_mean;
  quantity::Density rho_k;
  quantity::Density rho_mean;
  std::optional<Allowable> allowable;
  RecordSource source;
};

/// Scatter of a property over many pieces, for odds and for low and mean timber.
struct Scatter {
  std::string key;  ///< "E graded", "E unmarked", "f_m", "rho", "panel E", "K_ser" ...
  enum class Shape { normal, lognormal } shape = Shape::lognormal;
  double cov = 0.0;  ///< standard deviation over mean
  Source source;
};

/// Correlation of two scattering properties.
struct Correlation {
  std::string key;  ///< "f_m, E"
  double rho = 0.0;
  Source source;
};

}  // namespace standtrue::reference
