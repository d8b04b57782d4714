// A plate by itself, held at its mesh nodes: against series and closed forms, on meshes that halve.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "tests/solve/plate_models.hpp"

namespace plate_test {

using namespace standtrue;
using namespace standtrue::tests;

namespace {

/// From a mesh to one of half its size the error falls as h² (order 1.9 and more); without its h²
/// what is left of it is `rest`, relative.
void check_second_order(double coarse, double fine, double exact, double rest) {
  CAPTURE(exact);
  CAPTURE(fine);
  CHECK(std::log2((coarse - exact) / (fine - exact)) >= 1.9);
  CHECK((4.0 * fine - coarse) / 3.0 == close_to(exact, rest));
}

/// Of a square of side 1: shear brings 17 t² = 2e-6 to the sag of a clamped one (its sag as a
/// membrane on S, own derivation), and rounding by the condition of so thin a plate stays below
/// that.
const double thin = 3e-4;
model::Plate thin_square(std::size_t cells) {
  model::Plate p = plate(1.0, 1.0, cells, cells, isotropic(1e10, 0.3, thin));
  hold_in_plane(p);
  return p;
}

}  // namespace

TEST_CASE("solve/plate: a pad anywhere on a simply supported plate (Navier's double series)") {
  const double a = 0.6, b = 0.4, P = 1000.0;
  const model::Patch pad{0.36, 0.48, 0.10, 0.20};  // 16 cells of the finer mesh each way
  // Thick with soft rolling shear, and thin.
  for (const double t : {0.06, 0.0006}) {
    CAPTURE(t);
    const model::PlateStiffness s = orthotropic(10e9, 4e9, 0.06, 0.5e9, 0.3e9, 0.07e9, t);
    const auto solved = [&](std::size_t k) {
      model::Plate p = plate(a, b, 10 * k, 8 * k, s);
      hold_in_plane(p);
      support_edges_x(p);
      support_edges_y(p);
      return press(p, pad, P);
    };
    const Solved coarse = solved(4), fine = solved(8);
    // What h² leaves is of fourth order; the length that counts is half the pad, 8 h.
    const double rest = std::pow(1.0 / 8.0, 4);
    const Seen exact = navier(a, b, s, pad, P, 0.42, 0.15);
    const Seen c = seen(coarse, 0.42, 0.15), f = seen(fine, 0.42, 0.15);
    check_second_order(c.w, f.w, exact.w, rest);
    check_second_order(c.M_x, f.M_x, exact.M_x, rest);
    check_second_order(c.M_y, f.M_y, exact.M_y, rest);
    const Seen beside = navier(a, b, s, pad, P, 0.30, 0.20);
    const Seen g = seen(fine, 0.30, 0.20);
    const double mesh = std::pow(1.0 / 8.0, 2) / 4.0;  // fine alone, away from the pad
    CHECK(g.w == close_to(beside.w, mesh));
    CHECK(g.M_x == close_to(beside.M_x, mesh));
    CHECK(g.M_y == close_to(beside.M_y, mesh));
    const Seen off = navier(a, b, s, pad, P, 0.18, 0.30);
    const Seen h = seen(fine, 0.18, 0.30);
    CHECK(h.M_xy == close_to(off.M_xy, mesh));
    CHECK(h.Q_x == close_to(off.Q_x, mesh));
    CHECK(h.Q_y == close_to(off.Q_y, mesh));
    if (t > 0.01) continue;
    // The series itself in its thin limit: shear against bending of the first harmonics.
    CHECK(exact.w == close_to(navier_thin_w(a, b, s, pad, P, 0.42, 0.15),
                              s.D_11 / s.S_y * std::pow(pi / b, 2)));
  }
}

TEST_CASE("solve/plate: clamped square (Timoshenko & Woinowsky-Krieger, table 35; from memory)") {
  // A quarter of it, its middle lines free of turning: 64 cells stand for 128.
  const auto solved = [](std::size_t cells) {
    model::Plate p = plate(0.5, 0.5, cells, cells, isotropic(1e10, 0.3, thin));
    hold_in_plane(p);
    const std::array<bool, 5> all{false, false, true, true, true};
    hold(p, {0.0, 0.0, 0.0, 0.5}, all);
    hold(p, {0.0, 0.5, 0.0, 0.0}, all);
    hold(p, {0.5, 0.5, 0.0, 0.5}, {false, false, false, false, true});
    hold(p, {0.0, 0.5, 0.5, 0.5}, {false, false, false, true, false});
    return press_evenly(p, 1.0);
  };
  const Solved coarse = solved(32), fine = solved(64);
  const double D = fine.model.plates[0].stiffness.D_11;
  const Seen c = seen(coarse, 0.5, 0.5), f = seen(fine, 0.5, 0.5);
  const double c_edge = -seen(coarse, 0.0, 0.5).M_x, f_edge = -seen(fine, 0.0, 0.5).M_x;
  // Six figures: Taylor & Govindjee, Comm. Num. Meth. Engng 20 (2004) 757, from memory.
  check_second_order(c.w * D, f.w * D, 0.00126532, 1e-5);  // printed digits, thinness
  check_second_order(c.M_x, f.M_x, 0.0229051, 1e-5);
  // At the edge a third order follows: cells of 1/128 in a layer of about 1/8 of the side.
  check_second_order(c_edge, f_edge, 0.0513338, std::pow(1.0 / 16.0, 3));
  // As printed in the table: 0.00126 and 0.0513 (its 0.0231 for the centre is a per cent high).
  CHECK(f.w * D == close_to(0.00126, 0.005));
  CHECK(f_edge == close_to(0.0513, 0.002));
  CHECK(f.M_x == close_to(0.0231, 0.01));
}

TEST_CASE("solve/plate: two edges free (Lévy's series; Timoshenko & Woinowsky-Krieger, art. 48)") {
  const auto solved = [](std::size_t cells) {
    model::Plate p = thin_square(cells);
    support_edges_x(p);
    return press_evenly(p, 1.0);
  };
  const Solved coarse = solved(16), fine = solved(32);
  const double D = fine.model.plates[0].stiffness.D_11;
  const Seen middle = levy_two_free_edges(0.3, 0.0), edge = levy_two_free_edges(0.3, 0.5);
  // The printed values, from memory.
  CHECK(middle.w == close_to(0.01309, 5e-4));
  CHECK(middle.M_x == close_to(0.1225, 5e-4));
  CHECK(middle.M_y == close_to(0.0271, 2e-3));
  CHECK(std::abs(edge.M_y) < 1e-12);
  // A free edge of a shear-flexible plate has a layer as wide as it is thick, that thin plates have
  // not: what is left is of the first order of t.
  const Seen c = seen(coarse, 0.5, 0.5), f = seen(fine, 0.5, 0.5);
  check_second_order(c.w * D, f.w * D, middle.w, thin);
  check_second_order(c.M_x, f.M_x, middle.M_x, thin);
  check_second_order(c.M_y, f.M_y, middle.M_y, thin);
  check_second_order(coarse.sag(0.5, 0.0) * D, fine.sag(0.5, 0.0) * D, edge.w, thin);
}

TEST_CASE("solve/plate: the moment along a free edge") {
  // Of the first order only, and too large: the curvature square to the edge is that of half a cell
  // inside, where it has lost of its ν κ_x what it loses over h/2 on its way down, some 2π/a of it:
  // 2π ν²/(1 - ν²) h/2a = 0.31 h/a.
  for (const std::size_t cells : {8u, 16u, 32u}) {
    model::Plate p = thin_square(cells);
    support_edges_x(p);
    const Seen at = seen(press_evenly(p, 1.0), 0.5, 0.0);
    const double exact = levy_two_free_edges(0.3, 0.5).M_x, h = 1.0 / static_cast<double>(cells);
    CHECK(at.M_x > exact);
    CHECK(at.M_x < exact * (1.0 + 0.35 * h));
    CHECK(std::abs(at.M_y) < 0.15 * h * exact);
  }
}

TEST_CASE("solve/plate: on its four corners, all statics and the sag of the books") {
  // Across the middle: half the load on two corners, less its own moment, q a³/8. The sag 0.0255
  // q a⁴/D: Timoshenko & Woinowsky-Krieger, art. 50, from memory.
  std::vector<double> across, sag;
  for (const std::size_t cells : {8u, 16u, 32u}) {
    model::Plate p = thin_square(cells);
    for (const double x : {0.0, 1.0}) {
      for (const double y : {0.0, 1.0}) {
        hold(p, {x, x, y, y}, {false, false, true, false, false});
      }
    }
    const Solved solved = press_evenly(p, 1.0);
    double sum = 0.0;
    for (std::size_t j = 0; j <= cells; ++j) {
      const double y = solved.model.plates[0].y[j];
      const double width = (j == 0 || j == cells ? 0.5 : 1.0) / static_cast<double>(cells);
      sum += seen(solved, 0.5, y).M_x * width;
    }
    across.push_back(sum);
    sag.push_back(solved.sag(0.5, 0.5) * solved.model.plates[0].stiffness.D_11);
  }
  check_second_order(across[0], across[1], 0.125, 1e-4);
  check_second_order(across[1], across[2], 0.125, 1e-5);
  CHECK(std::log2((sag[1] - sag[0]) / (sag[2] - sag[1])) >= 1.9);
  CHECK((4.0 * sag[2] - sag[1]) / 3.0 == close_to(0.0255, 0.5 / 255.0));
}

TEST_CASE("solve/plate: the peak over a middle support, qL²/8 less what shear gives away") {
  // Two equal spans, ν = 0: the middle section does not turn, so M = qL²/8 / (1 + 3 D/(S L²)) (own
  // derivation: propped cantilever with shear).
  const double L = 0.5, t = 0.03;
  const model::PlateStiffness s = orthotropic(10e9, 4e9, 0.0, 0.5e9, 0.07e9, 0.07e9, t);
  const double exact = L * L / 8.0 / (1.0 + 3.0 * s.D_11 / (s.S_x * L * L));
  std::vector<double> peaks;
  for (const std::size_t cells : {8u, 16u, 32u}) {
    model::Plate p = plate(2.0 * L, 0.1, cells, 1, s);
    hold_in_plane(p);
    for (const double x : {0.0, L, 2.0 * L}) {
      hold(p, {x, x, 0.0, 0.1}, {false, false, true, false, false});
    }
    peaks.push_back(press_evenly(p, 1.0).forces(L, 0.05).M_x);
  }
  check_second_order(peaks[0], peaks[1], exact, 1e-3);
  check_second_order(peaks[1], peaks[2], exact, std::pow(1.0 / 16.0, 4));
}

}  // namespace plate_test
