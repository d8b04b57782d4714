#pragma once

#include <optional>
#include <string>
#include <tl/expected.hpp>

#include "standtrue/model/parts.hpp"
#include "standtrue/quantity/quantity.hpp"
#include "standtrue/reference/tables.hpp"

/// Design strengths of timber and the formulas of EN 1995-1-1, section 6, for a rectangle. Ratios
/// are demand over resistance: 1 is the limit.
namespace standtrue::check {

using quantity::Force;
using quantity::Length;
using quantity::Moment;
using quantity::SecondMoment;
using quantity::Stress;

/// An answer, or why there is none: for the `why` of a finding.
template <class T>
using OrWhy = tl::expected<T, std::string>;

/// A value about each of the local axes y and z.
template <class T>
struct AboutAxes {
  T y{}, z{};
};

// --- Strengths -----------------------------------------------------------------------------------

/// X_d = k_mod X_k / γ_M.
/// Source (second hand): EN 1995-1-1, 2.4.1, eq. (2.14).
/// Source (second hand): EN 1995-1-1, 2.4.3, eq. (2.17), of joints.
template <class Quantity>
[[nodiscard]] Quantity design_value(Quantity X_k, double k_mod, double gamma_M) {
  return X_k * (k_mod / gamma_M);
}

/// Of a material in this air under loads of this duration; none where the code gives none.
/// Source (second hand): EN 1995-1-1, Table 3.1.
/// Source (second hand): EN 1995-1-1, Table 3.1, MDF.
[[nodiscard]] OrWhy<double> k_mod(reference::Material material, reference::ServiceClass air,
                                  reference::Duration duration, const reference::Tables& tables);

/// k_h = min((h_ref/h)^s, k_h,max) for h < h_ref, else 1; h is the depth in bending, the larger
/// side in tension. 1 for solid timber over the density to which the rule goes.
/// Source (second hand): EN 1995-1-1, 3.2(3), eq. (3.1).
/// Source (second hand): EN 1995-1-1, 3.3(3), eq. (3.2).
/// Source (second hand): EN 1995-1-1, 3.4(3), eq. (3.3).
[[nodiscard]] double size_factor(Length h, const reference::Timber& timber,
                                 const reference::Tables& tables);

/// Design strengths of one part under loads of one duration.
struct Strengths {
  double k_mod = 0.0, gamma_M = 0.0, k_m = 0.0, k_cr = 0.0, beta_c = 0.0;
  AboutAxes<double> k_h;  ///< bending about y (over the depth), about z (over the width)
  double k_h_tension = 1.0;
  AboutAxes<Stress> f_m;
  Stress f_t_0, f_c_0, f_c_90, f_v;
};
[[nodiscard]] OrWhy<Strengths> strengths(const model::Part& part, reference::ServiceClass air,
                                         reference::Duration duration,
                                         const reference::Tables& tables);

// --- Stresses ------------------------------------------------------------------------------------

/// σ_m = M / W, W = b h²/6 about y and h b²/6 about z.
[[nodiscard]] AboutAxes<Stress> bending_stress(AboutAxes<Moment> M, Length width, Length depth);

struct Shears {
  Force y, z;
};
/// τ = 1.5 V / (b_ef h) at the middle, b_ef = k_cr b; the shears of both directions meet there and
/// are added as vectors.
/// Source (second hand): EN 1995-1-1, 6.1.7, eq. (6.13a).
/// Source (second hand): EN 1995-1-1, 6.1.7(2), k_cr.
/// Source (ours): shears of both directions added as vectors.
[[nodiscard]] Stress shear_stress(Shears V, Length width, Length depth, double k_cr,
                                  const reference::Tables& tables);

/// Largest stress of a twisted rectangle, at the middle of the longer side:
///     τ = (T/J) b [1 - (8/π²) Σ_odd 1/(n² cosh(nπh/2b))],  b the smaller side.
/// Source (from memory): Timoshenko & Goodier, Theory of Elasticity, art. 109.
[[nodiscard]] Stress torsion_stress(Moment T, SecondMoment J, Length width, Length depth);

// --- Ratios --------------------------------------------------------------------------------------

/// Bending about both axes: the larger of
///     σ_my/f_my + k_m σ_mz/f_mz    and    k_m σ_my/f_my + σ_mz/f_mz.
/// Signs are ignored.
/// Source (second hand): EN 1995-1-1, 6.1.6, eq. (6.11) and (6.12).
[[nodiscard]] double bending_ratio(AboutAxes<Stress> sigma_m, AboutAxes<Stress> f_m, double k_m);

/// σ_t/f_t + bending.
/// Source (second hand): EN 1995-1-1, 6.2.3, eq. (6.17) and (6.18).
[[nodiscard]] double bending_tension_ratio(AboutAxes<Stress> sigma_m, Stress sigma_t,
                                           const Strengths& f);
/// (σ_c/f_c)² + bending.
/// Source (second hand): EN 1995-1-1, 6.2.4, eq. (6.19) and (6.20).
[[nodiscard]] double bending_compression_ratio(AboutAxes<Stress> sigma_m, Stress sigma_c,
                                               const Strengths& f);

/// k_shape of a rectangle, min(1 + 0.05 h/b, 1.3), h the larger side. The text before A2:2014 has
/// more.
/// Source (from memory): EN 1995-1-1, 6.1.8, eq. (6.15).
[[nodiscard]] double k_shape(Length width, Length depth, const reference::Tables& tables);

/// λ_rel = (λ/π) √(f_c,0,k/E_0.05), λ = L_ef √12 / h; h the side that bends.
/// Source (second hand): EN 1995-1-1, 6.3.2, eq. (6.21) and (6.22).
[[nodiscard]] double relative_slenderness(Length L_ef, Length side, Stress f_c_0_k, Stress E_0_05);

/// k_c = 1/(k + √(k² - λ_rel²)), k = (1 + β_c (λ_rel - 0.3) + λ_rel²)/2; 1 up to λ_rel = 0.3.
/// Source (second hand): EN 1995-1-1, 6.3.2, eq. (6.25) to (6.29).
[[nodiscard]] double buckling_factor(double lambda_rel, double beta_c,
                                     const reference::Tables& tables);

/// k_c about both axes; none where neither λ_rel is over 0.3 and the column is not slender.
/// Source (second hand): EN 1995-1-1, 6.3.2(2).
[[nodiscard]] AboutAxes<std::optional<double>> buckling_factors(AboutAxes<double> lambda_rel,
                                                                double beta_c,
                                                                const reference::Tables& tables);

/// A column bent about both axes: the larger of
///     σ_c/(k_cy f_c) + σ_my/f_my + k_m σ_mz/f_mz,   σ_c/(k_cz f_c) + k_m σ_my/f_my + σ_mz/f_mz;
/// without k_c, bending_compression_ratio.
/// Source (second hand): EN 1995-1-1, 6.3.2, eq. (6.23) and (6.24).
[[nodiscard]] double column_ratio(AboutAxes<Stress> sigma_m, Stress sigma_c, const Strengths& f,
                                  AboutAxes<std::optional<double>> k_c);

/// Critical bending stress. Solid softwood: 0.78 b² E_0.05/(h l_ef); others
/// π √(E_0.05 I_z G_0.05 J)/(l_ef W_y), G_0.05 = E_0.05/16.
/// Source (second hand): EN 1995-1-1, 6.3.3, eq. (6.31).
/// Source (second hand): EN 1995-1-1, 6.3.3, eq. (6.32).
/// Source (from memory): EN 384, G = E/16.
[[nodiscard]] Stress critical_bending_stress(const reference::Timber& timber, Length width,
                                             Length depth, SecondMoment J, Length l_ef,
                                             const reference::Tables& tables);

/// k_crit: 1 up to λ_rel,m = 0.75, then 1.56 - 0.75 λ, above 1.4 1/λ².
/// Source (second hand): EN 1995-1-1, 6.3.3, eq. (6.34).
[[nodiscard]] double k_crit(double lambda_rel_m, const reference::Tables& tables);

/// Strength in compression at `angle` to the grain (radians):
///     f_c,0 / (f_c,0/(k_c,90 f_c,90) sin² + cos²).
/// Source (second hand): EN 1995-1-1, 6.2.2, eq. (6.16).
[[nodiscard]] Stress compression_at_angle(Stress f_c_0, Stress f_c_90, double k_c_90, double angle);

/// A member cut out at its seat: what is left is h_ef = h - notch, the middle of the seat lies x
/// from the corner of the cut, whose slope is 1 in `slope` (0: square). α = h_ef/h.
///     k_v = min(1, k_n (1 + 1.1 i^1.5/√h) / (√h (√(α(1-α)) + 0.8 (x/h) √(1/α - α²)))), h in mm.
/// A cut on the side away from the seat: 1.   Contract: 0 < notch < depth.
/// Source (second hand): EN 1995-1-1, 6.5.2, eq. (6.61) to (6.63).
struct Notch {
  Length depth, notch, x;
  double slope = 0.0;
};
[[nodiscard]] double notch_factor(const Notch& notch, reference::Material material,
                                  const reference::Tables& tables);

/// Effective contact length at the end of a member: l + min(30 mm, l, l_1/2) on its inner side,
/// nothing past the end.
/// Source (second hand): EN 1995-1-1, 6.1.5(1).
[[nodiscard]] Length effective_contact(Length contact, Length clear,
                                       const reference::Tables& tables);

/// k_c,90 on single bearings, where the clear distance is at least twice the depth; else 1.
/// Source (second hand): EN 1995-1-1, 6.1.5(3) and (4).
[[nodiscard]] double bearing_factor(const reference::Timber& timber, Length clear, Length depth,
                                    const reference::Tables& tables);

}  // namespace standtrue::check
