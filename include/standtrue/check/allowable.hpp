#pragma once

#include <string>
#include <vector>

#include "standtrue/check/check_all.hpp"
#include "standtrue/check/strength.hpp"

/// Strength of rails, bearers, posts and braces by allowable stresses (NDS), where the bench asks
/// for these rules: loads without factors (Purpose::allowable) against a grade's design values
/// times adjustment factors. They stand in place of EN 1995-1-1, section 6, under the same ids.
///
/// Axis 1 bends edgewise, over the wider side d, axis 2 flatwise, over the narrower side b. A prime
/// in the source (F_b') is a value with all its factors, a star (F_b*, F_c*) one without its
/// stability factor.
namespace standtrue::check {

class SectionForces;  // src/check/section_forces.hpp

// --- Values --------------------------------------------------------------------------------------

/// C_D by the shortest load of a combination: that of the listed duration which lasts as long or
/// longer. permanent 0.9; long and medium term 1.0 (ten years); short term 1.25 (seven days);
/// instantaneous 1.6 (ten minutes).   Source (seen): NDS 2018, Table 2.3.2; the pairing is ours.
[[nodiscard]] double load_duration_factor(reference::Duration duration,
                                          const reference::Tables& tables);

/// C_F of bending, tension and compression, and C_fu of bending flatwise, by the wider side; a
/// width between two listed ones counts as the wider. `sized` values take no C_F. A square has no
/// flat side.   Source (seen): NDS Supplement 2018, Table 4A; C_fu second hand.
struct SizeFactors {
  double bending = 1.0, tension = 1.0, compression = 1.0, flat = 1.0;
};
[[nodiscard]] SizeFactors us_size_factors(Length width, Length depth, bool sized,
                                          const reference::Tables& tables);

/// C_M in air of service class 3, else 1: dry service is up to 19 % moisture, as classes 1 and 2 go
/// to 20 %. Of bending it is 1 where F_b C_F <= 1150 psi, of compression where F_c C_F <= 750 psi.
/// Source (seen): NDS Supplement 2018, Table 4A.
struct WetFactors {
  double bending = 1.0, tension = 1.0, shear = 1.0, across = 1.0, compression = 1.0, modulus = 1.0;
};
[[nodiscard]] WetFactors wet_factors(const reference::Allowable& values, const SizeFactors& size,
                                     reference::ServiceClass air, const reference::Tables& tables);

/// A part's design values under loads of one duration; F_b without C_L, F_c without C_P. The factor
/// of repetitive members is 1: a bench has too few. None for timber without a grade, or thinner or
/// thicker than the grades go (2 in to 4 in, nominal).
/// Source (seen): NDS 2018, Table 4.3.1.
struct Adjusted {
  double C_D = 1.0;
  SizeFactors C_F;
  WetFactors C_M;
  Stress F_b1, F_b2, F_t, F_v, F_c_perp, F_c, E_min;
};
[[nodiscard]] OrWhy<Adjusted> adjusted_values(const model::Part& part, reference::ServiceClass air,
                                              reference::Duration duration,
                                              const reference::Tables& tables);

// --- Stability -----------------------------------------------------------------------------------

/// F_cE = 0.822 E_min'/(l_e/d)².   Source (seen): NDS 2018, 3.7.1.5.
[[nodiscard]] Stress column_buckling_stress(Stress E_min, double slenderness,
                                            const reference::Tables& tables);

/// C_P = (1 + r)/2c - √(((1 + r)/2c)² - r/c),  r = F_cE/F_c*,  c = 0.8 of sawn lumber.
/// Source (seen): NDS 2018, 3.7.1.5, eq. (3.7-1).
[[nodiscard]] double column_stability_factor(Stress F_cE, Stress F_c,
                                             const reference::Tables& tables);

/// l_e of a beam held at its ends, whatever its loads: 2.06 l_u below l_u/d = 7, 1.63 l_u + 3 d up
/// to 14.3, 1.84 l_u above.   Source (second hand): NDS 2018, Table 3.3.3, note 1.
[[nodiscard]] Length bending_length(Length l_u, Length d, const reference::Tables& tables);

/// R_B = √(l_e d/b²).   Source (seen): NDS 2018, 3.3.3.6, eq. (3.3-5).
[[nodiscard]] double beam_slenderness(Length l_e, Length b, Length d);

/// F_bE = 1.20 E_min'/R_B².   Source (seen): NDS 2018, 3.3.3.8.
[[nodiscard]] Stress beam_buckling_stress(Stress E_min, double R_B,
                                          const reference::Tables& tables);

/// C_L = (1 + r)/1.9 - √(((1 + r)/1.9)² - r/0.95),  r = F_bE/F_b*.
/// Source (seen): NDS 2018, 3.3.3.8, eq. (3.3-6).
[[nodiscard]] double beam_stability_factor(Stress F_bE, Stress F_b,
                                           const reference::Tables& tables);

// --- Together ------------------------------------------------------------------------------------

/// Stresses of a cut, all at least zero.
struct CutStresses {
  Stress f_t, f_c, f_b1, f_b2;
};

/// f_t/F_t' + f_b1/F_b1* + f_b2/F_b2*. The source has one axis of bending; the second is added.
/// Source (second hand): NDS 2018, 3.9.1, eq. (3.9-1).
[[nodiscard]] double tension_bending_ratio(const CutStresses& f, const Adjusted& F);

/// What a member may carry that can buckle: F_c' and F_b1' with C_P and C_L.
struct SlenderValues {
  Stress F_c, F_b1, F_b2, F_cE1, F_cE2, F_bE;
};

/// (f_c/F_c')² + f_b1/(F_b1' (1 - f_c/F_cE1)) + f_b2/(F_b2' (1 - f_c/F_cE2 - (f_b1/F_bE)²)).
/// Infinite where a bracket is not above zero (eq. (3.9-4)).
/// Source (second hand): NDS 2018, 3.9.2, eq. (3.9-3).
[[nodiscard]] double compression_bending_sum(const CutStresses& f, const SlenderValues& F);

/// The share of the limit: one over the number by which all stresses may be multiplied until that
/// sum is 1, so that twice the load is twice the ratio. 1 at the same loads as the sum. Not a
/// number if a stress is none. Of what is no worse than `so_far` a lower bound comes out: where the
/// worst is sought no more is needed.
[[nodiscard]] double compression_bending_ratio(const CutStresses& f, const SlenderValues& F,
                                               double so_far = 0.0);

// --- Bearing and notches -------------------------------------------------------------------------

/// C_b = (l_b + 3/8 in)/l_b for a bearing shorter than 6 in and at least 3 in from the end of the
/// member, else 1.   Contract: l_b > 0.   Source (second hand): NDS 2018, 3.10.4, eq. (3.10-2).
[[nodiscard]] double bearing_area_factor(Length l_b, Length from_end,
                                         const reference::Tables& tables);

/// V_r' = (2/3) F_v' b d_n (d_n/d)², of a piece cut to d_n on its tension side at the support.
/// Contract: 0 < d_n <= d.   Source (second hand): NDS 2018, 3.4.3.2, eq. (3.4-3).
[[nodiscard]] Force notched_shear(Stress F_v, Length b, Length d, Length d_n,
                                  const reference::Tables& tables);

// --- Findings ------------------------------------------------------------------------------------
// One per part, the worst place and combination. `forces` are those of Purpose::allowable.

/// Bending with tension or compression, without buckling.
/// Source (seen): NDS 2018, 3.3.1, 3.8.1, 3.9.1 and 3.9.2.
[[nodiscard]] std::vector<Finding> allowable_bending(const Answers& answers,
                                                     const SectionForces& forces,
                                                     const reference::Tables& tables);

/// Shear: f_v = 3 V/(2 b d), the shears of both directions as vectors.
/// Source (seen): NDS 2018, 3.4.2, eq. (3.4-2).
[[nodiscard]] std::vector<Finding> allowable_shear(const Answers& answers,
                                                   const SectionForces& forces,
                                                   const reference::Tables& tables);

/// Twist. The NDS has no rule: the largest stress of a twisted rectangle (Wood Handbook, chapter 9)
/// is held against F_v'.
/// Source (ours): F_v' as the limit of a stress by twist.
[[nodiscard]] std::vector<Finding> allowable_torsion(const Answers& answers,
                                                     const SectionForces& forces,
                                                     const reference::Tables& tables);

/// Shear of rails and bearers cut out over their seats, up to a quarter of the depth.
/// Source (second hand): NDS 2018, 3.4.3.2 and 4.4.3.2.
[[nodiscard]] std::vector<Finding> allowable_notches(const Answers& answers,
                                                     const SectionForces& forces,
                                                     const reference::Tables& tables);

/// Posts and braces as columns, bent about both axes. Sway goes by effective
/// length, a post that nothing holds upright as a cantilever of twice its height, also where the
/// answers are of second order, which is cautious. Slenderness ends at l_e/d = 50 and R_B = 50;
/// beyond the first only a push of less than a twentieth of F_cE is still judged (ours).
/// Source (seen): NDS 2018, 3.6, 3.7.1 and 3.9.2.
[[nodiscard]] std::vector<Finding> allowable_columns(const Answers& answers,
                                                     const SectionForces& forces,
                                                     const reference::Tables& tables);

/// Rails and bearers giving way sideways, between their ends, bearers joined to them and, at their
/// upper edge, a fixed sheet.
/// Source (seen): NDS 2018, 3.3.3, 3.7.1, 3.9.1 and 3.9.2.
/// Source (from memory): NDS 2018, A.11.3, of studs sheathed on one side only the depth counts.
/// Source (ours): a rail under a fixed sheet pushed along is such a stud.
[[nodiscard]] std::vector<Finding> allowable_beams(const Answers& answers,
                                                   const SectionForces& forces,
                                                   const reference::Tables& tables);

/// Pressure across the grain of rails and bearers that rest on a seat at their end.
/// Source (second hand): NDS 2018, 3.10.2 and 3.10.4.
[[nodiscard]] std::vector<Finding> allowable_seats(const Answers& answers,
                                                   const SectionForces& forces,
                                                   const reference::Tables& tables);

/// Pressure along the grain on the end of a post: F_c*.
/// Source (second hand): NDS 2018, 3.10.1.
[[nodiscard]] std::vector<Finding> allowable_post_ends(const Answers& answers,
                                                       const SectionForces& forces,
                                                       const reference::Tables& tables);

}  // namespace standtrue::check
