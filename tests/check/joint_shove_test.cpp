#include <doctest/doctest.h>

#include <cmath>
#include <utility>

#include "tests/check/joint_cases.hpp"

namespace joint_shove_test {

using namespace joint_cases;

TEST_CASE("check/joint_shove: the sum of the joints against a shove along the bench") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  const std::vector<Finding> findings = run(check::joints_under_shove, built);
  REQUIRE(findings.size() == 1);
  const Finding& f = findings[0];
  CHECK(f.id == "joint-sum/along");
  CHECK(f.unit == quantity::Kind::moment);
  const portal::Solved solved = portal::solve(built);
  double M = 0.0;
  for (const model::RailEnd& end : solved.model.parts.rail_ends) {
    const Shares forces = check::end_forces(end, *solved.response.states[0]);
    M += forces[Component::top] + forces[Component::bottom];
  }
  CHECK(f.demand == doctest::Approx(M));
  // One bracket closes, the other opens.
  const JointStrength joint = strength({});
  CHECK(f.limit == doctest::Approx(bends(joint, Component::top, 1.1).moment +
                                   bends(joint, Component::bottom, 1.1).moment));
  CHECK(f.ratio == doctest::Approx(f.demand / f.limit));
  CHECK(says(f.working, "worst single joint"));
}

TEST_CASE(
    "check/joint_shove: a shove that the rest of the joints can not take is exceeded or not "
    "judged") {
  const auto finding = [](double force, auto change) {
    portal::Built built = portal::build({});
    portal::add_force(built.model, force, 0, 0, model::Leading::strong_shove,
                      Duration::instantaneous);
    change(built);
    return find(run(check::joints_under_shove, built), "joint-sum/along");
  };
  const Finding over = finding(30000, [](portal::Built&) {});
  CHECK(over.judgement == Judgement::exceeded);
  CHECK(over.advice.find("in the back") != std::string::npos);
  const auto glue = [](portal::Built& b) { b.joint(0).kind = *tables().joint_kind("glued"); };
  const Finding unknown = finding(30000, glue);
  CHECK(unknown.judgement == Judgement::not_judged);
  CHECK(unknown.why.find("rail, left end: no published strength") != std::string::npos);
  const Finding enough = finding(1, glue);
  CHECK(enough.judgement == Judgement::satisfied);
  CHECK(says(enough.working, "left out of the resistances"));
  const Finding wet = finding(1, [](portal::Built& b) {
    b.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
    for (model::Part& part : b.model.parts.parts) part.timber.material = reference::Material::mdf;
  });
  CHECK(wet.why.find("service class 3") != std::string::npos);
  const Finding still =
      finding(300, [](portal::Built& b) { b.model.cases[0].point_loads.clear(); });
  CHECK(still.ratio == 0.0);
  const Finding unasked = finding(
      300, [](portal::Built& b) { b.model.combinations[0].leading = model::Leading::stand; });
  CHECK(unasked.why == "no shove that way was answered");
  const Finding nowhere =
      finding(300, [](portal::Built& b) { b.model.combinations[0].place.reset(); });
  CHECK(nowhere.judgement == Judgement::not_judged);
}

TEST_CASE(
    "check/joint_shove: shoves across are no matter of rails along; pins and released hold "
    "nothing") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 300, 0, model::Leading::shove, Duration::instantaneous);
  CHECK(run(check::joints_under_shove, built).empty());
  built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  for (model::RailEnd& end : built.model.parts.rail_ends) end.released = true;
  CHECK(run(check::joints_under_shove, built).empty());
  portal::Solved solved = portal::solve(built);
  solved.model.parts.rail_ends[0].released = false;
  solved.response.states[0]->end_forces[4].fill(std::nan(""));
  const check::SectionForces forces(solved.answers());
  CHECK(check::joints_under_shove(solved.answers(), forces, tables())[0].why ==
        "the forces are not numbers");
}

TEST_CASE("check/joint_shove: gravity does not push over, and a rail may run either way") {
  const auto along = [](portal::Built& built) {
    return find(run(check::joints_under_shove, built), "joint-sum/along");
  };
  portal::Built built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  const Finding alone = along(built);
  portal::Built laden = portal::build({});
  portal::add_force(laden.model, 300, 0, -900, model::Leading::shove, Duration::instantaneous);
  CHECK(along(laden).demand == doctest::Approx(alone.demand).epsilon(1e-6));
  model::Member& rail = built.model.members[4];
  std::swap(rail.start, rail.end);
  std::swap(rail.start_offset, rail.end_offset);
  for (model::RailEnd& end : built.model.parts.rail_ends) end.at_end = !end.at_end;
  CHECK(along(built).demand == doctest::Approx(alone.demand).epsilon(1e-6));
  CHECK(along(built).limit == doctest::Approx(alone.limit).epsilon(1e-6));
}

TEST_CASE("check/joint_shove: a pin has no part in the sum") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 300, 0, 0, model::Leading::shove, Duration::instantaneous);
  built.joint(0).kind = *tables().joint_kind("pinned");
  const Finding f = find(run(check::joints_under_shove, built), "joint-sum/along");
  CHECK(says(f.working, "of the 1 joints of one plane"));
}

}  // namespace joint_shove_test
