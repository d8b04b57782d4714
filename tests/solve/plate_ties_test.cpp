// Plates tied to a frame: composite action, and posts.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "standtrue/solve/buckling.hpp"
#include "standtrue/solve/plate_response.hpp"
#include "tests/solve/plate_frames.hpp"

namespace plate_ties_test {

using namespace standtrue;
using namespace standtrue::tests;

namespace {

// Two beams under the two edges of a strip without Poisson's ratio: both alike, so that the strip
// bends and stretches evenly over its width and each beam carries half of it as in the closed form.

struct Composite {
  double L = 2.0, width = 0.3, t = 0.018, h = 0.095, q = 1500.0;  ///< q per area
  double slip = 0.0;                                              ///< N/m per metre of one beam
  std::size_t cells = 32;

  [[nodiscard]] model::PlateStiffness strip() const {
    model::PlateStiffness s = orthotropic(9e9, 4e9, 0.0, 0.5e9, 0.5e9, 0.5e9, t);
    s.S_x = s.S_y = 1e10;  // no shear strain, as in the closed form; it does not lock
    return s;
  }
  [[nodiscard]] double EA_1() const { return strip().A_11 * width / 2.0; }
  [[nodiscard]] double EI_1() const { return strip().D_11 * width / 2.0; }
  [[nodiscard]] double EA_2() const { return 11e9 * 0.045 * h; }
  [[nodiscard]] double EI_2() const { return 11e9 * 0.045 * h * h * h / 12.0; }
  [[nodiscard]] double r() const { return 0.5 * (t + h); }
  [[nodiscard]] double EI_loose() const { return EI_1() + EI_2(); }
  /// Transformed section: what both bend with when nothing slips.
  [[nodiscard]] double EI_glued() const {
    return EI_loose() + r() * r() * EA_1() * EA_2() / (EA_1() + EA_2());
  }

  [[nodiscard]] model::Model model() const;
};

model::Model Composite::model() const {
  model::Model m;
  m.plates.push_back(plate(L, width, cells, 1, strip()));
  model::Plate& p = m.plates[0];
  p.thickness = t;
  p.tie_level = -0.5 * t;
  const double l = L / static_cast<double>(cells);
  for (const std::size_t j : {0u, 1u}) {
    for (std::size_t i = 0; i <= cells; ++i) {
      const std::size_t n = m.nodes.size();
      m.nodes.push_back(node("n" + std::to_string(n), p.x[i], p.y[j], -r()));
      const double k = slip * l * (i == 0 || i == cells ? 0.5 : 1.0);
      p.ties.push_back({i, j, n, {k, k, 1e10}});
      if (i == 0) continue;
      m.members.push_back(member(n - 1, n, 45.0, 1e3 * h));
      m.members.back().section.A_sy = m.members.back().section.A_sz = Area{};
    }
    hold_node(m, m.nodes.size() - cells - 1, {0, 1, 2, 3});
    hold_node(m, m.nodes.size() - 1, {1, 2, 3});
  }
  m.cases.resize(1);
  m.cases[0].patch_loads.push_back({0, {0.0, L, 0.0, width}, {0.0, 0.0, -q * L * width}});
  return m;
}

/// Simply supported beam of two layers that slip on each other by N'/K, both bent alike, under an
/// even load p per length. Own derivation (the theory of Newmark, Siess & Viest 1951, Girhammar
/// 1993):
///     N'' - a² N = -K r M/EI_0,   EI_0 w'' = -(M - r N),   a² = K EI_8 / (EI_0 EA)
struct PartialInteraction {
  double p, L, r, K, EI_0, EI_8, a;
  explicit PartialInteraction(const Composite& c)
      : p(c.q * c.width / 2.0),
        L(c.L),
        r(c.r()),
        K(c.slip),
        EI_0(c.EI_loose()),
        EI_8(c.EI_glued()),
        a(std::sqrt(K * EI_8 / (EI_0 * c.EA_1() * c.EA_2() / (c.EA_1() + c.EA_2())))) {}

  /// Tension in the lower layer.
  [[nodiscard]] double N(double x) const {
    const double M = 0.5 * p * x * (L - x);
    const double end = std::cosh(a * (x - 0.5 * L)) / std::cosh(0.5 * a * L);
    return K * r / (EI_0 * a * a) * (M - p / (a * a) * (1.0 - end));
  }
  [[nodiscard]] double sag() const {
    const double c = (1.0 - EI_0 / EI_8) * p / (a * a * EI_0);
    return 5.0 * p * std::pow(L, 4) / (384.0 * EI_8) +
           c * (L * L / 8.0 - (1.0 - 1.0 / std::cosh(0.5 * a * L)) / (a * a));
  }
};

double middle_sag(const Composite& c) {
  const model::Model m = c.model();
  const solve::PlateMovements movements = answer(m).movements();
  return -solve::plate_w(m.plates[0], movements, 0.5 * c.L, 0.5 * c.width, 0);
}

/// Downward on the heads, in the order of the ties.
std::vector<double> pushes(const Response& response) {
  std::vector<double> down;
  for (const std::array<double, 3>& f : solve::tie_forces(*response.prepared, 0, response.state)) {
    down.push_back(-f[2]);
  }
  return down;
}

}  // namespace

TEST_CASE(
    "solve/plate_ties: a strip on beams slips as the closed form says (partial interaction)") {
  // What is left beside h²: the ties' and the strip's own give, a few 1e-6 (their stiffness 1e10).
  for (const double slip : {1e5, 2e6, 1e8}) {
    CAPTURE(slip);
    Composite coarse, fine;
    coarse.slip = fine.slip = slip;
    coarse.cells = 16;
    const double exact = PartialInteraction(fine).sag();
    const double w = middle_sag(coarse), v = middle_sag(fine);
    CHECK(std::log2((w - exact) / (v - exact)) >= 1.9);
    CHECK((4.0 * v - w) / 3.0 == close_to(exact, 1e-5));
  }
}

TEST_CASE("solve/plate_ties: pulled beams under a pressed strip are no stiffer by second order") {
  // No force along from outside: what the beams are pulled with the strip is pressed with.
  Composite composite;
  composite.slip = 1e8;
  const model::Model m = composite.model();
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  solve::Loading loading{{{0, 10.0}}, {}};
  const auto first = solve::respond(*prepared, loading);
  loading.second_order = true;
  const auto second = solve::respond(*prepared, loading);
  REQUIRE(first.has_value());
  REQUIRE(second.has_value());
  // Enough to show: the pull is a good part of what one beam would buckle under.
  const double pull = 0.5 * (first->end_forces[16][6] - first->end_forces[16][0]);
  CHECK(pull > 0.1 * pi * pi * composite.EI_2() / (composite.L * composite.L));
  const double size = first->displacement.cwiseAbs().maxCoeff();
  CHECK((second->displacement - first->displacement).cwiseAbs().maxCoeff() <= 1e-6 * size);
}

TEST_CASE("solve/plate_ties: strip and beams buckle as one column whose layers slip") {
  // Each beam with half of the strip, by the equations of PartialInteraction with M = P w and
  // w = sin(π x/L):   P = EI_0 β² / (1 - (1 - EI_0/EI_8) a²/(a² + β²)),   β = π/L.
  for (const double slip : {1e5, 2e6, 1e8}) {
    CAPTURE(slip);
    const auto factor = [slip](std::size_t cells) {
      Composite c;
      c.slip = slip;
      c.cells = cells;
      model::Model m = c.model();
      for (std::size_t n = 0; n < m.nodes.size(); ++n) {
        if (n % (cells + 1) != 0 && n % (cells + 1) != cells) hold_node(m, n, {1});
      }
      std::vector<model::NodeLoad> ends(2);
      ends[0].node = cells;
      ends[1].node = 2 * cells + 1;
      for (model::NodeLoad& end : ends) end.force.x = quantity::newtons(-1000.0);
      const Response pressed = answer(m, ends);
      const auto modes = solve::buckling(*pressed.prepared, pressed.state, 6);
      REQUIRE(modes.has_value());
      // The lowest in which both beams go up alike.
      for (const solve::BucklingMode& mode : *modes) {
        const double a = mode.shape(static_cast<Eigen::Index>(6 * (cells / 2) + 2));
        const double b = mode.shape(static_cast<Eigen::Index>(6 * (cells + 1 + cells / 2) + 2));
        if (std::abs(a) > 0.5 && std::abs(a - b) < 0.01) return mode.factor;
      }
      return 0.0;
    };
    Composite c;
    c.slip = slip;
    const PartialInteraction layers(c);
    const double beta2 = pi * pi / (c.L * c.L), a2 = layers.a * layers.a;
    const double share = (1.0 - layers.EI_0 / layers.EI_8) * a2 / (a2 + beta2);
    const double exact = layers.EI_0 * beta2 / (1.0 - share) / 1000.0;
    CHECK((4.0 * factor(32) - factor(16)) / 3.0 == close_to(exact, 1e-4));
  }
}

TEST_CASE(
    "solve/plate_ties: between loose and glued, 5pL⁴/384 (EI_1 + EI_2) and by transformed "
    "section") {
  const auto extrapolated = [](double slip) {
    Composite coarse, fine;
    coarse.slip = fine.slip = slip;
    coarse.cells = 16;
    return (4.0 * middle_sag(fine) - middle_sag(coarse)) / 3.0;
  };
  const Composite c;
  const double load = 5.0 * (0.5 * c.q * c.width) * std::pow(c.L, 4) / 384.0;
  CHECK(extrapolated(1.0) == close_to(load / c.EI_loose(), 1e-5));
  // Glued: what slips yet is 1/(aL)² of the difference, 2e-5.
  CHECK(extrapolated(1e12) == close_to(load / c.EI_glued(), 3e-5));
}

TEST_CASE("solve/plate_ties: the slip forces add up to the beam's tension; M is shared as EI") {
  Composite c;
  c.slip = 2e6;
  const PartialInteraction exact(c);
  const model::Model m = c.model();
  const Response response = answer(m);
  const std::vector<std::array<double, 3>> ties =
      solve::tie_forces(*response.prepared, 0, response.state);
  const double l = c.L / static_cast<double>(c.cells);
  const double mesh = std::pow(1.0 / 16.0, 2);  // half the span is 16 cells
  double N = 0.0;
  for (std::size_t i = 0; i < c.cells; ++i) {
    const double x = m.plates[0].x[i];
    // Shear flow by the length that the tie stands for.
    const double flow = exact.N(x + 0.5 * l) - exact.N(i == 0 ? 0.0 : x - 0.5 * l);
    CHECK(-ties[i][0] == doctest::Approx(flow).epsilon(mesh).scale(exact.N(l)));
    N -= ties[i][0];
    CHECK(response.state.end_forces[i][6] ==
          close_to(N, 1e-9));  // tension of the beam's next piece
    CHECK(N == close_to(exact.N(x + 0.5 * l), mesh));
    CHECK(ties[i][1] == doctest::Approx(0.0).scale(N).epsilon(1e-7));
  }
  const solve::PlateForces f =
      solve::plate_forces_at(m.plates[0], response.movements(), 0.5 * c.L, 0.5 * c.width, 0);
  const double N_mid = exact.N(0.5 * c.L), M = exact.p * c.L * c.L / 8.0;
  CHECK(f.N_x * c.width / 2.0 == close_to(-N_mid, mesh));
  CHECK(-f.M_x * c.width / 2.0 == close_to((M - c.r() * N_mid) * c.EI_1() / c.EI_loose(), mesh));
  CHECK(response.state.audit.equilibrium < 1e-9);
}

TEST_CASE("solve/plate_ties: a stiff plate shares a load among four posts by statics") {
  const OnPosts posts;
  model::Model m = posts.model(isotropic(1e10, 0.3, 3.0));  // some 1e6 times a post's stiffness
  const double P = 1000.0, x = 0.5, y = 0.25, A = posts.A, B = posts.B;
  m.cases[0].patch_loads = {{0, {x - 0.03, x + 0.03, y - 0.02, y + 0.02}, {0.0, 0.0, -P}}};
  const Response response = answer(m);
  const std::vector<double> down = pushes(response);
  const double ex = x - 0.4, ey = y - 0.3;
  const std::array<std::array<double, 2>, 4> side{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}};
  for (std::size_t i = 0; i < 4; ++i) {
    const double share = P * (0.25 + side[i][0] * ex / (2.0 * A) + side[i][1] * ey / (2.0 * B));
    CHECK(down[i] == close_to(share, 1e-5));
    CHECK(response.state.support_forces[6 * i + 2] == close_to(down[i], 1e-9));
    const double sunk = -response.movements()(
        static_cast<Eigen::Index>(5 * m.plates[0].node(i % 3 == 0 ? 1 : 7, i < 2 ? 1 : 5) + 2), 0);
    CHECK(sunk == close_to(share / posts.k(), 1e-5));
  }
}

TEST_CASE("solve/plate_ties: posts that give add what they give to a plate on rigid ones") {
  const OnPosts posts;
  const model::PlateStiffness s = orthotropic(10e9, 4e9, 0.06, 0.5e9, 0.3e9, 0.07e9, 0.018);
  const double P = 800.0;
  const model::Patch middle{0.3, 0.5, 0.2, 0.4};
  model::Model m = posts.model(s);
  m.cases[0].patch_loads = {{0, middle, {0.0, 0.0, -P}}};
  const Response response = answer(m);
  const double w = -solve::plate_w(m.plates[0], response.movements(), 0.4, 0.3, 0);
  model::Plate rigid = plate(0.8, 0.6, 8, 6, s);
  hold_in_plane(rigid);
  for (const double x : {0.1, 0.7}) {
    for (const double y : {0.1, 0.5}) hold(rigid, {x, x, y, y}, {false, false, true, false, false});
  }
  CHECK(w == close_to(press(rigid, middle, P).sag(0.4, 0.3) + 0.25 * P / posts.k(), 1e-10));
}

TEST_CASE("solve/plate_ties: the weight of a plate with a hole goes to its posts") {
  const OnPosts posts;
  model::Model m = posts.model(isotropic(9e9, 0.3, 0.018));
  m.plates[0].holes = {{0.2, 0.4, 0.1, 0.3}};
  m.plates[0].mass_per_area = 11.0;
  m.cases[0].self_weight = true;
  const Response response = answer(m);
  double carried = 0.0, about_y = 0.0;
  for (std::size_t i = 0; i < 4; ++i) {
    carried += response.state.support_forces[6 * i + 2];
    about_y += response.state.support_forces[6 * i + 2] * (i % 3 == 0 ? 0.1 : 0.7) -
               response.state.support_forces[6 * i + 4];
  }
  const double g = in_si(standard_gravity());
  CHECK(carried == close_to(11.0 * g * (0.8 * 0.6 - 0.2 * 0.2), 1e-9));
  CHECK(about_y == close_to(11.0 * g * (0.8 * 0.6 * 0.4 - 0.2 * 0.2 * 0.3), 1e-9));
}

}  // namespace plate_ties_test
