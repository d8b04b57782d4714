#include "check/section_forces.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/portal.hpp"

namespace section_forces_test {

using namespace standtrue;
using quantity::in_si;

namespace {

constexpr std::size_t even = 4;  // of the members: the rail
const double even_length = portal::Portal{}.span - portal::Portal{}.post;

/// A rail in hinges, `y` and `z` N/m all along it.
portal::Built evenly_loaded(double y, double z) {
  portal::Portal p;
  p.bend = 1e-3;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, 0);
  model::LoadCase& load = built.model.cases[0];
  load.point_loads.clear();
  model::MemberLineLoad q{even, {}, quantity::metres(even_length), {}, {}};
  q.at_from.y = q.at_to.y = quantity::from_si<quantity::LineLoad>(y);
  q.at_from.z = q.at_to.z = quantity::from_si<quantity::LineLoad>(z);
  load.line_loads.push_back(q);
  return built;
}

}  // namespace

TEST_CASE(
    "check/section_forces: a rail on soft ends has M = PL/4 under the load, +-P/2 beside it") {
  portal::Portal p;
  p.bend = 1e-3;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -1000);
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  const std::size_t rail = solved.model.parts.parts[2].members[0];
  const auto stations = forces.of(rail, 0);
  REQUIRE(stations.size() == 4);  // ends, and both sides of the load
  const double L = p.span - p.post;
  CHECK(in_si(stations[0].at) == 0.0);
  CHECK(in_si(stations[1].at) == doctest::Approx(L / 2));
  CHECK(in_si(stations[2].at) == doctest::Approx(L / 2));
  CHECK(in_si(stations[3].at) == doctest::Approx(L));
  // Sagging has the lower side in tension: M_y < 0. V_z is upward on the end side.
  CHECK(in_si(stations[1].M_y) == doctest::Approx(-1000 * L / 4).epsilon(1e-4));
  CHECK(in_si(stations[1].V_z) == doctest::Approx(-500).epsilon(1e-6));
  CHECK(in_si(stations[2].V_z) == doctest::Approx(500).epsilon(1e-6));
  CHECK(in_si(stations[0].V_z) == doctest::Approx(-500).epsilon(1e-6));
}

TEST_CASE("check/section_forces: the crown of a uniform load lies inside: q L^2/8") {
  const portal::Solved solved = portal::solve(evenly_loaded(0, -800));
  const check::SectionForces forces(solved.answers());
  double most = 0.0;
  for (const check::Station& s : forces.of(even, 0)) most = std::max(most, std::abs(in_si(s.M_y)));
  CHECK(most == doctest::Approx(800 * even_length * even_length / 8).epsilon(1e-4));
}

TEST_CASE("check/section_forces: only strength and as-given combinations have stations") {
  portal::Built built = portal::build({});
  for (int i = 0; i < 4; ++i) portal::add_force(built.model, 0, 0, -1000);
  built.model.combinations[1].purpose = model::Purpose::service;
  built.model.combinations[2].purpose = model::Purpose::as_given;
  portal::Solved solved = portal::solve(built);
  solved.response.states[3] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "tips", "", {}});
  const check::SectionForces forces(solved.answers());
  CHECK(forces.of(4, 0).size() == 4);
  CHECK(forces.of(4, 1).empty());
  CHECK(forces.of(4, 2).size() == 4);
  CHECK(forces.of(4, 3).empty());
  REQUIRE(forces.combinations().size() == 2);
  REQUIRE(forces.refused().size() == 1);
  CHECK(forces.refused()[0] == 3);
  solved.response.states.pop_back();
  CHECK_THROWS_AS(check::SectionForces(solved.answers()), std::logic_error);
}

TEST_CASE("check/section_forces: a load that changes its sense has its greatest shear inside") {
  portal::Portal p;
  p.bend = 1e-3;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -1);
  const std::size_t rail = built.model.parts.parts[2].members[0];
  const double L = p.span - p.post;
  model::LoadCase& load = built.model.cases[0];
  load.point_loads.clear();
  model::MemberLineLoad q{rail, {}, quantity::metres(L), {}, {}};
  q.at_from.z = quantity::from_si<quantity::LineLoad>(-800.0);
  q.at_to.z = quantity::from_si<quantity::LineLoad>(800.0);
  load.line_loads.push_back(q);
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  double most = 0.0;
  for (const check::Station& s : forces.of(rail, 0)) {
    if (std::abs(in_si(s.at) - L / 2) < 1e-9) most = std::max(most, std::abs(in_si(s.V_z)));
  }
  // V(0) = q L/6 up, V(L/2) = q L/6 - q L/4
  CHECK(most == doctest::Approx(800 * L / 12).epsilon(1e-4));
}

TEST_CASE("check/section_forces: of many loads each step has both its sides, in order (statics)") {
  portal::Portal p;
  p.bend = 1e-3;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -100);
  const std::size_t rail = built.model.parts.parts[2].members[0];
  const model::MemberPointLoad one = built.model.cases[0].point_loads[0];
  built.model.cases[0].point_loads.clear();
  constexpr int loads = 20;
  for (int i = 1; i <= loads; ++i) {
    model::MemberPointLoad load = one;
    load.at = quantity::metres((p.span - p.post) * i / (loads + 1.0));
    built.model.cases[0].point_loads.push_back(load);
  }
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  const auto stations = forces.of(rail, 0);
  REQUIRE(stations.size() == 2 * loads + 2);
  int steps = 0;
  for (std::size_t i = 0; i + 1 < stations.size(); ++i) {
    CHECK(stations[i].at <= stations[i + 1].at);
    if (stations[i].at < stations[i + 1].at) continue;
    ++steps;  // from the left the load is still to come
    CHECK(in_si(stations[i + 1].V_z - stations[i].V_z) == doctest::Approx(100.0).epsilon(1e-6));
  }
  CHECK(steps == loads);
}

TEST_CASE("check/section_forces: a crown both ways at once is one cut: q L^2/8 and h L^2/8") {
  portal::Built built = evenly_loaded(300, -800);
  for (auto* springs :
       {&built.model.members[even].start_springs, &built.model.members[even].end_springs}) {
    (*springs)[5] = model::EndSpring::elastic(1e-3);
  }
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  std::size_t crowns = 0;
  const auto stations = forces.of(even, 0);
  for (std::size_t i = 0; i < stations.size(); ++i) {
    if (i > 0) CHECK(in_si(stations[i - 1].at) <= in_si(stations[i].at));
    if (std::abs(in_si(stations[i].at) - even_length / 2) > 1e-6) continue;
    ++crowns;
    CHECK(std::abs(in_si(stations[i].M_y)) ==
          doctest::Approx(800 * even_length * even_length / 8).epsilon(1e-4));
    CHECK(std::abs(in_si(stations[i].M_z)) ==
          doctest::Approx(300 * even_length * even_length / 8).epsilon(1e-4));
  }
  CHECK(crowns >= 1);
}

}  // namespace section_forces_test
