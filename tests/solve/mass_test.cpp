// Masses against rigid movements, and the stiffness of everything that moves against itself.
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <functional>

#include "solve/member_mass.hpp"
#include "solve/whole_frame.hpp"
#include "tests/solve/swinging_models.hpp"

namespace mass_test {

using namespace standtrue;
using namespace standtrue::quantity;
using namespace standtrue::tests;

namespace {

/// The movement of a node when space moves by t and turns by r about the origin.
Eigen::Matrix<double, 6, 1> rigid(const Eigen::Vector3d& at, const Eigen::Vector3d& t,
                                  const Eigen::Vector3d& r) {
  Eigen::Matrix<double, 6, 1> v;
  v << t + r.cross(at), r;
  return v;
}

}  // namespace

TEST_CASE("solve/member_mass: rigid movements have the energy of a rigid bar") {
  for (const bool springs : {false, true}) {
    model::Model m;
    m.nodes = {swinging_node("a", 0.1, -0.2, 0.3), swinging_node("b", 1.3, 0.5, 0.9)};
    m.members = {swinging_member(0, 1, 45.0, 95.0)};
    model::Member& bar = m.members[0];
    bar.roll = 0.4;
    bar.start_offset = {millimetres(35), millimetres(12), millimetres(-20)};
    bar.end_offset = {millimetres(-35), millimetres(5), millimetres(15)};
    if (springs) {
      bar.start_springs[4] = model::EndSpring::elastic(2.0e3);
      bar.end_springs[5] = model::EndSpring::free_end();
      bar.end_springs[0] = model::EndSpring::elastic(4.0e5);
    }
    const solve::MemberKernel kernel = solve::member_kernel(m, bar, model::SpringSet::gravity);
    const solve::Matrix12 M = solve::global_mass(kernel, bar);
    CHECK((M - M.transpose()).norm() < 1e-14 * M.norm());
    const Eigen::SelfAdjointEigenSolver<solve::Matrix12> eigen(M);
    CHECK(eigen.eigenvalues()(0) > -1e-12 * eigen.eigenvalues()(11));
    if (!springs) CHECK(eigen.eigenvalues()(0) > 0.0);  // full rank

    const Eigen::Vector3d a(0.135, -0.188, 0.28), b(1.265, 0.505, 0.915);  // ends of the flexible
    const double L = (b - a).norm(), mass = 450.0 * 0.045 * 0.095 * L;
    const Eigen::Vector3d t(0.3, -0.7, 0.2), r(0.4, 0.5, -0.6);
    solve::Vector12 v;
    v << rigid({0.1, -0.2, 0.3}, t, r), rigid({1.3, 0.5, 0.9}, t, r);
    // |t + r × p|² over the line from a to b by Simpson's rule, which is exact for squares; the
    // section turns about its own axes.
    const auto speed = [&](const Eigen::Vector3d& p) { return (t + r.cross(p)).squaredNorm(); };
    const Eigen::Vector3d own = kernel.R * r;
    const double I_y = 0.045 * std::pow(0.095, 3) / 12.0, I_z = 0.095 * std::pow(0.045, 3) / 12.0;
    const double expected =
        mass / 6.0 * (speed(a) + 4.0 * speed(0.5 * (a + b)) + speed(b)) +
        450.0 * L * ((I_y + I_z) * square(own(0)) + I_y * square(own(1)) + I_z * square(own(2)));
    CHECK(v.dot(M * v) == close_to(expected, 1e-12));
  }
}

TEST_CASE("solve/member_mass: no shear, no rotary inertia: 156, 22 L, 54, ... (Archer 1963)") {
  solve::BeamElement element{1.5, 1e7, 1e4, 2e4, 3e4, 0.0, 0.0};
  const double L = element.L, m = 420.0 / 1.5;
  const solve::Matrix12 M = solve::consistent_mass(element, {m, 0.0, 0.0, 0.0});
  CHECK(M(1, 1) == close_to(156.0 * m * L / 420.0, 1e-13));
  CHECK(M(1, 5) == close_to(22.0 * L * m * L / 420.0, 1e-13));
  CHECK(M(1, 7) == close_to(54.0 * m * L / 420.0, 1e-13));
  CHECK(M(5, 11) == close_to(-3.0 * L * L * m * L / 420.0, 1e-13));
  CHECK(M(4, 4) == close_to(4.0 * L * L * m * L / 420.0, 1e-13));
  CHECK(M(2, 4) == close_to(-22.0 * L * m * L / 420.0, 1e-13));
  CHECK(M(0, 6) == close_to(m * L / 6.0, 1e-13));
}

TEST_CASE("solve/plate_mass: rigid movements have the energy of a rigid slab with a hole") {
  model::Plate p = odd_plate();
  const solve::PlateMass mass(p);
  const auto nodes = static_cast<Eigen::Index>(p.lines());
  const auto energy = [&](const std::function<Eigen::Matrix<double, 5, 1>(double, double)>& move) {
    solve::Panel u(5 * nodes, 1);
    for (std::size_t j = 0; j < p.y.size(); ++j) {
      for (std::size_t i = 0; i < p.x.size(); ++i) {
        u.block<5, 1>(static_cast<Eigen::Index>(5 * p.node(i, j)), 0) = move(p.x[i], p.y[j]);
      }
    }
    return u.col(0).dot(mass.times(u).col(0));
  };
  using Five = Eigen::Matrix<double, 5, 1>;
  const double whole = 9.0 * 0.6 * 0.42, hole = 9.0 * 0.15 * 0.22;  // kg
  CHECK(energy([](double, double) { return Five(2.0, 0.0, 0.0, 0.0, 0.0); }) ==
        close_to(4.0 * (whole - hole), 1e-13));
  // About y through the origin: w = -ry x; a slab b by 2c about its middle has m (4c²)/12.
  const double I_whole = whole * (square(0.3) + square(0.6) / 12.0);
  const double I_hole = hole * (square(0.325) + square(0.15) / 12.0);
  CHECK(energy([](double x, double) { return Five(0.0, 0.0, -x, 0.0, 1.0); }) ==
        close_to(I_whole - I_hole + (whole - hole) * square(0.018) / 12.0, 1e-13));
}

TEST_CASE("solve/plate_mass: what lies on a plate goes along with it, and does not weigh with it") {
  model::Plate plate;
  plate.x = {0.0, 0.4, 1.0};
  plate.y = {0.0, 0.5};
  plate.thickness = 0.02;
  plate.mass_per_area = 10.0;
  const solve::PlateMass bare(plate);
  plate.carries = 30.0;
  const solve::PlateMass laden(plate);
  CHECK(bare.per_area() == 10.0);
  CHECK(laden.per_area() == 40.0);
  // Of its own turning it has no more than before.
  CHECK(laden.rotary_per_area() == bare.rotary_per_area());
  CHECK(bare.rotary_per_area() == close_to(10.0 * 0.02 * 0.02 / 12.0, 1e-14));
}

TEST_CASE("solve/whole_mass: all together moves and turns as one rigid body") {
  // A post with a mass beside its head, a plate on it, a body on the plate; about the global
  // origin.
  model::Model m = table();
  m.supports.clear();
  for (std::size_t i = 0; i < 4; ++i) support(m, i, all_six, 1e3);  // nothing is held
  for (model::Member& bar : m.members) bar.start_springs = bar.end_springs = {};
  const solve::Prepared made = prepared(m);
  const solve::WholeFrame frame(made.inside());
  const solve::WholeMass mass(frame);
  const model::Plate& p = m.plates[0];
  const auto energy = [&](const Eigen::Vector3d& t, const Eigen::Vector3d& r) {
    solve::Panel u = solve::Panel::Zero(frame.size(), 1);
    for (std::size_t n = 0; n < m.nodes.size(); ++n) {
      u.block<6, 1>(static_cast<Eigen::Index>(6 * n), 0) =
          rigid(solve::vector_of(m.nodes[n].at), t, r);
    }
    for (std::size_t j = 0; j < p.y.size(); ++j) {
      for (std::size_t i = 0; i < p.x.size(); ++i) {
        u.block<5, 1>(frame.first(0) + static_cast<Eigen::Index>(5 * p.node(i, j)), 0) =
            rigid({p.x[i], p.y[j], p.origin[2]}, t, r).head<5>();
      }
    }
    return u.col(0).dot(mass.times(u).col(0));
  };
  double bars = 0.0;
  for (const model::Member& bar : m.members) {
    bars += 450.0 * in_si(bar.section.A) * in_si(model::member_frame(m, bar).length);
  }
  const double slab = 9.0 * (0.8 * 0.5 - 0.1 * 0.1);
  for (const Eigen::Vector3d& t : {Eigen::Vector3d(1, 0, 0), Eigen::Vector3d(0, 0.6, 0.8)}) {
    CHECK(energy(t, Eigen::Vector3d::Zero()) == close_to(bars + slab + 3.0 + 25.0, 1e-12));
  }
  // About y: bars by Simpson's rule and their sections, the others by Steiner.
  double expected =
      3.0 * (square(0.9) + square(0.9)) + 0.03 + 25.0 * (square(0.5) + square(1.009)) + 0.9;
  expected += 9.0 * 0.8 * 0.5 * (square(0.4) + square(0.8) / 12.0) -
              9.0 * 0.1 * 0.1 * (square(0.15) + square(0.1) / 12.0) +
              slab * (square(0.709) + square(0.018) / 12.0);
  for (const model::Member& bar : m.members) {
    const model::MemberFrame f = model::member_frame(m, bar);
    const double L = in_si(f.length), A = in_si(bar.section.A);
    const Eigen::Vector3d a =
        solve::vector_of(m.nodes[bar.start].at) + solve::vector_of(bar.start_offset);
    const Eigen::Vector3d b =
        solve::vector_of(m.nodes[bar.end].at) + solve::vector_of(bar.end_offset);
    const auto speed = [](const Eigen::Vector3d& at) { return square(at(0)) + square(at(2)); };
    expected += 450.0 * A * L / 6.0 * (speed(a) + 4.0 * speed(0.5 * (a + b)) + speed(b));
    const double I_y = in_si(bar.section.I_y), I_z = in_si(bar.section.I_z);
    expected +=
        450.0 * L *
        ((I_y + I_z) * square(f.axes[0].y) + I_y * square(f.axes[1].y) + I_z * square(f.axes[2].y));
  }
  CHECK(energy(Eigen::Vector3d::Zero(), {0, 1, 0}) == close_to(expected, 1e-12));
}

TEST_CASE(
    "solve/whole_frame: K and K^-1 of the whole undo each other, and K is that of the tests") {
  for (const model::SpringSet springs : {model::SpringSet::gravity, model::SpringSet::sway}) {
    model::Model m = table();
    m.plates[0].ties[2].gravity_only = true;
    const solve::Prepared made = prepared(m, springs);
    const solve::WholeFrame frame(made.inside());
    const Whole whole(m, springs);
    solve::Panel f = solve::Panel::Random(frame.size(), 3);
    frame.hold(f);
    const solve::Panel u = frame.movements_under(f);
    // Rounding (1e-16) by the condition of a frame on plates, some 1e6.
    CHECK((frame.forces_of(u) - f).norm() < 1e-9 * f.norm());
    solve::Panel by_hand = whole.stiffness() * u;
    frame.hold(by_hand);
    CHECK((by_hand - f).norm() < 1e-9 * f.norm());
  }
}

}  // namespace mass_test
