#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/joint_cases.hpp"

namespace joint_legs_test {

using namespace joint_cases;

TEST_CASE(
    "check/joint_legs: which screws of a 60 mm bracket keep their distances on a 70 mm rail") {
  // Columns 30 mm apart: edge 35 - 15 = 20 mm, 12 needed (3 d, pre-drilled). Rows 30, 58 and 86 mm
  // from the rail's end, 48 needed (12 d): two rows count. On the post all do, undrilled.
  const portal::Built built = portal::build({});
  const check::Site site = check::site_of(built.model, built.model.parts.rail_ends[0]);
  const reference::JointKind& kind = built.model.parts.rail_ends[0].joint.kind;
  const check::Grid grid = check::grid_of(kind);
  CHECK(grid.rows == 3);
  CHECK(grid.columns == 2);
  CHECK(in_si(grid.across) == doctest::Approx(0.030));
  const check::Pattern rail = check::lateral_pattern(grid, check::rail_leg_under(site),
                                                     millimetres(4), check::Plate::steel, tables());
  CHECK(rail.predrilled);
  CHECK(rail.columns == 2);
  REQUIRE(rail.rows.size() == 2);
  CHECK(in_si(rail.rows[0]) == doctest::Approx(0.058));
  const check::Pattern post = check::lateral_pattern(grid, check::onto_leg_under(site, false),
                                                     millimetres(4), check::Plate::steel, tables());
  CHECK(post.count() == 6);
  CHECK_FALSE(post.predrilled);
  // Pulled: 4 d to the edge and 10 d to the end.
  const check::Pattern pulled =
      check::axial_pattern(grid, check::rail_leg_under(site), millimetres(4), tables());
  CHECK(pulled.rows.size() == 2);
}

TEST_CASE("check/joint_legs: on a narrow rail one column counts, on its middle line, or none") {
  Portal p;
  p.rail_width = 0.038;
  p.aside = 0.0;
  const auto columns = [&](double width) {
    p.rail_width = width;
    const portal::Built built = portal::build(p);
    const check::Site site = check::site_of(built.model, built.model.parts.rail_ends[0]);
    return check::lateral_pattern(check::grid_of(built.model.parts.rail_ends[0].joint.kind),
                                  check::rail_leg_under(site), millimetres(4), check::Plate::steel,
                                  tables())
        .columns;
  };
  CHECK(columns(0.038) == 1);
  CHECK(columns(0.054) == 2);
  CHECK(columns(0.023) == 0);
  p.rail_width = 0.023;
  const JointStrength none = strength(p);
  CHECK(none.why.find("edge of the rail") != std::string::npos);
  CHECK(none.advice.find("narrower") != std::string::npos);
}

TEST_CASE("check/joint_legs: rows that need no pre-drilling are counted without it") {
  check::Leg leg{
      "rail", *tables().timber("C24"), millimetres(90), true, 0.0, metres(1), metres(1), metres(1)};
  check::Grid grid{2, 2, millimetres(60), millimetres(60), millimetres(40)};
  const auto pattern = [&] {
    return check::lateral_pattern(grid, leg, millimetres(4), check::Plate::steel, tables());
  };
  CHECK(pattern().count() == 4);
  CHECK_FALSE(pattern().predrilled);
  leg.timber.rho_k = quantity::from_si<quantity::Density>(550);
  CHECK(pattern().predrilled);
  grid.across = millimetres(5);  // columns too close: one is left
  CHECK(pattern().columns == 1);
  grid.pitch = millimetres(5);  // rows too close: one is left
  CHECK(pattern().rows.size() == 1);
  leg.ahead = millimetres(70);  // the first row near the far end: none
  CHECK(pattern().count() == 0);
  CHECK(check::arms_about_centre(pattern()).sum_r2 == 0.0);
}

TEST_CASE("check/joint_legs: arms of a 2 x 2 pattern: sum r^2 = 4 (14^2 + 15^2) mm2") {
  check::Pattern pattern;
  pattern.rows = {millimetres(20), millimetres(48)};
  pattern.columns = 2;
  pattern.across = millimetres(30);
  const check::Arms centre = check::arms_about_centre(pattern);
  CHECK(centre.sum_r2 == doctest::Approx(4 * (14 * 14 + 15 * 15) * 1e-6));
  CHECK(centre.r_max == doctest::Approx(std::hypot(0.014, 0.015)));
  const check::Arms heel = check::arms(pattern, millimetres(60), false);
  CHECK(heel.sum_r2 == doctest::Approx((20 * 20 + 48 * 48) * 1e-6));
  CHECK(heel.r_max == doctest::Approx(0.048));
  const check::Arms toe = check::arms(pattern, millimetres(60), true);
  CHECK(toe.sum_r2 == doctest::Approx((40 * 40 + 12 * 12) * 1e-6));
  CHECK(toe.r_max == doctest::Approx(0.040));
}

TEST_CASE("check/joint_legs: a rail laps as much of its post as the post is broad that way") {
  portal::Built built = portal::build({});
  std::vector<bench::Post>& posts = built.model.parts.bench.posts;
  posts[0].along_x = millimetres(90);
  posts[0].along_y = millimetres(45);
  posts[1].along_x = millimetres(140);
  posts[1].along_y = millimetres(70);
  const auto lap = [&](std::size_t end) {
    return in_si(check::lap_length(built.model, built.model.parts.rail_ends[end]));
  };
  CHECK(lap(0) == doctest::Approx(0.090));
  CHECK(lap(1) == doctest::Approx(0.140));
  built.model.parts.bench.rails[0].along_x = false;
  CHECK(lap(0) == doctest::Approx(0.045));
  CHECK(lap(1) == doctest::Approx(0.070));
}

}  // namespace joint_legs_test
