#include <doctest/doctest.h>

#include "tests/check/joint_cases.hpp"

namespace joint_end_grain_test {

using namespace joint_cases;

TEST_CASE(
    "check/joint_end_grain: screws in end grain: a third across, nothing in pull or bending "
    "(8.3.1.2)") {
  Portal p;
  p.joint = "end-grain screws";
  p.post = 0.045;
  const JointStrength joint = strength(p);
  REQUIRE(joint.why.empty());
  CHECK_FALSE(joint.why_bending.empty());
  CHECK_FALSE(joint.why_pull.empty());
  CHECK(says(joint.working, "in end grain 0.33 of it"));
  CHECK(under(joint, Component::down, 100).ratio > 0.0);
  CHECK(strength(p, [](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(70);
        }).why.find("reach 25 mm") != std::string::npos);
  CHECK(strength(p, [](portal::Built& b) { b.joint(0).kind.fasteners = 0; }).why != "");
}

TEST_CASE("check/joint_end_grain: screws that are not known are not judged") {
  Portal p;
  p.joint = "end-grain screws";
  const JointStrength joint =
      strength(p, [](portal::Built& b) { b.joint(0).kind.fastener_diameter = metres(1); });
  CHECK(joint.why == "the screws are not known");
}

}  // namespace joint_end_grain_test
