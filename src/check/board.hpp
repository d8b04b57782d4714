#pragma once

#include <string>

#include "standtrue/check/check_all.hpp"
#include "standtrue/check/strength.hpp"

/// A lying board as it carries, per metre of width. Doubles in SI.
namespace standtrue::check {

/// Layers that are not glued share the load; glued ones act as one.
struct BoardSection {
  double thickness = 0.0;  ///< m, of all layers
  double W = 0.0;          ///< m³ per m: m/W is the stress at the face
  double I = 0.0;          ///< m⁴ per m
};
[[nodiscard]] BoardSection board_section(const bench::Sheet& sheet);

/// Its weight per area, N/m².
[[nodiscard]] double board_weight(const bench::Sheet& sheet);

/// Mean moduli along the span, Pa. A modulus of zero is not known.
struct BoardModuli {
  double E = 0.0, G = 0.0;
};
[[nodiscard]] BoardModuli board_moduli(const bench::Sheet& sheet, bool grain_along);

/// Design strengths along the span under loads of one duration, Pa; zero: not known.
struct BoardStrength {
  double k_mod = 0.0, gamma_M = 0.0;
  double f_m = 0.0;  ///< bending
  double f_r = 0.0;  ///< rolling (planar) shear
};
[[nodiscard]] OrWhy<BoardStrength> board_strength(const bench::Bench& bench,
                                                  const bench::Sheet& sheet, bool grain_along,
                                                  reference::Duration duration,
                                                  const reference::Tables& tables);

/// "the bending strength of spruce plywood across its grain is not known"
[[nodiscard]] std::string unknown_strength(const bench::Sheet& sheet, const char* which,
                                           bool grain_along);

/// The longest reach past the ends of the carriers, m: from the outer face of a rail square to them
/// where one carries the board there, else from the carriers' ends.
[[nodiscard]] double side_overhang(const model::Parts& parts, const model::SheetSpan& span);

/// A load on a square patch at the free edge of a board: what of it lies beyond the carrier.
struct OnEdge {
  double force = 0.0;  ///< N
  double arm = 0.0;    ///< m, from the carrier
  double width = 0.0;  ///< m, of the strip that carries it: 2 overhang + patch
};
[[nodiscard]] OnEdge on_edge(double force, double patch, double overhang);

}  // namespace standtrue::check
