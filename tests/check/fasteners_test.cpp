// Fasteners of EN 1995-1-1, section 8, worked by hand; the arithmetic stands beside each.
#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>

#include "standtrue/check/fasteners.hpp"

namespace fasteners_test {

using namespace standtrue;
using namespace standtrue::check;
using namespace standtrue::quantity;

namespace {

constexpr double right_angle = 3.14159265358979323846 / 2.0;

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}
reference::Timber timber(const char* key) { return *tables().timber(key); }
reference::Screw screw(double d_mm) { return *tables().screw(millimetres(d_mm)); }
Density kg_m3(double value) { return from_si<Density>(value); }
Moment N_mm(double value) { return newton_metres(1e-3 * value); }
double in_mpa(Stress value) { return 1e-6 * in_si(value); }
double in_N(Force value) { return in_si(value); }
double in_mm(Length value) { return 1e3 * in_si(value); }

Lateral two_timbers(double t_1, double t_2, double d, double M, double F_ax, double limit,
                    double f_1 = 17.961905, double f_2 = 17.961905) {
  return timber_to_timber({pascals(1e6 * f_1), pascals(1e6 * f_2), millimetres(t_1),
                           millimetres(t_2), millimetres(d), N_mm(M), newtons(F_ax), limit},
                          tables());
}
Lateral steel(double plate, double t_1, bool tight = true, double M = 3300, double F_ax = 1250) {
  return steel_to_timber({millimetres(plate), tight, pascals(27.91075e6), millimetres(t_1),
                          millimetres(2.75), millimetres(4), N_mm(M), newtons(F_ax), 1.0},
                         tables());
}

}  // namespace

TEST_CASE("check/fasteners: embedment of screws (EN 1995-1-1, eq. (8.15) and (8.16))") {
  const reference::Timber c24 = timber("C24");
  const auto f_h = [&](double d, bool predrilled) {
    return in_mpa(embedment_screw(millimetres(d), c24, predrilled, right_angle, tables()));
  };
  CHECK(f_h(4.0, false) == doctest::Approx(18.93494));  // 0.082 x 350 x 4^-0.3
  CHECK(f_h(4.0, true) == doctest::Approx(27.552));     // 0.082 x 0.96 x 350, at any angle
  // over 6 mm as a bolt: 0.082 x 0.92 x 350/(1.35 + 0.12)
  CHECK(f_h(8.0, true) == doctest::Approx(17.961905));
  CHECK_THROWS_AS((void)embedment_screw(Length{}, c24, true, 0, tables()), std::logic_error);
}

TEST_CASE("check/fasteners: embedment of bolts at an angle (EN 1995-1-1, eq. (8.31) to (8.33))") {
  const auto f_h = [&](const reference::Timber& t, double angle) {
    return in_mpa(embedment_bolt(millimetres(8), t, angle, tables()));
  };
  CHECK(f_h(timber("C24"), 0.0) == doctest::Approx(26.404));
  CHECK(f_h(timber("C24"), right_angle) == doctest::Approx(17.961905));
  CHECK(f_h(timber("C24"), right_angle / 2) == doctest::Approx(26.404 / (0.5 * 1.47 + 0.5)));
  CHECK(f_h(timber("D30"), right_angle) == doctest::Approx(39.199216));  // 0.90 + 0.12
  reference::Timber lvl = timber("C24");
  lvl.material = reference::Material::lvl;
  CHECK(f_h(lvl, right_angle) == doctest::Approx(26.404 / 1.42));
  CHECK_THROWS_AS((void)embedment_bolt(Length{}, lvl, 0, tables()), std::logic_error);
}

TEST_CASE("check/fasteners: embedment in panels, and none where the code has none (8.20, 8.22)") {
  const auto f_h = [&](reference::Material m) {
    return embedment_panel(millimetres(4), millimetres(12), kg_m3(410), m, tables());
  };
  CHECK(in_mpa(*f_h(reference::Material::plywood)) == doctest::Approx(29.754903));
  CHECK(in_mpa(*f_h(reference::Material::osb_2)) == doctest::Approx(31.578354));
  CHECK(in_mpa(*f_h(reference::Material::osb_3)) == doctest::Approx(31.578354));
  CHECK_FALSE(f_h(reference::Material::mdf).has_value());
  CHECK_THROWS_AS((void)embedment_panel(millimetres(4), Length{}, kg_m3(410),
                                        reference::Material::mdf, tables()),
                  std::logic_error);
}

TEST_CASE("check/fasteners: M_y,Rk of an M8 4.6 = 0.3 x 400 x 8^2.6 = 26743 N mm (8.30)") {
  CHECK(1e3 * in_si(yield_moment(pascals(400e6), millimetres(8), tables())) ==
        doctest::Approx(26743.313));
  CHECK_THROWS_AS((void)yield_moment(Stress{}, millimetres(8), tables()), std::logic_error);
}

TEST_CASE(
    "check/fasteners: the effective diameter is the shank's only if it reaches 4 d in (8.7.1)") {
  CHECK(in_mm(effective_diameter(screw(4), millimetres(16), tables())) == doctest::Approx(2.8));
  CHECK(in_mm(effective_diameter(screw(4), millimetres(15), tables())) == doctest::Approx(2.75));
  CHECK(in_mm(thread_length(screw(4), millimetres(40))) == doctest::Approx(40));
  CHECK(in_mm(thread_length(screw(4), millimetres(50))) == doctest::Approx(30));
}

TEST_CASE("check/fasteners: M8 through 38 and 89 mm of C24, mode d governs (EN 1995-1-1, (8.6))") {
  // beta = 1: a 5460, b 12789, c 4290, d 2590, e 4786, f 3188 N
  const Lateral F = two_timbers(38, 89, 8, 26740, 0, 0);
  CHECK(F.mode == 'd');
  CHECK(in_N(F.F) == doctest::Approx(2589.7721));
  CHECK(in_N(F.rope) == 0.0);
}

TEST_CASE("check/fasteners: each mode of eq. (8.6) can govern") {
  CHECK(two_timbers(3, 200, 8, 26740, 0, 0).mode == 'a');
  CHECK(two_timbers(200, 3, 8, 26740, 0, 0).mode == 'b');
  CHECK(two_timbers(30, 30, 8, 9e6, 0, 0).mode == 'c');
  CHECK(two_timbers(38, 89, 8, 26740, 0, 0).mode == 'd');
  CHECK(two_timbers(89, 38, 8, 26740, 0, 0).mode == 'e');
  const Lateral long_ones = two_timbers(100, 100, 8, 26740, 0, 0);
  CHECK(long_ones.mode == 'f');
  CHECK(in_N(long_ones.F) == doctest::Approx(3187.9737));  // 1.15 sqrt(2 x 26740 x 17.96 x 8)
  CHECK_THROWS_AS((void)two_timbers(0, 89, 8, 26740, 0, 0), std::logic_error);
}

TEST_CASE("check/fasteners: rope effect is F_ax/4, at most its share (EN 1995-1-1, 8.2.2(2))") {
  const Lateral without = two_timbers(38, 89, 8, 26740, 0, 1.0);
  CHECK(in_N(two_timbers(38, 89, 8, 26740, 1000, 1.0).F) == doctest::Approx(in_N(without.F) + 250));
  CHECK(in_N(two_timbers(38, 89, 8, 26740, 9000, 0.25).F) ==
        doctest::Approx(1.25 * in_N(without.F)));
  // a panel of 12 mm on C24, 4 x 40 screw: mode d 579.4 + 1000/4
  const Lateral panel = two_timbers(12, 28, 2.75, 3300, 1000, 1.0, 29.6, 27.9);
  CHECK(panel.mode == 'd');
  CHECK(in_N(panel.F) == doctest::Approx(829.4029));
}

TEST_CASE("check/fasteners: steel plates: thin, thick and between (EN 1995-1-1, (8.9), (8.10))") {
  // 4 x 35 screw, d_ef 2.75, f_h 27.91, M_y 3300, F_ax 1250, 32.5 mm in the wood:
  // thin a 0.4 x 27.91 x 32.5 x 2.75 = 997.8; thick d 2.3 sqrt(3300 x 27.91 x 2.75) + 312.5 =
  // 1470.0
  CHECK(in_N(steel(2.0, 32.5).F) == doctest::Approx(997.80931));
  CHECK(steel(2.0, 32.5).mode == 'a');
  CHECK(in_N(steel(4.0, 32.5).F) == doctest::Approx(1470.0424));
  CHECK(steel(4.0, 32.5).mode == 'd');
  const Lateral between = steel(2.5, 32.5);
  CHECK(in_N(between.F) == doctest::Approx(997.80931 + 0.25 * (1470.0424 - 997.80931)));
  CHECK(between.mode == 'a');
  CHECK(steel(3.5, 32.5).mode == 'd');
  CHECK(in_N(steel(4.0, 32.5, false).F) == doctest::Approx(997.80931));  // loose holes do not clamp
  CHECK(steel(2.0, 90).mode == 'b');
  CHECK(steel(4.0, 8, true, 9000).mode == 'e');
  CHECK(steel(4.0, 15, true, 3300, 0).mode == 'c');
  CHECK_THROWS_AS((void)steel(0, 32.5), std::logic_error);
}

TEST_CASE("check/fasteners: rows along the grain (EN 1995-1-1, (8.17), Table 8.1)") {
  const auto n_ef = [](int n, double a_1, bool predrilled) {
    return effective_in_row(n, millimetres(a_1), millimetres(4), predrilled, tables());
  };
  CHECK(n_ef(1, 0, false) == 1.0);
  CHECK(n_ef(4, 56, false) == doctest::Approx(4.0));  // 14 d
  CHECK(n_ef(4, 80, false) == doctest::Approx(4.0));
  CHECK(n_ef(4, 40, false) == doctest::Approx(std::pow(4, 0.85)));   // 10 d
  CHECK(n_ef(4, 28, false) == doctest::Approx(std::pow(4, 0.7)));    // 7 d
  CHECK(n_ef(4, 34, false) == doctest::Approx(std::pow(4, 0.775)));  // 8.5 d, by line
  CHECK(n_ef(4, 16, true) == doctest::Approx(2.0));                  // 4 d
  CHECK(n_ef(4, 16, false) == 1.0);
  CHECK(n_ef(4, 15, true) == 1.0);
  CHECK_THROWS_AS((void)n_ef(0, 16, true), std::logic_error);
}

TEST_CASE("check/fasteners: two M8 58 mm apart count as 1.61 (EN 1995-1-1, (8.34))") {
  const auto n_ef = [](int n, double a_1) {
    return effective_bolts(n, millimetres(a_1), millimetres(8), tables());
  };
  CHECK(n_ef(2, 58) == doctest::Approx(1.6125963));  // 2^0.9 (58/104)^0.25
  CHECK(n_ef(2, 900) == 2.0);
  CHECK_THROWS_AS((void)n_ef(0, 58), std::logic_error);
}

TEST_CASE("check/fasteners: splitting of a 38 x 89 rail by bolts 24 mm off its edge (8.4)") {
  // 14 x 38 sqrt(65/(1 - 65/89)) = 8260 N
  CHECK(in_N(splitting_resistance(millimetres(38), millimetres(65), millimetres(89), tables())) ==
        doctest::Approx(8259.5748));
  CHECK_THROWS_AS(
      (void)splitting_resistance(millimetres(38), millimetres(89), millimetres(89), tables()),
      std::logic_error);
}

TEST_CASE("check/fasteners: withdrawal of a 6 mm screw, 40 mm in C24: 2.87 kN (8.38 to 8.40)") {
  // f_ax = 0.52 x 6^-0.5 x 40^-0.1 x 350^0.8 = 15.92; k_d = 6/8
  const OrWhy<Withdrawal> F =
      withdrawal(screw(6), millimetres(40), kg_m3(350), right_angle, tables());
  REQUIRE(F.has_value());
  CHECK(F->by_formula);
  CHECK(in_N(F->F) == doctest::Approx(2865.8183));
  const OrWhy<Withdrawal> slanted =
      withdrawal(screw(6), millimetres(40), kg_m3(350), right_angle / 2, tables());
  CHECK(in_N(slanted->F) == doctest::Approx(2865.8183 / 1.1));
}

TEST_CASE("check/fasteners: a 4 mm screw is out of the formula: measured value (8.40a)") {
  // 11 x 4 x 28.5 x (310/350)^0.8
  const OrWhy<Withdrawal> F =
      withdrawal(screw(4), millimetres(28.5), kg_m3(310), right_angle, tables());
  REQUIRE(F.has_value());
  CHECK_FALSE(F->by_formula);
  CHECK(in_N(F->F) == doctest::Approx(1137.9743));
}

TEST_CASE("check/fasteners: the range of eq. (8.38) is 6 to 12 mm and roots of 0.6 to 0.75 d") {
  const auto by_formula = [](double d, double root) {
    reference::Screw s = screw(8);
    s.diameter = millimetres(d);
    s.root = millimetres(root);
    return withdrawal(s, millimetres(100), kg_m3(350), right_angle, tables())->by_formula;
  };
  CHECK(by_formula(8, 5.2));
  CHECK_FALSE(by_formula(13, 9));
  CHECK_FALSE(by_formula(8, 4.7));
  CHECK_FALSE(by_formula(8, 6.1));
  CHECK_FALSE(by_formula(5.9, 4));
}

TEST_CASE("check/fasteners: short or lengthwise screws are not judged in pull") {
  CHECK_FALSE(
      withdrawal(screw(4), millimetres(23.9), kg_m3(310), right_angle, tables()).has_value());
  CHECK(withdrawal(screw(4), millimetres(24), kg_m3(310), right_angle, tables()).has_value());
  CHECK_FALSE(withdrawal(screw(4), millimetres(40), kg_m3(310), 0.0, tables()).has_value());
  CHECK_FALSE(withdrawal(screw(4), millimetres(40), kg_m3(310), 0.5, tables()).has_value());
  const double nan = std::nan("");
  CHECK_FALSE(
      withdrawal(screw(4), millimetres(nan), kg_m3(310), right_angle, tables()).has_value());
  CHECK_THROWS_AS((void)withdrawal(screw(4), millimetres(40), kg_m3(0), right_angle, tables()),
                  std::logic_error);
}

TEST_CASE("check/fasteners: pull-through, pulled together, combined (8.40b, 8.41, 8.28)") {
  CHECK(in_N(head_pull_through(screw(4), kg_m3(410), tables())) ==
        doctest::Approx(726.36118));  // 10 x 8^2 x (410/350)^0.8
  CHECK(effective_axial(4, tables()) == doctest::Approx(3.4822023));
  CHECK(effective_axial(1, tables()) == 1.0);
  CHECK_THROWS_AS((void)effective_axial(0, tables()), std::logic_error);
  CHECK(combined_ratio(0.6, 0.8) == doctest::Approx(1.0));
  CHECK(std::isnan(combined_ratio(std::nan(""), 0.8)));
}

TEST_CASE("check/fasteners: least distances of 4 mm screws (EN 1995-1-1, Table 8.2)") {
  const reference::SpacingRule& plain = screw_rule(millimetres(4), kg_m3(350), false, tables());
  const Spacings along = least_spacings(plain, millimetres(4), 0.0, Plate::none, tables());
  CHECK(in_mm(along.a_1) == doctest::Approx(40));  // (5 + 5) d
  CHECK(in_mm(along.a_2) == doctest::Approx(20));
  CHECK(in_mm(along.a_3t) == doctest::Approx(60));  // (10 + 5) d
  CHECK(in_mm(along.a_3c) == doctest::Approx(40));
  CHECK(in_mm(along.a_4t) == doctest::Approx(20));
  CHECK(in_mm(along.a_4c) == doctest::Approx(20));
  const reference::SpacingRule& drilled = screw_rule(millimetres(4), kg_m3(350), true, tables());
  const Spacings square =
      least_spacings(drilled, millimetres(4), right_angle, Plate::steel, tables());
  CHECK(in_mm(square.a_1) == doctest::Approx(0.7 * 16));
  CHECK(in_mm(square.a_2) == doctest::Approx(0.7 * 16));
  CHECK(in_mm(square.a_3t) == doctest::Approx(28));
  CHECK(in_mm(square.a_4t) == doctest::Approx(20));  // (3 + 2) d
  CHECK(in_mm(square.a_4c) == doctest::Approx(12));
  const Spacings panel = least_spacings(drilled, millimetres(4), 0.0, Plate::panel, tables());
  CHECK(in_mm(panel.a_1) == doctest::Approx(0.85 * 20));
  CHECK_THROWS_AS((void)least_spacings(plain, Length{}, 0.0, Plate::none, tables()),
                  std::logic_error);
}

TEST_CASE("check/fasteners: least distances of M8 (EN 1995-1-1, Table 8.4)") {
  const reference::SpacingRule& rule = tables().spacing_rule("bolts");
  const Spacings along = least_spacings(rule, millimetres(8), 0.0, Plate::none, tables());
  CHECK(in_mm(along.a_1) == doctest::Approx(40));
  CHECK(in_mm(along.a_3t) == doctest::Approx(80));  // 7 d, at least 80 mm
  CHECK(in_mm(along.a_3c) == doctest::Approx(32));
  CHECK(in_mm(along.a_4t) == doctest::Approx(24));
  const Spacings square = least_spacings(rule, millimetres(8), right_angle, Plate::none, tables());
  CHECK(in_mm(square.a_3c) == doctest::Approx(56));
  CHECK(in_mm(square.a_4t) == doctest::Approx(32));
}

TEST_CASE(
    "check/fasteners: the rule goes by diameter, density and drilling (Table 8.2, 8.3.1.1(2))") {
  const auto key = [](double d, double rho, bool predrilled) {
    return screw_rule(millimetres(d), kg_m3(rho), predrilled, tables()).key;
  };
  CHECK(key(4, 350, false) == "screws under 5 mm");
  CHECK(key(5, 350, false) == "screws");
  CHECK(key(4, 450, false) == "screws under 5 mm, dense");
  CHECK(key(6, 450, true) == "screws, predrilled");
  CHECK_FALSE(must_predrill(millimetres(6), kg_m3(500), tables()));
  CHECK(must_predrill(millimetres(8), kg_m3(350), tables()));
  CHECK(must_predrill(millimetres(4), kg_m3(530), tables()));
}

}  // namespace fasteners_test
