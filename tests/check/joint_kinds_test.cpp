// Joints without steel plates: laps, pockets, tenons.
#include <doctest/doctest.h>

#include <cmath>

#include "check/joint_strength.hpp"
#include "tests/check/portal.hpp"

using namespace standtrue;
using check::Component;
using check::JointStrength;
using doctest::Approx;
using portal::Portal;
using quantity::in_si;
using quantity::millimetres;

namespace {

const reference::Tables& tables() { return portal::tables(); }

template <class Change>
JointStrength strength(const Portal& p, Change change) {
  portal::Built built = portal::build(p);
  change(built);
  return check::joint_strength(built.model, built.model.parts.rail_ends[0], tables());
}
JointStrength strength(const Portal& p) {
  return strength(p, [](portal::Built&) {});
}

double R_k(const JointStrength& joint, Component c, const std::string& name) {
  for (const check::SimpleMode& mode : joint.modes) {
    if (mode.name == name) return mode.R_k / mode.demand[c];
  }
  FAIL("no mode " << name);
  return 0.0;
}

Portal portal_of(const char* joint) {
  Portal p;
  p.joint = joint;
  p.rail_width = 0.045;
  p.rail_depth = 0.095;
  return p;
}

}  // namespace

TEST_CASE("check/joints: a tenon 15 x 76 x 45 by glue, bending and shear, by hand") {
  const JointStrength joint = strength(portal_of("glued tenon"));
  REQUIRE(joint.why.empty());
  // Two cheeks: I_p = 45 x 76 (45^2 + 76^2)/12 = 2.2233e6 mm4, M = 2 x 1.25 I_p/38 = 146.3 N m
  CHECK(R_k(joint, Component::top, "the glue of the tenon") == Approx(146.27).epsilon(1e-3));
  // in shear against half of 2 f_t,90 = 0.4 N/mm2
  CHECK(R_k(joint, Component::down, "the glue of the tenon") == Approx(2 * 45 * 76 * 0.4));
  CHECK(R_k(joint, Component::top, "bending of the tenon") == Approx(24 * 15 * 76 * 76 / 6e3));
  CHECK(R_k(joint, Component::down, "shear of the tenon") == Approx(4 * 0.67 * 15 * 76 / 1.5));
  CHECK_FALSE(check::bending_resistance(joint, Component::top, 0.9, check::joint_factors(tables()))
                  .ductile);
}

TEST_CASE("check/joints: the glue of a tenon against tests in oak (BioResources 11(3) 7162)") {
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

TEST_CASE("check/joints: tenons outside what was tested are not judged") {
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

TEST_CASE("check/joints: a glued half lap 90 x 95, by hand") {
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

TEST_CASE("check/joints: pocket screws: pulled against the pressed edge of the butt") {
  const JointStrength joint = strength(portal_of("pocket screws"));
  REQUIRE(joint.why.empty());
  REQUIRE(joint.groups.size() == 1);
  const check::FastenerGroup& screws = joint.groups[0];
  // At 25 and 70 mm, the pressed quarter's middle at 11.875: 58.125/(13.125^2 + 58.125^2) per mm
  CHECK(screws.axial[Component::top] == Approx(1e3 * 58.125 / (172.27 + 3378.5)).epsilon(1e-4));
  CHECK(screws.axial[Component::pull] == Approx(1 / std::pow(2.0, 0.9)));
  CHECK(screws.first[Component::down] == Approx(0.5));
  // Withdrawal of 31 mm of thread at most, or the head: 4 mm screws are below the formula.
  CHECK(screws.F_ax_k > quantity::newtons(300));
  CHECK(screws.F_ax_k < quantity::newtons(1600));
  // A test in spruce, 17 x 59 mm, four joints: 66 N m in the mean, 95 lbf the least but one
  // (38 N m with 95 % of joints above); what is computed for 45 x 95 stays under the mean.
  const double M = check::bending_resistance(joint, Component::top, 1.0, {1.0, 1.0, 1.0}).moment;
  CHECK(M > 15);
  CHECK(M < 66);
  const auto with = [](double length) {
    return strength(
               portal_of("pocket screws"),
               [&](portal::Built& b) { b.joint(0).kind.fastener_length = millimetres(length); })
        .why;
  };
  CHECK_FALSE(with(40).empty());
  CHECK(with(120).find("come out") != std::string::npos);
}

TEST_CASE("check/joints: a screwed lap is judged where the screws keep their distances (8.2)") {
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
