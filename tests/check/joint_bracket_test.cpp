#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/joint_cases.hpp"

namespace joint_bracket_test {

using namespace joint_cases;

TEST_CASE(
    "check/joint_bracket: a plain bracket under a rail closes by its plate: f_y w t^2/4 = 23.4 N "
    "m") {
  const JointStrength joint = strength({});
  REQUIRE(joint.why.empty());
  CHECK(joint.why_bending.empty());
  const Resistance closing = bends(joint, Component::top);
  CHECK(closing.moment == doctest::Approx(M_pl));  // gamma_M0 = 1, no k_mod
  CHECK(closing.ductile);
  CHECK(closing.name == "bending of the bracket's plate");
  // Opening it is pulled off against the butt: T = M_pl/30 mm, lever 120 (1 - 1/8) mm; the screws
  // of the post leg bear less: 2^0.9 x 11 x 4 x 28.5 x 0.9/1.3 = 1620 N, of the rail leg less still
  const Resistance opening = bends(joint, Component::bottom);
  CHECK(opening.moment > M_pl);
  CHECK(opening.moment <= M_pl / 0.03 * 0.105 * (1 + 1e-9));
  // k_mod leaves the plate alone
  CHECK(bends(joint, Component::top, 0.6).moment == doctest::Approx(M_pl));
}

TEST_CASE("check/joint_bracket: above the rail the senses change places") {
  const auto above = [](portal::Built& built) {
    built.joint(0).place = "above";
    built.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength joint = strength({}, above);
  REQUIRE(joint.why.empty());
  CHECK(bends(joint, Component::bottom).moment == doctest::Approx(M_pl));
  CHECK(bends(joint, Component::top).moment > M_pl);
  // The rail hangs on its screws and on the plate: V first <= M_pl
  CHECK(under(joint, Component::down, M_pl / 0.03).ratio == doctest::Approx(1.0));
  CHECK(under(strength({}), Component::down, 500).ratio < under(joint, Component::down, 500).ratio);
}

TEST_CASE("check/joint_bracket: six screws of the post leg carry the shear (8.2.3, 8.3.1.1(8))") {
  const JointStrength joint = strength({});
  // C24, undrilled: d_ef 2.75, f_h 21.188; F_ax = 11 x 4 x 28.5 = 1254 N; plate 2.5 mm between thin
  // (to 2) a 0.4 x 21.188 x 32.5 x 2.75 = 757.5 and thick (from 4) c
  // 1893.7 (sqrt(2 + 4 x 3300/(21.188 x 2.75 x 32.5^2)) - 1) + 313.5 = 1237.8: 877.5 N a screw;
  // three rows at 7 d: 2 x 3^0.7 = 4.315 screws; x 0.9/1.3
  const double R = 877.5 * 2 * std::pow(3.0, 0.7) * 0.9 / 1.3;
  CHECK(under(joint, Component::down, R).ratio == doctest::Approx(1.0).epsilon(1e-3));
  CHECK(under(joint, Component::down, R).ductile);
  CHECK(under(joint, Component::down, R, 0.6).ratio == doctest::Approx(1.5).epsilon(1e-3));
}

TEST_CASE(
    "check/joint_bracket: a ribbed bracket has no plate to yield: its screws pull out, brittle") {
  const auto ribbed = [](portal::Built& built) { built.joint(0).kind.ribbed = true; };
  const JointStrength joint = strength({}, ribbed);
  const Resistance R = bends(joint, Component::top);
  CHECK(R.moment > M_pl);
  CHECK_FALSE(R.ductile);
  CHECK(R.name.find("screws") != std::string::npos);
  CHECK(bends(joint, Component::top, 0.6).moment == doctest::Approx(R.moment * 0.6 / 0.9));
}

TEST_CASE("check/joint_bracket: a pair above and under bends by a couple in both senses") {
  Portal p;
  p.joint = "two corner brackets";
  const auto tall = [](portal::Built& built) {
    built.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength pair = strength(p, tall);
  REQUIRE(pair.why.empty());
  CHECK(bends(pair, Component::top).moment > 2 * M_pl);
  CHECK(bends(pair, Component::top).moment ==
        doctest::Approx(bends(pair, Component::bottom).moment));
  // Flush with the post's top there is no wood for the upper one.
  const JointStrength one = strength(
      p, [](portal::Built& built) { built.model.parts.bench.posts[0].top = metres(0.76); });
  REQUIRE(one.why.empty());
  CHECK(says(one.working, "only the lower one is counted"));
  CHECK(bends(one, Component::top).moment == doctest::Approx(M_pl));
  CHECK_FALSE(one.advice.empty());
  const JointStrength upper = strength(p, [](portal::Built& built) {
    built.model.parts.bench.posts[0].top = metres(1.5);
    built.model.parts.bench.posts[0].bottom = metres(0.63);
  });
  CHECK(says(upper.working, "only the upper one is counted"));
  // The word without a second bracket counts one.
  const JointStrength single =
      strength(p, [](portal::Built& built) { built.joint(0).kind.pieces = 1; });
  CHECK(bends(single, Component::top).moment == doctest::Approx(M_pl));
}

TEST_CASE("check/joint_bracket: brackets beside the rail carry along, down and across") {
  Portal p;
  p.post = 0.16;
  p.rail_depth = 0.12;
  const auto beside = [](portal::Built& built) {
    built.joint(0).place = "inside face";
    built.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength joint = strength(p, beside);
  REQUIRE(joint.why.empty());
  CHECK(bends(joint, Component::top).moment > 0.0);
  CHECK(bends(joint, Component::top).moment ==
        doctest::Approx(bends(joint, Component::bottom).moment));
  for (const Component c : {Component::pull, Component::down, Component::up, Component::sideways,
                            Component::flat, Component::twist}) {
    CHECK(under(joint, c, 1.0).ratio > 0.0);
  }
  CHECK(under(joint, Component::push, 100.0).ratio == 0.0);  // the butt takes it
  // Both sides of a rail, flush with the top of the post: twice as much.
  const JointStrength two = strength(p, [](portal::Built& built) {
    built.joint(0).kind.pieces = 2;
    built.joint(0).place = "both faces";
    built.model.parts.bench.posts[0].top = metres(0.8);
  });
  REQUIRE(two.why.empty());
  CHECK(under(two, Component::down, 100).ratio ==
        doctest::Approx(under(joint, Component::down, 100).ratio / 2).epsilon(1e-6));
  // Without a butt its own columns are the lever; and it takes the push.
  const JointStrength hung = strength(p, [&](portal::Built& built) {
    beside(built);
    built.model.parts.bench.rails[0].seat = bench::Seat::notched;
  });
  CHECK(under(hung, Component::push, 100.0).ratio > 0.0);
  CHECK(bends(hung, Component::top).moment <= bends(joint, Component::top).moment);
  const JointStrength line = strength(p, [&](portal::Built& built) {
    beside(built);
    built.model.parts.bench.rails[0].seat = bench::Seat::notched;
    built.joint(0).kind.rows = 1;
    built.joint(0).kind.fasteners = 3;
  });
  CHECK_FALSE(line.why_bending.empty());
}

TEST_CASE(
    "check/joint_bracket: screws that come out, reach too little, or are unknown are not judged") {
  const auto with = [](double length_mm, double depth = 0.12) {
    Portal p;
    p.rail_depth = depth;
    return strength(p, [&](portal::Built& built) {
      built.joint(0).kind.fastener_length = millimetres(length_mm);
    });
  };
  CHECK(with(35).why.empty());
  CHECK(with(100, 0.09).why.find("come out at the back") != std::string::npos);
  CHECK(with(25).why.find("reach 22.5 mm") != std::string::npos);
  const JointStrength shortish = with(30);  // 27.5 mm in the wood, 23.5 of thread count
  CHECK(shortish.why.empty());
  CHECK(shortish.why_bending == "the screws are too short to be pulled");
  CHECK(strength({}, [](portal::Built& b) { b.joint(0).kind.plate_steel = "cheese"; }).why != "");
  CHECK(strength({}, [](portal::Built& b) { b.joint(0).kind.fastener_diameter = metres(1); }).why !=
        "");
  CHECK(strength({}, [](portal::Built& b) { b.joint(0).kind.fasteners = 0; }).why != "");
}

TEST_CASE(
    "check/joint_bracket: screws that may carry across but not be pulled leave bending unjudged") {
  Portal p;
  p.rail_width = 0.028;  // 14 mm to the edge: 3 d and not 4 d
  const JointStrength joint = strength(p);
  CHECK(joint.why.empty());
  CHECK(joint.why_bending.find("too near") != std::string::npos);
  CHECK(joint.why_pull == joint.why_bending);
}

TEST_CASE("check/joint_bracket: a bearer's brackets on the side of a rail go by the rail's depth") {
  Portal p;
  portal::Built built = portal::build(p);
  model::Parts& parts = built.model.parts;
  parts.parts[2].role = model::Role::bearer;
  bench::Bearer bearer;
  bearer.name = "rail";
  bearer.height = metres(0.7);
  bearer.width = metres(0.07);
  bearer.depth = metres(0.12);
  parts.bench.bearers = {bearer};
  bench::Rail& carrier = parts.bench.rails[0];
  carrier.height = metres(0.65);
  carrier.depth = metres(0.24);
  carrier.width = metres(0.07);
  model::Part carrying = parts.parts[2];
  carrying.role = model::Role::rail;
  parts.parts.push_back(carrying);
  parts.rail_ends[0].onto = 3;
  const auto joint = [&] {
    return check::joint_strength(built.model, parts.rail_ends[0], tables());
  };
  CHECK(joint().why.empty());  // 110 mm under the bearer
  parts.rail_ends[0].joint.place = "inside face";
  CHECK(joint().why.empty());
  parts.rail_ends[0].joint.place = "under";
  carrier.height = metres(0.7);
  carrier.depth = metres(0.12);  // as deep as the bearer: nothing under it
  CHECK(joint().why.find("edge of the carrying rail") != std::string::npos);
}

TEST_CASE("check/joint_bracket: a notched rail has no butt: it is pushed by its screws") {
  const auto notched = [](portal::Built& b) {
    b.model.parts.bench.rails[0].seat = bench::Seat::notched;
    b.model.parts.bench.posts[0].top = metres(1.5);
  };
  const JointStrength joint = strength({}, notched);
  REQUIRE(joint.why.empty());
  CHECK(under(joint, Component::push, 100).ratio > 0.0);
  CHECK(under(strength({}), Component::push, 100).ratio == 0.0);
  // Opening it has its corner alone, as there is no butt that a couple could press.
  CHECK(bends(joint, Component::bottom).moment <= M_pl * (1 + 1e-12));
  Portal p;
  p.joint = "two corner brackets";
  const JointStrength pair = strength(p, notched);
  REQUIRE(pair.why.empty());
  for (const check::SimpleMode& mode : pair.modes) {
    CHECK(mode.name.find("butt") == std::string::npos);
  }
}

TEST_CASE("check/joint_bracket: above the rail short screws leave what hangs on them unjudged") {
  const JointStrength joint = strength({}, [](portal::Built& b) {
    b.joint(0).place = "above";
    b.joint(0).kind.fastener_length = millimetres(30);
    b.model.parts.bench.posts[0].top = metres(1.5);
  });
  REQUIRE(joint.why.empty());
  CHECK(joint.why_pull == "the screws are too short to be pulled");
  CHECK(joint.pulls[Component::down] == 1.0);
  CHECK(joint.pulls[Component::up] == 0.0);
}

TEST_CASE("check/joint_bracket: beside the rail one screw lets it turn: no bending is judged") {
  Portal p;
  p.post = 0.3;
  const auto with = [&](int fasteners) {
    return strength(p, [&](portal::Built& b) {
      b.joint(0).place = "inside face";
      b.joint(0).kind.fasteners = fasteners;
      b.joint(0).kind.rows = 1;
      b.joint(0).kind.first = millimetres(60);
      b.model.parts.bench.posts[0].top = metres(1.5);
    });
  };
  REQUIRE(with(1).why.empty());
  CHECK(with(1).why_bending == "nothing holds such a bracket against bending");
  CHECK(with(3).why_bending.empty());
}

TEST_CASE("check/joint_bracket: one screw of a leg lets it turn in the leg's plane (statics)") {
  const auto with = [&](int fasteners) {
    return strength({}, [&](portal::Built& b) {
      b.joint(0).kind.fasteners = fasteners;
      b.joint(0).kind.rows = 1;
      b.joint(0).kind.first = millimetres(60);
    });
  };
  const JointStrength one = with(1);
  REQUIRE_MESSAGE(one.why.empty(), one.why);
  CHECK(one.why_pull == "one screw alone lets the bracket turn on the rail");
  CHECK(one.pulls[Component::flat] == 1.0);
  CHECK(one.pulls[Component::twist] == 1.0);
  CHECK(one.pulls[Component::pull] == 0.0);
  CHECK(with(3).why_pull.empty());
  CHECK(with(3).pulls[Component::flat] == 0.0);
}

}  // namespace joint_bracket_test
