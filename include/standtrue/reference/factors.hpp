#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/source.hpp"

/// The factors of EN 1990 and EN 1995-1-1. Symbols as printed there.
namespace standtrue::reference {

/// What a wood-based part is made of, as far as gamma_M, kmod and kdef care.
enum class Material { solid_timber, glulam, lvl, plywood, osb_2, osb_3, mdf };
inline constexpr std::size_t material_count = 7;

/// 1 heated indoors, 2 covered or unheated, 3 wetter.
enum class ServiceClass { sc1, sc2, sc3 };

enum class Duration { permanent, long_term, medium_term, short_term, instantaneous };

/// What changes with the material and not with anything else.
struct MaterialFactors {
  Material material = Material::solid_timber;
  Sourced<double> gamma_M;
  Sourced<double> k_cr;    ///< share of the width that carries shear
  Sourced<double> k_m;     ///< rectangles bent about both axes
  Sourced<double> beta_c;  ///< straightness factor of columns; 0 where the code gives none
  /// k_h = min((h_ref/h)^k_h_exponent, k_h_max) for h < h_ref, else 1. Exponent 0: no size effect.
  quantity::Length k_h_reference;
  double k_h_exponent = 0.0;
  double k_h_max = 1.0;
  Source k_h_source;
  /// By service class; empty where the code gives none: the material does not belong in that air.
  std::array<std::optional<double>, 3> k_def;
  std::array<Source, 3> k_def_source;
  /// By service class, then duration; empty where the code gives none.
  std::array<std::array<std::optional<double>, 5>, 3> k_mod;
  std::array<Source, 3> k_mod_source;

  [[nodiscard]] std::optional<Sourced<double>> k_def_in(ServiceClass air) const;
  [[nodiscard]] std::optional<Sourced<double>> k_mod_in(ServiceClass air, Duration duration) const;
};

/// k_c,90 of a member under bearing pressure, where the clear distance between bearings is at
/// least 2h; else 1. EN 1995-1-1, 6.1.5.
struct BearingFactor {
  std::string key;  ///< "solid softwood, discrete support"
  double k_c_90 = 1.0;
  Source source;
};

/// Combination factors of a variable action. EN 1990, Table A1.1.
struct CombinationFactors {
  std::string key;  ///< "storage", "people"
  double psi_0 = 1.0;
  double psi_1 = 1.0;
  double psi_2 = 1.0;
  Source source;
};

/// Least spacings of fasteners as multiples of the diameter d; alpha is the angle of force to
/// grain:
///     a1 = (a1 + a1_cos |cos α|) d     a2 = (a2 + a2_sin |sin α|) d
///     a3t = max((a3t + a3t_cos cos α) d, a3t_min)     a3c = max(a3c, a3c_one + a3c_sin |sin α|) d
///     a4t = max(a4t + a4t_sin sin α, a4c) d           a4c = a4c d
/// For axially loaded screws a3c and a4c are the end and edge distance of the thread's centre.
/// EN 1995-1-1, Tables 8.2, 8.4 and 8.6.
struct SpacingRule {
  std::string key;  ///< "screws under 5 mm", "screws predrilled", "bolts", "screws axial" ...
  double a1 = 0.0, a1_cos = 0.0;
  double a2 = 0.0, a2_sin = 0.0;
  double a3t = 0.0, a3t_cos = 0.0;
  quantity::Length a3t_min;
  double a3c = 0.0, a3c_one = 0.0, a3c_sin = 0.0;
  double a4t = 0.0, a4t_sin = 0.0;
  double a4c = 0.0;
  RecordSource source;
};

/// A number of a formula or a rule: "gamma_Q", "K_ser divisor". The keys are those of
/// reference/constants.yaml. Most have no unit; a length or density is in SI.
struct Constant {
  std::string key;
  double value = 0.0;
  Source source;
};

/// A word for the air of the shop and what it means.
struct Air {
  std::string key;  ///< "heated", "unheated", "outdoors"
  std::vector<std::string> names;
  ServiceClass service_class = ServiceClass::sc2;
  Source source;
};

[[nodiscard]] std::string_view to_text(Material material);
[[nodiscard]] std::string_view to_text(Duration duration);

}  // namespace standtrue::reference
