#include "tests/check/joint_cases.hpp"
#include "tests/check/joint_kinds.hpp"
#include "tests/check/solved_bench.hpp"

namespace joint_tenon_test {

using namespace standtrue;
using namespace joint_kinds;
using check::Component;
using check::JointStrength;
using doctest::Approx;
using portal::Portal;
using quantity::millimetres;

TEST_CASE("check/joint_tenon: a tenon 15 x 76 x 45 by glue, bending and shear, by hand") {
  const JointStrength joint = strength(portal_of("glued tenon"));
  REQUIRE(joint.why.empty());
  // Two cheeks: I_p = 45 x 76 (45^2 + 76^2)/12 = 2.2233e6 mm4, M = 2 x 1.25 I_p/38 = 146.3 N m
  CHECK(R_k(joint, Component::top, "the glue of the tenon") == Approx(146.27).epsilon(1e-3));
  // in shear against half of 2 f_t,90 = 0.4 N/mm2
  CHECK(R_k(joint, Component::down, "the glue of the tenon") == Approx(2 * 45 * 76 * 0.4));
  CHECK(R_k(joint, Component::top, "bending of the tenon") == Approx(24 * 15 * 76 * 76 / 6e3));
  CHECK(R_k(joint, Component::down, "shear of the tenon") == Approx(4 * 0.67 * 15 * 76 / 1.5));
  CHECK_FALSE(
      check::bending_resistance(joint, Component::top, 0.9, check::joint_factors(portal::tables()))
          .ductile);
}

TEST_CASE("check/joint_tenon: the glue of a tenon against tests in oak (BioResources 11(3) 7162)") {
  // Rail 22.2 x 63.5, tenon 9.5 x 38 x 32 mm: mean 353 N m, 95 % lower limit 266 N m. The estimate
  // for softwood must lie below what oak stands.
  Portal p = portal_of("glued tenon");
  p.rail_width = 0.0222;
  p.rail_depth = 0.0635;
  const JointStrength joint = strength(p, [](portal::Built& b) {
    b.joint(0).kind.thickness = millimetres(9.5);
    b.joint(0).kind.width = millimetres(38);
    b.joint(0).kind.leg = millimetres(32);
  });
  REQUIRE(joint.why.empty());
  const double M = check::bending_resistance(joint, Component::top, 1.0, {1.0, 1.0, 1.0}).moment;
  CHECK(M < 266);
  CHECK(M > 25);
}

TEST_CASE("check/joint_tenon: tenons outside what was tested are not judged") {
  const auto why = [](double t, double h, double l) {
    return strength(portal_of("glued tenon"),
                    [&](portal::Built& b) {
                      b.joint(0).kind.thickness = millimetres(t);
                      b.joint(0).kind.width = millimetres(h);
                      b.joint(0).kind.leg = millimetres(l);
                    })
        .why;
  };
  CHECK(why(15, 76, 45).empty());
  CHECK(why(10, 76, 45).find("thinner than a quarter") != std::string::npos);
  CHECK(why(15, 100, 45).find("higher than its rail") != std::string::npos);
  CHECK(why(15, 76, 25).find("shorter than 30 mm") != std::string::npos);
  CHECK(why(15, 76, 95).find("comes out") != std::string::npos);
}

TEST_CASE("check/joint_tenon: tenons that meet in a post count as far as they are clear") {
  const auto at_front_left = [](const std::string& joint, bool along) {
    const model::Model model = solved_bench::idealised(R"(
standtrue: 1
size: 1300 x 700 x 900 mm
timber: C24 45 x 95 mm
posts: 70 x 70 mm
analysis: {sheets: strip}
top: {sheet: 18 mm spruce plywood, load: none}
joints: )" + joint + "\n");
    const model::RailEnd& end = solved_bench::rail_end(
        model, along ? "front top rail, left end" : "left top rail, front end");
    return check::joint_strength(model, end, bench_files::tables());
  };
  // Rails flush outside, 15 mm tenons in their middle: the other one stands 15 to 30 mm from the
  // outer face of the 70 mm post, so that 40 mm are clear from the inner face.
  for (const bool along : {true, false}) {
    const JointStrength joint = at_front_left("{kind: glued tenon, leg: 45 mm}", along);
    CHECK(joint.why.empty());
    CHECK(joint_cases::says(joint.working, "15 mm thick, 76 mm high, 40 mm long"));
    CHECK(joint_cases::says(joint.working, "where it meets the tenon of the "));
  }
  CHECK(joint_cases::says(at_front_left("{kind: glued tenon, leg: 35 mm}", true).working,
                          "35 mm long"));
  const JointStrength thick =
      at_front_left("{kind: glued tenon, leg: 60 mm, thickness: 42 mm}", true);
  CHECK(thick.why.find("it meets the tenon of the left top rail, front end after 26.5 mm") == 0);
}

}  // namespace joint_tenon_test
