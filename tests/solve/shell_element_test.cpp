// The shell element by itself: what any element owes (symmetry, rank, patches), and what this one
// promises beyond (no locking, walls of one element that bend as beams).
#include <doctest/doctest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <vector>

#include "solve/shell_element.hpp"
#include "tests/solve/plate_models.hpp"

namespace shell_element_test {

using namespace standtrue;
using standtrue::tests::close_to;

namespace {

Eigen::Matrix3d orthotropic(double k_11, double k_12, double k_22, double k_66) {
  Eigen::Matrix3d k;
  k << k_11, k_12, 0.0, k_12, k_22, 0.0, 0.0, 0.0, k_66;
  return k;
}

/// An 18 mm plywood, somewhere.
Eigen::Matrix3d membrane() { return orthotropic(1.4e8, 1.1e7, 0.9e8, 1.2e7); }
Eigen::Matrix3d bending() { return orthotropic(4.9e3, 2.1e2, 1.3e3, 3.2e2); }
const Eigen::Vector2d shear(1.1e6, 0.7e6);

solve::Corners quadrilateral(std::array<double, 8> xy) {
  solve::Corners c;
  for (Eigen::Index i = 0; i < 4; ++i) {
    c(i, 0) = xy[static_cast<std::size_t>(2 * i)];
    c(i, 1) = xy[static_cast<std::size_t>(2 * i + 1)];
  }
  return c;
}
const solve::Corners skew = quadrilateral({0.01, 0.0, 0.13, 0.02, 0.10, 0.09, -0.02, 0.06});

/// w, rx, ry as functions of the place.
using BendingField = std::function<Eigen::Vector3d(double, double)>;
using PlaneField = std::function<Eigen::Vector2d(double, double)>;

template <int Size, class Field>
Eigen::VectorXd at_corners(const solve::Corners& c, const Field& field) {
  Eigen::VectorXd v(4 * Size);
  for (Eigen::Index i = 0; i < 4; ++i) v.segment<Size>(Size * i) = field(c(i, 0), c(i, 1));
  return v;
}

/// A bent surface without shear strain: ry = -w,x and rx = w,y.
BendingField constant_curvature(double k_x, double k_y, double k_xy) {
  return [=](double x, double y) {
    return Eigen::Vector3d(-0.5 * (k_x * x * x + k_y * y * y + k_xy * x * y),
                           -k_y * y - 0.5 * k_xy * x, k_x * x + 0.5 * k_xy * y);
  };
}
BendingField constant_shear(double g_xz, double g_yz) {
  return [=](double x, double y) { return Eigen::Vector3d(g_xz * x + g_yz * y, 0.0, 0.0); };
}
PlaneField constant_strain(double e_x, double e_y, double g_xy) {
  return [=](double x, double y) {
    return Eigen::Vector2d(e_x * x + 0.3 * g_xy * y, e_y * y + 0.7 * g_xy * x);
  };
}

Eigen::VectorXd eigenvalues(const Eigen::MatrixXd& k) {
  return Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd>(k).eigenvalues();
}

/// Five elements round four inner nodes, none of them a rectangle; eight nodes in all.
/// Source: MacNeal & Harder, Finite Elements in Analysis and Design 1 (1985) 3, the patch test
/// (0.24 x 0.12; from memory).
struct Patch {
  std::vector<Eigen::Vector2d> nodes{{0.0, 0.0},   {0.24, 0.0},  {0.24, 0.12}, {0.0, 0.12},
                                     {0.04, 0.02}, {0.18, 0.03}, {0.16, 0.08}, {0.08, 0.08}};
  std::vector<std::array<Eigen::Index, 4>> cells{
      {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}, {4, 5, 6, 7}};

  [[nodiscard]] solve::Corners corners(const std::array<Eigen::Index, 4>& cell) const {
    solve::Corners c;
    for (Eigen::Index i = 0; i < 4; ++i) {
      c.row(i) = nodes[static_cast<std::size_t>(cell[static_cast<std::size_t>(i)])].transpose();
    }
    return c;
  }

  template <int Size, class Stiffness>
  [[nodiscard]] Eigen::MatrixXd assemble(const Stiffness& stiffness) const {
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(8 * Size, 8 * Size);
    for (const std::array<Eigen::Index, 4>& cell : cells) {
      const Eigen::MatrixXd k = stiffness(corners(cell));
      for (Eigen::Index i = 0; i < 4; ++i) {
        for (Eigen::Index j = 0; j < 4; ++j) {
          K.block<Size, Size>(Size * cell[static_cast<std::size_t>(i)],
                              Size * cell[static_cast<std::size_t>(j)]) +=
              k.block<Size, Size>(Size * i, Size * j);
        }
      }
    }
    return K;
  }

  template <int Size, class Field>
  [[nodiscard]] Eigen::VectorXd movements(const Field& field) const {
    Eigen::VectorXd v(8 * Size);
    for (Eigen::Index n = 0; n < 8; ++n) {
      const Eigen::Vector2d& p = nodes[static_cast<std::size_t>(n)];
      v.segment<Size>(Size * n) = field(p(0), p(1));
    }
    return v;
  }
};

/// The border is moved as `exact` says and `is_free` of the rest finds its own place: how far from
/// the exact one, and the stored energy.
struct PatchAnswer {
  double error = 0.0;  ///< relative
  double energy = 0.0;
};
PatchAnswer solve_patch(const Eigen::MatrixXd& K, const Eigen::VectorXd& exact,
                        const std::function<bool(Eigen::Index)>& is_free) {
  std::vector<Eigen::Index> free, held;
  for (Eigen::Index i = 0; i < K.rows(); ++i) (is_free(i) ? free : held).push_back(i);
  const Eigen::MatrixXd K_ff = K(free, free), K_fh = K(free, held);
  Eigen::VectorXd v = exact;
  v(free) = Eigen::VectorXd(K_ff.ldlt().solve(-K_fh * exact(held)));
  return {(v - exact).norm() / exact.norm(), 0.5 * v.dot(K * v)};
}

// Rounding (1e-16) times the condition of these small systems (up to 1e5, bending against shear).
constexpr double to_rounding = 1e-11;

solve::PlateMatrix plate_of(const solve::Corners& c) {
  return solve::plate_stiffness(c, bending(), shear);
}
solve::Matrix8 membrane_of(const solve::Corners& c) {
  return solve::membrane_stiffness(c, membrane());
}

/// A strip of square-ended elements along x, its end x = 0 clamped, ν = 0, a load of 1 shared by
/// the two nodes of its tip: how far they sink. `lean` shifts the upper nodes between the ends, in
/// element lengths, to and fro.
double strip_tip(double L, double b, double t, int n, double E, double lean) {
  const double G = 0.5 * E, I = t * t * t / 12.0;
  const Eigen::Matrix3d D = orthotropic(E * I, 0.0, E * I, G * I);
  const Eigen::Vector2d S = Eigen::Vector2d::Constant(5.0 / 6.0 * G * t);
  const double l = L / n;
  Eigen::MatrixXd K = Eigen::MatrixXd::Zero(6 * (n + 1), 6 * (n + 1));
  const auto upper = [&](int i) {
    return i * l + (i > 0 && i < n ? (i % 2 == 0 ? lean : -lean) * l : 0.0);
  };
  for (int i = 0; i < n; ++i) {
    const solve::Corners c =
        quadrilateral({i * l, 0.0, (i + 1) * l, 0.0, upper(i + 1), b, upper(i), b});
    const solve::PlateMatrix k = solve::plate_stiffness(c, D, S);
    const std::array<Eigen::Index, 4> at{6 * i, 6 * i + 6, 6 * i + 9, 6 * i + 3};
    for (Eigen::Index r = 0; r < 4; ++r) {
      for (Eigen::Index s = 0; s < 4; ++s) {
        K.block<3, 3>(at[static_cast<std::size_t>(r)], at[static_cast<std::size_t>(s)]) +=
            k.block<3, 3>(3 * r, 3 * s);
      }
    }
  }
  const Eigen::Index size = 6 * n;
  Eigen::VectorXd f = Eigen::VectorXd::Zero(size);
  f(size - 6) = f(size - 3) = 0.5;
  const Eigen::MatrixXd free = K.bottomRightCorner(size, size);
  const Eigen::VectorXd v = free.ldlt().solve(f);
  return 0.5 * (v(size - 6) + v(size - 3));
}

}  // namespace

TEST_CASE("solve/shell_element: shape functions share out one, each all of its own corner") {
  for (const double xi : {-1.0, -0.3, 0.0, 0.8, 1.0}) {
    for (const double eta : {-1.0, 0.25, 1.0}) {
      CHECK(solve::shape_functions(xi, eta).sum() == close_to(1.0, 1e-15));
    }
  }
  CHECK(solve::shape_functions(-1, -1) == Eigen::Vector4d::Unit(0));
  CHECK(solve::shape_functions(1, -1) == Eigen::Vector4d::Unit(1));
  CHECK(solve::shape_functions(1, 1) == Eigen::Vector4d::Unit(2));
  CHECK(solve::shape_functions(-1, 1) == Eigen::Vector4d::Unit(3));
}

TEST_CASE("solve/shell_element: stiffness is symmetric and resists all but three movements") {
  // A thin skew element keeps its rank: no movement without energy besides the rigid ones. The
  // least honest value, a twist, is some 1e-5 of the largest, a shear.
  for (const solve::Corners& c : {skew, quadrilateral({0, 0, 0.4, 0, 0.4, 0.02, 0, 0.02}),
                                  quadrilateral({0, 0, 1, 0, 1, 1, 0, 1})}) {
    const solve::PlateMatrix k = plate_of(c);
    CHECK((k - k.transpose()).norm() <= 1e-14 * k.norm());
    const Eigen::VectorXd bent = eigenvalues(k);
    CHECK(std::max(std::abs(bent(0)), std::abs(bent(2))) < 1e-13 * bent(11));
    CHECK(bent(3) > 1e-8 * bent(11));

    const solve::Matrix8 m = membrane_of(c);
    CHECK((m - m.transpose()).norm() <= 1e-14 * m.norm());
    const Eigen::VectorXd flat = eigenvalues(m);
    CHECK(std::max(std::abs(flat(0)), std::abs(flat(2))) < 1e-13 * flat(7));
    CHECK(flat(3) > 1e-5 * flat(7));
  }
}

TEST_CASE("solve/shell_element: rigid movements carry no force") {
  const solve::PlateMatrix k = plate_of(skew);
  const std::array<BendingField, 3> rigid{
      [](double, double) { return Eigen::Vector3d(1, 0, 0); },
      [](double, double y) { return Eigen::Vector3d(y, 1, 0); },    // about x
      [](double x, double) { return Eigen::Vector3d(-x, 0, 1); }};  // about y
  for (const BendingField& field : rigid) {
    const Eigen::VectorXd v = at_corners<3>(skew, field);
    CHECK((k * v).norm() < 1e-14 * k.norm() * v.norm());
  }
  const solve::Matrix8 m = membrane_of(skew);
  const std::array<PlaneField, 3> in_plane{
      [](double, double) { return Eigen::Vector2d(1, 0); },
      [](double, double) { return Eigen::Vector2d(0, 1); },
      [](double x, double y) { return Eigen::Vector2d(-y, x); }};
  for (const PlaneField& field : in_plane) {
    const Eigen::VectorXd v = at_corners<2>(skew, field);
    CHECK((m * v).norm() < 1e-14 * m.norm() * v.norm());
  }
}

TEST_CASE("solve/shell_element: strains of constant fields are read exactly anywhere") {
  const double k_x = 0.3, k_y = -0.2, k_xy = 0.5;
  const Eigen::VectorXd bent = at_corners<3>(skew, constant_curvature(k_x, k_y, k_xy));
  const Eigen::VectorXd sheared = at_corners<3>(skew, constant_shear(0.02, -0.01));
  const Eigen::VectorXd strained = at_corners<2>(skew, constant_strain(1e-3, -2e-3, 5e-4));
  for (const double xi : {-1.0, -0.4, 0.0, 0.7, 1.0}) {
    for (const double eta : {-1.0, 0.1, 1.0}) {
      const Eigen::Vector3d kappa = solve::curvature_matrix(skew, xi, eta) * bent;
      CHECK((kappa - Eigen::Vector3d(k_x, k_y, k_xy)).norm() < 1e-13);
      // Thin plates hang on this one: bending by nature has no shear strain here.
      CHECK((solve::shear_matrix(skew, xi, eta) * bent).norm() < 1e-14);
      const Eigen::Vector2d gamma = solve::shear_matrix(skew, xi, eta) * sheared;
      CHECK((gamma - Eigen::Vector2d(0.02, -0.01)).norm() < 1e-14);
      CHECK((solve::curvature_matrix(skew, xi, eta) * sheared).norm() == 0.0);
      const Eigen::Vector3d epsilon = solve::membrane_matrix(skew, xi, eta) * strained;
      CHECK((epsilon - Eigen::Vector3d(1e-3, -2e-3, 5e-4)).norm() < 1e-15);
    }
  }
}

TEST_CASE("solve/shell_element: patch test, constant curvature (MacNeal & Harder's patch)") {
  const Patch patch;
  const Eigen::MatrixXd K = patch.assemble<3>(plate_of);
  for (const Eigen::Vector3d& kappa :
       {Eigen::Vector3d(0.01, 0, 0), Eigen::Vector3d(0, 0.01, 0), Eigen::Vector3d(0, 0, 0.01),
        Eigen::Vector3d(0.01, -0.02, 0.03)}) {
    const Eigen::VectorXd exact =
        patch.movements<3>(constant_curvature(kappa(0), kappa(1), kappa(2)));
    const PatchAnswer answer = solve_patch(K, exact, [](Eigen::Index i) { return i >= 12; });
    CHECK(answer.error < to_rounding);
    CHECK(answer.energy == close_to(0.5 * kappa.dot(bending() * kappa) * 0.24 * 0.12, to_rounding));
  }
}

TEST_CASE("solve/shell_element: patch test, constant transverse shear") {
  // Without a moment that grows with it, shear is in equilibrium only under spread couples: the
  // rotations rest, the movement across finds its way.
  const Patch patch;
  const Eigen::MatrixXd K = patch.assemble<3>(plate_of);
  const Eigen::Vector2d gamma(0.002, -0.003);
  const Eigen::VectorXd exact = patch.movements<3>(constant_shear(gamma(0), gamma(1)));
  const PatchAnswer answer =
      solve_patch(K, exact, [](Eigen::Index i) { return i >= 12 && i % 3 == 0; });
  CHECK(answer.error < to_rounding);
  CHECK(answer.energy ==
        close_to(0.5 * gamma.dot(shear.asDiagonal() * gamma) * 0.24 * 0.12, to_rounding));
}

TEST_CASE("solve/shell_element: patch test, constant membrane strain, bending modes and all") {
  const Patch patch;
  const Eigen::MatrixXd K = patch.assemble<2>(membrane_of);
  for (const Eigen::Vector3d& epsilon :
       {Eigen::Vector3d(1e-3, 0, 0), Eigen::Vector3d(0, 1e-3, 0), Eigen::Vector3d(0, 0, 1e-3),
        Eigen::Vector3d(1e-3, -2e-3, 5e-4)}) {
    const Eigen::VectorXd exact =
        patch.movements<2>(constant_strain(epsilon(0), epsilon(1), epsilon(2)));
    const PatchAnswer answer = solve_patch(K, exact, [](Eigen::Index i) { return i >= 8; });
    CHECK(answer.error < to_rounding);
    CHECK(answer.energy ==
          close_to(0.5 * epsilon.dot(membrane() * epsilon) * 0.24 * 0.12, to_rounding));
  }
}

TEST_CASE("solve/shell_element: the numbering of corners and the heading of axes do not matter") {
  // An isotropic element turned by 0.7 rad, its corners named from another one on.
  const double nu = 0.3;
  const Eigen::Matrix3d C = orthotropic(1.0, nu, 1.0, 0.5 * (1.0 - nu));
  const Eigen::Vector2d S(90.0, 90.0);
  const double c = std::cos(0.7), s = std::sin(0.7);
  Eigen::Matrix2d R;
  R << c, s, -s, c;  // own = R global
  solve::Corners turned;
  Eigen::Matrix<double, 12, 12> T = Eigen::Matrix<double, 12, 12>::Zero();
  Eigen::Matrix<double, 8, 8> F = Eigen::Matrix<double, 8, 8>::Zero();
  for (Eigen::Index i = 0; i < 4; ++i) {
    const Eigen::Index from = (i + 1) % 4;
    turned.row(i) = skew.row(from) * R.transpose();
    T(3 * i, 3 * from) = 1.0;
    T.block<2, 2>(3 * i + 1, 3 * from + 1) = R;
    F.block<2, 2>(2 * i, 2 * from) = R;
  }
  const solve::PlateMatrix bent = solve::plate_stiffness(skew, C, S);
  const solve::PlateMatrix bent_turned = solve::plate_stiffness(turned, C, S);
  CHECK((T.transpose() * bent_turned * T - bent).norm() < 1e-13 * bent.norm());
  const solve::Matrix8 flat = solve::membrane_stiffness(skew, C);
  const solve::Matrix8 flat_turned = solve::membrane_stiffness(turned, C);
  CHECK((F.transpose() * flat_turned * F - flat).norm() < 1e-13 * flat.norm());
}

TEST_CASE("solve/shell_element: a thin cantilever strip bends as a beam; nothing locks") {
  // A straight strip answers PL³/3EI (1 - 1/4n²) + PL/GA_s: the moment, constant in each element,
  // is right at its middle, and the slope is summed by trapezoids (own derivation). Rounding: 1e-16
  // times the condition, shear against bending of an element by n⁴ of the beam: 5 (l/t)² n⁴.
  const double L = 1.0, b = 0.08, E = 1e10, P = 1.0;
  const int n = 10;
  std::vector<double> leaning;
  for (const double t : {1e-1, 1e-2, 1e-3, 1e-4}) {
    const double EI = E * b * t * t * t / 12.0, GA_s = 5.0 / 6.0 * 0.5 * E * b * t;
    const double beam = P * L * L * L / (3.0 * EI);
    const double stiff = 5.0 * std::pow(L / (n * t), 2) * std::pow(n, 4);
    CHECK(strip_tip(L, b, t, n, E, 0.0) ==
          close_to(beam * (1.0 - 1.0 / (4.0 * n * n)) + P * L / GA_s, 1e-12 + 1e-16 * stiff));
    leaning.push_back(strip_tip(L, b, t, n, E, 0.2) / (beam + P * L / GA_s));
  }
  // Elements that lean to and fro are off by the mesh's error of second order, (l/L)² = 1e-2, and
  // no more so when thin: what differs is shear against bending in an element, (t/l)², of that
  // error.
  CHECK(leaning[1] == close_to(1.0, 1e-2));
  CHECK(leaning[2] == close_to(leaning[1], 1e-2 * 1e-2));
  CHECK(leaning[3] == close_to(leaning[2], 1e-2 * 1e-4 + 5e-6));
}

TEST_CASE("solve/shell_element: in its plane a rectangle of any shape bends as a beam does") {
  // Pure bending about the middle, the sides free: energy M²L/2EI, whatever ν and proportion.
  for (const double h : {0.01, 0.3, 4.0}) {
    const double l = 0.5, E = 1e10, nu = 0.3, t = 0.018;
    const double A = E * t / (1.0 - nu * nu);
    const solve::Matrix8 k = solve::membrane_stiffness(
        quadrilateral({0, 0, l, 0, l, h, 0, h}), orthotropic(A, nu * A, A, 0.5 * (1 - nu) * A));
    const double turn = 1e-3;  // of each end, against each other
    Eigen::Matrix<double, 8, 1> v;
    v << -turn * h / 2, 0, turn * h / 2, 0, -turn * h / 2, 0, turn * h / 2, 0;
    const Eigen::Matrix<double, 8, 1> f = k * v;
    const double M = (f(4) - f(2)) * h / 2.0;
    CHECK(std::abs(M) == close_to(E * t * h * h * h / 12.0 * 2.0 * turn / l, 1e-12));
    for (const Eigen::Index across : {1, 3, 5, 7}) CHECK(std::abs(f(across)) < 1e-12 * f.norm());
  }
}

TEST_CASE("solve/shell_element: a wall one element high carries a load at its end as a beam does") {
  // PL³/3EI (1 - 1/4n²) + PL/GA: the shear is spread evenly over the height, as the load and the
  // clamp are; ν = 0 (own derivation, as for the strip).
  const double L = 2.4, h = 0.6, t = 0.012, E = 9e9, G = 0.6e9, P = 1.0;
  for (const int n : {1, 4, 12}) {
    const double l = L / n;
    Eigen::MatrixXd K = Eigen::MatrixXd::Zero(4 * (n + 1), 4 * (n + 1));
    for (int i = 0; i < n; ++i) {
      const solve::Corners c =
          quadrilateral({i * l, 0.0, (i + 1) * l, 0.0, (i + 1) * l, h, i * l, h});
      const solve::Matrix8 k = solve::membrane_stiffness(c, orthotropic(E * t, 0.0, E * t, G * t));
      const std::array<Eigen::Index, 4> at{4 * i, 4 * i + 4, 4 * i + 6, 4 * i + 2};
      for (Eigen::Index r = 0; r < 4; ++r) {
        for (Eigen::Index s = 0; s < 4; ++s) {
          K.block<2, 2>(at[static_cast<std::size_t>(r)], at[static_cast<std::size_t>(s)]) +=
              k.block<2, 2>(2 * r, 2 * s);
        }
      }
    }
    const Eigen::Index size = 4 * n;
    Eigen::VectorXd f = Eigen::VectorXd::Zero(size);
    f(size - 3) = f(size - 1) = 0.5 * P;
    const Eigen::MatrixXd free = K.bottomRightCorner(size, size);
    const Eigen::VectorXd v = free.ldlt().solve(f);
    const double EI = E * t * h * h * h / 12.0;
    CHECK(v(size - 1) ==
          close_to(P * L * L * L / (3 * EI) * (1.0 - 1.0 / (4.0 * n * n)) + P * L / (G * h * t),
                   1e-10));
  }
}

TEST_CASE("solve/shell_element: corners that go round clockwise are a fault of ours") {
  solve::Corners clockwise = skew;
  clockwise.row(1).swap(clockwise.row(3));
  CHECK_THROWS_AS((void)plate_of(clockwise), std::logic_error);
  CHECK_THROWS_AS((void)membrane_of(clockwise), std::logic_error);
}

}  // namespace shell_element_test
