#include <doctest/doctest.h>

#include "tests/check/joint_cases.hpp"

namespace joint_bolts_test {

using namespace joint_cases;

TEST_CASE("check/joint_bolts: a bolted lap is judged only with EC5's ends and edges (Table 8.4)") {
  Portal p;
  p.joint = "bolted lap";
  p.rail_depth = 0.2;
  p.post = 0.14;
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
  // M8 4.6 through 70 and 140 mm of C24 at 90 degrees: mode f, 3188 N; two with arms of 29 mm
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

TEST_CASE("check/joint_bolts: a row that leaves the lap is not judged (EC5, Table 8.4, by hand)") {
  const auto why = [](double post, double depth, double first, double pitch, int n) {
    Portal p;
    p.joint = "bolted lap";
    p.post = post;
    p.rail_depth = depth;
    return strength(p,
                    [&](portal::Built& built) {
                      built.joint(0).kind.first = millimetres(first);
                      built.joint(0).kind.pitch = millimetres(pitch);
                      built.joint(0).kind.fasteners = n;
                      built.model.parts.bench.rails[0].seat = bench::Seat::post_face;
                    })
        .why;
  };
  // M8: 80 mm to the loaded end, 4 d = 32 mm to loaded edges. A post of 88.9 mm leaves 8.9 mm,
  // whatever the row; one of 112 mm is just enough.
  const std::string post = "the bolts are 8.9 mm from the far edge of the post, 32 mm";
  for (const int n : {1, 2, 6}) CHECK(why(0.0889, 0.0889, 80, 58, n).rfind(post, 0) == 0);
  CHECK(why(0.0889, 0.0889, 80, 400, 2).rfind(post, 0) == 0);
  CHECK(why(0.112, 0.112, 80, 58, 1).empty());
  CHECK(why(0.111, 0.112, 80, 58, 1).find("edge of the post") != std::string::npos);
  CHECK(why(0.112, 0.111, 80, 58, 1).find("far edge of the rail") != std::string::npos);
  CHECK(why(0.079, 0.2, 80, 58, 1) == "the bolts do not lie in the post");
  // In 139.7 x 139.7 mm 27.7 mm each way are left, sqrt(2) 27.7 = 39.2 mm for a row of 40 mm; in
  // 142 x 139.7 mm sqrt(30^2 + 27.7^2) = 40.8 mm.
  CHECK(why(0.1397, 0.1397, 80, 40, 2).rfind("the row of bolts is 40 mm long", 0) == 0);
  CHECK(why(0.142, 0.1397, 80, 40, 2).empty());
  // Upright in 200 mm: sqrt(28^2 + 88^2) = 92.3 mm, three bolts 46 mm apart and not 46.5 mm.
  CHECK(why(0.14, 0.2, 80, 46, 3).empty());
  CHECK_FALSE(why(0.14, 0.2, 80, 46.5, 3).empty());
  CHECK_FALSE(why(0.14, 0.2, 80, 400, 2).empty());
}

TEST_CASE("check/joint_bolts: bolts keep off both ends of the post (EC5, Table 8.4, by hand)") {
  // Rail from 600 to 800 mm, bolts 80 mm under its top and 32 mm at least over its underside; the
  // post's ends want 80 mm.
  const auto why = [](double bottom, double top) {
    Portal p;
    p.joint = "bolted lap";
    p.post = 0.14;
    p.rail_depth = 0.2;
    return strength(p,
                    [&](portal::Built& built) {
                      built.joint(0).kind.first = millimetres(80);
                      built.joint(0).kind.pitch = millimetres(70);
                      built.model.parts.bench.rails[0].seat = bench::Seat::post_face;
                      built.model.parts.bench.posts[0].bottom = metres(bottom);
                      built.model.parts.bench.posts[0].top = metres(top);
                    })
        .why;
  };
  CHECK(why(0.0, 0.8).empty());
  CHECK(why(0.0, 0.78).find("60 mm from the end of the post, 80 mm") != std::string::npos);
  // The other end flush as well: 200 - 80 - 80 = 40 mm and sqrt(28^2 + 40^2) = 48.8 mm are left.
  CHECK(why(0.6, 0.8).find("room for 48.8 mm") != std::string::npos);
}

TEST_CASE("check/joint_bolts: the cure of a lap fits, or is brackets (EC5, Table 8.4, by hand)") {
  const auto with = [](double post, double depth, double first, double pitch, int n, double d = 8) {
    Portal p;
    p.joint = "bolted lap";
    p.post = post;
    p.rail_depth = depth;
    return strength(p, [&](portal::Built& built) {
      reference::JointKind& kind = built.joint(0).kind;
      kind.fastener_diameter = millimetres(d);
      kind.first = millimetres(first);
      kind.pitch = millimetres(pitch);
      kind.fasteners = n;
      built.model.parts.bench.rails[0].seat = bench::Seat::post_face;
    });
  };
  // 80 mm to the end and 4 x 6 = 24 mm to the far edge for M6, the thinnest: 104 mm.
  const std::string brackets = "two corner brackets in place of the lap: no bolts fit in it";
  CHECK(with(0.0889, 0.0889, 24, 58, 2).advice == brackets);
  CHECK(with(0.0889, 0.1397, 24, 58, 2).advice == brackets);
  CHECK(with(0.0889, 0.1397, 24, 58, 2, 6).advice == brackets);
  // In 139.7 mm square M8 want 40 mm of 39.2 mm (above), M6 find sqrt(2) 35.7 = 50.5 mm: not for
  // 58 mm, for 5 d = 30 mm.
  CHECK(with(0.1397, 0.1397, 24, 58, 2).advice ==
        "the thickest bolts that fit: {kind: bolted lap, bolts: M6, fasteners: 2, first: 80 mm, "
        "pitch: 30 mm, radius: 15 mm}");
  CHECK(with(0.1397, 0.1397, 80, 30, 2, 6).why.empty());
  // In 140 x 200 mm M12 keep 7 x 12 = 84 and 48 mm: sqrt(8^2 + 68^2) = 68.5 mm for 5 d = 60 mm.
  CHECK(with(0.14, 0.2, 24, 58, 2).advice ==
        "the thickest bolts that fit: {kind: bolted lap, bolts: M12, fasteners: 2, first: 84 mm, "
        "pitch: 60 mm, radius: 30 mm}");
  CHECK(with(0.14, 0.2, 84, 60, 2, 12).why.empty());
  // Six M6 are 150 mm long; two M12 fit. The distance that is kept stays.
  CHECK(
      with(0.14, 0.2, 80, 65, 6).advice.find("bolts: M12, fasteners: 2, first: 84 mm, pitch: 65") !=
      std::string::npos);
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
