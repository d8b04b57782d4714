#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace parts_form_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::mm;
using bench_files::named;
using doctest::Approx;

namespace {

constexpr std::string_view l_shaped = R"(standtrue: 1
title: L-shaped bench
timber: C24 45 x 95 mm
joints: end-grain screws
parts:
  legs:
    - {name: A, at: [48 mm, 23 mm], top: 850 mm}
    - {name: B, at: [1500 mm, 23 mm], top: 850 mm}
    - {name: C, at: [48 mm, 600 mm], top: 850 mm}
    - {name: D, at: [1500 mm, 600 mm], top: 850 mm}
    - {name: E, at: [48 mm, 1700 mm], top: 850 mm, turned: yes}
    - {name: F, at: [700 mm, 1700 mm], top: 850 mm, foot_at: [760 mm, 1700 mm], foot: {thread: M12}}
    - {name: G, at: [700 mm, 600 mm], top: 850 mm}
  aprons:
    - {name: front, from: B, to: A}
    - {name: middle left, from: C, to: G}
    - {name: middle right, from: G, to: D}
    - {from: A, to: C}
    - {from: D, to: B}
    - {name: far left, from: C, to: E}
    - {name: far right, from: G, to: F}
    - {from: F, to: E}
  stretchers:
    - {from: C, to: D, seat: on post face, underside: 200 mm}
  bearers:
    - {from: middle right, to: front, at: 1000 mm}
  sheets:
    - {name: top, x: [0 mm, 1550 mm], y: [0 mm, 640 mm], sheet: 24 mm spruce plywood, load: 25 kg}
    - {name: wing, x: [0 mm, 760 mm], y: [640 mm, 1740 mm], sheet: 24 mm spruce plywood}
  braces:
    - {post: A, at: 200 mm, to_post: C, to_at: 780 mm, section: 19 x 89 mm}
  joints:
    - {rail: front, post: B, joint: {kind: ribbed corner brackets, width: 45 mm}}
machines:
  - {kind: vice, at: [200 mm, 300 mm], sheet: wing}
)";

}  // namespace

TEST_CASE("bench/parts form: an L-shaped bench, part by part") {
  const bench::Bench b = bench_files::sound(l_shaped);
  CHECK(mm(b.length) == 0.0);
  REQUIRE(b.posts.size() == 7);
  CHECK(mm(named(b.posts, "F").foot_x) == Approx(760.0));
  CHECK(mm(named(b.posts, "F").x) == Approx(700.0));
  CHECK(named(b.posts, "F").foot.thread.key == "M12");
  CHECK(mm(named(b.posts, "E").along_y) == Approx(95.0));
  CHECK(assumes(b, "I read 'legs' as posts"));
}

TEST_CASE("bench/parts form: rails run from the smaller place to the larger") {
  const bench::Bench b = bench_files::sound(l_shaped);
  const bench::Rail& front = named(b.rails, "front");
  CHECK(front.from == 0);
  CHECK(front.to == 1);
  CHECK(front.start.kind.key == "end-grain screws");
  CHECK(front.end.kind.key == "ribbed corner brackets");
  CHECK(mm(front.height) == Approx(850.0 - 47.5));
  const bench::Rail& lower = named(b.rails, "rail C to D");
  CHECK(lower.level == bench::Level::lower);
  CHECK(mm(lower.aside) == Approx(45.0));
  CHECK(mm(lower.height) == Approx(247.5));
}

TEST_CASE("bench/parts form: sheets, bearers, braces and machines find what they are on") {
  const bench::Bench b = bench_files::sound(l_shaped);
  CHECK(b.rails[b.bearers[0].from].name == "front");
  CHECK(b.rails[b.bearers[0].to].name == "middle right");
  CHECK(named(b.sheets, "top").bearers.size() == 1);
  CHECK(named(b.sheets, "wing").rails.size() == 3);
  CHECK(*b.braces[0].to_post == 2);
  CHECK(mm(named(b.machines, "vice").y) == Approx(940.0));
  CHECK(b.sheets[named(b.machines, "vice").sheet].name == "wing");
}

}  // namespace parts_form_test
