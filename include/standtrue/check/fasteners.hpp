#pragma once

#include <string>

#include "standtrue/check/strength.hpp"
#include "standtrue/reference/tables.hpp"

/// Dowel-type fasteners one by one: EN 1995-1-1, section 8, characteristic values. The formulas
/// hold in N, mm and kg/m³ only; what is typed here converts. Contract of all: positive sizes.
namespace standtrue::check {

using quantity::Area;
using quantity::Density;

// --- Embedment and yield -------------------------------------------------------------------------

/// Screws and nails with d_ef up to 6 mm in timber: 0.082 ρ_k d^-0.3, pre-drilled
/// 0.082 (1 - 0.01 d) ρ_k; thicker ones as bolts.
/// Source (second hand): EN 1995-1-1, 8.3.1.1(5), eq. (8.15) and (8.16).
/// Source (second hand): EN 1995-1-1, 8.7.1(4) and (5).
[[nodiscard]] Stress embedment_screw(Length d_ef, const reference::Timber& timber, bool predrilled,
                                     double angle, const reference::Tables& tables);

/// Bolts, `angle` between force and grain: f_h,0/(k_90 sin² + cos²), f_h,0 = 0.082 (1 - 0.01 d)
/// ρ_k, k_90 = 1.35 (softwood), 1.30 (LVL), 0.90 (hardwood) + 0.015 d.
/// Source (second hand): EN 1995-1-1, 8.5.1.1(2), eq. (8.31) to (8.33).
[[nodiscard]] Stress embedment_bolt(Length d, const reference::Timber& timber, double angle,
                                    const reference::Tables& tables);

/// Screws and nails in a panel: plywood 0.11 ρ_k d^-0.3, OSB 65 d^-0.7 t^0.1. No rule for other
/// boards.
/// Source (second hand): EN 1995-1-1, 8.3.1.3(3), eq. (8.20) and (8.22).
[[nodiscard]] OrWhy<Stress> embedment_panel(Length d_ef, Length thickness, Density rho_k,
                                            reference::Material material,
                                            const reference::Tables& tables);

/// M_y,Rk = 0.3 f_u d^2.6 of round bolts and nails.
/// Source (second hand): EN 1995-1-1, 8.3.1.1(4) and 8.5.1.1(1), eq. (8.14) and (8.30).
[[nodiscard]] Moment yield_moment(Stress f_u, Length d, const reference::Tables& tables);

/// d_ef: the smooth shank where it reaches at least 4 d into the point-side piece, else 1.1 times
/// the root of the thread.
/// Source (second hand): EN 1995-1-1, 8.7.1(2) and (3).
[[nodiscard]] Length effective_diameter(const reference::Screw& screw, Length shank_in_point_side,
                                        const reference::Tables& tables);

/// The threaded part: the whole of short screws, a share of longer ones.
/// Source (common practice): how hardened wood screws are threaded.
[[nodiscard]] Length thread_length(const reference::Screw& screw, Length length);

// --- Across the fastener -------------------------------------------------------------------------

/// One shear plane. `rope` is F_ax,Rk/4, already part of `F`; not more than a share of the rest.
struct Lateral {
  Force F;
  char mode = '?';  ///< letter of the code's figure 8.2 (timber) or 8.3 (steel)
  Force rope;
};

struct TwoTimbers {
  Stress f_h_1, f_h_2;
  Length t_1, t_2;  ///< head side (a panel too), point side
  Length d;
  Moment M_y;
  Force F_ax;               ///< withdrawal of this fastener; zero: no rope effect
  double rope_limit = 0.0;  ///< of the Johansen part: 1 for screws, 0.25 for bolts
};
/// Least of the modes a to f of timber or panel on timber, single shear.
/// Source (second hand): EN 1995-1-1, 8.2.2, eq. (8.6).
/// Source (second hand): EN 1995-1-1, 8.2.2(2), the limit of the rope effect.
[[nodiscard]] Lateral timber_to_timber(const TwoTimbers& joint, const reference::Tables& tables);

struct SteelAndTimber {
  Length plate;       ///< thickness
  bool tight = true;  ///< hole clearance below 0.1 d: a thick plate clamps
  Stress f_h;
  Length t_1;  ///< point side
  Length d;
  Length d_nominal;  ///< outside of the thread, against which a plate is thin or thick
  Moment M_y;
  Force F_ax;
  double rope_limit = 0.0;
};
/// Single shear: thin plate up to d/2, thick and tight from d on, between by line.
/// Source (second hand): EN 1995-1-1, 8.2.3, eq. (8.9) and (8.10).
/// Source (second hand): EN 1995-1-1, 8.2.3(1), holes of a thick plate.
[[nodiscard]] Lateral steel_to_timber(const SteelAndTimber& joint, const reference::Tables& tables);

/// Effective number of n fasteners in a row along the grain, a_1 apart: n^k_ef, k_ef by line
/// between 1 at 14 d, 0.85 at 10 d, 0.7 at 7 d and (pre-drilled) 0.5 at 4 d. Closer: 1 fastener.
/// Source (second hand): EN 1995-1-1, 8.3.1.1(8), eq. (8.17), Table 8.1.
[[nodiscard]] double effective_in_row(int n, Length a_1, Length d, bool predrilled,
                                      const reference::Tables& tables);

/// Of bolts: min(n, n^0.9 (a_1/13d)^0.25); one alone is one.
/// Source (second hand): EN 1995-1-1, 8.5.1.1(4), eq. (8.34).
[[nodiscard]] double effective_bolts(int n, Length a_1, Length d, const reference::Tables& tables);

/// F_90,Rk = 14 b √(h_e/(1 - h_e/h)) (N, mm) of a force across the grain on fasteners whose
/// farthest lies h_e from the loaded edge. Contract: h_e < h.
/// Source (second hand): EN 1995-1-1, 8.1.4(3), eq. (8.4).
[[nodiscard]] Force splitting_resistance(Length b, Length h_e, Length h,
                                         const reference::Tables& tables);

// --- Along the fastener --------------------------------------------------------------------------

struct Withdrawal {
  Force F;
  bool by_formula = false;  ///< eq. (8.38), else by the usual measured value, eq. (8.40a)
};
/// One screw at `angle` to the grain (radians, at least 30 degrees), thread l_ef in the timber.
/// 6 to 12 mm with root/d from 0.6 to 0.75: f_ax d l_ef k_d/(1.2 cos² + sin²),
/// f_ax = 0.52 d^-0.5 l_ef^-0.1 ρ_k^0.8, k_d = min(d/8, 1); others: f_ax,k d l_ef (ρ_k/ρ_a)^0.8
/// over the same. None for less than 6 d of thread or along the grain.
/// Source (second hand): EN 1995-1-1, 8.7.2(4) to (6), eq. (8.38) to (8.40a).
/// Source (second hand): EN 1995-1-1, 8.7.2(2) to (5), the range of the rule.
[[nodiscard]] OrWhy<Withdrawal> withdrawal(const reference::Screw& screw, Length l_ef,
                                           Density rho_k, double angle,
                                           const reference::Tables& tables);

/// f_head,k d_h² (ρ_k/ρ_a)^0.8.
/// Source (second hand): EN 1995-1-1, 8.7.2(6), eq. (8.40b).
[[nodiscard]] Force head_pull_through(const reference::Screw& screw, Density rho_k,
                                      const reference::Tables& tables);

/// n_ef = n^0.9 of screws pulled together.
/// Source (second hand): EN 1995-1-1, 8.7.2(8), eq. (8.41).
[[nodiscard]] double effective_axial(int n, const reference::Tables& tables);

/// √((F_ax/F_ax,Rd)² + (F_v/F_v,Rd)²), whose square is the rule's sum: proportional to the load.
/// Source (second hand): EN 1995-1-1, 8.3.3(2) and 8.7.3, eq. (8.28).
[[nodiscard]] double combined_ratio(double axial_ratio, double lateral_ratio);

// --- Where they may sit --------------------------------------------------------------------------

/// Least distances of one pattern. `angle` is that between force and grain, 0 to π/2.
struct Spacings {
  Length a_1, a_2;    ///< between fasteners along and across the grain
  Length a_3t, a_3c;  ///< to a loaded and an unloaded end
  Length a_4t, a_4c;  ///< to a loaded and an unloaded edge
};
enum class Plate { none, panel, steel };  ///< a_1 and a_2 count 0.85 and 0.7 times beside them

/// Least distances by Tables 8.2 (screws), 8.4 (bolts) and 8.6 (screws that are pulled).
/// Source (second hand): EN 1995-1-1, Table 8.2.
/// Source (second hand): EN 1995-1-1, Table 8.4.
/// Source (second hand): EN 1995-1-1, Table 8.6.
/// Source (second hand): EN 1995-1-1, 8.3.1.3(1) and 8.3.1.4(1), beside panels and plates.
[[nodiscard]] Spacings least_spacings(const reference::SpacingRule& rule, Length d, double angle,
                                      Plate plate, const reference::Tables& tables);

/// The rule for screws of this diameter in this timber: dense timber and thick screws ask for more.
/// Source (second hand): EN 1995-1-1, Table 8.2, its columns.
/// Source (second hand): EN 1995-1-1, 8.7.1(5), screws as bolts.
[[nodiscard]] const reference::SpacingRule& screw_rule(Length d, Density rho_k, bool predrilled,
                                                       const reference::Tables& tables);

/// Whether holes must be pre-drilled anyway: d > 6 mm or ρ_k > 500 kg/m³.
/// Source (second hand): EN 1995-1-1, 10.4.5, by diameter.
/// Source (second hand): EN 1995-1-1, 8.3.1.1(2), by density.
[[nodiscard]] bool must_predrill(Length d, Density rho_k, const reference::Tables& tables);

}  // namespace standtrue::check
