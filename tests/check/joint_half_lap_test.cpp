#include "tests/check/joint_kinds.hpp"

namespace joint_half_lap_test {

using namespace standtrue;
using namespace joint_kinds;
using check::Component;
using check::JointStrength;
using doctest::Approx;
using portal::Portal;
using quantity::millimetres;

TEST_CASE("check/joint_half_lap: a glued half lap 90 x 95, by hand") {
  const JointStrength joint = strength(portal_of("half lap"));
  REQUIRE(joint.why.empty());
  // I_p = 90 x 95 (90^2 + 95^2)/12 = 12.2016e6 mm4; 1.25 I_p/47.5 = 321.1 N m
  CHECK(R_k(joint, Component::bottom, "the glue of the lap") == Approx(321.09).epsilon(1e-3));
  CHECK(R_k(joint, Component::pull, "the glue of the lap") == Approx(0.4 * 90 * 95));
  CHECK(R_k(joint, Component::bottom, "bending of the halved rail") ==
        Approx(24 * 22.5 * 95 * 95 / 6e3));
  CHECK(R_k(joint, Component::up, "shear of the halved rail") ==
        Approx(4 * 0.67 * 22.5 * 95 / 1.5));
  // Force and moment add up in the glue.
  check::Shares both;
  both[Component::down] = 0.5 * 0.4 * 90 * 95;
  both[Component::top] = 0.5 * 321.09;
  CHECK(check::worst_mode(joint, both, 1.0, {1.0, 1.0, 1.0}).ratio == Approx(1.0).epsilon(1e-3));
}

}  // namespace joint_half_lap_test
