#pragma once

#include <cmath>
#include <vector>

#include "standtrue/model/model.hpp"
#include "standtrue/solve/plate_response.hpp"

/// Plates by themselves, for tests. SI.
namespace standtrue::tests {

inline std::vector<double> even(double from, double to, std::size_t cells) {
  std::vector<double> lines;
  for (std::size_t i = 0; i <= cells; ++i) {
    lines.push_back(from + (to - from) * static_cast<double>(i) / static_cast<double>(cells));
  }
  return lines;
}

/// κ = 5/6.
inline model::PlateStiffness isotropic(double E, double nu, double t) {
  const double A = E * t / (1.0 - nu * nu), D = A * t * t / 12.0;
  const double G = E / (2.0 * (1.0 + nu));
  return {A, nu * A, A, G * t, D, nu * D, D, 0.5 * (1.0 - nu) * D, 5.0 / 6.0 * G * t,
          5.0 / 6.0 * G * t};
}

/// E_1 along x; κ = 5/6.
inline model::PlateStiffness orthotropic(double E_1, double E_2, double nu_12, double G_12,
                                         double G_13, double G_23, double t) {
  const double nu_21 = nu_12 * E_2 / E_1, by = 1.0 - nu_12 * nu_21;
  const double I = t * t * t / 12.0;
  return {E_1 * t / by,
          nu_12 * E_2 * t / by,
          E_2 * t / by,
          G_12 * t,
          E_1 * I / by,
          nu_12 * E_2 * I / by,
          E_2 * I / by,
          G_12 * I,
          5.0 / 6.0 * G_13 * t,
          5.0 / 6.0 * G_23 * t};
}

inline model::PlateStiffness turned(model::PlateStiffness s) {
  std::swap(s.A_11, s.A_22);
  std::swap(s.D_11, s.D_22);
  std::swap(s.S_x, s.S_y);
  return s;
}

inline model::Plate plate(double a, double b, std::size_t n_x, std::size_t n_y,
                          const model::PlateStiffness& stiffness) {
  model::Plate plate;
  plate.name = "plate";
  plate.x = even(0.0, a, n_x);
  plate.y = even(0.0, b, n_y);
  plate.stiffness = stiffness;
  return plate;
}

inline constexpr std::array<bool, 5> in_plane{true, true, false, false, false};

/// The membrane is held all over; bending is what is looked at.
inline void hold(model::Plate& plate, model::Patch where, std::array<bool, 5> freedoms) {
  plate.holds.push_back({where, freedoms});
}
inline void hold_in_plane(model::Plate& p) {
  hold(p, {p.x.front(), p.x.back(), p.y.front(), p.y.back()}, in_plane);
}

/// Hard simple supports: w and the rotation along the edge are held.
inline void support_edges_x(model::Plate& p) {  // the edges x = const
  hold(p, {p.x.front(), p.x.front(), p.y.front(), p.y.back()}, {false, false, true, true, false});
  hold(p, {p.x.back(), p.x.back(), p.y.front(), p.y.back()}, {false, false, true, true, false});
}
inline void support_edges_y(model::Plate& p) {
  hold(p, {p.x.front(), p.x.back(), p.y.front(), p.y.front()}, {false, false, true, false, true});
  hold(p, {p.x.front(), p.x.back(), p.y.back(), p.y.back()}, {false, false, true, false, true});
}
inline void clamp_edges(model::Plate& p) {
  const std::array<bool, 5> all{false, false, true, true, true};
  hold(p, {p.x.front(), p.x.front(), p.y.front(), p.y.back()}, all);
  hold(p, {p.x.back(), p.x.back(), p.y.front(), p.y.back()}, all);
  hold(p, {p.x.front(), p.x.back(), p.y.front(), p.y.front()}, all);
  hold(p, {p.x.front(), p.x.back(), p.y.back(), p.y.back()}, all);
}

/// A plate under one downward load (its z axis up).
struct Solved {
  model::Model model;
  solve::PlateMovements movements;

  /// Downward positive.
  [[nodiscard]] double sag(double x, double y) const {
    return -solve::plate_w(model.plates[0], movements, x, y, 0);
  }
};

inline Solved press(model::Plate plate, const model::Patch& where, double force) {
  Solved solved;
  solved.model.plates.push_back(std::move(plate));
  model::LoadCase load;
  load.name = "load";
  load.patch_loads.push_back({0, where, {0.0, 0.0, -force}});
  solved.model.cases.push_back(load);
  const auto prepared = solve::prepare(solved.model);
  if (!prepared) throw std::runtime_error(prepared.error().what);
  const solve::Loading loading{{{0, 1.0}}, {}};
  const auto state = solve::respond(*prepared, loading);
  if (!state) throw std::runtime_error(state.error().what);
  const solve::Answered answered{&loading, &*state};
  solved.movements = solve::plate_movements(*prepared, 0, {&answered, 1});
  return solved;
}

inline Solved press_evenly(model::Plate plate, double q) {
  const double a = plate.x.back() - plate.x.front(), b = plate.y.back() - plate.y.front();
  const model::Patch all{plate.x.front(), plate.x.back(), plate.y.front(), plate.y.back()};
  return press(std::move(plate), all, q * a * b);
}

}  // namespace standtrue::tests
