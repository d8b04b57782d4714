#pragma once

#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <cmath>
#include <stdexcept>
#include <vector>

#include "standtrue/model/model.hpp"
#include "standtrue/solve/plate_response.hpp"

/// Plates by themselves, for tests. SI.
namespace standtrue::tests {

/// Within a part of the value itself. Left alone, Approx adds one to what its tolerance is a part
/// of, which hides any error of a millimetre.
inline doctest::Approx close_to(double value, double relative) {
  return doctest::Approx(value).epsilon(relative).scale(0.0);
}

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
  return {A,
          nu * A,
          A,
          G * t,
          D,
          nu * D,
          D,
          0.5 * (1.0 - nu) * D,
          5.0 / 6.0 * G * t,
          5.0 / 6.0 * G * t};
}

/// E_1 along x; κ = 5/6.
inline model::PlateStiffness orthotropic(double E_1, double E_2, double nu_12, double G_12,
                                         double G_13, double G_23, double t) {
  const double nu_21 = nu_12 * E_2 / E_1, by = 1.0 - nu_12 * nu_21;
  const double I = t * t * t / 12.0;
  return {E_1 * t / by,         nu_12 * E_2 * t / by, E_2 * t / by, G_12 * t,
          E_1 * I / by,         nu_12 * E_2 * I / by, E_2 * I / by, G_12 * I,
          5.0 / 6.0 * G_13 * t, 5.0 / 6.0 * G_23 * t};
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

/// Uneven mesh, a hole, one side clamped, two nodes propped: nothing about it is alike in x and y.
inline model::Plate odd_plate() {
  model::Plate p;
  p.name = "odd plate";
  p.x = {0.0, 0.1, 0.25, 0.4, 0.45, 0.6};
  p.y = {0.0, 0.08, 0.2, 0.3, 0.42};
  p.holes = {{0.25, 0.4, 0.08, 0.3}};
  p.stiffness = orthotropic(10e9, 4e9, 0.06, 0.5e9, 0.3e9, 0.07e9, 0.018);
  p.thickness = 0.018;
  p.mass_per_area = 9.0;
  hold(p, {0.0, 0.0, 0.0, 0.42}, {true, true, true, true, true});
  hold(p, {0.6, 0.6, 0.0, 0.0}, {false, false, true, false, false});
  hold(p, {0.45, 0.45, 0.42, 0.42}, {false, true, true, false, false});
  return p;
}

/// A plate under one downward load (its z axis up).
struct Solved {
  model::Model model;
  solve::PlateMovements movements;

  /// Downward positive.
  [[nodiscard]] double sag(double x, double y) const {
    return -solve::plate_w(model.plates[0], movements, x, y, 0);
  }
  [[nodiscard]] solve::PlateForces forces(double x, double y) const {
    return solve::plate_forces_at(model.plates[0], movements, x, y, 0);
  }
};

/// Under one force (global) spread over a patch.
inline Solved push(model::Plate plate, const model::Patch& where,
                   const std::array<double, 3>& force) {
  Solved solved;
  solved.model.plates.push_back(std::move(plate));
  model::LoadCase load;
  load.name = "load";
  load.patch_loads.push_back({0, where, force});
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

inline Solved press(model::Plate plate, const model::Patch& where, double force) {
  return push(std::move(plate), where, {0.0, 0.0, -force});
}

inline Solved press_evenly(model::Plate plate, double q) {
  const double a = plate.x.back() - plate.x.front(), b = plate.y.back() - plate.y.front();
  const model::Patch all{plate.x.front(), plate.x.back(), plate.y.front(), plate.y.back()};
  return press(std::move(plate), all, q * a * b);
}

/// What a plate under a downward load does at one place; sagging positive.
struct Seen {
  double w = 0.0, M_x = 0.0, M_y = 0.0, M_xy = 0.0, Q_x = 0.0, Q_y = 0.0;
};
inline Seen seen(const Solved& solved, double x, double y) {
  const solve::PlateForces f = solved.forces(x, y);
  return {solved.sag(x, y), -f.M_x, -f.M_y, -f.M_xy, -f.Q_x, -f.Q_y};
}

inline const double pi = std::acos(-1.0);

/// Rectangle on hard simple supports, downward force P spread over a patch: double sine series,
/// three amplitudes per harmonic (w, the turn along x, the turn along y) of the shear-flexible
/// orthotropic plate. Navier's method; own derivation from the energy in docs/conventions.md's
/// signs.
inline Seen navier(double a, double b, const model::PlateStiffness& s, const model::Patch& patch,
                   double P, double x, double y) {
  Seen sum;
  const auto mean_sine = [](double k, double from, double to) {
    return (std::cos(k * from) - std::cos(k * to)) / (k * (to - from));
  };
  for (int m = 1; m <= 300; ++m) {
    for (int n = 1; n <= 300; ++n) {
      const double k = m * pi / a, l = n * pi / b;
      const double p =
          4.0 * P / (a * b) * mean_sine(k, patch.x0, patch.x1) * mean_sine(l, patch.y0, patch.y1);
      Eigen::Matrix3d K;
      K << s.S_x * k * k + s.S_y * l * l, s.S_x * k, s.S_y * l,                           //
          s.S_x * k, s.D_11 * k * k + s.D_66 * l * l + s.S_x, (s.D_12 + s.D_66) * k * l,  //
          s.S_y * l, (s.D_12 + s.D_66) * k * l, s.D_22 * l * l + s.D_66 * k * k + s.S_y;
      const Eigen::Vector3d u = K.ldlt().solve(Eigen::Vector3d(p, 0.0, 0.0));
      const double shape = std::sin(k * x) * std::sin(l * y);
      sum.w += u(0) * shape;
      sum.M_x -= (s.D_11 * k * u(1) + s.D_12 * l * u(2)) * shape;
      sum.M_y -= (s.D_12 * k * u(1) + s.D_22 * l * u(2)) * shape;
      sum.M_xy += s.D_66 * (l * u(1) + k * u(2)) * std::cos(k * x) * std::cos(l * y);
      sum.Q_x += s.S_x * (k * u(0) + u(1)) * std::cos(k * x) * std::sin(l * y);
      sum.Q_y += s.S_y * (l * u(0) + u(2)) * std::sin(k * x) * std::cos(l * y);
    }
  }
  return sum;
}

/// Thin: no shear strain. A single denominator per harmonic (Navier; Lekhnitskii for orthotropy;
/// from memory).
inline double navier_thin_w(double a, double b, const model::PlateStiffness& s,
                            const model::Patch& patch, double P, double x, double y) {
  const auto mean_sine = [](double k, double from, double to) {
    return (std::cos(k * from) - std::cos(k * to)) / (k * (to - from));
  };
  double w = 0.0;
  for (int m = 1; m <= 100; ++m) {
    for (int n = 1; n <= 100; ++n) {
      const double k = m * pi / a, l = n * pi / b;
      w += 4.0 * P / (a * b) * mean_sine(k, patch.x0, patch.x1) * mean_sine(l, patch.y0, patch.y1) *
           std::sin(k * x) * std::sin(l * y) /
           (s.D_11 * std::pow(k, 4) + 2.0 * (s.D_12 + 2.0 * s.D_66) * k * k * l * l +
            s.D_22 * std::pow(l, 4));
    }
  }
  return w;
}

/// Uniformly loaded plate (q = 1, side 1, D = 1, thin) with x = 0, 1 simply supported and y = ±1/2
/// free: w and moments, sagging positive. M. Lévy's single series; own derivation of its two
/// constants from M_y = 0 and V_y = 0.
inline Seen levy_two_free_edges(double nu, double y) {
  Seen sum;
  for (int m = 1; m <= 41; m += 2) {
    const double k = m * pi, h = 0.5 * k, ch = std::cosh(h), sh = std::sinh(h);
    Eigen::Matrix2d edge;
    edge << (1.0 - nu) * ch, 2.0 * ch + (1.0 - nu) * h * sh,  //
        -(1.0 - nu) * sh, (1.0 + nu) * sh - (1.0 - nu) * h * ch;
    const Eigen::Vector2d AB = edge.partialPivLu().solve(Eigen::Vector2d(nu, 0.0));
    const double c = 4.0 / std::pow(k, 5) * std::sin(m * pi / 2.0), t = k * y;
    const double f = 1.0 + AB(0) * std::cosh(t) + AB(1) * t * std::sinh(t);
    const double f_yy =
        k * k * (AB(0) * std::cosh(t) + AB(1) * (2.0 * std::cosh(t) + t * std::sinh(t)));
    sum.w += c * f;
    sum.M_x += c * (k * k * f - nu * f_yy);
    sum.M_y += c * (nu * k * k * f - f_yy);
  }
  return sum;
}

}  // namespace standtrue::tests
