#include "tests/check/joint_kinds.hpp"

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
