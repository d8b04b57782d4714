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
  // The strength of C24 across the grain (EN 338, Table 1), as it is printed everywhere.
  CHECK(joint.working.at(1).rfind("prised off, across the grain at 0.5 of f_t,90 = 0.4 N/mm2: ",
                                  0) == 0);
  // Force and moment add up in the glue.
  check::Shares both;
  both[Component::up] = 0.5 * 0.4 * 90 * 95;
  both[Component::top] = 0.5 * 321.09;
  CHECK(check::worst_mode(joint, both, 1.0, {1.0, 1.0, 1.0}).ratio == Approx(1.0).epsilon(1e-3));
}

TEST_CASE("check/joint_half_lap: what presses down goes to the post's shoulder (6.1.5), by hand") {
  const JointStrength joint = strength(portal_of("half lap"));
  const std::string shoulder = "the rail pressed on the post's shoulder";
  // Half of 45 mm by the post's 90 mm, across the grain of C24: 22.5 x 90 x 2.5 = 5063 N
  CHECK(R_k(joint, Component::down, shoulder) == Approx(22.5 * 90 * 2.5));
  check::Shares down;
  down[Component::down] = 1000;
  const check::ModeRatio pressed = check::worst_mode(joint, down, 0.9, {1.3, 1.0, 1.25});
  // 1000/(5062.5 x 0.9/1.3) = 0.285; the halved rail is sheared by 1000/(3818 x 0.9/1.3) = 0.378
  CHECK(pressed.name == "shear of the halved rail");
  CHECK(pressed.ratio == Approx(1000 / (4 * 0.67 * 22.5 * 95 / 1.5 * 0.9 / 1.3)));
  // Upwards only the glue holds: 1000/(0.4 x 90 x 95 x 0.9/1.3) = 0.422
  check::Shares up;
  up[Component::up] = 1000;
  CHECK(check::worst_mode(joint, up, 0.9, {1.3, 1.0, 1.25}).name == "the glue of the lap");
  // Of wood softer across its grain: 1000/(22.5 x 90 x 1.0 x 0.9/1.3) = 0.713
  const JointStrength soft = strength(portal_of("half lap"), [](portal::Built& built) {
    built.model.parts.parts[2].timber.f_c_90_k = quantity::pascals(1.0e6);
  });
  CHECK(check::worst_mode(soft, down, 0.9, {1.3, 1.0, 1.25}).name == shoulder);
}

TEST_CASE("check/joint_half_lap: no shoulder where the post ends under it, nor in a rail") {
  Portal p = portal_of("half lap");
  const auto glue_carries = [](const JointStrength& joint) {
    for (const check::SimpleMode& mode : joint.modes) {
      if (mode.name == "the glue of the lap") return mode.demand[Component::down] > 0.0;
    }
    return false;
  };
  p.rail_height = 0.045 + 0.0475 + 1e-6;  // as much under it as the rail is wide
  CHECK_FALSE(glue_carries(strength(p)));
  p.rail_height -= 1e-3;
  CHECK(glue_carries(strength(p)));
  portal::Built built = portal::build(p);
  portal::add_second_rail(built, p);
  built.model.parts.rail_ends[0].onto = 3;
  CHECK(glue_carries(
      check::joint_strength(built.model, built.model.parts.rail_ends[0], portal::tables())));
}

}  // namespace joint_half_lap_test
