// One worked example for each clause that has none elsewhere: published ones with the book's
// printed figures, others by hand; the arithmetic stands beside each.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "tests/check/joint_cases.hpp"

namespace worked_examples_test {

using namespace joint_cases;
using check::AboutAxes;
using check::Strengths;
using quantity::Stress;
using reference::ServiceClass;

namespace {

double in_mpa(Stress value) { return 1e-6 * in_si(value); }

model::Part part_of(const char* timber, double b, double h) {
  model::Part part;
  part.timber = *tables().timber(timber);
  part.width = millimetres(b);
  part.depth = millimetres(h);
  return part;
}

/// The portal of portal.hpp with a rail in hinges.
portal::Built hinged(Portal p) {
  p.bend = 1e-3;
  return portal::build(p);
}

}  // namespace

TEST_CASE(
    "check/worked_examples: a 100 x 200 C24 column, bent both ways (Porteous & Kermani, Structural "
    "Timber Design to Eurocode 5, example 5.7.3: it meets EC5; 6.3.2)") {
  // 1.35 x 10 + 1.5 x 17.5 = 39.75 kN, 25 mm off about y and 10 mm about z, 3.75 m, medium term,
  // service class 2. The book's printed slenderness about z is 129.9. EN 338 has not moved these
  // values of C24 since: f_m 24, f_c 21, E_0.05 7400.
  const Strengths f = *check::strengths(part_of("C24", 100, 200), ServiceClass::sc2,
                                        Duration::medium_term, tables());
  CHECK(in_mpa(f.f_m.y) == doctest::Approx(0.8 * 24 / 1.3));
  CHECK(in_mpa(f.f_m.z) == doctest::Approx(16.0168).epsilon(1e-5));  // k_h = (150/100)^0.2
  const Stress f_c = quantity::pascals(21e6), E = quantity::pascals(7400e6);
  const AboutAxes<double> lambda_rel{
      check::relative_slenderness(millimetres(3750), millimetres(200), f_c, E),
      check::relative_slenderness(millimetres(3750), millimetres(100), f_c, E)};
  const double pi = 3.14159265358979323846;
  CHECK(lambda_rel.z * pi / std::sqrt(21.0 / 7400.0) == doctest::Approx(129.9).epsilon(4e-4));
  const auto k_c = check::buckling_factors(lambda_rel, f.beta_c, tables());
  CHECK(*k_c.y == doctest::Approx(0.61411).epsilon(1e-4));
  CHECK(*k_c.z == doctest::Approx(0.18794).epsilon(1e-4));
  const AboutAxes<Stress> sigma_m =
      check::bending_stress({quantity::newton_metres(993.75), quantity::newton_metres(397.5)},
                            millimetres(100), millimetres(200));
  // (6.23) 0.4035, (6.24) 1.9875/(0.18794 x 12.923) + 0.7 x 1.4906/14.769 + 1.1925/16.017 = 0.9634
  const double ratio = check::column_ratio(sigma_m, quantity::pascals(39750 / 0.02), f, k_c);
  CHECK(ratio == doctest::Approx(0.96340).epsilon(1e-4));
  CHECK(check::judge(ratio) == Judgement::satisfied);
}

TEST_CASE(
    "check/worked_examples: k_h of LVL 120 mm deep, s = 0.15: 1.15 (LVL Handbook Europe, 2025; "
    "3.4(3), eq. (3.3))") {
  reference::Timber lvl = *tables().timber("C24");
  lvl.material = reference::Material::lvl;
  // To its printed digits.
  CHECK(std::abs(check::size_factor(millimetres(120), lvl, tables()) - 1.15) < 0.005);
  CHECK(check::size_factor(millimetres(60), lvl, tables()) == 1.2);  // (300/60)^0.15 = 1.27
  CHECK(check::size_factor(millimetres(300), lvl, tables()) == 1.0);
}

TEST_CASE("check/worked_examples: sigma_m,crit of 38 x 140 D30 over 3 m, by hand (6.31)") {
  // J = 0.27631 x 140 x 38^3 = 2122650, I_z = 640173 mm4, W_y = 124133 mm3, G_0.05 = 9200/16:
  // pi sqrt(9200 x 640173 x 575 x 2122650)/(3000 x 124133) = 22.618
  const model::Section s = model::rectangle(millimetres(38), millimetres(140));
  CHECK(in_mpa(check::critical_bending_stress(*tables().timber("D30"), millimetres(38),
                                              millimetres(140), s.J, millimetres(3000),
                                              tables())) == doctest::Approx(22.618).epsilon(1e-4));
}

TEST_CASE("check/worked_examples: a rail bent and pushed, by hand (6.33), (6.35), (6.23), (6.24)") {
  // 25 x 150 C24, 2.41 m between its posts, 200 N down and 1600 N along in the middle: half of that
  // pushes one half of the rail and pulls the other.
  Portal p;
  p.rail_width = 0.025;
  p.rail_depth = 0.15;
  p.span = 2.5;
  portal::Built built = hinged(p);
  portal::add_force(built.model, 1600, 0, -200);
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  // l_ef = 2410 + 2 x 150 = 2710; 0.78 x 25^2 x 7400/(150 x 2710) = 8.8745; sqrt(24/8.8745) =
  // 1.6445: k_crit = 1/2.7044. As columns: lambda_rel = 2410 sqrt 12/h/pi sqrt(21/7400).
  const double k_crit = 8.8745 / 24.0, f_m = 0.9 * 24 / 1.3, f_c = 0.9 * 21 / 1.3;
  const auto k_c = [](double h) {
    const double l = 2410 * std::sqrt(12.0) / h / 3.14159265 * std::sqrt(21.0 / 7400.0);
    const double k = 0.5 * (1 + 0.2 * (l - 0.3) + l * l);
    return 1 / (k + std::sqrt(k * k - l * l));
  };
  double worst = 0.0;
  for (const check::Station& s : forces.of(solved.model.parts.parts[2].members[0], 0)) {
    const double M_y = 1e3 * std::abs(in_si(s.M_y)), M_z = 1e3 * std::abs(in_si(s.M_z));
    const double m_y = 6 * M_y / (25 * 150 * 150) / f_m;
    const double m_z = 6 * M_z / (150 * 25 * 25) / (1.3 * f_m);  // k_h of 25 mm is at its most
    const double c = std::max(0.0, -in_si(s.N)) / (25 * 150) / f_c;
    const double tips = m_y / k_crit;
    // (6.35) as the share x of the loads that just meets it: (tips x)^2 + c x/k_c = 1.
    const double pushed = c / k_c(25);
    worst = std::max({worst, tips, 0.5 * (pushed + std::sqrt(pushed * pushed + 4 * tips * tips))});
    if (c == 0.0) continue;
    worst = std::max({worst, c / k_c(150) + m_y + 0.7 * m_z, pushed + 0.7 * m_y + m_z});
  }
  const Finding found =
      find(check::lateral_stability(solved.answers(), forces, tables()), "lateral/rail");
  CHECK(found.ratio == doctest::Approx(worst).epsilon(1e-4));  // of the printed 8.8745
  CHECK(worst > 0.05);
}

TEST_CASE(
    "check/worked_examples: two cantilevers under half a load each buckle at pi^2 EI/(4 h^2) "
    "(Euler; "
    "2.4.1(2): at least gamma_M of it)") {
  Portal p;
  p.post = 0.03;
  portal::Built built = hinged(p);
  portal::add_force(built.model, 0, 0, -1000);
  solve::PlateCache plates;
  const auto response = solve::static_response(built.model, plates, 10.0);
  REQUIRE(response.has_value());
  const check::Answers answers{built.model, *response};
  const std::vector<Finding> found = check::frame_stability(answers, tables());
  REQUIRE(found.size() == 1);
  // Loaded 0.7 m above their clamped feet; shear as N/GA_s (Engesser). One cubic stands for each
  // post up to there, which is stiffer by three quarters of a hundredth (Przemieniecki: 2.486 for
  // pi^2/4 = 2.467).
  const double EI = 11e9 * std::pow(0.03, 4) / 12.0, GA_s = 0.69e9 * 0.03 * 0.03 / 1.2;
  const double P_E = 2.486 * EI / 0.49;
  CHECK(found[0].demand == doctest::Approx(P_E / (1.0 + P_E / GA_s) / 500).epsilon(2e-3));
  CHECK(found[0].limit == 1.3);
  CHECK(found[0].limit_is_least);
  CHECK(found[0].ratio == doctest::Approx(1.3 / found[0].demand));
  CHECK(found[0].judgement == Judgement::satisfied);
  // EN 1993-1-1, 5.2.1 (from memory): second order counts below 10.
  CHECK(response->second_order);
}

TEST_CASE(
    "check/worked_examples: where sway is in the moments a post counts once its height (5.4.4)") {
  portal::Built built = hinged({});
  portal::add_force(built.model, 0, 0, -3000);
  portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  const auto post = [&] {
    return find(check::column_stability(solved.answers(), forces, tables()), "buckling/left-post");
  };
  const Finding first = post();
  solved.response.second_order = true;  // the same forces, told as such
  const Finding second = post();
  CHECK(says(first.working, "effective length 2 x 900 mm about y, 2 x 900 mm about z"));
  CHECK(says(second.working, "effective length 1 x 900 mm about y, 1 x 900 mm about z"));
  CHECK(second.ratio < first.ratio);
}

TEST_CASE(
    "check/worked_examples: two 6 x 120 screws in end grain, a third of 1437 N each (8.3.1.2(4))") {
  // Through 45 mm of C24 into the end of the rail: d_ef = 1.1 x 3.8, f_h = 0.082 x 350 x 4.18^-0.3
  // = 18.686 in both; a 3515, b 5858, c 2044, d 1453, e 2188, f 1437 N: mode f, without rope
  // effect.
  Portal p;
  p.joint = "end-grain screws";
  p.post = 0.045;
  const JointStrength joint = strength(p);
  REQUIRE(joint.groups.size() == 1);
  CHECK(in_si(joint.groups[0].F_v_k) == doctest::Approx(1437.3 / 3).epsilon(1e-4));
  const double R = 2 * 1437.3 / 3 * 0.9 / 1.3;
  CHECK(under(joint, Component::down, R).ratio == doctest::Approx(1.0).epsilon(1e-4));
}

TEST_CASE(
    "check/worked_examples: 6 mm screws that are pulled: 7 d, 5 d, 10 d and 4 d (Table 8.6)") {
  const check::Spacings a = check::least_spacings(
      tables().spacing_rule("screws axial"), millimetres(6), 0.0, check::Plate::none, tables());
  CHECK(in_si(a.a_1) == doctest::Approx(0.042));
  CHECK(in_si(a.a_2) == doctest::Approx(0.030));
  CHECK(in_si(a.a_3c) == doctest::Approx(0.060));
  CHECK(in_si(a.a_4c) == doctest::Approx(0.024));
}

}  // namespace worked_examples_test
