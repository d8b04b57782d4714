#include <doctest/doctest.h>

#include "check/section_forces.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "tests/check/portal.hpp"

namespace notches_test {

using namespace standtrue;
using doctest::Approx;
using quantity::millimetres;
using reference::Material;

namespace {

double k_v(double h, double cut, double x, Material material = Material::solid_timber,
           double slope = 0.0) {
  return check::notch_factor({millimetres(h), millimetres(cut), millimetres(x), slope}, material,
                             portal::tables());
}

}  // namespace

TEST_CASE("check/notches: k_v by hand (EN 1995-1-1, 6.5.2, eq. (6.62) and (6.63))") {
  // h = 95, h_ef = 70, x = 22.5: sqrt(95) = 9.7468; sqrt(0.73684 x 0.26316) = 0.44035;
  // 0.8 x 0.23684 x sqrt(1.35714 - 0.54294) = 0.17097; 5/(9.7468 x 0.61132) = 0.83915
  CHECK(k_v(95, 25, 22.5) == Approx(0.83915).epsilon(1e-4));
  // LVL 4.5, glulam 6.5 (at most 1)
  CHECK(k_v(95, 25, 22.5, Material::lvl) == Approx(0.83915 * 0.9).epsilon(1e-4));
  CHECK(k_v(95, 25, 22.5, Material::glulam) == 1.0);
  // A slope of 1 in 4 helps by 1 + 1.1 x 8/sqrt(95)
  CHECK(k_v(95, 60, 40, Material::solid_timber, 4.0) / k_v(95, 60, 40) ==
        Approx(1 + 1.1 * 8 / 9.74679).epsilon(1e-4));
}

TEST_CASE("check/notches: a deeper cut and a farther seat are never better") {
  double before = 2.0;
  for (int cut = 5; cut < 95; cut += 5) {
    const double now = k_v(95, cut, 20) * (95 - cut);  // of the force that it stands
    CHECK(now <= before * 95);
    before = now / 95;
  }
  for (int x = 0; x < 80; x += 10) CHECK(k_v(95, 30, x + 10) <= k_v(95, 30, x));
  CHECK_THROWS(k_v(95, 95, 10));
}

TEST_CASE("check/notches: the finding, V = 500 N at each end of a rail on seats") {
  portal::Portal p;
  p.bearing = 0.09;
  portal::Built built = portal::build(p);
  built.model.parts.bench.rails[0].notch = millimetres(40);
  portal::add_force(built.model, 0, 0, -1000);
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  const auto findings = check::notches(solved.answers(), forces, portal::tables());
  REQUIRE(findings.size() == 1);
  // tau = 1.5 x 500/(0.67 x 70 x 80); k_v: h = 120, alpha = 2/3, x = 45:
  // 5/(10.954 (0.4714 + 0.3 x 1.0274)) = 0.5855; f_v,d = 0.9 x 4/1.3
  const double tau = 1.5 * 500 / (0.67 * 70 * 80), limit = 0.5855 * 0.9 * 4 / 1.3;
  CHECK(findings[0].demand == Approx(1e6 * tau).epsilon(1e-3));
  CHECK(findings[0].limit == Approx(1e6 * limit).epsilon(1e-3));
  CHECK(findings[0].ratio == Approx(tau / limit).epsilon(1e-3));
  // Without a cut there is nothing to find.
  built.model.parts.bench.rails[0].notch = {};
  const portal::Solved whole = portal::solve(built);
  CHECK(check::notches(whole.answers(), check::SectionForces(whole.answers()), portal::tables())
            .empty());
}

namespace {

/// A rail on seats, cut by 40 mm, under twice `V`.
portal::Built cut_rail(double V) {
  portal::Portal p;
  p.bearing = 0.09;
  portal::Built built = portal::build(p);
  built.model.parts.bench.rails[0].notch = millimetres(40);
  portal::add_force(built.model, 0, 0, -2 * V);
  return built;
}
std::vector<check::Finding> notches_of(const portal::Built& built) {
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  return check::notches(solved.answers(), forces, portal::tables());
}

}  // namespace

TEST_CASE("check/notches: V = 4500 N split it, of two rails each by its own ends (statics)") {
  // As above, nine times as much: 1.5 x 4500/(0.67 x 70 x 80)/1.6213 = 1.110
  portal::Built built = cut_rail(4500);
  const check::Finding split = notches_of(built).at(0);
  CHECK(split.ratio == Approx(1.110).epsilon(1e-3));
  CHECK(split.judgement == check::Judgement::exceeded);
  CHECK(split.advice == "a shallower notch, or a deeper piece");
  portal::Portal p;
  p.bearing = 0.09;
  portal::add_second_rail(built, p);
  model::MemberPointLoad load = built.model.cases[0].point_loads[0];
  load.member = built.model.parts.parts[3].members[0];
  load.force.z = load.force.z / 3.0;
  built.model.cases[0].point_loads.push_back(load);
  const std::vector<check::Finding> both = notches_of(built);
  REQUIRE(both.size() == 2);
  CHECK(both[0].ratio == Approx(split.ratio).epsilon(1e-3));
  CHECK(both[1].ratio == Approx(split.ratio / 3).epsilon(1e-3));
  CHECK(both[1].place.find("second rail") == 0);
  CHECK(both[1].judgement == check::Judgement::satisfied);
}

TEST_CASE("check/notches: without a strength in this air, or an answer, it is not judged") {
  portal::Built wet = cut_rail(500);
  wet.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
  wet.model.parts.parts[2].timber.material = Material::mdf;
  const check::Finding none = notches_of(wet).at(0);
  CHECK(none.judgement == check::Judgement::not_judged);
  CHECK(none.why == "the code gives no strength of MDF in air of service class 3");
  portal::Built unasked = cut_rail(500);
  unasked.model.combinations[0].purpose = model::Purpose::service;
  const check::Finding unanswered = notches_of(unasked).at(0);
  CHECK(unanswered.judgement == check::Judgement::not_judged);
  CHECK(unanswered.why == "no combination of loads was answered");
}

}  // namespace notches_test
