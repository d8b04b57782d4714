#include <doctest/doctest.h>

#include "tests/check/joint_cases.hpp"

namespace joint_bolts_test {

using namespace joint_cases;

TEST_CASE("check/joint_bolts: a bolted lap is judged only with EC5's ends and edges (Table 8.4)") {
  Portal p;
  p.joint = "bolted lap";
  p.rail_depth = 0.2;
  CHECK(strength(p).why.find("24 mm from the edge, 32 mm are needed") != std::string::npos);
  const auto with = [&](double first, double pitch, int n = 2) {
    return strength(p, [&](portal::Built& built) {
      built.joint(0).kind.first = millimetres(first);
      built.joint(0).kind.pitch = millimetres(pitch);
      built.joint(0).kind.fasteners = n;
      built.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  CHECK(with(40, 58).why.find("40 mm from the end of the rail, 80 mm") != std::string::npos);
  CHECK(with(80, 30).why.find("30 mm apart, 40 mm") != std::string::npos);
  CHECK(with(210, 58).why.find("do not lie in the rail") != std::string::npos);
  const JointStrength good = with(80, 58);
  REQUIRE(good.why.empty());
  // M8 4.6 through 70 and 90 mm of C24 at 90 degrees: mode f, 3188 N; two with arms of 29 mm
  const double F_d = 3188.0 * 0.9 / 1.3;
  CHECK(bends(good, Component::top).moment == doctest::Approx(2 * 0.029 * F_d).epsilon(2e-3));
  CHECK(bends(good, Component::top).ductile);
  // along the grain they count as 2^0.9 (58/104)^0.25 = 1.6126
  CHECK(under(good, Component::pull, 1.6126 * F_d).ratio == doctest::Approx(1.0).epsilon(2e-3));
  // splitting: 14 x 70 sqrt(120/(1 - 0.6)) = 16974 N stays above the bolts here
  CHECK(under(good, Component::down, 1000).name == "bolts");
  const JointStrength one = with(80, 58, 1);
  CHECK(one.why.empty());
  CHECK_FALSE(one.why_bending.empty());
  CHECK(strength(p, [](portal::Built& b) { b.joint(0).kind.bolt_steel = "?"; }).why != "");
}

TEST_CASE("check/joint_bolts: bolts that are not known, or none, are not judged") {
  Portal p;
  p.joint = "bolted lap";
  const auto why = [&](auto change) { return strength(p, change).why; };
  const std::string unknown = "the bolts or their steel are not known";
  CHECK(why([](portal::Built& b) { b.joint(0).kind.fastener_diameter = metres(1); }) == unknown);
  CHECK(why([](portal::Built& b) { b.joint(0).kind.fasteners = 0; }) == unknown);
}

}  // namespace joint_bolts_test
