#include <doctest/doctest.h>

#include "standtrue/bench/leaning.hpp"
#include "tests/bench/bench_files.hpp"

namespace full_form_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::mm;
using bench_files::named;
using bench_files::small_bench;
using bench_files::sound;
using doctest::Approx;
using quantity::in_si;

TEST_CASE("bench/full form: timber with its own values") {
  std::string text = small_bench("");
  text.replace(text.find("C16 38 x 89 mm"), 14,
               "{class: C24, section: 45 x 120 mm, E: 10 GPa, G: 600 N/mm2, density: 430 kg/m3, "
               "strengths: {bending: 23 N/mm2}}");
  const bench::Bench b = sound(text);
  const reference::Timber& timber = b.rails[0].stock.timber;
  CHECK(in_si(timber.E_0_mean) == Approx(10e9));
  CHECK(in_si(timber.E_0_05) == Approx(7400e6 * 10.0 / 11.0));
  CHECK(in_si(timber.G_mean) == Approx(600e6));
  CHECK(in_si(timber.rho_mean) == Approx(430.0));
  CHECK(in_si(timber.f_m_k) == Approx(23e6));
  CHECK(in_si(timber.f_v_k) == Approx(4.0e6));
  CHECK(timber.source.of("E_0_mean").where == "given by the bench file");
}

TEST_CASE("bench/full form: posts at stations, turned, make bays") {
  const bench::Bench b = sound(small_bench(
      "posts: {section: 38 x 89 mm, stations: [0 mm, 800 mm, 1830 mm], turned: yes}\n"));
  REQUIRE(b.posts.size() == 6);
  CHECK(mm(named(b.posts, "front-middle post").x) == Approx(800.0));
  CHECK(mm(named(b.posts, "front-left post").x) == Approx(19.0));
  CHECK(mm(b.posts[0].along_y) == Approx(89.0));
  CHECK(named(b.rails, "front top rail 2").from == 1);
  CHECK(named(b.rails, "middle lower rail").from == 1);
  CHECK(named(b.rails, "middle lower rail").to == 4);
  CHECK(mm(named(b.rails, "middle top rail").aside) == Approx(0.0));
  // Between turned posts a rail is flush with their outer faces, not on their axes.
  CHECK(mm(named(b.rails, "front top rail 1").aside) == Approx(-(89.0 - 38.0) / 2.0));
}

TEST_CASE("bench/full form: rails by level, length and side") {
  const bench::Bench b = sound(small_bench(R"(rails:
  top: {long: {section: 38 x 140 mm}, short: {seat: notched}}
  lower: {underside: 200 mm, front: none, left: {underside: 300 mm, joint: end-grain screws}}
  more: [{side: back, underside: 450 mm, name: tool rail}]
)"));
  CHECK(mm(named(b.rails, "front top rail").depth) == Approx(140.0));
  CHECK(mm(named(b.rails, "left top rail").depth) == Approx(89.0));
  CHECK(named(b.rails, "left top rail").seat == bench::Seat::notched);
  CHECK_THROWS((void)named(b.rails, "front lower rail"));
  CHECK(mm(named(b.rails, "back lower rail").height) == Approx(244.5));
  CHECK(mm(named(b.rails, "left lower rail").height) == Approx(344.5));
  CHECK(named(b.rails, "left lower rail").end.kind.key == "end-grain screws");
  CHECK(named(b.rails, "tool rail").level == bench::Level::other);
}

TEST_CASE("bench/full form: a notch lets the rail down over its post") {
  const auto post_top = [](const std::string& notch) {
    const bench::Bench b =
        sound(small_bench("rails: {top: {long: {seat: on top" + notch + "}}}\n"));
    return mm(b.posts.front().top);
  };
  CHECK(post_top(", notch: 20 mm") - post_top("") == Approx(20.0));
}

TEST_CASE("bench/full form: long rails on top of the posts lower the posts") {
  const bench::Bench b = sound(small_bench("rails: {top: {long: {seat: on top}}}\n"));
  CHECK(mm(b.posts[0].top) == Approx(842.0 - 89.0));
  CHECK(mm(named(b.rails, "front top rail").height) == Approx(842.0 - 44.5));
  CHECK(mm(named(b.rails, "left top rail").height) == Approx(842.0 - 89.0 - 44.5));
  CHECK(named(b.sheets, "top").rails.size() == 2);
}

TEST_CASE("bench/full form: bolted laps put the rails on the posts' outer faces") {
  std::string text = small_bench("shelf: 18 mm plywood\n");
  text.replace(text.find("{kind"), text.find("mm}") + 3 - text.find("{kind"), "bolted lap");
  const bench::Bench b = sound(text);
  CHECK(named(b.rails, "front top rail").seat == bench::Seat::post_face);
  CHECK(mm(named(b.rails, "front top rail").aside) == Approx(-38.0));
  CHECK(mm(named(b.rails, "right top rail").aside) == Approx((89.0 + 38.0) / 2.0));
  CHECK(mm(named(b.sheets, "shelf").y0) == Approx(-38.0));
  CHECK(named(b.sheets, "shelf").rails.size() == 4);
}

TEST_CASE("bench/full form: joints with stiffness and resistance of the file") {
  std::string text = small_bench("");
  const std::size_t at = text.find("{kind");
  text.replace(at, text.find("mm}") + 3 - at,
               "{stiffness: {bend: 4 kN m/rad, twist: 0 kN m/rad, along: 5 kN/mm}, "
               "resistance: {moment: 300 N m, shear: 2 kN}}");
  const bench::Joint joint = sound(text).rails[0].start;
  CHECK(joint.kind.key == "own values");
  CHECK(in_si(*joint.stiffness.bend) == Approx(4e3));
  CHECK(in_si(*joint.stiffness.twist) == 0.0);
  CHECK(in_si(*joint.stiffness.along) == Approx(5e6));
  CHECK_FALSE(joint.stiffness.sideways);
  CHECK(in_si(*joint.moment_resistance) == Approx(300.0));
  CHECK(in_si(*joint.shear_resistance) == Approx(2000.0));
}

TEST_CASE("bench/full form: bearers part each bay evenly and turn the grain along") {
  const bench::Bench b = sound(small_bench("bearers: {every: 500 mm, section: 38 x 63 mm}\n"));
  REQUIRE(b.bearers.size() == 3);
  CHECK(b.bearers[0].name == "bearer 1");
  CHECK(mm(b.bearers[1].at) == Approx(915.0));
  CHECK(mm(b.bearers[0].at - b.bearers[1].at) == Approx(-(1830.0 - 89.0) / 4.0));
  CHECK(mm(b.bearers[0].height) == Approx(842.0 - 31.5));
  CHECK(b.rails[b.bearers[0].from].name == "front top rail");
  CHECK(b.rails[b.bearers[0].to].name == "back top rail");
  CHECK(named(b.sheets, "top").bearers.size() == 3);
  CHECK(named(b.sheets, "top").grain_along_x);
}

TEST_CASE("bench/full form: diagonal, cross and knee braces") {
  const bench::Bench b = sound(small_bench(R"(braces:
  - {side: back, kind: cross, section: 19 x 89 mm}
  - {side: left, rises_to: front, low: 250 mm, high: 700 mm}
  - {side: front, kind: knee, leg: 280 mm}
)"));
  REQUIRE(b.braces.size() == 5);
  CHECK(b.braces[0].post == 2);
  CHECK(*b.braces[0].to_post == 3);
  CHECK(b.braces[1].post == 3);
  CHECK(b.braces[2].post == 2);
  CHECK(mm(b.braces[2].to_at) == Approx(700.0));
  CHECK(b.rails[*b.braces[3].to_rail].name == "front top rail");
  CHECK(mm(b.braces[3].to_at) == Approx(280.0));
  CHECK(mm(b.braces[4].to_at) == Approx(1830.0 - 89.0 - 280.0));
}

TEST_CASE("bench/full form: the top's layers, edges, cut-outs and screws") {
  std::string text = small_bench("");
  text.replace(text.find("18 mm spruce plywood"), 20, R"(
  sheet: 18 mm birch plywood
  layers: 2
  layers_joined: glued
  grain: along
  overhang: {front: 60 mm, back: 0 mm}
  cut_outs: [{from: [900 mm, 200 mm], to: [1000 mm, 300 mm]}]
  fixed: glued
  screws: {size: 5 x 60 mm, every: 150 mm, clear_of_post: 0 mm, into_posts: yes, slip: 1 kN/mm}
  load: 30 kg/m2)");
  const bench::Bench b = sound(text);
  const bench::Sheet& top = named(b.sheets, "top");
  CHECK(top.layers == 2);
  CHECK(top.between_layers == bench::Bond::glued);
  CHECK(top.bond == bench::Bond::glued);
  CHECK(mm(top.y0) == Approx(-60.0));
  CHECK(mm(top.y1) == Approx(530.0));
  CHECK(mm(top.underside) == Approx(860.0 - 2 * 17.6));
  CHECK(mm(top.cut_outs[0].x0) == Approx(875.0));
  CHECK(mm(top.cut_outs[0].y0) == Approx(140.0));
  CHECK(top.screws.into_posts);
  CHECK(in_si(*top.screws.slip) == Approx(1e6));
  CHECK(mm(top.screws.screw.diameter) == Approx(5.0));
}

TEST_CASE("bench/full form: a sheet of plies, and a sheet of own values") {
  const bench::Bench b = sound(small_bench(R"(shelf:
  sheet: {family: birch plywood, plies: [3 mm, 4 mm, 3 mm, 4 mm, 3 mm]}
)"));
  const bench::Sheet& shelf = named(b.sheets, "shelf");
  CHECK(mm(shelf.panel.thickness) == Approx(17.0));
  CHECK(shelf.panel.plies.size() == 5);
  CHECK(in_si(shelf.panel.E_m_0) > in_si(shelf.panel.E_m_90));
  CHECK(shelf.family.key == "birch plywood");

  const bench::Bench own = sound(small_bench(R"(shelf:
  sheet: {family: spruce plywood, thickness: 20 mm, E: {along: 9 GPa, across: 3 GPa}, G: 0.6 GPa}
)"));
  const reference::Panel& panel = named(own.sheets, "shelf").panel;
  CHECK(mm(panel.thickness) == Approx(20.0));
  CHECK(in_si(panel.E_m_90) == Approx(3e9));
  CHECK(in_si(panel.G_v) == Approx(0.6e9));
  CHECK(assumes(own, "the values of spruce plywood"));
}

TEST_CASE("bench/full form: back and end sheets meet the rails of their side") {
  const bench::Bench b = sound(small_bench(R"(sheets:
  - {side: back, sheet: 9 mm spruce plywood}
  - {side: right, sheet: 9 mm spruce plywood, from: 200 mm, to: 800 mm}
)"));
  const bench::Sheet& back = named(b.sheets, "back sheet");
  CHECK(back.place == bench::SheetPlace::back);
  CHECK(mm(back.y0) == Approx(540.0));
  CHECK(mm(back.z1) == Approx(842.0));
  CHECK(back.rails.size() == 2);
  const bench::Sheet& end = named(b.sheets, "right end sheet");
  CHECK(mm(end.x0) == Approx(1830.0));
  CHECK(mm(end.z0) == Approx(200.0));
  CHECK(end.rails.size() == 1);
}

TEST_CASE("bench/full form: a shelf of part of the length, and a second one") {
  const bench::Bench b = sound(
      small_bench(R"(rails: {more: [{side: front, top_at: 500 mm}, {side: back, top_at: 500 mm}]}
shelf:
  - {sheet: 12 mm spruce plywood, to: 900 mm, load: 30 kg}
  - {sheet: 12 mm spruce plywood, underside: 500 mm}
)"));
  const bench::Sheet& first = named(b.sheets, "shelf");
  CHECK(mm(first.x1) == Approx(900.0));
  CHECK(first.rails.size() == 3);
  CHECK(first.cut_outs.size() == 2);
  CHECK(named(b.sheets, "shelf 2").rails.size() == 2);
  CHECK(named(b.sheets, "shelf 2").stored_assumed);
}

TEST_CASE("bench/full form: feet, floor, air and duty") {
  const bench::Bench b = sound(small_bench(R"(feet:
  thread: M12
  extension: 40 mm
  material: rubber
  each: {front-left post: {height_error: 2 mm}, back-right post: {castor: 75 mm}}
floor:
  surface: boards
  fall: [1 in 80 to back, 2 mm/m to left]
  unevenness: 4 mm
  keep_off: [{x: [600 mm, 900 mm], y: [0 mm, 200 mm]}]
  edge_distance: 80 mm
  down: 2 kN/mm
  sideways: 1 kN/mm
  friction: 0.35
duty: metal machines
air: heated
bought: damp
)"));
  CHECK(mm(b.posts[0].foot.height_error) == Approx(2.0));
  CHECK(b.posts[0].foot.thread.key == "M12");
  CHECK(b.posts[0].foot.material == reference::FootMaterial::rubber);
  CHECK(mm(b.posts[0].bottom) == Approx(40.0));
  CHECK(b.posts[3].foot.castor->key == "75 mm castor");
  CHECK(mm(b.posts[3].bottom) == Approx(100.0));
  CHECK(b.floor.surface.key == "timber floor");
  CHECK(b.floor.fall_y == Approx(1.0 / 80.0));
  CHECK(b.floor.fall_x == Approx(-0.002));
  CHECK(mm(b.floor.unevenness) == Approx(4.0));
  CHECK(mm(b.floor.edge_distance) == Approx(80.0));
  CHECK(in_si(*b.floor.down) == Approx(2e6));
  CHECK(*b.floor.friction == Approx(0.35));
  CHECK(b.duty.key == "metal machines");
  CHECK(b.air.service_class == reference::ServiceClass::sc1);
  CHECK(b.bought_damp);
}

TEST_CASE("bench/full form: bare posts are not levelled") {
  const bench::Bench b = sound(small_bench("feet: none\n"));
  CHECK(b.posts[0].foot.bare);
  CHECK(mm(b.posts[0].bottom) == 0.0);
  CHECK_FALSE(b.floor.levelled);
  CHECK(mm(b.floor.unevenness) == Approx(3.0));
}

TEST_CASE("bench/full form: who leans with a floor that falls, and what is said of it") {
  const std::string falls = "floor: {surface: concrete, fall: 1 in 15 to front";
  const bench::Bench set = sound(small_bench(falls + "}\n"));
  CHECK_FALSE(bench::leans(set));
  CHECK(assumes(set, "feet set for the fall of the floor, 1 in 15 to the front: the bench stands"));
  const bench::Bench bare = sound(small_bench("feet: none\n" + falls + "}\n"));
  CHECK(bench::lean_of(bare)[1] == Approx(-1.0 / 15.0));
  CHECK(assumes(bare, "posts cut alike: the bench leans with its floor, 1 in 15 to the front"));
  const bench::Bench cut = sound(small_bench("feet: none\n" + falls + ", levelled: yes}\n"));
  CHECK_FALSE(bench::leans(cut));
  CHECK(assumes(cut, "posts cut to the fall of the floor"));
  CHECK(bench::leans(sound(small_bench(falls + ", levelled: no}\n"))));
  CHECK(bench::leans(sound(small_bench("feet: {castor: 75 mm}\n" + falls + "}\n"))));
  CHECK_FALSE(bench::leans(sound(small_bench("feet: none\n"))));
  CHECK_FALSE(bench::leans(
      sound(small_bench("feet: none\nwall: {rail: back top rail}\n" + falls + "}\n"))));
}

TEST_CASE("bench/full form: a machine with all its own values, turned") {
  const bench::Bench b = sound(small_bench(R"(machines:
  - kind: metal lathe
    name: old lathe
    mass: 160 kg
    at: [900 mm, 300 mm]
    pads: 850 x 220 mm
    pad: 55 mm
    centre: [-80 mm, 20 mm]
    centre_height: 260 mm
    speeds: [60 rpm, 1600 rpm]
    mounting: bolted
    bed_twist: 90 kN m/rad
  - {kind: small bench grinder, at: [200 mm, 300 mm], turned: yes, centre: [10 mm, 0 mm]}
vice: large vice
)"));
  const bench::Machine& lathe = named(b.machines, "old lathe");
  CHECK(lathe.bolted);
  CHECK(mm(lathe.cg_x) == Approx(-80.0));
  CHECK(in_si(lathe.speed_max) == Approx(1600.0 / 60.0));
  CHECK(in_si(*lathe.bed_twist) == Approx(90e3));
  const bench::Machine& grinder = named(b.machines, "small bench grinder");
  CHECK(mm(grinder.pads_x) == Approx(110.0));
  CHECK(mm(grinder.pads_y) == Approx(150.0));
  CHECK(mm(grinder.cg_x) == Approx(0.0));
  CHECK(mm(grinder.cg_y) == Approx(10.0));
  const bench::Machine& vice = named(b.machines, "large vice");
  CHECK(vice.bolted);
  CHECK(assumes(b, "the large vice over the front-left post"));
}

TEST_CASE("bench/full form: screws into the wall near both ends unless told where") {
  const bench::Bench b = sound(small_bench("wall: {rail: back top rail}\n"));
  const bench::Rail& rail = named(b.rails, "back top rail");
  const double length = mm(b.posts[rail.to].x - b.posts[rail.from].x);
  REQUIRE(b.wall.size() == 2);
  CHECK(mm(b.wall[0].at) == Approx(length / 6.0));
  CHECK(mm(b.wall[1].at) == Approx(length * 5.0 / 6.0));
  CHECK(assumes(b, "screws into the wall"));
}

TEST_CASE("bench/full form: loads, wall and analysis") {
  const bench::Bench b = sound(small_bench(R"(stored: {top: 40 kg}
loads:
  - {name: gearbox, mass: 30 kg, at: middle}
  - {force: [0 N, 200 N, -50 N], at: [20 mm, 20 mm], duration: instantaneous}
wall: {rail: back top rail, at: [300 mm, 1500 mm]}
analysis: {sheets: none, combination: as given, mesh: 50 mm}
)"));
  CHECK(in_si(named(b.loads, "gearbox").fz) == Approx(-30.0 * 9.80665));
  CHECK(named(b.loads, "gearbox").duration == reference::Duration::permanent);
  CHECK(in_si(named(b.loads, "load 2").fy) == Approx(200.0));
  CHECK(named(b.loads, "load 2").duration == reference::Duration::instantaneous);
  REQUIRE(b.wall.size() == 2);
  CHECK(mm(b.wall[1].at) == Approx(1500.0));
  CHECK(b.analysis.as_given);
  CHECK(b.analysis.sheets == bench::Analysis::Sheets::none);
  CHECK(mm(b.analysis.mesh) == Approx(50.0));
}

TEST_CASE("bench/full form: legs, aprons and stretchers are understood and noted") {
  const bench::Bench b = sound(
      small_bench("legs: 63 x 89 mm\naprons: 38 x 140 mm\nstretchers: {underside: 120 mm}\n"));
  CHECK(mm(b.posts[0].stock.thickness) == Approx(63.0));
  CHECK(mm(named(b.rails, "front top rail").depth) == Approx(140.0));
  CHECK(mm(named(b.rails, "front lower rail").height) == Approx(164.5));
  CHECK(assumes(b, "I read 'legs' as posts"));
  CHECK(assumes(b, "I read 'aprons' as top rails"));
  CHECK(assumes(b, "I read 'stretchers' as lower rails"));
}

TEST_CASE("bench/full: a sheet by its stiffness per width: D = E t^3/12, A = E t, S = 5/6 G_r t") {
  const bench_files::Read read = bench_files::read(
      "bench.yaml",
      "standtrue: 1\nsize: 1700 x 600 x 880 mm\ntimber: C24 45 x 95 mm\njoints: corner brackets\n"
      "top:\n  sheet:\n    family: spruce plywood\n    thickness: 20 mm\n"
      "    D: {along: 4 kN m, across: 2 kN m, twist: 0.4 kN m}\n"
      "    A: {along: 120 kN/mm, across: 80 kN/mm}\n    S: {along: 1 kN/mm, across: 0.8 kN/mm}\n");
  REQUIRE(read.bench);
  const standtrue::reference::Panel& panel = read.bench->sheets.at(0).panel;
  const auto mpa = [](standtrue::quantity::Stress s) {
    return standtrue::quantity::in_si(s) / 1e6;
  };
  CHECK(mpa(panel.E_m_0) == doctest::Approx(12 * 4e3 / 8e-6 / 1e6));
  CHECK(mpa(panel.E_m_90) == doctest::Approx(3000));
  CHECK(mpa(panel.G_v) == doctest::Approx(600));
  CHECK(mpa(panel.E_t_0) == doctest::Approx(6000));
  CHECK(mpa(panel.E_t_90) == doctest::Approx(4000));
  CHECK(mpa(panel.G_r_0) == doctest::Approx(60));
  CHECK(mpa(panel.G_r_90) == doctest::Approx(48));
}

TEST_CASE("bench/full form: feet bolted to the floor, all or some") {
  const bench::Bench all = sound(small_bench("feet: {fixed: yes}\n"));
  for (const bench::Post& post : all.posts) CHECK(post.foot.fixed);
  const bench::Bench some =
      sound(small_bench("feet: {thread: M12, each: {front-left post: {fixed: yes}}}\n"));
  CHECK(named(some.posts, "front-left post").foot.fixed);
  CHECK_FALSE(named(some.posts, "front-right post").foot.fixed);
  const bench::Bench but_one = sound(
      small_bench("feet: {fixed: yes, each: {front-left post: {castor: 75 mm, fixed: no}}}\n"));
  CHECK_FALSE(named(but_one.posts, "front-left post").foot.fixed);
  CHECK(named(but_one.posts, "back-left post").foot.fixed);
}

TEST_CASE("bench/full form: a machine is shoved at its top, which lies above its mass") {
  const auto height = [](const std::string& more) {
    const bench::Bench b = sound(
        small_bench("machines: [{kind: machine, at: middle, mounting: bolted" + more + "}]\n"));
    return mm(b.machines.at(0).kind.height);
  };
  const double usual = height("");
  // As its kind, whose mass lies at 300 of 500 mm (reference/machines.yaml).
  CHECK(usual == doctest::Approx(500));
  CHECK(height(", centre_height: 600 mm") == doctest::Approx(1000));
  CHECK(height(", centre_height: 100 mm") == usual);
  CHECK(height(", height: 700 mm") == doctest::Approx(700));
  CHECK(height(", centre_height: 800 mm, height: 900 mm") == doctest::Approx(900));
}

}  // namespace full_form_test
