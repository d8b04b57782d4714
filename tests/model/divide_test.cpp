#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "model/frame_reader.hpp"
#include "standtrue/model/divide.hpp"

namespace divide_test {

using namespace standtrue;
using namespace standtrue::model;
using quantity::from_si;
using quantity::in_si;
using quantity::metres;
using quantity::newtons;

namespace {

Model beam() {
  Model m;
  m.nodes = {{"A", {metres(0), metres(0), metres(0)}}, {"B", {metres(3), metres(0), metres(0)}}};
  Member member;
  member.name = "AB";
  member.start = 0;
  member.end = 1;
  member.elastic = {from_si<Stress>(1e10), from_si<Stress>(1e9), {}};
  member.section = rectangle(metres(0.05), metres(0.1));
  member.start_offset = {metres(0.5), metres(0), metres(0)};
  member.end_springs[4] = EndSpring::elastic(1e4);
  m.members.push_back(member);
  LoadCase load;
  load.name = "load";
  load.point_loads.push_back({0, metres(1.1), {newtons(0), newtons(0), newtons(-7)}, {}});
  // From 0.2 m to 2.3 m of the 2.5 m, growing.
  load.line_loads.push_back({0,
                             metres(0.2),
                             metres(2.3),
                             {{}, {}, from_si<LineLoad>(-10.0)},
                             {{}, {}, from_si<LineLoad>(-31.0)}});
  m.cases.push_back(load);
  return m;
}

}  // namespace

TEST_CASE("model/divide: places of the whole are kept, offsets and springs stay at its ends") {
  const Division division = divided(beam(), 5);
  const Model& m = division.model;
  CHECK(m.nodes.size() == 6);
  CHECK(m.members.size() == 5);
  REQUIRE(division.pieces[0].size() == 5);
  CHECK(division.pieces[0].front() == 0);
  CHECK(m.members[0].name == "AB");
  CHECK(in_si(m.members[0].start_offset.x) == 0.5);
  CHECK(m.members[0].end_springs[4].kind == EndSpring::Kind::rigid);
  const Member& last = m.members[division.pieces[0].back()];
  CHECK(last.end == 1);
  CHECK(last.end_springs[4].kind == EndSpring::Kind::elastic);
  CHECK(in_si(last.start_offset.x) == 0.0);
  for (const MemberId piece : division.pieces[0]) {
    CHECK(in_si(member_frame(m, m.members[piece]).length) == doctest::Approx(0.5));
  }
}

TEST_CASE("model/divide: the pieces carry the same force and the same moment about the start") {
  const Model whole = beam();
  const auto sums = [](const Model& m) {
    double force = 0.0, moment = 0.0;
    const auto add = [&](double f, double x) {
      force += f;
      moment += f * x;
    };
    for (const MemberPointLoad& p : m.cases[0].point_loads) {
      const Member& member = m.members[p.member];
      add(in_si(p.force.z),
          in_si(m.nodes[member.start].at.x + member.start_offset.x) + in_si(p.at));
    }
    for (const MemberLineLoad& q : m.cases[0].line_loads) {
      const Member& member = m.members[q.member];
      const double start = in_si(m.nodes[member.start].at.x + member.start_offset.x);
      const double a = start + in_si(q.from), l = in_si(q.to - q.from);
      const double q0 = in_si(q.at_from.z), q1 = in_si(q.at_to.z);
      add(0.5 * (q0 + q1) * l, 0.0);
      moment += q0 * l * (a + 0.5 * l) + (q1 - q0) * 0.5 * l * (a + 2.0 / 3.0 * l);
    }
    return std::array<double, 2>{force, moment};
  };
  const auto one = sums(whole), many = sums(divided(whole, 7).model);
  CHECK(many[0] == doctest::Approx(one[0]).epsilon(1e-12));
  CHECK(many[1] == doctest::Approx(one[1]).epsilon(1e-12));
}

TEST_CASE("model/divide: the new nodes of a plane frame are held in its plane") {
  CHECK(divided(beam(), 3).model.supports.empty());
  Model plane = beam();
  plane.supports = plane_supports(plane);
  const Model m = divided(plane, 3).model;
  CHECK(m.supports.size() == 3 * m.nodes.size());
}

TEST_CASE("model/divide: into no more pieces than can be solved") {
  std::string text =
      "frame_case: 1\ntitle: chain\nsource: ours\nmaterials: {t: {E: 11000 N/mm2, G: 700 N/mm2}}\n"
      "sections: {r: 40 x 60 mm}\nsupports: {n0: all}\ncases: {a: {self_weight: yes}}\ndivide: "
      "64\n";
  std::string nodes = "nodes:\n  n0: [0 mm, 0 mm, 0 mm]\n", members = "members:\n";
  for (int i = 1; i <= 800; ++i) {
    nodes += fmt::format("  n{}: [{} mm, 0 mm, 0 mm]\n", i, 100 * i);
    members += fmt::format("  m{}: {{from: n{}, to: n{}}}\n", i, i - 1, i);
  }
  text += nodes + members;
  const FrameCaseReading reading = read_frame_case(*document::parse("c.yaml", text).document);
  CHECK_FALSE(reading.frame_case);
  REQUIRE(reading.diagnostics.size() == 1);
  CHECK(reading.diagnostics[0].what ==
        "members would be cut into 51200 pieces in all; 50000 are the most");
}

}  // namespace divide_test
