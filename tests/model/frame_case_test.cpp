#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "standtrue/model/frame_case.hpp"
#include "tests/model/frame_case_dump.hpp"
#include "tests/model/frame_files.hpp"

namespace frame_case_test {

using namespace standtrue;
using namespace standtrue::test;
using quantity::in_si;

namespace {

model::FrameCaseReading read(const std::string& name, const std::string& text) {
  const document::Reading reading = document::parse(name, text);
  model::FrameCaseReading out;
  if (reading.document) out = model::read_frame_case(*reading.document);
  out.diagnostics.insert(out.diagnostics.begin(), reading.diagnostics.begin(),
                         reading.diagnostics.end());
  return out;
}

std::string messages(const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += to_text(diagnostic);
  return text;
}

model::FrameCase must_read(const std::string& name, const std::string& text) {
  const model::FrameCaseReading reading = read(name, text);
  INFO(messages(reading.diagnostics));
  REQUIRE(reading.frame_case.has_value());
  return *reading.frame_case;
}

void check_round_trip(const std::string& name, const std::string& text) {
  const model::FrameCase first = must_read(name, text);
  const std::string written = model::write_frame_case(first);
  INFO(written);
  const model::FrameCase second = must_read(name + " written again", written);
  CHECK(dump(first) == dump(second));
  CHECK(model::write_frame_case(second) == written);
}

/// Uses every word of the format once.
const char* const everything = R"(frame_case: 1
title: "every word: once"
about: |2
    sketch
  -- * --

  last
source: "somewhere, p. 1: #2"
materials:
  timber: {E: 11200 N/mm2, G: 700 N/mm2, density: 420 kg/m3}
  steel: {E: 210 kN/mm2, G: 81 kN/mm2}
sections:
  rail: 60 x 240 mm
  stiff: {rectangle: 70 x 70 mm, A: 4.9e9 mm2, shear: none}
  partly: {rectangle: 70 x 70 mm, A_sy: 0 mm2}
  i1: {A: 32.9 in2, I_y: 236 in4, I_z: 716 in4, J: 15.1 in4, A_sy: 20 in2, A_sz: 25 in2}
nodes:
  A: [0 mm, 0 mm, 0 mm]
  B: [1500 mm, 0 mm, 0 mm]
  "C: odd": [1500 mm, 0 mm, 900.1 mm]
  C2: [1500 mm, 0 mm, 900.1 mm]
members:
  AB:
    from: A
    to: B
    material: timber
    section: rail
    depth: [0, 0.1, 1]
    roll: 30 deg
    start_offset: [35 mm, 0 mm, 0 mm]
    end_offset: [-35 mm, 0 mm, 0 mm]
    carries: 12 kg/m
    start: {ry: 6e7 N mm/rad, rz: free}
    end: {ry: {gravity: 1 kN m/rad, sway: 2 kN m/rad}, x: 77 N/mm}
  BC: {from: B, to: "C: odd", material: steel, section: i1}
ties:
  t1: {from: "C: odd", to: C2, z: 50 N/mm, rx: 10 N m/rad}
plates:
  top:
    origin: [100 mm, 33.3 mm, 900.1 mm]
    x_axis: [0.6, 0.8, 0]
    y_axis: [-0.8, 0.6, 0]
    x: {from: 0 mm, to: 700 mm, cells: 3}
    y: [-1 in, 0 mm, 100.1 mm, 200 mm]
    holes:
      - {x: [0 mm, 233.33333333333 mm], y: [0 mm, 100.1 mm]}
    thickness: 18 mm
    stiffness: {E_1: 8.5 kN/mm2, E_2: 5.5 kN/mm2, nu_12: 0.1, G_12: 650 N/mm2, G_13: 180 N/mm2, G_23: 120 N/mm2}
    mass: 11.7 kg/m2
    creep: 1.6
    tie_level: -9 mm
    holds:
      - {x: [700 mm, 700 mm], y: [-1 in, 0 mm], freedoms: [w, u, ry]}
    ties:
      - {at: [0 mm, 200 mm], node: A, x: 50 N/mm, normal: 1 kN/mm}
      - {at: [700 mm, 100.1 mm], node: "C: odd", y: 1/3 N/mm}
      - {at: [700 mm, 100.1 mm], node: B, gravity_only: yes}
    bodies:
      - name: "lathe: small"
        pads:
          - {x: [300 mm, 350 mm], y: [0 mm, 50 mm]}
          - {x: [500 mm, 550 mm], y: [0 mm, 50 mm]}
          - {x: [500 mm, 550 mm], y: [150 mm, 200 mm]}
          - {x: [300 mm, 350 mm], y: [150 mm, 250 mm]}
        stiffness: 100 N/mm
  "shelf: low":
    origin: [0 mm, 0 mm, 0 mm]
    x: [0 mm, 100 mm]
    y: [0 mm, 100 mm]
    stiffness: {A_11: 1e8 N/m, A_22: 2e8 N/m, A_66: 3e7 N/m, D_11: 4000 N m, D_12: -300 N m, D_22: 5000 N m, D_66: 1/3 kN m, S_x: 1e6 N/m, S_y: 2e6 N/m}
  board: {origin: [0 mm, 0 mm, 0 mm], x: [0 mm, 100 mm], y: [0 mm, 100 mm], thickness: 18 mm, stiffness: {E: 9 kN/mm2, nu: 0.3}}
supports:
  A: [x, z, y, rx]
  B: {z: held, ry: 6e7 N mm/rad, x: {moved: 1 mm}}
  "C: odd": all
  C2: {rz: 1 kN m/rad, x: held}
  foot: {node: B, along: [0, 0, 1], press_only: yes, stiffness: 400 N/mm, gap: 0.5 mm}
  turn: {node: B, along: [0, 1, 1], rotation: yes, stiffness: 1 kN m/rad, moved: 0.01 rad}
  grip: {node: B, along: [1, 0, 0], stiffness: 200 N/mm, rides_on: foot}
  lean: {node: A, along: [0.3, 0.2, 0.5]}
masses:
  lathe: {node: B, mass: 40 kg, offset: [0 mm, 0 mm, 150 mm], inertia: [1 kg m2, 1 kg m2, 0 kg m2]}
cases:
  dead: {self_weight: yes, weight: yes, duration: permanent}
  live:
    title: "people, tools"
    duration: short_term
    loads:
      - {node: B, force: [0 N, 0 N, -100 N], moment: [0 N m, 5 N m, 0 N m], offset: [1 mm, 0 mm, 0 mm]}
      - {member: AB, at: 750 mm, force: [0 N, 0 N, -4000 N]}
      - {member: AB, at: 1430 mm, moment: [0 N m, 3 N m, 0 N m]}
      - {member: AB, from: 0 mm, to: 1400 mm, line: [0 N/m, 0 N/m, -6 N/mm]}
      - {member: AB, line: [0 N/m, 0 N/m, 0 N/m], line_end: [0 N/m, 0 N/m, -1800 N/m]}
      - {plate: top, x: [600 mm, 800 mm], y: [50 mm, 50 mm], force: [0 N, 1 N, -100 N]}
combinations:
  all: {dead: 1.35, live: 1.5, springs: sway}
  titled: {title: dead alone, dead: 0.9, purpose: strength, duration: long_term}
expect:
  - {of: displacement, under: live, node: B, freedom: z, value: -0.54 mm, within: 1e-6, source: "x, y"}
  - {of: force, under: live, member: AB, at: 750 mm, component: M_y, value: -1500000 N mm, within: 1e-6, side: left}
  - {of: extreme, under: all, member: AB, component: w, which: least, value: -0.54 mm, within: 1e-6, place: 750 mm}
  - {of: reaction, under: live, support: A.z, value: 0 N, within_absolute: 1e-6 N, note: "a: b", why: round-off}
  - {of: stiffness, under: live, node: B, freedom: x, force: 1000 N, value: 191.4 N/mm, within: 1e-6}
  - {of: spring, under: live, member: AB, end: start, freedom: ry, value: 0.0029 rad, within: 1e-6, magnitude: yes}
  - {of: section, section: rail, property: J, value: 2026410 mm4, within: 1e-6}
  - {of: plate, under: live, plate: top, at: [450 mm, 33.3 mm], component: M_xy, value: -60 N mm/mm, within: 1e-6}
  - {of: plate, under: all, plate: "shelf: low", at: [0 mm, 0 mm], component: ry, value: 1 mrad, within: 1e-6}
  - {of: plate, under: all, plate: top, at: [0 mm, 0 mm], component: Q_y, value: 1 N/mm, within: 1e-6}
  - {of: tie, under: live, plate: top, tie: 2, component: normal, value: -120 N, within: 1e-6}
  - {of: refusal, under: live, because: mechanism}
)";

}  // namespace

TEST_CASE("model/frame_case: every word of the format is read") {
  const model::FrameCase frame_case = must_read("everything", everything);
  const model::Model& m = frame_case.model;
  REQUIRE(m.members.size() == 2);
  CHECK(m.members[0].end_springs[4].sway == 2000.0);
  CHECK(m.members[0].start_springs[5].kind == model::EndSpring::Kind::free);
  CHECK(m.members[0].roll == doctest::Approx(0.5235987755982988).epsilon(1e-15));
  CHECK(in_si(m.members[1].section.I_z) == doctest::Approx(716 * 4.162314256e-7).epsilon(1e-12));
  REQUIRE(m.supports.size() == 4 + 3 + 6 + 2 + 4);
  CHECK(m.supports[0].name == "A.x");
  CHECK(m.supports[4].name == "B.x");
  CHECK(m.supports[4].imposed == 1e-3);
  CHECK(m.supports[15].press_only);
  CHECK(m.supports[17].rides_on == std::size_t{15});
  CHECK(in_si(m.cases[1].line_loads[1].to) == doctest::Approx(1.43).epsilon(1e-15));
  CHECK(m.combinations[0].springs == model::SpringSet::sway);
  CHECK(m.combinations[0].duration == model::Duration::short_term);
  CHECK(m.combinations[1].duration == model::Duration::long_term);
  CHECK(frame_case.expectations.size() == 12);
  CHECK(frame_case.expectations[2].under->is_combination);
}

TEST_CASE("model/frame_case: plates are read") {
  const model::FrameCase frame_case = must_read("everything", everything);
  REQUIRE(frame_case.model.plates.size() == 3);
  const model::Plate& top = frame_case.model.plates[0];
  CHECK(top.x == std::vector<double>{0.0, 0.7 / 3.0, 1.4 / 3.0, 0.7});
  CHECK(top.y[0] == -0.0254);
  CHECK_FALSE(top.has_cell(0, 1));
  CHECK(top.has_cell(1, 1));
  // E / (1 - nu_12 nu_21), nu_21 = nu_12 E_2/E_1; 5/6 of the rolling shear.
  const double by = 1.0 - 0.1 * 0.1 * 5.5 / 8.5, I = 0.018 * 0.018 * 0.018 / 12.0;
  CHECK(top.stiffness.A_11 == doctest::Approx(8.5e9 * 0.018 / by).epsilon(1e-14));
  CHECK(top.stiffness.D_12 == doctest::Approx(0.1 * 5.5e9 * I / by).epsilon(1e-14));
  CHECK(top.stiffness.D_22 == doctest::Approx(5.5e9 * I / by).epsilon(1e-14));
  CHECK(top.stiffness.S_x == doctest::Approx(5.0 / 6.0 * 180e6 * 0.018).epsilon(1e-14));
  CHECK(top.stiffness.S_y == doctest::Approx(5.0 / 6.0 * 120e6 * 0.018).epsilon(1e-14));
  CHECK(top.holds[0].freedoms == std::array<bool, 5>{true, false, true, false, true});
  REQUIRE(top.ties.size() == 3);
  CHECK(top.ties[1].i == 3);
  CHECK(top.ties[1].j == 2);
  CHECK(top.ties[1].node == 2);
  CHECK(top.ties[1].stiffness[1] == doctest::Approx(1000.0 / 3.0).epsilon(1e-15));
  CHECK_FALSE(top.ties[1].gravity_only);
  CHECK(top.ties[2].gravity_only);
  CHECK(top.bodies[0].pads[2].y1 == 0.2);
  const model::PlateStiffness& board = frame_case.model.plates[2].stiffness;
  CHECK(board.A_66 == doctest::Approx(9e9 / 2.6 * 0.018).epsilon(1e-14));
  CHECK(board.D_66 == doctest::Approx(0.35 * board.D_11).epsilon(1e-14));
  CHECK(board.S_x == doctest::Approx(5.0 / 6.0 * 9e9 / 2.6 * 0.018).epsilon(1e-14));
}

TEST_CASE("model/frame_case: ties that are too many to solve are refused") {
  std::string text = R"(frame_case: 1
nodes: {A: [0 m, 0 m, 0 m]}
plates:
  top:
    origin: [0 m, 0 m, 0 m]
    x: [0 m, 1 m]
    y: [0 m, 1 m]
    thickness: 18 mm
    stiffness: {E: 9 kN/mm2, nu: 0.3}
    ties:
)";
  for (int i = 0; i < 2001; ++i) text += "      - {at: [0 m, 0 m], node: A, normal: 1 N/mm}\n";
  const model::FrameCaseReading reading = read("many", text);
  REQUIRE(reading.diagnostics.size() == 1);
  CHECK(reading.diagnostics[0].what == "the plates have 2001 ties; 2000 is the most");
  CHECK(reading.diagnostics[0].path == "plates.top.ties");
}

TEST_CASE("model/frame_case: plates need no nodes") {
  const model::FrameCase frame_case = must_read("plate", R"(frame_case: 1
plates:
  top: {origin: [0 m, 0 m, 0 m], x: [0 m, 1 m], y: [0 m, 1 m], thickness: 18 mm, stiffness: {E: 9 kN/mm2, nu: 0.3}}
)");
  CHECK(frame_case.model.nodes.empty());
  check_round_trip("plate", model::write_frame_case(frame_case));
}

TEST_CASE("model/frame_case: a plane frame holds what leaves its plane, once") {
  const model::FrameCase frame_case = must_read("plane", R"(frame_case: 1
plane: true
materials: {timber: {E: 11 kN/mm2, G: 0.7 kN/mm2}}
sections: {rail: 45 x 95 mm}
nodes: {A: [0 m, 0 m, 0 m], B: [1 m, 0 m, 0 m]}
members: {AB: {from: A, to: B}}
supports: {A: all, B: {y: 5 N/mm}}
)");
  const std::vector<model::Support>& supports = frame_case.model.supports;
  REQUIRE(supports.size() == 6 + 1 + 3);
  CHECK(supports[7].name == "B.plane.y");
  CHECK(supports[8].name == "B.plane.rx");
  CHECK(supports[9].name == "B.plane.rz");
}

TEST_CASE("model/frame_case: what is written reads back to the same, to the last bit") {
  check_round_trip("everything", everything);
  for (const auto& path : test::files_of("reference/cases", "", ".yaml")) {
    CAPTURE(path.filename().string());
    check_round_trip(path.filename().string(), test::slurp(path));
  }
}

TEST_CASE("model/frame_case: a model without named properties is written with names of its own") {
  model::FrameCase frame_case = must_read("everything", everything);
  frame_case.materials.clear();
  frame_case.sections.clear();
  frame_case.expectations.clear();
  const model::FrameCase again = must_read("written", model::write_frame_case(frame_case));
  CHECK(again.materials.size() == 2);
  CHECK(again.sections.size() == 2);
  Dump before, after;
  add_members(before, frame_case.model);
  add_members(after, again.model);
  CHECK(before.text == after.text);
}

TEST_CASE("model/frame_case: each fault of a file is said in full") {
  const auto files = test::files_of("tests/messages", "frame_", ".yaml");
  CHECK(files.size() >= 10);
  for (std::filesystem::path path : files) {
    const std::string name = path.filename().string();
    CAPTURE(name);
    const std::string said = messages(read(name, test::slurp(path)).diagnostics);
    CHECK(said == test::slurp(path.replace_extension(".txt")));
  }
}

}  // namespace frame_case_test
