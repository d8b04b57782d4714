#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/joint_cases.hpp"

namespace joint_gravity_test {

using namespace joint_cases;

TEST_CASE(
    "check/joint_gravity: a finding for each end; the worst combination; shoves without bending") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  const std::vector<Finding> findings = run(check::joints_under_gravity, built);
  REQUIRE(findings.size() == 2);
  const Finding& f = findings[0];
  CHECK(f.id == "joint/rail-left-end");
  CHECK(f.group == check::Group::joints);
  CHECK(f.judgement == Judgement::satisfied);
  CHECK(f.sentence.rfind("The joint of the rail, left end, is loaded to", 0) == 0);
  CHECK(says(f.working, "plate: M_pl"));
  CHECK(says(f.working, "worst mode"));
}

TEST_CASE(
    "check/joint_gravity: a bracket that gravity bends past its plate is named, and then "
    "released") {
  Portal p;
  p.bend = 1e6;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -800);
  portal::Solved solved = portal::solve(built);
  const std::vector<std::string> names =
      check::overloaded_ductile_joints(solved.answers(), tables());
  CHECK(names == std::vector<std::string>{"rail, left end", "rail, right end"});
  const std::vector<JointRatio> ratios = check::joint_ratios(solved.answers(), 0, tables());
  REQUIRE(ratios.size() == 2);
  CHECK(ratios[1].rail_end == 1);
  CHECK(ratios[0].ratio > 1.0);
  CHECK(ratios[0].ductile);
  CHECK(ratios[0].force < 1.0);
  const Finding over = run(check::joints_under_gravity, built)[0];
  CHECK(over.judgement == Judgement::exceeded);
  CHECK(over.advice.find("a bracket of thicker steel") == 0);  // not more screws

  for (model::RailEnd& end : built.model.parts.rail_ends) end.released = true;
  built.model.members[4].start_springs[4] = built.model.members[4].end_springs[4] =
      model::EndSpring::free_end();
  solved = portal::solve(built);
  CHECK(check::overloaded_ductile_joints(solved.answers(), tables()).empty());
  const Finding after = run(check::joints_under_gravity, built)[0];
  CHECK(after.judgement == Judgement::satisfied);
  CHECK(after.advice.empty());
  CHECK(after.sentence.find("resting on its ends only") != std::string::npos);
}

TEST_CASE("check/joint_gravity: brittle, refused, served or shoved joints are not let go") {
  const auto overloaded = [](auto change) {
    Portal p;
    p.bend = 1e6;
    portal::Built built = portal::build(p);
    portal::add_force(built.model, 0, 0, -800);
    change(built);
    portal::Solved solved = portal::solve(built);
    return check::overloaded_ductile_joints(solved.answers(), tables()).size();
  };
  CHECK(overloaded([](portal::Built&) {}) == 2);
  CHECK(overloaded([](portal::Built& b) {
          b.model.combinations[0].purpose = model::Purpose::service;
        }) == 0);
  CHECK(overloaded([](portal::Built& b) {
          b.model.combinations[0].leading = model::Leading::strong_shove;
        }) == 0);
  CHECK(overloaded([](portal::Built& b) {
          b.model.cases[0].point_loads[0].force.z = newtons(-9000);  // the screws shear off too
        }) == 0);
  CHECK(overloaded([](portal::Built& b) {
          b.joint(0).moment_resistance = quantity::newton_metres(10);  // may be brittle
        }) == 1);
  CHECK(overloaded([](portal::Built& b) {
          b.model.combinations[0].purpose = model::Purpose::as_given;
        }) == 2);
}

TEST_CASE(
    "check/joint_gravity: unanswered, unknown or unnumbered joints are not judged, with the "
    "reason") {
  const auto finding = [](auto change) {
    portal::Built built = portal::build({});
    portal::add_force(built.model, 0, 0, -100);
    change(built);
    return run(check::joints_under_gravity, built)[0];
  };
  const Finding served =
      finding([](portal::Built& b) { b.model.combinations[0].purpose = model::Purpose::service; });
  CHECK(served.judgement == Judgement::not_judged);
  CHECK(served.why == "no combination of loads was answered");
  const Finding glued =
      finding([](portal::Built& b) { b.joint(0).kind = *tables().joint_kind("glued"); });
  CHECK(glued.judgement == Judgement::not_judged);
  CHECK(glued.why.find("glued") != std::string::npos);
  const Finding screwed =
      finding([](portal::Built& b) { b.joint(0).kind.fastener_length = millimetres(30); });
  CHECK(screwed.why == "the screws are too short to be pulled");
  const Finding wet = finding([](portal::Built& b) {
    b.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
    for (model::Part& part : b.model.parts.parts) part.timber.material = reference::Material::mdf;
  });
  CHECK(wet.why.find("service class 3") != std::string::npos);
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  portal::Solved solved = portal::solve(built);
  solved.response.states[0]->end_forces[4].fill(std::nan(""));
  const check::SectionForces forces(solved.answers());
  CHECK(check::joints_under_gravity(solved.answers(), forces, tables())[0].why ==
        "the forces are not numbers");
  solved.response.states[0] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "tips", "", {}});
  CHECK(check::joint_ratios(solved.answers(), 0, tables())[0].why == "tips");
}

TEST_CASE("check/joint_gravity: a pin on a seat needs no finding; fasteners have one each") {
  Portal p;
  p.joint = "pinned";
  p.bearing = 0.09;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -100);
  CHECK(run(check::joints_under_gravity, built).empty());
  CHECK(run(check::joint_fasteners, built).empty());
  built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  const std::vector<Finding> good = run(check::joint_fasteners, built);
  REQUIRE(good.size() == 2);
  CHECK(good[0].id == "fasteners/rail-left-end");
  CHECK(good[0].judgement == Judgement::satisfied);
  CHECK(says(good[0].working, "holes pre-drilled"));
  built.joint(0).kind.fastener_length = millimetres(200);
  const Finding bad = run(check::joint_fasteners, built)[0];
  CHECK(bad.judgement == Judgement::not_judged);
  CHECK_FALSE(bad.advice.empty());
  built.joint(0).moment_resistance = quantity::newton_metres(100);
  built.joint(0).shear_resistance = newtons(1000);
  CHECK(run(check::joint_fasteners, built).size() == 1);
}

TEST_CASE("check/joint_gravity: a seat with fasteners, an own advice, values of the file") {
  Portal p;
  p.bearing = 0.09;
  portal::Built seated = portal::build(p);
  portal::add_force(seated.model, 0, 0, -100);
  CHECK(run(check::joints_under_gravity, seated).size() == 2);
  // What the joint itself advises goes before what helps any.
  Portal pair;
  pair.joint = "two corner brackets";
  pair.bend = 1e6;
  portal::Built one = portal::build(pair);
  one.model.parts.bench.posts[0].top = metres(0.76);
  portal::add_force(one.model, 0, 0, -9000);
  const Finding f = run(check::joints_under_gravity, one)[0];
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(f.advice == "set the second bracket where both of its legs find wood");
  // Given one value of two the fasteners are still looked at; of glue there are none.
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -100);
  built.joint(0).moment_resistance = quantity::newton_metres(100);
  CHECK(run(check::joint_fasteners, built).size() == 2);
  built.joint(0).kind = *tables().joint_kind("glued");
  CHECK(run(check::joint_fasteners, built).size() == 1);
}

}  // namespace joint_gravity_test
