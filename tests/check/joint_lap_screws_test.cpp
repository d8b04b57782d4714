#include "tests/check/joint_kinds.hpp"

namespace joint_lap_screws_test {

using namespace standtrue;
using namespace joint_kinds;
using check::Component;
using check::JointStrength;
using doctest::Approx;
using portal::Portal;
using quantity::millimetres;

TEST_CASE(
    "check/joint_lap_screws: a screwed lap is judged where the screws keep their distances (8.2)") {
  Portal p = portal_of("screwed lap");
  p.rail_depth = 0.145;
  p.post = 0.14;
  const auto with = [&](double first, double length = 80) {
    return strength(p, [&](portal::Built& b) {
      b.joint(0).kind.first = millimetres(first);
      b.joint(0).kind.fastener_length = millimetres(length);
      b.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  CHECK(with(60, 65).why.find("20 mm into the post, 30 mm are needed") != std::string::npos);
  CHECK(with(60, 200).why.find("come out") != std::string::npos);
  CHECK(with(5).why.find("too near the end") != std::string::npos);
  const JointStrength good = with(60);
  REQUIRE_MESSAGE(good.why.empty(), good.why);
  REQUIRE(good.groups.size() == 1);
  CHECK(good.groups[0].ductile);
  CHECK(good.groups[0].F_v_k > quantity::newtons(1000));
}

TEST_CASE("check/joint_lap_screws: what prises the rail off, by hand; one screw is not forgotten") {
  Portal p = portal_of("screwed lap");
  p.rail_depth = 0.145;
  p.post = 0.14;
  const auto with = [&](int n, int columns) {
    return strength(p, [&](portal::Built& b) {
      b.joint(0).kind.first = millimetres(60);
      b.joint(0).kind.fasteners = n;
      b.joint(0).kind.rows = columns;
      b.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  const JointStrength two_by_two = with(4, 2);
  REQUIRE_MESSAGE(two_by_two.why.empty(), two_by_two.why);
  const check::FastenerGroup& group = two_by_two.groups.at(0);
  // Columns 2 sqrt(28.6^2 - 12.5^2) = 51.4 mm apart; of two lines of m screws, p apart: 1/(m p).
  const double across = 2 * std::sqrt(28.6 * 28.6 - 12.5 * 12.5);
  const bool both_rows = group.first[Component::pull] < 0.5;
  CHECK(group.axial[Component::twist] ==
        Approx(1e3 / ((both_rows ? 2 : 1) * across)).epsilon(1e-3));
  // One row alone works against the nearer edge of the lap, 60 mm away.
  CHECK(group.axial[Component::flat] == Approx(both_rows ? 1e3 / (2 * 25) : 1e3 / (2 * 60)));
  const JointStrength one = with(1, 1);
  REQUIRE_MESSAGE(one.why.empty(), one.why);
  for (const Component c : {Component::sideways, Component::flat, Component::twist}) {
    CHECK(one.groups.at(0).axial[c] > 0.0);
  }
  CHECK_FALSE(one.why_bending.empty());
}

TEST_CASE("check/joint_lap_screws: a row too near the edge of a narrow post does not count (8.2)") {
  // Rows 60 and 85 mm from the rail's end: 35 and 10 mm from the edge of a post of 95 mm, where 5
  // mm screws want 3 d = 15 mm at least. In a post of 140 mm both count.
  const auto with = [](double post, int fasteners, int columns) {
    Portal p = portal_of("screwed lap");
    p.rail_depth = 0.145;
    p.post = post;
    return strength(p, [&](portal::Built& b) {
      b.joint(0).kind.first = millimetres(60);
      b.joint(0).kind.pitch = millimetres(25);
      b.joint(0).kind.fasteners = fasteners;
      b.joint(0).kind.rows = columns;
      b.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  const JointStrength narrow = with(0.095, 4, 2), wide = with(0.14, 4, 2);
  REQUIRE_MESSAGE(narrow.why.empty(), narrow.why);
  REQUIRE_MESSAGE(wide.why.empty(), wide.why);
  // What comes down hangs on all that count.
  CHECK(wide.groups.at(0).second[Component::down] == Approx(1.0 / 4));
  CHECK(narrow.groups.at(0).second[Component::down] == Approx(1.0 / 2));
}

TEST_CASE(
    "check/joint_lap_screws: with less than 6 d of thread in the post none is pulled (8.7.2)") {
  Portal p = portal_of("screwed lap");
  p.rail_depth = 0.145;
  p.post = 0.14;
  const auto with = [&](double length) {
    return strength(p, [&](portal::Built& b) {
      b.joint(0).kind.first = millimetres(60);
      b.joint(0).kind.fastener_length = millimetres(length);
      b.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  // 33 mm in the post, less the point of 5 mm: 28 of 30 mm. At 81 mm 31 mm are left.
  const JointStrength brief = with(78), enough = with(81);
  REQUIRE_MESSAGE(brief.why.empty(), brief.why);
  CHECK(brief.why_pull == "the screws are too short to be pulled");
  CHECK(enough.why_pull.empty());
  CHECK(brief.groups.at(0).F_ax_k == quantity::Force{});
  CHECK(brief.groups.at(0).F_v_k < enough.groups.at(0).F_v_k);  // without the rope
  for (const Component c : {Component::sideways, Component::flat, Component::twist}) {
    CHECK(brief.pulls[c] > 0.0);
    CHECK(enough.pulls[c] == 0.0);
  }
}

TEST_CASE("check/joint_lap_screws: the cure fits, or is brackets (EC5, Table 8.2, by hand)") {
  Portal p = portal_of("screwed lap");
  p.rail_depth = 0.145;
  p.post = 0.14;
  const auto with = [&](double first, double length, double d = 5) {
    return strength(p, [&](portal::Built& b) {
      b.joint(0).kind.first = millimetres(first);
      b.joint(0).kind.fastener_diameter = millimetres(d);
      b.joint(0).kind.fastener_length = millimetres(length);
      b.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  // Holes drilled. Rows 25 mm apart: 4 d of the rail are 32 mm of 8 mm screws, 24 mm of 6 mm ones;
  // of the former one column has its 7 d = 56 mm to the edges 72.5 mm away: one screw. Of 160 mm
  // 115 lie in the post of 140 mm.
  CHECK(with(60, 65).advice == "the thickest screws that fit: screws: 6 x 160 mm, first: 60 mm");
  CHECK(with(60, 200).advice == with(60, 65).advice);
  CHECK(with(60, 160, 6).why.empty());
  CHECK(with(5, 80).advice == "the thickest screws that fit: screws: 6 x 160 mm, first: 70 mm");
  CHECK(with(70, 160, 6).why.empty());
  // A rail of 38.1 x 88.9 mm flush with the post's end: 44.45 mm to it from the middle, 12 d are 48
  // mm of 4 mm screws and 42 mm of 3.5 mm ones, of which 50 - 38.1 = 11.9 of 21 mm reach the post.
  p.rail_width = 0.0381;
  p.rail_depth = p.post = 0.0889;
  p.rail_height = p.height - p.rail_depth / 2;
  const std::string brackets = "two corner brackets in place of the lap: no screws fit in it";
  CHECK(with(60, 80).advice == brackets);
  CHECK(with(60, 50, 3.5).advice == brackets);
}

TEST_CASE("check/joint_lap_screws: screws that are not listed, or none, have no strength") {
  const std::string unknown = "the screws are not known";
  for (const char* kind : {"screwed lap", "pocket screws"}) {
    const auto why = [&](auto change) { return strength(portal_of(kind), change).why; };
    CHECK(why([](portal::Built& b) { b.joint(0).kind.fastener_diameter = millimetres(1000); }) ==
          unknown);
    CHECK(why([](portal::Built& b) { b.joint(0).kind.fasteners = 0; }) == unknown);
  }
}

}  // namespace joint_lap_screws_test
