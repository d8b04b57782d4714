// A plate by itself, held at its mesh nodes: against series and closed forms, on meshes that halve.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <functional>

#include "solve/condensed_plate.hpp"
#include "tests/solve/plate_models.hpp"

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

/// The same plate, its own axes turned: x' = y, y' = a - x. Node (i, j) becomes (j, I - i).
model::Patch quarter(const model::Patch& p, double a) { return {p.y0, p.y1, a - p.x1, a - p.x0}; }
model::Plate quarter_turned(const model::Plate& p) {
  const double a = p.x.back();
  model::Plate t = p;
  t.x = p.y;
  t.y.clear();
  for (std::size_t i = p.x.size(); i-- > 0;) t.y.push_back(a - p.x[i]);
  t.stiffness = turned(p.stiffness);
  t.origin = {a, 0.0, 0.0};
  t.x_axis = {0.0, 1.0, 0.0};
  t.y_axis = {-1.0, 0.0, 0.0};
  for (model::Patch& hole : t.holes) hole = quarter(hole, a);
  for (model::PlateHold& h : t.holds) {
    h.where = quarter(h.where, a);
    std::swap(h.freedoms[0], h.freedoms[1]);
    std::swap(h.freedoms[3], h.freedoms[4]);
  }
  return t;
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

TEST_CASE("solve/plate: own axes turned by a quarter, material and all: the same plate") {
  const model::Plate plain = odd_plate(), quarter_on = quarter_turned(plain);
  const model::Patch where{0.41, 0.57, 0.05, 0.31};
  const std::array<double, 3> force{300.0, -200.0, -500.0};
  const Solved a = push(plain, where, force);
  const Solved b = push(quarter_on, quarter(where, 0.6), force);
  const double size = a.movements.norm();
  const std::vector<solve::PlateForces> f = solve::plate_forces(plain, a.movements, 0);
  const std::vector<solve::PlateForces> g = solve::plate_forces(quarter_on, b.movements, 0);
  for (std::size_t j = 0; j < plain.y.size(); ++j) {
    for (std::size_t i = 0; i < plain.x.size(); ++i) {
      const std::size_t m = plain.node(i, j), n = quarter_on.node(j, plain.x.size() - 1 - i);
      const Eigen::VectorXd u = a.movements.block<5, 1>(static_cast<Eigen::Index>(5 * m), 0);
      const Eigen::VectorXd v = b.movements.block<5, 1>(static_cast<Eigen::Index>(5 * n), 0);
      Eigen::VectorXd expected(5);
      expected << u(1), -u(0), u(2), u(4), -u(3);
      CHECK((v - expected).norm() < 1e-11 * size);
      const double tiny = 1e-9 * 500.0;  // of the load: forces per metre come from differences
      CHECK(std::abs(g[n].N_x - f[m].N_y) + std::abs(g[n].N_xy + f[m].N_xy) < 10 * tiny);
      CHECK(std::abs(g[n].M_x - f[m].M_y) + std::abs(g[n].M_y - f[m].M_x) < tiny);
      CHECK(std::abs(g[n].M_xy + f[m].M_xy) < tiny);
      CHECK(std::abs(g[n].Q_x - f[m].Q_y) + std::abs(g[n].Q_y + f[m].Q_x) < 10 * tiny);
    }
  }
}

TEST_CASE(
    "solve/plate: stood upright, or turned any way in space with its load, it does the same") {
  const model::Patch where{0.41, 0.57, 0.05, 0.31};
  const Eigen::Vector3d force(300.0, -200.0, -500.0);
  const Solved plain = push(odd_plate(), where, {force(0), force(1), force(2)});
  const Eigen::Vector3d X = Eigen::Vector3d::UnitX();
  for (const Eigen::Matrix3d& R :
       {Eigen::AngleAxisd(pi / 2.0, X).toRotationMatrix(),
        Eigen::AngleAxisd(1.1, Eigen::Vector3d(0.3, -0.5, 0.8).normalized()).toRotationMatrix()}) {
    model::Plate p = odd_plate();
    const auto three = [](const Eigen::Vector3d& v) {
      return std::array<double, 3>{v(0), v(1), v(2)};
    };
    p.x_axis = three(R.col(0));
    p.y_axis = three(R.col(1));
    p.origin = {0.7, -1.3, 0.4};
    const Solved turned_too = push(p, where, three(R * force));
    CHECK((turned_too.movements - plain.movements).norm() < 1e-11 * plain.movements.norm());
  }
}

TEST_CASE("solve/plate: answers add up, and forty at once are the forty one by one") {
  model::Model m;
  m.plates.push_back(odd_plate());
  m.cases.resize(3);
  m.cases[0].self_weight = true;
  m.cases[1].patch_loads = {{0, {0.5, 0.55, 0.1, 0.2}, {10.0, 20.0, -300.0}}};
  m.cases[2].patch_loads = {{0, {0.1, 0.2, 0.3, 0.3}, {0.0, 0.0, 70.0}},
                            {0, {0.0, 0.6, 0.0, 0.42}, {5.0, 0.0, 0.0}}};
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  std::vector<solve::Loading> loadings;
  for (model::CaseId c = 0; c < 3; ++c) loadings.push_back({{{c, 1.0}}, {}});
  for (int i = 3; i < 40; ++i) {
    loadings.push_back({{{0, 1.35}, {1, 0.1 * i}, {2, -0.2 * i}, {1, 0.5}}, {}});
  }
  std::vector<solve::State> states;
  for (const solve::Loading& loading : loadings) {
    const auto state = solve::respond(*prepared, loading);
    REQUIRE(state.has_value());
    CHECK(state->audit.equilibrium < 1e-10);
    states.push_back(*state);
  }
  std::vector<solve::Answered> answered;
  for (std::size_t i = 0; i < states.size(); ++i) answered.push_back({&loadings[i], &states[i]});
  const solve::PlateMovements all = solve::plate_movements(*prepared, 0, answered);
  REQUIRE(all.cols() == 40);
  for (Eigen::Index i = 0; i < 40; ++i) {
    const solve::PlateMovements one =
        solve::plate_movements(*prepared, 0, {&answered[static_cast<std::size_t>(i)], 1});
    CHECK((all.col(i) - one.col(0)).norm() <= 1e-13 * one.norm());
    if (i < 3) continue;
    const Eigen::VectorXd sum = 1.35 * all.col(0) +
                                (0.1 * static_cast<double>(i) + 0.5) * all.col(1) -
                                0.2 * static_cast<double>(i) * all.col(2);
    CHECK((all.col(i) - sum).norm() < 1e-12 * sum.norm());
  }
}

TEST_CASE("solve/plate: two plates of one model do not hear each other") {
  model::Model m;
  m.plates = {odd_plate(), quarter_turned(odd_plate())};
  m.plates[1].stiffness = isotropic(2e9, 0.2, 0.01);
  m.cases.resize(1);
  m.cases[0].patch_loads = {{1, {0.1, 0.2, 0.3, 0.4}, {1.0, 2.0, -300.0}},
                            {0, {0.45, 0.55, 0.1, 0.2}, {-7.0, 0.0, 50.0}}};
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  const solve::Loading loading{{{0, 1.0}}, {}};
  const auto state = solve::respond(*prepared, loading);
  REQUIRE(state.has_value());
  const solve::Answered one{&loading, &*state};
  for (const std::size_t p : {0u, 1u}) {
    const model::PatchLoad& load = m.cases[0].patch_loads[1 - p];
    const Solved alone = push(m.plates[p], load.where, load.force);
    const solve::PlateMovements both = solve::plate_movements(*prepared, p, {&one, 1});
    CHECK((both - alone.movements).norm() < 1e-14 * both.norm());
  }
}

TEST_CASE(
    "solve/plate: forces at a mesh node and at its place are the same, each the mean of its "
    "cells") {
  const Solved solved = push(odd_plate(), {0.41, 0.57, 0.05, 0.31}, {300.0, -200.0, -500.0});
  const model::Plate& p = solved.model.plates[0];
  const std::vector<solve::PlateForces> forces = solve::plate_forces(p, solved.movements, 0);
  for (std::size_t j = 0; j < p.y.size(); ++j) {
    for (std::size_t i = 0; i < p.x.size(); ++i) {
      const solve::PlateForces &f = forces[p.node(i, j)], g = solved.forces(p.x[i], p.y[j]);
      CHECK(f.N_x == close_to(g.N_x, 1e-12));
      CHECK(f.M_x == close_to(g.M_x, 1e-12));
      CHECK(f.M_xy == close_to(g.M_xy, 1e-12));
      CHECK(f.Q_y == close_to(g.Q_y, 1e-12));
    }
  }
}

TEST_CASE("solve/plate: forces in a cell are those that its strains make in its middle") {
  // Constant curvature and strain by hand: M = D kappa, N = A epsilon, each as on paper.
  const model::PlateStiffness s = orthotropic(10e9, 4e9, 0.06, 0.5e9, 0.3e9, 0.07e9, 0.018);
  model::Plate p = plate(0.3, 0.2, 3, 2, s);
  p.creep = 1.6;
  p.holes = {{0.2, 0.3, 0.0, 0.1}};
  const double k_x = 0.01, k_y = -0.02, k_xy = 0.03, e_x = 1e-4, e_y = 3e-4, g_xy = -2e-4;
  solve::PlateMovements movements(60, 1);
  for (std::size_t j = 0; j < 3; ++j) {
    for (std::size_t i = 0; i < 4; ++i) {
      const double x = p.x[i], y = p.y[j];
      movements.block<5, 1>(static_cast<Eigen::Index>(5 * p.node(i, j)), 0) << e_x * x + g_xy * y,
          e_y * y, -0.5 * (k_x * x * x + k_y * y * y + k_xy * x * y), -k_y * y - 0.5 * k_xy * x,
          k_x * x + 0.5 * k_xy * y;
    }
  }
  const solve::PlateForces f = solve::plate_forces_in_cell(p, movements, 1, 1, 0);
  CHECK(1.6 * f.M_x == close_to(s.D_11 * k_x + s.D_12 * k_y, 1e-12));
  CHECK(1.6 * f.M_y == close_to(s.D_12 * k_x + s.D_22 * k_y, 1e-12));
  CHECK(1.6 * f.M_xy == close_to(s.D_66 * k_xy, 1e-12));
  CHECK(1.6 * f.N_x == close_to(s.A_11 * e_x + s.A_12 * e_y, 1e-12));
  CHECK(1.6 * f.N_y == close_to(s.A_12 * e_x + s.A_22 * e_y, 1e-12));
  CHECK(1.6 * f.N_xy == close_to(s.A_66 * g_xy, 1e-12));
  CHECK(std::abs(f.Q_x) + std::abs(f.Q_y) < 1e-15 * s.S_x);
  CHECK_THROWS_AS((void)solve::plate_forces_in_cell(p, movements, 2, 0, 0), std::logic_error);
  // Of any movement: the mean of the corners, for a cell alone.
  model::Plate cell = plate(0.1, 0.2, 1, 1, s);
  solve::PlateMovements any(20, 1);
  for (Eigen::Index i = 0; i < 20; ++i) any(i, 0) = std::sin(1.3 * static_cast<double>(i * i));
  const solve::PlateForces middle = solve::plate_forces_in_cell(cell, any, 0, 0, 0);
  double M_x = 0.0, M_y = 0.0, N_xy = 0.0;
  for (const solve::PlateForces& corner : solve::plate_forces(cell, any, 0)) {
    M_x += 0.25 * corner.M_x;
    M_y += 0.25 * corner.M_y;
    N_xy += 0.25 * corner.N_xy;
  }
  CHECK(middle.M_x == close_to(M_x, 1e-12));
  CHECK(middle.M_y == close_to(M_y, 1e-12));
  CHECK(middle.N_xy == close_to(N_xy, 1e-12));
}

TEST_CASE("solve/plate: in its plane a wall carries tension, shear and bending to its clamp") {
  const double L = 1.2, h = 0.6, P = 900.0, V = 700.0;
  model::Plate p = plate(L, h, 24, 12, isotropic(9e9, 0.0, 0.012));
  hold(p, {0.0, 0.0, 0.0, h}, {true, true, true, true, true});
  const Solved solved = push(p, {L, L, 0.0, h}, {P, V, 0.0});
  // Trapezoids sum a parabola of shear to 1 - 1/n², bending stress by its arm to 1 + 2/n².
  for (const std::size_t i : {6u, 12u, 18u}) {
    double N = 0.0, S = 0.0, M = 0.0;
    for (std::size_t j = 0; j <= 12; ++j) {
      const solve::PlateForces f = solved.forces(p.x[i], p.y[j]);
      const double width = h / 12.0 * (j == 0 || j == 12 ? 0.5 : 1.0);
      N += f.N_x * width;
      S += f.N_xy * width;
      M += f.N_x * (p.y[j] - 0.5 * h) * width;
    }
    CHECK(N == close_to(P, 1e-12));
    CHECK(S == close_to(V, 3.0 / (12.0 * 12.0)));
    CHECK(M == close_to(-V * (L - p.x[i]), 3.0 / (12.0 * 12.0)));
  }
}

TEST_CASE("solve/plate: a patch of any size keeps its force and its place") {
  const model::Plate p = odd_plate();
  const solve::CondensedPlate condensed(p);
  struct Row {
    model::Patch patch;
    double x, y;  ///< centroid of what is there
  };
  // The hole is 0.25..0.4 x 0.08..0.3.
  const double whole = 0.6 * 0.42, hole = 0.15 * 0.22;
  for (const Row& row : {Row{{0.11, 0.12, 0.09, 0.13}, 0.115, 0.11},  // within a cell
                         Row{{0.05, 0.23, 0.31, 0.41}, 0.14, 0.36},   // over a line
                         Row{{0.47, 0.47, 0.25, 0.25}, 0.47, 0.25},   // a point
                         Row{{0.45, 0.45, 0.2, 0.2}, 0.45, 0.2},      // on a mesh node
                         Row{{0.4, 0.4, 0.2, 0.2}, 0.4, 0.2},         // on the rim of the hole
                         Row{{0.02, 0.22, 0.3, 0.3}, 0.12, 0.3},      // a line along a mesh line
                         Row{{0.42, 0.42, 0.1, 0.4}, 0.42, 0.25},     // a line across
                         Row{{-0.1, 0.1, -0.3, 0.08}, 0.05, 0.04},    // half beside the plate
                         Row{{0.3, 0.45, 0.2, 0.3}, 0.425, 0.25},     // half over the hole
                         Row{{0.0, 0.6, 0.0, 0.42},
                             (whole * 0.3 - hole * 0.325) / (whole - hole),
                             (whole * 0.21 - hole * 0.19) / (whole - hole)}}) {
    solve::PlateLoads loads = condensed.no_loads(2);
    condensed.press(loads, 1, row.patch, {3.0, -5.0, 7.0});
    condensed.press(loads, 1, row.patch, {0.0, 0.0, 0.0});
    CHECK(loads.col(0).isZero(0.0));
    Eigen::Vector3d sum = Eigen::Vector3d::Zero();
    double x = 0.0, y = 0.0, least = 0.0;
    for (std::size_t j = 0; j < p.y.size(); ++j) {
      for (std::size_t i = 0; i < p.x.size(); ++i) {
        const Eigen::Matrix<double, 5, 1> f =
            loads.block<5, 1>(static_cast<Eigen::Index>(5 * p.node(i, j)), 1);
        sum += f.head<3>();
        x += f(2) * p.x[i] / 7.0;
        y += f(2) * p.y[j] / 7.0;
        least = std::min(least, f(2));
        CHECK(f.tail<2>().isZero(0.0));
      }
    }
    CHECK((sum - Eigen::Vector3d(3.0, -5.0, 7.0)).norm() < 1e-13);
    CHECK(x == close_to(row.x, 1e-12));
    CHECK(y == close_to(row.y, 1e-12));
    CHECK(least >= -1e-15);
  }
}

TEST_CASE("solve/plate: a small pad is the limit of a smaller one, not of the mesh") {
  // A pad of a thousandth of a cell and a point at its centre differ by its own extent only.
  const Solved point = press(odd_plate(), {0.5, 0.5, 0.1, 0.1}, 100.0);
  const Solved pad = press(odd_plate(), {0.49995, 0.50005, 0.09995, 0.10005}, 100.0);
  CHECK((pad.movements - point.movements).norm() < 1e-12 * point.movements.norm());
}

TEST_CASE("solve/plate: creep divides the stiffness: movements grow by it, forces stay") {
  const model::Patch where{0.41, 0.57, 0.05, 0.31};
  model::Plate old = odd_plate();
  old.creep = 1.8;
  const Solved a = push(odd_plate(), where, {300.0, -200.0, -500.0});
  const Solved b = push(old, where, {300.0, -200.0, -500.0});
  CHECK((b.movements - 1.8 * a.movements).norm() < 1e-14 * b.movements.norm());
  const std::vector<solve::PlateForces> f = solve::plate_forces(a.model.plates[0], a.movements, 0);
  const std::vector<solve::PlateForces> g = solve::plate_forces(b.model.plates[0], b.movements, 0);
  for (std::size_t n = 0; n < f.size(); ++n) {
    CHECK(g[n].M_x == close_to(f[n].M_x, 1e-9));
    CHECK(g[n].N_y == close_to(f[n].N_y, 1e-9));
    CHECK(g[n].Q_x == close_to(f[n].Q_x, 1e-9));
  }
}

TEST_CASE("solve/plate: a hole carries nothing, weighs nothing and moves nowhere") {
  model::Model m;
  m.plates.push_back(odd_plate());
  model::Plate& p = m.plates[0];
  p.x = {0.0, 0.1, 0.25, 0.3, 0.35, 0.4, 0.45, 0.6};  // nodes within the hole, too
  p.y = {0.0, 0.08, 0.14, 0.2, 0.3, 0.42};
  const double area = 0.6 * 0.42 - 0.15 * 0.22;
  CHECK(p.area() == close_to(area, 1e-14));
  m.cases.resize(2);
  m.cases[0].self_weight = true;
  m.cases[1].patch_loads = {
      {0,
       {0.0, 0.6, 0.0, 0.42},
       {0.0, 0.0, -9.0 * area * quantity::in_si(quantity::standard_gravity())}}};
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  std::vector<solve::PlateMovements> moved;
  for (const model::CaseId c : {0u, 1u}) {
    const solve::Loading loading{{{c, 1.0}}, {}};
    const auto state = solve::respond(*prepared, loading);
    REQUIRE(state.has_value());
    CHECK(state->audit.equilibrium < 1e-11);
    const solve::Answered one{&loading, &*state};
    moved.push_back(solve::plate_movements(*prepared, 0, {&one, 1}));
  }
  CHECK((moved[0] - moved[1]).norm() < 1e-14 * moved[1].norm());
  const std::vector<solve::PlateForces> forces = solve::plate_forces(p, moved[0], 0);
  for (const std::size_t i : {3u, 4u}) {
    for (const std::size_t j : {2u, 3u}) {
      const std::size_t n = p.node(i, j);
      CHECK(moved[0].block<5, 1>(static_cast<Eigen::Index>(5 * n), 0).isZero(0.0));
      CHECK(std::abs(forces[n].M_x) + std::abs(forces[n].M_y) + std::abs(forces[n].Q_x) == 0.0);
    }
  }
}

TEST_CASE("solve/plate: what the plate can not take is a fault of ours") {
  CHECK_THROWS_AS((void)press(odd_plate(), {0.7, 0.8, 0.1, 0.2}, 1.0), std::logic_error);
  CHECK_THROWS_AS((void)press(odd_plate(), {0.28, 0.38, 0.1, 0.2}, 1.0), std::logic_error);
  CHECK_THROWS_AS((void)press(odd_plate(), {0.61, 0.61, 0.1, 0.1}, 1.0), std::logic_error);
  // Ties: where it is held, and where it is missing.
  model::Plate held = odd_plate();
  held.ties.push_back({0, 1, 0, {1.0, 1.0, 1.0}});
  CHECK_THROWS_AS(solve::CondensedPlate{held}, std::logic_error);
  model::Plate missing = odd_plate();
  missing.x.insert(missing.x.begin() + 3, 0.3);
  missing.ties.push_back({3, 2, 0, {1.0, 1.0, 1.0}});
  CHECK_THROWS_AS(solve::CondensedPlate{missing}, std::logic_error);
}
