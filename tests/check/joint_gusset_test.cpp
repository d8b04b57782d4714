#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/joint_cases.hpp"
#include "tests/check/solved_bench.hpp"

namespace joint_gusset_test {

using namespace joint_cases;

TEST_CASE("check/joint_gusset: a plywood gusset: two groups of screws, panel on timber (8.6)") {
  Portal p;
  p.joint = "plywood gusset";
  const JointStrength joint = strength(p);
  REQUIRE(joint.why.empty());
  CHECK(joint.why_bending.empty());
  CHECK(joint.other == reference::Material::plywood);
  CHECK(joint.groups.size() == 2);
  CHECK(bends(joint, Component::top).moment > 60.0);
  CHECK(bends(joint, Component::top).ductile);
  // What presses down turns the group as well, by its distance from the post.
  CHECK(under(joint, Component::down, 100).ratio > under(joint, Component::pull, 100).ratio);
  const auto with = [&](auto change) { return strength(p, change); };
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(110);
        }).why.find("come out") != std::string::npos);
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(30);
        }).why.find("reach 18 mm") != std::string::npos);
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.first = millimetres(5);
          b.joint(0).kind.pitch = millimetres(1);
        }).why.find("too near") != std::string::npos);
  CHECK(with([](portal::Built& b) { b.joint(0).kind.gusset_family = "cardboard"; }).why != "");
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.fastener_length = millimetres(37);
        }).why_pull == "the screws are too short to be pulled");
  CHECK(with([](portal::Built& b) {
          b.joint(0).kind.gusset_family = "conifer plywood";
        }).why_bending == "the strength of the gusset's sheet is not known");
  const JointStrength mdf = with([](portal::Built& b) { b.joint(0).kind.gusset_family = "MDF"; });
  CHECK_FALSE(mdf.why.empty());
}

TEST_CASE("check/joint_gusset: a rail that does not butt is pushed by its screws (statics)") {
  Portal p;
  p.joint = "plywood gusset";
  const JointStrength butts = strength(p);
  const JointStrength notched = strength(
      p, [](portal::Built& b) { b.model.parts.bench.rails[0].seat = bench::Seat::notched; });
  CHECK(under(butts, Component::push, 100).ratio == 0.0);
  CHECK(under(notched, Component::push, 100).ratio ==
        doctest::Approx(under(notched, Component::pull, 100).ratio));
}

TEST_CASE("check/joint_gusset: screws, sheets and posts that do not fit say so") {
  Portal p;
  p.joint = "plywood gusset";
  const auto why = [&](auto change) { return strength(p, change).why; };
  const std::string unknown = "the screws or the sheet of the gusset are not known";
  CHECK(why([](portal::Built& b) { b.joint(0).kind.fastener_diameter = metres(1); }) == unknown);
  CHECK(why([](portal::Built& b) { b.joint(0).kind.fasteners = 0; }) == unknown);
  p.post = 0.025;  // the rail would do
  CHECK(why([](portal::Built&) {}).find("of the post") != std::string::npos);
}

TEST_CASE("check/joint_gusset: screws that are not in its sheet are not judged (plain sums)") {
  // Three rows, the first 40 mm from the corner, in a sheet that ends 200 mm from it.
  Portal p;
  p.joint = "plywood gusset";
  const auto why = [&](double pitch) {
    return strength(p, [&](portal::Built& b) { b.joint(0).kind.pitch = millimetres(pitch); }).why;
  };
  CHECK(why(79).empty());
  CHECK(why(81) == "the last screws are 202 mm from the corner, the gusset ends at 200 mm");
  CHECK(why(400).find("840 mm from the corner") != std::string::npos);
}

TEST_CASE("check/joint_gusset: on one screw a side it turns, so it is not judged (statics)") {
  Portal p;
  p.joint = "plywood gusset";
  const auto with = [&](int fasteners) {
    return strength(p, [&](portal::Built& b) {
      b.joint(0).kind.fasteners = fasteners;
      b.joint(0).kind.rows = 1;
    });
  };
  CHECK(with(1).why == "one screw alone lets the gusset turn on the rail");
  CHECK(with(2).why.empty());
  CHECK(std::isfinite(bends(with(2), Component::top).moment));
}

TEST_CASE("check/joint_gusset: what prises it off goes by its rows and its columns, by hand") {
  Portal p;
  p.joint = "plywood gusset";
  const JointStrength joint = strength(p);
  REQUIRE(joint.groups.size() == 2);
  REQUIRE(joint.working[0].find("6 of 6") != std::string::npos);
  REQUIRE(joint.working[1].find("6 of 6") != std::string::npos);
  // Statics: three rows 60 mm apart of two screws; two columns of three, by the record's root mean
  // square distance 2 sqrt(53^2 - 60^2 2/3) apart. r_max/sum r^2.
  const double across = 2e-3 * std::sqrt(53.0 * 53.0 - 60.0 * 60.0 * 2.0 / 3.0);
  const double rows = 0.06 / (2 * 2 * 0.06 * 0.06), columns = 1.0 / (3 * across);
  CHECK(joint.groups[0].axial[Component::flat] == doctest::Approx(rows).epsilon(1e-9));
  CHECK(joint.groups[0].axial[Component::twist] == doctest::Approx(columns).epsilon(1e-9));
  CHECK(joint.groups[1].axial[Component::flat] == doctest::Approx(columns).epsilon(1e-9));
  CHECK(joint.groups[1].axial[Component::twist] == doctest::Approx(rows).epsilon(1e-9));
}

TEST_CASE(
    "check/joint_gusset: a lower rail has its gusset where the post has wood, or where told") {
  const auto why = [](const std::string& more) {
    const model::Model model = solved_bench::idealised(R"(
standtrue: 1
size: 1300 x 700 x 900 mm
timber: C24 45 x 120 mm
posts: 70 x 95 mm
analysis: {sheets: strip}
top: {sheet: 18 mm spruce plywood, load: none}
rails: {lower: {underside: 150 mm}}
)" + more);
    const model::RailEnd& end = solved_bench::rail_end(model, "front lower rail, left end");
    return check::joint_strength(model, end, tables()).why;
  };
  CHECK(why("joints: plywood gusset\n").empty());
  CHECK(why("joints: {kind: plywood gusset, place: above}\n").empty());
  // 125 mm of post under the rail are too little for one of 200 mm.
  CHECK(why("joints: {kind: plywood gusset, place: under}\n").find("post") != std::string::npos);
}

}  // namespace joint_gusset_test
