#include <doctest/doctest.h>

#include <string>

#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/solve.hpp"
#include "tests/bench/bench_files.hpp"

namespace brace_slip_test {

using namespace standtrue;
using doctest::Approx;
using quantity::in_si;

namespace {

bench::Bench with_joint(const std::string& joint) {
  return bench_files::sound(R"(
standtrue: 1
size: 1500 x 650 x 900 mm
timber: C24 45 x 95 mm
joints: corner brackets
top: 18 mm birch plywood
analysis: {sheets: none}
braces: [{side: back, kind: diagonal)" +
                            joint + "}]\n");
}

/// The brace as it stands in the frame of that bench.
model::Member brace_of(const bench::Bench& bench, model::Bound bound) {
  model::Assumptions assumptions;
  assumptions.bound = bound;
  const model::Idealisation made = model::idealise(bench, bench_files::tables(), assumptions);
  REQUIRE(made.model);
  return made.model->members.at(made.model->parts.brace_ends.at(0).member);
}

double end_spring(const bench::Bench& bench, model::Bound bound) {
  const model::Member brace = brace_of(bench, bound);
  CHECK(brace.start_springs[0].sway == brace.end_springs[0].sway);
  return brace.end_springs[0].sway;
}

}  // namespace

TEST_CASE("check/brace slip: a stiffness along the brace is used as the file gives it (exact)") {
  for (const char* joint :
       {", joint: {stiffness: {along: 0.2 kN/mm}}",
        ", joint: {kind: bolted lap, stiffness: {along: 0.2 kN/mm}}",
        ", joint: {kind: pinned, stiffness: {along: 0.2 kN/mm}, resistance: {shear: 2 kN}}"}) {
    CAPTURE(joint);
    const bench::Bench bench = with_joint(joint);
    for (const model::Bound bound : {model::Bound::soft, model::Bound::mean, model::Bound::stiff}) {
      CHECK(end_spring(bench, bound) == Approx(0.2e6));
    }
  }
  CHECK(end_spring(with_joint(", joint: {stiffness: {along: 200 kN/mm}}"), model::Bound::mean) ==
        Approx(200e6));
}

TEST_CASE("check/brace slip: a resistance alone leaves the usual bolts their stiffness (exact)") {
  CHECK(end_spring(with_joint(", joint: {resistance: {shear: 2 kN}}"), model::Bound::mean) ==
        Approx(end_spring(with_joint(""), model::Bound::mean)));
}

TEST_CASE("check/brace slip: pulled with F it gives way by F (2/k + L/EA), springs in series") {
  model::Member brace = brace_of(with_joint(", joint: {stiffness: {along: 0.2 kN/mm}}"), {});
  model::Model model;
  const double L = 1.5, F = 100.0;
  model.nodes = {{"held", {}}, {"pulled", {quantity::metres(L), {}, {}}}};
  brace.start = 0;
  brace.end = 1;
  brace.part.reset();
  model.members.push_back(brace);
  for (const model::NodeId node : {model::NodeId{0}, model::NodeId{1}}) {
    for (const bool rotation : {false, true}) {
      for (const model::Direction along :
           {model::Direction{1, 0, 0}, model::Direction{0, 1, 0}, model::Direction{0, 0, 1}}) {
        if (node == 1 && !rotation && along.x == 1.0) continue;
        model::Support support;
        support.name = "grip";
        support.node = node;
        support.rotation = rotation;
        support.along = along;
        model.supports.push_back(support);
      }
    }
  }
  model::LoadCase pull{.name = "pull"};
  pull.node_loads.push_back({1, {quantity::newtons(F), {}, {}}, {}, {}});
  model.cases.push_back(pull);
  model::Combination c;
  c.name = "pulled";
  c.terms = {{0, 1.0}};
  model.combinations.push_back(c);
  const auto response = solve::static_response(model);
  REQUIRE_MESSAGE(response, response.error().what);
  const double EA = 11e9 * 0.045 * 0.095;  // C24 (EN 338), 45 x 95 mm
  REQUIRE(response->states.at(0));
  CHECK(response->states.at(0)->at(1, model::Freedom::x) ==
        Approx(F * (2.0 / 0.2e6 + L / EA)).epsilon(1e-9));
}

}  // namespace brace_slip_test
