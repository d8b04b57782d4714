// What any plate keeps by itself, whatever its mesh: its answers add up, turn with it, are in
// balance, and follow its loads to the last bit.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>
#include <functional>

#include "solve/condensed_plate.hpp"
#include "tests/solve/plate_models.hpp"

namespace plate_laws_test {

using namespace standtrue;
using namespace standtrue::tests;

namespace {

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

TEST_CASE("solve/plate_laws: own axes turned by a quarter, material and all: the same plate") {
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
    "solve/plate_laws: stood upright, or turned any way in space with its load, it does the same") {
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

TEST_CASE("solve/plate_laws: answers add up, and forty at once are the forty one by one") {
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

TEST_CASE("solve/plate_laws: two plates of one model do not hear each other") {
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
    "solve/plate_laws: forces at a mesh node and at its place are the same, each the mean of its "
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

TEST_CASE("solve/plate_laws: forces in a cell are those that its strains make in its middle") {
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

TEST_CASE("solve/plate_laws: in its plane a wall carries tension, shear and bending to its clamp") {
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

TEST_CASE("solve/plate_laws: a patch of any size keeps its force and its place") {
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

TEST_CASE("solve/plate_laws: a small pad is the limit of a smaller one, not of the mesh") {
  // A pad of a thousandth of a cell and a point at its centre differ by its own extent only.
  const Solved point = press(odd_plate(), {0.5, 0.5, 0.1, 0.1}, 100.0);
  const Solved pad = press(odd_plate(), {0.49995, 0.50005, 0.09995, 0.10005}, 100.0);
  CHECK((pad.movements - point.movements).norm() < 1e-12 * point.movements.norm());
}

TEST_CASE("solve/plate_laws: creep divides the stiffness: movements grow by it, forces stay") {
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

TEST_CASE("solve/plate_laws: a hole carries nothing, weighs nothing and moves nowhere") {
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

TEST_CASE("solve/plate_laws: what the plate can not take is a fault of ours") {
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

TEST_CASE("solve/plate_laws: a field holds the forces of nodes and cells, and fields add up") {
  const model::PlateStiffness s = orthotropic(10e9, 4e9, 0.06, 0.5e9, 0.3e9, 0.07e9, 0.018);
  model::Plate p = plate(0.3, 0.2, 3, 2, s);
  p.creep = 1.6;
  p.holes = {{0.2, 0.3, 0.0, 0.1}};
  solve::PlateMovements movements(60, 2);
  for (Eigen::Index i = 0; i < movements.size(); ++i) {
    movements(i / 2, i % 2) = std::sin(1.3 * static_cast<double>(i * i));
  }
  const solve::PlateField field = solve::plate_field(p, movements, 1);
  const std::vector<solve::PlateForces> forces = solve::plate_forces(p, movements, 1);
  REQUIRE(field.at_nodes.cols() == 12);
  for (std::size_t n = 0; n < forces.size(); ++n) {
    const solve::PlateForces& f = forces[n];
    Eigen::Matrix<double, 6, 1> at;
    at << f.N_x, f.N_y, f.N_xy, f.M_x, f.M_y, f.M_xy;
    CHECK((field.at_nodes.col(static_cast<Eigen::Index>(n)) - at).norm() <= 1e-12 * at.norm());
  }
  REQUIRE(field.in_cells.cols() == 6);
  CHECK(field.in_cells.col(2).isZero(0.0));  // the hole
  const solve::PlateForces middle = solve::plate_forces_in_cell(p, movements, 1, 1, 1);
  CHECK(field.in_cells(0, 4) == close_to(middle.Q_x, 1e-12));
  CHECK(field.in_cells(1, 4) == close_to(middle.Q_y, 1e-12));

  solve::PlateMovements one = movements.col(0);
  one = solve::plus(one, movements.col(1), -0.7);
  const solve::PlateField whole = solve::plate_field(p, one, 0);
  const solve::PlateField sum = solve::plus(solve::plate_field(p, movements, 0), field, -0.7);
  CHECK((whole.at_nodes - sum.at_nodes).norm() <= 1e-12 * whole.at_nodes.norm());
  CHECK((whole.in_cells - sum.in_cells).norm() <= 1e-12 * whole.in_cells.norm());
}

}  // namespace plate_laws_test
