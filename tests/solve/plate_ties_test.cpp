// Plates on a frame: composite action, posts, bodies, and the condensed road against the whole
// system assembled here by itself.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "standtrue/solve/plate_response.hpp"
#include "tests/solve/plate_models.hpp"
#include "tests/solve/whole_system.hpp"

using namespace standtrue;
using namespace standtrue::quantity;
using namespace standtrue::tests;

namespace {

model::Node node(const std::string& name, double x, double y, double z) {
  return {name, {metres(x), metres(y), metres(z)}};
}

model::Member member(std::size_t start, std::size_t end, double width_mm, double depth_mm) {
  model::Member m;
  m.name = std::to_string(start) + "-" + std::to_string(end);
  m.start = start;
  m.end = end;
  m.elastic = {pascals(11e9), pascals(0.69e9), from_si<Density>(0.0)};
  m.section = model::rectangle(millimetres(width_mm), millimetres(depth_mm));
  return m;
}

void hold_node(model::Model& m, std::size_t at, const std::vector<int>& freedoms) {
  for (const int f : freedoms) {
    model::Support support;
    support.name = m.nodes[at].name;
    support.node = at;
    support.rotation = f > 2;
    support.along = {f % 3 == 0 ? 1.0 : 0.0, f % 3 == 1 ? 1.0 : 0.0, f % 3 == 2 ? 1.0 : 0.0};
    m.supports.push_back(support);
  }
}

/// Prepared, one loading of case 0 answered.
struct Response {
  std::optional<solve::Prepared> prepared;
  solve::Loading loading;
  solve::State state;

  [[nodiscard]] solve::PlateMovements movements(std::size_t plate = 0) const {
    const solve::Answered one{&loading, &state};
    return solve::plate_movements(*prepared, plate, {&one, 1});
  }
};
Response answer(const model::Model& m, std::vector<model::NodeLoad> node_loads = {},
                solve::PlateCache cache = {},
                model::SpringSet springs = model::SpringSet::gravity) {
  Response response;
  const auto prepared = solve::prepare(m, springs, cache);
  if (!prepared) throw std::runtime_error(prepared.error().what);
  response.prepared = *prepared;
  response.loading = {{{0, 1.0}}, std::move(node_loads)};
  const auto state = solve::respond(*prepared, response.loading);
  if (!state) throw std::runtime_error(state.error().what);
  response.state = *state;
  return response;
}

// ---------------------------------------------------------------------------------------------
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

/// A small bench: four posts, four rails, an odd top with a hole on the rails (turned in its plane,
/// two ties at one of its mesh nodes, tied to rails beside and below), an upright back, two bodies.
model::Model small_bench() {
  model::Model m;
  const double X = 0.62, Y = 0.44, Z = 0.5;
  for (const double z : {0.0, Z}) {
    m.nodes.push_back(node("fl", 0.0, 0.0, z));
    m.nodes.push_back(node("fr", X, 0.0, z));
    m.nodes.push_back(node("br", X, Y, z));
    m.nodes.push_back(node("bl", 0.0, Y, z));
  }
  m.nodes.push_back(node("fm", 0.3, 0.0, Z));  // middles of front and back rail: 8, 9
  m.nodes.push_back(node("bm", 0.3, Y, Z));
  for (const std::size_t post : {0u, 1u, 2u, 3u}) {
    m.members.push_back(member(post, post + 4, 45.0, 70.0));
    hold_node(m, post, {0, 1, 2, 5});
  }
  for (const auto& [a, b] : {std::pair{4u, 8u}, {8u, 5u}, {5u, 6u}, {7u, 9u}, {9u, 6u}, {7u, 4u}}) {
    m.members.push_back(member(a, b, 45.0, 95.0));
    m.members.back().start_springs[4] = m.members.back().end_springs[4] =
        model::EndSpring::elastic(8e3);
  }
  m.supports[2].stiffness = 4e5;  // one soft foot
  model::Plate top = odd_plate();
  top.holds.clear();
  top.origin = {0.01, 0.01, Z + 0.06};
  top.tie_level = -0.009;
  top.creep = 1.4;
  top.ties = {{0, 0, 4, {3e5, 2e5, 9e6}}, {5, 0, 5, {3e5, 2e5, 9e6}}, {5, 4, 6, {3e5, 2e5, 9e6}},
              {0, 4, 7, {3e5, 2e5, 9e6}}, {2, 0, 8, {5e5, 4e5, 2e7}}, {3, 4, 9, {5e5, 4e5, 2e7}},
              {2, 0, 4, {1e4, 2e4, 3e4}}, {5, 2, 6, {1e5, 0.0, 3e5}}};
  top.bodies = {{"lathe",
                 {model::Patch{0.0, 0.1, 0.0, 0.08}, model::Patch{0.45, 0.6, 0.0, 0.08},
                  model::Patch{0.45, 0.6, 0.3, 0.42}, model::Patch{0.0, 0.1, 0.3, 0.42}},
                 2e5},
                {"saw",
                 {model::Patch{0.0, 0.25, 0.08, 0.3}, model::Patch{0.4, 0.6, 0.08, 0.3},
                  model::Patch{0.4, 0.6, 0.3, 0.42}, model::Patch{0.0, 0.25, 0.3, 0.42}},
                 7e5}};
  model::Plate back = plate(0.62, 0.4, 4, 3, isotropic(2.5e9, 0.25, 0.009));
  back.name = "back";
  back.x_axis = {1.0, 0.0, 0.0};
  back.y_axis = {0.0, 0.0, 1.0};
  back.origin = {0.0, Y + 0.03, 0.1};
  back.tie_level = 0.0045;  // its normal looks to the front
  back.creep = 2.0;
  hold(back, {0.155, 0.155, 0.0, 0.0}, {false, true, false, false, false});
  back.ties = {{0, 0, 3, {2e5, 3e5, 4e5}},
               {4, 0, 2, {2e5, 3e5, 4e5}},
               {0, 3, 7, {2e5, 3e5, 4e5}},
               {4, 3, 6, {2e5, 3e5, 4e5}},
               {2, 3, 9, {2e5, 3e5, 4e5}}};
  m.plates = {top, back};
  m.cases.resize(1);
  m.cases[0].patch_loads = {{0, {0.4, 0.6, 0.08, 0.2}, {30.0, -20.0, -700.0}},
                            {0, {0.0, 0.25, 0.0, 0.42}, {0.0, 10.0, -90.0}},
                            {1, {0.31, 0.62, 0.0, 0.4}, {5.0, -60.0, -8.0}}};
  return m;
}
std::vector<model::NodeLoad> shove() {
  model::NodeLoad load;
  load.node = 5;
  load.force = {newtons(200.0), newtons(-50.0), newtons(10.0)};
  return {load};
}

double largest_difference(const Eigen::VectorXd& a, const Eigen::VectorXd& b) {
  return (a - b).cwiseAbs().maxCoeff() / b.cwiseAbs().maxCoeff();
}

/// Mean of w over a patch: w is bilinear in a cell, so its mean over a rectangle there is the value
/// at that rectangle's middle.
double mean_w(const model::Plate& p, const solve::PlateMovements& movements,
              const model::Patch& patch) {
  double sum = 0.0, area = 0.0;
  for (std::size_t j = 0; j + 1 < p.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < p.x.size(); ++i) {
      const double x0 = std::max(patch.x0, p.x[i]), x1 = std::min(patch.x1, p.x[i + 1]);
      const double y0 = std::max(patch.y0, p.y[j]), y1 = std::min(patch.y1, p.y[j + 1]);
      if (x1 <= x0 || y1 <= y0 || !p.has_cell(i, j)) continue;
      const double a = (x1 - x0) * (y1 - y0);
      sum += a * solve::plate_w(p, movements, 0.5 * (x0 + x1), 0.5 * (y0 + y1), 0);
      area += a;
    }
  }
  return sum / area;
}
double warp(const model::Plate& p, const solve::PlateMovements& movements,
            const model::PlateBody& body) {
  return mean_w(p, movements, body.pads[0]) - mean_w(p, movements, body.pads[1]) +
         mean_w(p, movements, body.pads[2]) - mean_w(p, movements, body.pads[3]);
}

/// A plate on four posts at the corners of A x B, its corner at the origin; each with its tie gives
/// `k` under a push. The posts stand so that the plate overhangs them by half its cells' rest.
struct OnPosts {
  double A = 0.6, B = 0.4, EA_L = 3e5, tie = 2e5;
  [[nodiscard]] double k() const { return 1.0 / (1.0 / EA_L + 1.0 / tie); }
  [[nodiscard]] model::Model model(const model::PlateStiffness& stiffness) const {
    model::Model m;
    m.plates.push_back(plate(0.8, 0.6, 8, 6, stiffness));
    model::Plate& p = m.plates[0];
    for (const auto& [i, j] : {std::pair{1u, 1u}, {7u, 1u}, {7u, 5u}, {1u, 5u}}) {
      const std::size_t n = m.nodes.size();
      m.nodes.push_back(node("foot", p.x[i], p.y[j], -0.5));
      m.nodes.push_back(node("head", p.x[i], p.y[j], 0.0));
      m.members.push_back(member(n, n + 1, 50.0, 50.0));
      m.members.back().elastic.E = pascals(EA_L * 0.5 / (0.05 * 0.05));
      hold_node(m, n, {0, 1, 2, 3, 4, 5});
      p.ties.push_back({i, j, n + 1, {1e6, 1e6, tie}});
    }
    m.cases.resize(1);
    return m;
  }
};

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

TEST_CASE("solve/plate_ties: the condensed answer is that of the whole system") {
  // Under weight and under a shove: joints of another stiffness, and ties that only weight holds.
  model::Model m = small_bench();
  m.plates[0].ties[4].gravity_only = m.plates[1].ties[4].gravity_only = true;
  for (model::Member& member : m.members) member.start_springs[4].sway *= 0.5;
  for (const model::SpringSet springs : {model::SpringSet::gravity, model::SpringSet::sway}) {
    const Response response = answer(m, shove(), {}, springs);
    const Whole whole(m, springs);
    const Eigen::VectorXd u = whole.solve(shove());
    // Rounding (1e-16) by the condition of a frame on plates, some 1e6.
    CHECK(largest_difference(response.state.displacement, u.head(whole.of_nodes())) < 1e-9);
    for (const std::size_t p : {0u, 1u}) {
      const solve::PlateMovements movements = response.movements(p);
      CHECK(largest_difference(movements.col(0), u.segment(whole.at(p, 0), movements.rows())) <
            1e-9);
      const std::array<double, 3> by_weight =
          solve::tie_forces(*response.prepared, p, response.state)[4];
      CHECK((by_weight[2] == 0.0) == (springs == model::SpringSet::sway));
    }
    CHECK(response.state.audit.equilibrium < 1e-10);
  }
}

TEST_CASE("solve/plate_ties: a body pushes its pads with k q") {
  model::Model m = small_bench();
  m.plates[0].bodies.pop_back();
  const model::PlateBody body = m.plates[0].bodies[0];
  const Response with = answer(m, shove());
  const double q = warp(m.plates[0], with.movements(), body);
  model::Model pushed = m;
  pushed.plates[0].bodies.clear();
  double sign = -1.0;
  for (const model::Patch& pad : body.pads) {
    pushed.cases[0].patch_loads.push_back({0, pad, {0.0, 0.0, sign * body.stiffness * q}});
    sign = -sign;
  }
  const Response by_hand = answer(pushed, shove());
  CHECK(largest_difference(with.state.displacement, by_hand.state.displacement) < 1e-10);
  CHECK(largest_difference(with.movements().col(0), by_hand.movements().col(0)) < 1e-10);
}

TEST_CASE("solve/plate_ties: a body from nothing to rigid") {
  model::Model m = small_bench();
  m.plates[0].bodies.pop_back();
  model::Model without = m;
  without.plates[0].bodies.clear();
  const Response none = answer(without, shove());
  const auto q_at = [&](double k) {
    m.plates[0].bodies[0].stiffness = k;
    return warp(m.plates[0], answer(m, shove()).movements(), m.plates[0].bodies[0]);
  };
  const double q_0 = warp(m.plates[0], none.movements(), m.plates[0].bodies[0]);
  m.plates[0].bodies[0].stiffness = 1e-6;
  const Response soft = answer(m, shove());
  CHECK(largest_difference(soft.movements().col(0), none.movements().col(0)) < 1e-9);
  // A spring on a linear structure: q = q_0/(1 + k c), whatever k.
  const double c = (q_0 / q_at(2e5) - 1.0) / 2e5;
  CHECK(q_at(1e4) == close_to(q_0 / (1.0 + 1e4 * c), 1e-9));
  CHECK(q_at(3e7) == close_to(q_0 / (1.0 + 3e7 * c), 1e-6));
  CHECK(std::abs(q_at(1e12)) < 1e-6 * std::abs(q_0));
}

TEST_CASE("solve/plate_ties: models that share condensed plates answer as by themselves") {
  const model::Model m = small_bench();
  std::vector<model::Model> models(8, m);
  for (model::PlateTie& tie : models[1].plates[0].ties) tie.stiffness[0] *= 0.3;
  models[2].plates[0].creep = 3.0;
  models[3].plates[0].bodies[1].stiffness *= 10.0;
  models[4].plates[1].ties.pop_back();                  // another set of tied nodes
  models[5].plates[0].tie_level = 0.009;                // condensed otherwise
  models[6].cases[0].patch_loads[0].force[2] = -100.0;  // other loads
  models[7].plates[0].holes.clear();                    // another mesh
  solve::PlateCache cache;
  for (int twice = 0; twice < 2; ++twice) {
    for (const model::Model& each : models) {
      const Response shared = answer(each, shove(), cache);
      const Response alone = answer(each, shove());
      CHECK((shared.state.displacement - alone.state.displacement).isZero(0.0));
      CHECK((shared.movements(0) - alone.movements(0)).isZero(0.0));
      CHECK((shared.movements(1) - alone.movements(1)).isZero(0.0));
    }
  }
}

TEST_CASE("solve/plate_ties: a stiffness change is the frame prepared with that stiffness") {
  const model::Model m = small_bench();
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  const solve::Loading loading{{{0, 1.0}}, shove()};
  // One spring from a rail to the ground, and the soft foot made softer.
  const std::vector<solve::StiffnessChange> changes{{8, std::nullopt, false, {1.0, 0.0, 0.0}, 6e4},
                                                    {0, std::nullopt, false, {0, 0, 1}, -3e5}};
  const auto changed = solve::respond(*prepared, loading, changes);
  REQUIRE(changed.has_value());
  model::Model stiff = m;
  model::Support spring;
  spring.node = 8;
  spring.along = {1.0, 0.0, 0.0};
  spring.stiffness = 6e4;
  stiff.supports.push_back(spring);
  *stiff.supports[2].stiffness -= 3e5;
  const Response again = answer(stiff, shove());
  CHECK(largest_difference(changed->displacement, again.state.displacement) < 1e-9);
  CHECK(largest_difference(changed->tied_points, again.state.tied_points) < 1e-9);
  const solve::Answered one{&loading, &*changed};
  for (const std::size_t p : {0u, 1u}) {
    const solve::PlateMovements movements = solve::plate_movements(*prepared, p, {&one, 1});
    CHECK(largest_difference(movements.col(0), again.movements(p).col(0)) < 1e-9);
  }
}

TEST_CASE("solve/plate_ties: a plate that can move is named") {
  const auto refusal = [](const model::Model& m) {
    const auto prepared = solve::prepare(m);
    REQUIRE_FALSE(prepared.has_value());
    CHECK(prepared.error().why == solve::Refusal::Why::mechanism);
    return prepared.error().what + " | " + prepared.error().instead;
  };
  // Where a place is named, any place of what moves would be right.
  const auto starts = [&](const model::Model& m, const std::string& with) {
    const std::string what = refusal(m);
    CAPTURE(what);
    CHECK(what.compare(0, with.size(), with) == 0);
    CHECK(what.find("nothing resists it") != std::string::npos);
  };
  const OnPosts posts;
  const model::Model whole = posts.model(isotropic(9e9, 0.3, 0.018));
  CHECK(solve::prepare(whole).has_value());

  model::Model changed = whole;
  changed.plates[0].ties.clear();
  starts(changed, "the plate can lift or sink near (");
  changed.plates[0].ties = {whole.plates[0].ties[0]};  // turns about it
  starts(changed, "the plate can slide near (");
  for (const auto& [a, b] :
       {std::pair{0u, 1u}, {0u, 2u}, {1u, 2u}, {1u, 3u}}) {  // two make a hinge
    changed.plates[0].ties = {whole.plates[0].ties[a], whole.plates[0].ties[b]};
    CHECK(refusal(changed) ==
          "the plate can turn about what it is tied to | tie it to more of the frame");
  }

  changed = whole;
  for (model::PlateTie& tie : changed.plates[0].ties) tie.stiffness[0] = 0.0;
  CHECK(refusal(changed) ==
        "the plate can slide along x: nothing resists it | "
        "screw or glue the plate to what carries it");
  for (model::PlateTie& tie : changed.plates[0].ties) tie.stiffness[1] = 0.0;
  starts(changed, "the plate can slide along (");  // any way
  changed = whole;
  for (model::PlateTie& tie : changed.plates[0].ties) tie.stiffness[2] = 0.0;
  CHECK(refusal(changed) ==
        "the plate can slide along z: nothing resists it | "
        "screw or glue the plate to what carries it");

  // A hole cuts it in two; the ties hold the right half only.
  changed = whole;
  changed.plates[0].holes = {{0.2, 0.3, 0.0, 0.6}};
  changed.plates[0].ties = {
      whole.plates[0].ties[1], whole.plates[0].ties[2], {4, 2, 1, {1e6, 1e6, 1e6}}};
  changed.members.pop_back();
  changed.nodes.resize(6);
  changed.supports.resize(18);
  starts(changed, "the plate can ");
}
