// Free vibration: shapes against closed forms and against the whole system solved in full.
#include <doctest/doctest.h>

#include <Eigen/Dense>

#include "solve/lowest_pairs.hpp"
#include "standtrue/model/divide.hpp"
#include "tests/solve/swinging_models.hpp"

namespace modes_test {

using namespace standtrue;
using namespace standtrue::quantity;
using namespace standtrue::tests;

TEST_CASE("solve/modes: a bench of every part swings as the whole system solved in full") {
  for (const model::SpringSet springs : {model::SpringSet::gravity, model::SpringSet::sway}) {
    const model::Model m = table();
    const Whole whole(m, springs);
    const Eigen::VectorXd expected = whole_frequencies(whole);
    const std::vector<solve::Mode> modes = modes_of(m, {20, 0.0, nullptr}, springs);
    REQUIRE(modes.size() == 20);
    // Slices of the test's members (1e-6); the modes themselves settle to 1e-12.
    for (std::size_t i = 0; i < modes.size(); ++i) {
      CHECK(modes[i].frequency == close_to(expected(static_cast<Eigen::Index>(i)), 2e-6));
    }

    // Square to each other, unit mass; the mode's own fields are those of the whole vector.
    const Eigen::MatrixXd M = whole_mass(whole);
    Eigen::MatrixXd shapes(M.rows(), 20);
    for (std::size_t i = 0; i < 20; ++i) {
      shapes.col(static_cast<Eigen::Index>(i)) << modes[i].displacement, modes[i].plates[0];
    }
    CHECK((shapes.transpose() * M * shapes - Eigen::MatrixXd::Identity(20, 20)).norm() < 1e-4);
    for (std::size_t f = 0; f < 6; ++f) {
      const double moved = pushes(whole, m.cases[m.bodies[0].unit[f]]).dot(shapes.col(0));
      CHECK(modes[0].bodies[0][f] == doctest::Approx(moved).epsilon(1e-9));
    }
  }
}

TEST_CASE("solve/modes: what a rail carries swings on its posts: sqrt(k/m)/2π, each way") {
  // Two posts of 70 mm, 0.9 m, clamped; their tops move one way without turning. Timoshenko:
  // k = 12 EI/(h³ (1 + Φ)), Φ = 12 EI/(G A_s h²), along either side; upright EA/h. By hand for
  // 400 kg on a rail without mass: 6.47 Hz sideways, 87.9 Hz upright.
  const double h = 0.9, b = 0.07, E = 11.2e9, G = 0.7e9, mass = 400.0;
  const double EI = E * b * b * b * b / 12.0, Phi = 12.0 * EI / (G * 5.0 / 6.0 * b * b * h * h);
  const double sideways = 12.0 * EI / (h * h * h * (1.0 + Phi)), upright = E * b * b / h;
  for (const int way : {0, 1, 2}) {
    CAPTURE(way);
    model::Model m;
    m.nodes = {swinging_node("a", 0, 0, 0), swinging_node("b", 1.6, 0, 0),
               swinging_node("c", 0, 0, h), swinging_node("d", 1.6, 0, h)};
    m.members = {swinging_member(0, 2, 70, 70, 0.0), swinging_member(1, 3, 70, 70, 0.0),
                 swinging_member(2, 3, 70, 70, 0.0)};
    m.members[2].carries = from_si<LineLoad>(mass / 1.6 * in_si(standard_gravity()));
    for (const std::size_t foot : {0u, 1u}) support(m, foot, all_six);
    for (const std::size_t top : {2u, 3u}) {
      for (const int f : all_six) {
        if (f != way) support(m, top, {f});
      }
    }
    const double k = 2.0 * (way == 2 ? upright : sideways);
    CHECK(modes_of(m).at(0).frequency ==
          doctest::Approx(std::sqrt(k / mass) / (2.0 * 3.14159265358979)).epsilon(1e-6));
  }
}

TEST_CASE("solve/modes: all up to a frequency, and so many at least") {
  const model::Model m = table();
  const std::vector<solve::Mode> twenty = modes_of(m, {20, 0.0, nullptr});
  for (const std::size_t last : {3u, 11u, 17u}) {
    const double between = 0.5 * (twenty[last].frequency + twenty[last + 1].frequency);
    CHECK(modes_of(m, {1, between, nullptr}).size() == last + 1);
    CHECK(modes_of(m, {6, between, nullptr}).size() == std::max<std::size_t>(6, last + 1));
  }
}

TEST_CASE("solve/modes: a bed stiffens, a body does not; both roads with creep") {
  model::Model m = table();
  const double with_bed = modes_of(m)[4].frequency;
  m.plates[0].bodies.clear();
  CHECK(modes_of(m)[4].frequency < with_bed);

  // A plate by itself: every frequency falls by the root of what creep divides stiffness by.
  model::Model alone;
  model::Plate p = plate(0.9, 0.6, 9, 6, isotropic(9e9, 0.3, 0.018));
  p.thickness = 0.018;
  p.mass_per_area = 11.7;
  support_edges_x(p);
  support_edges_y(p);
  hold_in_plane(p);
  alone.plates = {p};
  const std::vector<solve::Mode> fresh = modes_of(alone);
  alone.plates[0].creep = 2.25;
  const std::vector<solve::Mode> crept = modes_of(alone);
  for (std::size_t i = 0; i < fresh.size(); ++i) {
    CHECK(crept[i].frequency == close_to(fresh[i].frequency / 1.5, 1e-9));
  }
}

TEST_CASE("solve/modes: what repeats eight times is found eight times (own: equal legs)") {
  // Four square cantilevers side by side: each swings alike to and fro and up and down.
  model::Model m;
  for (std::size_t i = 0; i < 4; ++i) {
    m.nodes.push_back(swinging_node("foot", 0.5 * static_cast<double>(i), 0.0, 0.0));
    m.nodes.push_back(swinging_node("head", 0.5 * static_cast<double>(i), 0.0, 2.0));
    m.members.push_back(swinging_member(2 * i, 2 * i + 1, 60.0, 60.0));
    m.members.back().section.A_sy = m.members.back().section.A_sz = Area{};
    support(m, 2 * i, all_six);
  }
  const model::Model cut = model::divided(m, 10).model;  // 240 unknowns
  const std::vector<solve::Mode> modes = modes_of(cut, {17, 0.0, nullptr});
  REQUIRE(modes.size() == 17);
  // (β L)² = 3.516015 and 22.03449 (Thomson, appendix D); turning sections take 2e-4 and 1.2e-3.
  for (std::size_t i = 0; i < 8; ++i) CHECK(modes[i].frequency == close_to(12.08855, 1e-3));
  for (std::size_t i = 8; i < 16; ++i) CHECK(modes[i].frequency == close_to(75.75766, 2e-3));
  CHECK(modes[16].frequency > 80.0);
}

TEST_CASE("solve/modes: a frame has no more modes than it has mass") {
  // A cantilever without mass, and a mass on its tip: sqrt(k/m) for each way.
  for (const int pieces : {1, 25}) {  // in full, and block by block
    model::Model m;
    m.nodes = {swinging_node("foot", 0.0, 0.0, 0.0), swinging_node("tip", 1.2, 0.0, 0.0)};
    m.members = {swinging_member(0, 1, 45.0, 95.0, 0.0)};
    m.members[0].section.A_sy = m.members[0].section.A_sz = Area{};
    support(m, 0, all_six);
    m.masses = {point_mass(1, 8.0)};
    const std::vector<solve::Mode> modes = modes_of(model::divided(m, pieces).model);
    REQUIRE(modes.size() == 3);
    const double E = 11.2e9, L = 1.2, b = 0.045, h = 0.095;
    const auto f = [](double k) { return std::sqrt(k / 8.0) / (2.0 * pi); };
    CHECK(modes[0].frequency == close_to(f(3.0 * E * h * b * b * b / 12.0 / (L * L * L)), 1e-9));
    CHECK(modes[1].frequency == close_to(f(3.0 * E * b * h * h * h / 12.0 / (L * L * L)), 1e-9));
    CHECK(modes[2].frequency == close_to(f(E * b * h / L), 1e-9));
    // The mass alone moves, with φ^T M φ = 1.
    CHECK(std::abs(modes[0].displacement(7)) == close_to(1.0 / std::sqrt(8.0), 1e-9));
  }
}

TEST_CASE("solve/modes: without mass there are none; all held there are none") {
  model::Model m;
  m.nodes = {swinging_node("foot", 0.0, 0.0, 0.0), swinging_node("tip", 1.2, 0.0, 0.0)};
  m.members = {swinging_member(0, 1, 45.0, 95.0, 0.0)};
  support(m, 0, all_six);
  CHECK(modes_of(m).empty());
  CHECK(modes_of(model::divided(m, 25).model).empty());
  m.members[0].elastic.density = from_si<Density>(450.0);
  CHECK(modes_of(m).size() == 6);
  support(m, 1, all_six);
  CHECK(modes_of(m).empty());
}

TEST_CASE("solve/modes: pieces converge from above, at the rate of what rules in them") {
  // Simply supported, bending over the depth; Timoshenko's beam in closed form:
  //     λ² ρ²I/(κG) - λ (ρ A + k² (ρ I + ρ A E I/(κ G A))) + k⁴ E I = 0 for A = 1 and so on.
  const double E = 11.2e9, G = 0.7e9, rho = 450.0, L = 1.5, k = pi / L;
  for (const bool slender : {true, false}) {
    const double h = slender ? 0.02 : 0.24, b = h;
    const double A = b * h, I = b * h * h * h / 12.0, GA_s = 5.0 / 6.0 * G * A;
    const double a2 = rho * I * rho * A / GA_s;
    const double a1 = rho * A + k * k * (rho * I + rho * A * E * I / GA_s);
    const double a0 = std::pow(k, 4) * E * I;
    const double lambda = slender ? std::pow(k, 4) * E * I / (rho * A + k * k * rho * I)
                                  : 2.0 * a0 / (a1 + std::sqrt(a1 * a1 - 4.0 * a2 * a0));
    const double exact = std::sqrt(lambda) / (2.0 * pi);
    std::array<double, 2> off{};
    for (const std::size_t i : {0u, 1u}) {
      model::Model m;
      m.nodes = {swinging_node("A", 0.0, 0.0, 0.0), swinging_node("B", L, 0.0, 0.0)};
      m.members = {swinging_member(0, 1, 1e3 * b, 1e3 * h)};
      if (slender) m.members[0].section.A_sy = m.members[0].section.A_sz = Area{};
      support(m, 0, {0, 1, 2, 3, 5});
      support(m, 1, {1, 2, 3, 5});
      const std::vector<solve::Mode> modes = modes_of(model::divided(m, i == 0 ? 4 : 8).model);
      off[i] = modes[0].frequency / exact - 1.0;
    }
    CAPTURE(slender);
    CHECK(off[0] > 0.0);
    CHECK(off[1] > 0.0);
    // Without shear the shapes are cubic: h⁴. In short pieces that shear, w is straight: h².
    CHECK(off[0] / off[1] == close_to(slender ? 16.0 : 4.0, slender ? 0.05 : 0.25));
  }
}

TEST_CASE("solve/modes: a body on a plate, from its sag under the body (Rayleigh)") {
  model::Model m;
  model::Plate p = plate(0.8, 0.6, 16, 12, isotropic(9e9, 0.3, 0.018));
  p.thickness = 0.018;
  support_edges_x(p);
  support_edges_y(p);
  hold_in_plane(p);
  m.plates = {p};
  stand_on(m, 0, 0.4, 0.3, 0.1, 0.1, 0.2, 0.05, 40.0, {0.0, 0.0, 0.0});
  // How far 1 N down sinks the mean of its pads.
  const solve::Prepared made = prepared(m);
  const solve::Loading unit{{{2, 1.0}}, {}};
  const auto state = solve::respond(made, unit);
  REQUIRE(state.has_value());
  const solve::Answered answered{&unit, &*state};
  const solve::PlateMovements w = solve::plate_movements(made, 0, {&answered, 1});
  double sag = 0.0;
  for (const double x : {0.3, 0.5}) {  // pads are two cells wide: mean of bilinear w, by halves
    for (const double y : {0.2, 0.4}) {
      for (const double dx : {-0.025, 0.025}) {
        for (const double dy : {-0.025, 0.025}) {
          sag += solve::plate_w(p, w, x + dx, y + dy, 0) / 16.0;
        }
      }
    }
  }
  const double by_sag = std::sqrt(1.0 / (40.0 * sag)) / (2.0 * pi);
  // Without mass of its own the plate is a spring: the estimate is exact. The body stands in the
  // middle, so that it rocks about x and about y by itself.
  const auto lifts = [](const std::vector<solve::Mode>& modes) {
    for (const solve::Mode& mode : modes) {
      if (std::abs(mode.bodies[0][2]) > 0.1 * std::sqrt(1.0 / 40.0)) return mode;
    }
    return solve::Mode{};
  };
  const solve::Mode light = lifts(modes_of(m));
  CHECK(light.frequency == close_to(by_sag, 1e-9));
  CHECK(std::abs(light.bodies[0][2]) == close_to(1.0 / std::sqrt(40.0), 1e-9));
  // With mass it is an upper bound on the lowest; 4 kg of plate take less than half their part.
  m.plates[0].mass_per_area = 4.0 / 0.48;
  const double heavy = lifts(modes_of(m)).frequency;
  CHECK(heavy < by_sag);
  CHECK(heavy > by_sag * std::sqrt(40.0 / 42.0));
}

TEST_CASE("solve/modes: a tall body rocks on soft pads (own: two freedoms in closed form)") {
  // Two pads 2 b apart on springs k each up and k_x each sideways; the centre h above them:
  //     K = diag(2 k_x, 2 k b²),  M = [m, m h; m h, I + m h²]   for the pads' middle and the turn.
  const double k = 3e4, k_x = 2e4, b = 0.2, h = 0.6, mass = 60.0, I = 4.0;
  for (const bool held : {true, false}) {
    model::Model m;
    m.nodes = {swinging_node("left", -b, 0.0, 0.0), swinging_node("right", b, 0.0, 0.0)};
    m.members = {swinging_member(0, 1, 5.0, 5.0, 0.0)};  // a wisp: 2e-4 of the pads
    m.members[0].start_springs[1] = m.members[0].start_springs[2] = model::EndSpring::free_end();
    m.members[0].start_springs[4] = m.members[0].start_springs[5] = model::EndSpring::free_end();
    m.members[0].start_springs[0] = model::EndSpring::free_end();
    for (const std::size_t n : {0u, 1u}) {
      support(m, n, {1, 3, 4, 5});
      support(m, n, {2}, k);
      if (held) support(m, n, {0});
      if (!held) support(m, n, {0}, k_x);
    }
    model::Body body;
    body.name = "tall";
    body.mass = kilograms(mass);
    body.inertia.y = from_si<MassMoment>(I);
    for (std::size_t i = 0; i < 6; ++i) {
      model::LoadCase load;
      load.name = std::to_string(i);
      // A push along x turns about y by h; down on the right, up on the left.
      const double turn = i == 0 ? h : i == 4 ? 1.0 : 0.0;
      for (const std::size_t n : {0u, 1u}) {
        const double side = n == 0 ? 1.0 : -1.0;
        load.node_loads.push_back({n,
                                   {newtons(i == 0 ? 0.5 : 0.0), newtons(i == 1 ? 0.5 : 0.0),
                                    newtons((i == 2 ? 0.5 : 0.0) + side * turn / (2.0 * b))},
                                   {},
                                   {}});
      }
      body.unit[i] = i;
      m.cases.push_back(load);
    }
    m.bodies = {body};
    const std::vector<solve::Mode> modes = modes_of(m);
    const double k_theta = 2.0 * k * b * b, I_pads = I + mass * h * h;
    double lowest = std::sqrt(k_theta / I_pads);
    if (!held) {
      Eigen::Matrix2d K, M;
      K << 2.0 * k_x, 0.0, 0.0, k_theta;
      M << mass, mass * h, mass * h, I_pads;
      const Eigen::GeneralizedSelfAdjointEigenSolver<Eigen::Matrix2d> eigen(K, M);
      lowest = std::sqrt(eigen.eigenvalues()(0));
    }
    CHECK(modes[0].frequency == close_to(lowest / (2.0 * pi), 1e-9));
    // Its centre goes along x as it turns about y.
    const double share = modes[0].bodies[0][0] / modes[0].bodies[0][4];
    if (held) CHECK(share == close_to(h, 1e-9));
    if (!held) CHECK(share > h);
  }
}

TEST_CASE(
    "solve/modes: pressed beyond what buckles a frame, it is refused; pulled, it is quicker") {
  model::Model m;
  m.nodes = {swinging_node("foot", 0.0, 0.0, 0.0), swinging_node("head", 0.0, 0.0, 1.0)};
  m.members = {swinging_member(0, 1, 30.0, 30.0)};
  support(m, 0, all_six);
  m.cases.resize(1);
  m.cases[0].node_loads = {{1, {newtons(0), newtons(0), newtons(-1000)}, {}, {}}};
  const solve::Prepared made = prepared(model::divided(m, 8).model);
  const double I = std::pow(0.03, 4) / 12.0, P_e = square(pi / 2.0) * 11.2e9 * I;
  std::array<double, 3> f{};
  for (const std::size_t i : {0u, 1u, 2u}) {
    const double P = (static_cast<double>(i) - 1.0) * 0.5 * P_e;
    const auto state = solve::respond(made, {{{0, P / 1000.0}}, {}});
    REQUIRE(state.has_value());
    f[i] = solve::modes(made, {1, 0.0, &*state})->front().frequency;
  }
  CHECK(f[0] > f[1]);
  CHECK(f[1] > f[2]);
  const auto beyond = solve::respond(made, {{{0, 1.01 * P_e / 1000.0}}, {}});
  const auto refused = solve::modes(made, {1, 0.0, &*beyond});
  REQUIRE_FALSE(refused.has_value());
  CHECK(refused.error().why == solve::Refusal::Why::buckles);
}

TEST_CASE("solve/lowest_pairs: a chain of masses has ω = 2 sin(j π/(2 (n + 1))) (from memory)") {
  const Eigen::Index n = 300;
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(n, n);
  for (Eigen::Index i = 0; i < n; ++i) {
    K(i, i) = 2.0;
    if (i > 0) K(i, i - 1) = K(i - 1, i) = -1.0;
  }
  const Eigen::LLT<Eigen::MatrixXd> llt(K);
  const auto K_inverse = [&](const solve::Panel& f) {
    return solve::Panel(llt.solve(Eigen::MatrixXd(f)));
  };
  const auto M = [](const solve::Panel& u) { return u; };
  const auto pairs = solve::lowest_pairs(K_inverse, M, n, {30, 0.0});
  const auto in_full = solve::all_pairs(K, Eigen::MatrixXd::Identity(n, n), {30, 0.0});
  REQUIRE(pairs.has_value());
  REQUIRE(pairs->lambda.size() == 30);
  for (Eigen::Index j = 0; j < 30; ++j) {
    const double omega = 2.0 * std::sin(static_cast<double>(j + 1) * pi / (2.0 * (n + 1)));
    CHECK(std::sqrt(pairs->lambda(j)) == close_to(omega, 1e-10));
    CHECK(std::sqrt(in_full->lambda(j)) == close_to(omega, 1e-10));
  }
}

}  // namespace modes_test
