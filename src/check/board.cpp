// All numbers SI (N, m, Pa).
#include "check/board.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

BoardSection board_section(const bench::Sheet& sheet) {
  const double n = sheet.layers;
  const double t = in_si(sheet.panel.thickness);
  const bool glued = sheet.between_layers == bench::Bond::glued;
  BoardSection section;
  section.thickness = n * t;
  section.W = (glued ? n * n : n) * t * t / 6.0;
  section.I = (glued ? n * n * n : n) * t * t * t / 12.0;
  return section;
}

double board_weight(const bench::Sheet& sheet) {
  return in_si(sheet.panel.rho_mean) * board_section(sheet).thickness *
         in_si(quantity::standard_gravity());
}

BoardModuli board_moduli(const bench::Sheet& sheet, bool grain_along) {
  const reference::Panel& p = sheet.panel;
  return grain_along ? BoardModuli{in_si(p.E_m_0), in_si(p.G_r_0)}
                     : BoardModuli{in_si(p.E_m_90), in_si(p.G_r_90)};
}

OrWhy<BoardStrength> board_strength(const bench::Bench& bench, const bench::Sheet& sheet,
                                    bool grain_along, reference::Duration duration,
                                    const reference::Tables& tables) {
  if (bench.air.service_class > sheet.family.wettest) {
    return tl::unexpected(
        fmt::format("{} does not belong in air as damp as {}", sheet.family.key, bench.air.key));
  }
  const OrWhy<double> k = k_mod(sheet.family.material, bench.air.service_class, duration, tables);
  if (!k) return tl::unexpected(k.error());
  BoardStrength f;
  f.k_mod = *k;
  f.gamma_M = tables.material(sheet.family.material).gamma_M.value;
  const reference::Panel& p = sheet.panel;
  f.f_m = design_value(in_si(grain_along ? p.f_m_0_k : p.f_m_90_k), f.k_mod, f.gamma_M);
  f.f_r = design_value(in_si(grain_along ? p.f_r_0_k : p.f_r_90_k), f.k_mod, f.gamma_M);
  return f;
}

std::string unknown_strength(const bench::Sheet& sheet, const char* which, bool grain_along) {
  return fmt::format("the {} strength of {} {} its grain is not known", which, sheet.family.key,
                     grain_along ? "along" : "across");
}

double side_overhang(const model::Parts& parts, const model::SheetSpan& span) {
  const bench::Sheet& sheet = parts.bench.sheets.at(span.sheet);
  const bool ends_in_x = !span.along_x;  // the carriers run along x
  double low = in_si(span.overhang_side), high = low;
  for (const std::size_t r : sheet.rails) {
    const bench::Rail& rail = parts.bench.rails.at(r);
    if (rail.along_x == ends_in_x) continue;
    const bench::Post& post = parts.bench.posts.at(rail.from);
    const quantity::Length at = (ends_in_x ? post.x : post.y) + rail.aside;
    const quantity::Length half = 0.5 * rail.width;
    low = std::min(low, in_si(at - half - (ends_in_x ? sheet.x0 : sheet.y0)));
    high = std::min(high, in_si((ends_in_x ? sheet.x1 : sheet.y1) - at - half));
  }
  return std::max({0.0, low, high});
}

OnEdge on_edge(double force, double patch, double overhang) {
  expects(patch > 0.0 && overhang > 0.0, "on_edge: patch and overhang must be positive");
  const double beyond = std::min(patch, overhang);
  return {force * beyond / patch, overhang - beyond / 2.0, 2.0 * overhang + patch};
}

}  // namespace standtrue::check
