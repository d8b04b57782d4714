// Allowable stress where a piece has too much, has no values, or bears nothing: forces by statics.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "tests/check/us_lumber.hpp"

namespace allowable_limits_test {

using namespace us_lumber;
using doctest::Approx;

namespace {

bool says(const Finding& f, const std::string& words) {
  return std::any_of(f.working.begin(), f.working.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

/// On seats as long as a post is deep.
portal::Built seated(const char* grade, double down) {
  Portal p = us_portal(grade);
  p.bearing = 0.0889;
  return loaded(p, 0, 0, -down);
}

portal::Built notched(const char* grade, double down) {
  portal::Built built = loaded(us_portal(grade), 0, 0, -down);
  built.model.parts.bench.rails[0].notch = millimetres(20);
  return built;
}

portal::Built on_the_floor(double down) {
  portal::Built built = loaded(us_portal(), 0, 0, -down);
  for (bench::Post& post : built.model.parts.bench.posts) post.foot.bare = true;
  return built;
}

}  // namespace

TEST_CASE("check/allowable: half the load over F_c_perp b l_b, over 1 it is exceeded (3.10.2)") {
  const Finding f = run(check::allowable_seats, seated("SPF No.2", 24000), "seat/rail");
  CHECK(f.ratio == Approx(12000 / (425 * psi * b * 0.0889)).epsilon(1e-3));  // 1.209
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(f.advice == "a longer seat, or a wider piece");
  const Finding less = run(check::allowable_seats, seated("SPF No.2", 19000), "seat/rail");
  CHECK(less.judgement == Judgement::satisfied);
  CHECK(less.advice.empty());
}

TEST_CASE(
    "check/allowable: the end of a post: over 0.75 F_c* a plate is wanted (NDS 2018, 3.10.1.3)") {
  const double stands = 1150 * 1.25 * 1.15 * psi * 0.0889 * 0.0889;  // 90.1 kN
  const auto at = [&](double share) {
    return run(check::allowable_post_ends, on_the_floor(2 * share * stands), "post-end/left-post");
  };
  for (const double share : {0.74, 0.76, 0.99, 1.01}) {
    CAPTURE(share);
    const Finding f = at(share);
    CHECK(f.ratio == Approx(share).epsilon(1e-3));
    CHECK(says(f, "a steel plate is wanted") == (share > 0.75));
    CHECK(f.judgement == (share > 1.0 ? Judgement::exceeded : Judgement::satisfied));
    CHECK(f.advice.empty() == (share < 1.0));
  }
}

TEST_CASE("check/allowable: an insert whose flange is not known presses on nothing that is known") {
  portal::Built built = loaded(us_portal(), 0, 0, -800);
  for (bench::Post& post : built.model.parts.bench.posts) {
    post.foot.thread.insert_flange = post.foot.thread.insert_barrel = {};
  }
  const Finding f = run(check::allowable_post_ends, built, "post-end/left-post");
  CHECK(f.judgement == Judgement::not_judged);
  CHECK(f.why == "the flange of the insert in the post's end is not known");
}

TEST_CASE("check/allowable: a notch, a rail and a twisted rail that have too much, by hand") {
  // (2/3) F_v' b d_n (d_n/d)^2 = 1223 N against 1500 N (3.4.3.2).
  const double d_n = 0.0689, F_v = 135 * 1.25 * psi;
  const Finding notch = run(check::allowable_notches, notched("SPF No.2", 3000), "notch/rail");
  CHECK(notch.ratio == Approx(1500 / (F_v * b * d_n / 1.5 * (d_n / d) * (d_n / d))).epsilon(1e-3));
  CHECK(notch.judgement == Judgement::exceeded);
  CHECK(notch.advice == "a shallower notch, or a deeper piece");
  // 3 V/(2 b d) with V = 3000 N: 1.142 F_v' (3.4.2).
  const Finding shear = run(check::allowable_shear, loaded(us_portal(), 0, 0, -6000), "shear/rail");
  CHECK(shear.ratio == Approx(1.5 * 3000 / (b * d) / F_v).epsilon(1e-3));
  CHECK(shear.judgement == Judgement::exceeded);
  CHECK(shear.advice == "a larger section for the rail, or less on it");
  // 100 N m about the rail's axis in its middle, half to each end: T/(a d b^2) with a = 0.258 at
  // d/b = 2.5 and 0.246 at 2 (Roark's Formulas, rectangles).
  portal::Built built = loaded(us_portal(), 0, 0, 0);
  built.model.cases[0].point_loads[0].moment.x = quantity::newton_metres(100);
  const Finding twist = run(check::allowable_torsion, built, "torsion/rail");
  CHECK(twist.ratio < 50 / (0.246 * d * b * b) / F_v);
  CHECK(twist.ratio > 50 / (0.258 * d * b * b) / F_v);
  CHECK(twist.judgement == Judgement::exceeded);
  CHECK(twist.advice == "load the rail over its middle line, or a squarer section");
}

TEST_CASE("check/allowable: posts and braces that have too much: their own cure") {
  // 100 kN on a post that stands C_P F_c* A = 0.51149 x 1653.1 psi x 7903 mm2 = 46 kN (3.7.1).
  const Finding post =
      run(check::allowable_columns, loaded(us_portal(), 0, 0, -200000), "buckling/left-post");
  CHECK(post.ratio >= 100e3 / (0.51149 * 1653.1 * psi * 0.0889 * 0.0889));
  CHECK(post.judgement == Judgement::exceeded);
  CHECK(post.advice == "a diagonal in that plane, or a thicker post");
  // A 2x2 from the left foot to the top of the right post, as the frame is drawn to the left:
  // l_e/d = sqrt(1.4^2 + 0.9^2)/0.0381 = 43.68, F_cE = 0.822 x 510e3/43.68^2 = 219.7 psi.
  portal::Built built = loaded(us_portal(), -30000, 0, 0);
  model::Part brace;
  brace.name = "brace";
  brace.role = model::Role::brace;
  brace.timber = *portal::tables().timber("SPF No.2");
  brace.width = brace.depth = metres(b);
  const std::size_t member = portal::detail::add_member(built.model, "brace", 0, 5, b, b, 3);
  brace.members = {member};
  built.model.parts.parts.push_back(brace);
  bench::Brace drawn;
  drawn.to_post = 1;
  built.model.parts.bench.braces = {drawn};
  const portal::Solved solved = portal::solve(built);
  const double pushed = solved.response.states[0]->end_forces[member][0];
  REQUIRE(pushed > 0.0);
  const Finding f = run(check::allowable_columns, built, "buckling/brace");
  CHECK(f.ratio >= pushed / (219.7 * psi * b * b));  // C_P F_c* is less than F_cE
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(f.advice == "a thicker brace, or a cross of two");
  CHECK(says(f, "l_e/d = 43.7"));
}

TEST_CASE("check/allowable: of two rails each is judged by its own ends (statics)") {
  Portal p = us_portal();
  p.bearing = 0.0889;
  portal::Built built = loaded(p, 0, 0, -800);
  portal::add_second_rail(built, p);
  for (bench::Rail& rail : built.model.parts.bench.rails) rail.notch = millimetres(20);
  built.model.cases[0].point_loads.push_back(built.model.cases[0].point_loads[0]);
  built.model.cases[0].point_loads[1].member = built.model.parts.parts[3].members[0];
  built.model.cases[0].point_loads[1].force.z = quantity::newtons(-1600);
  for (const Check check : {Check{check::allowable_seats}, Check{check::allowable_notches}}) {
    const std::vector<Finding> found = run(check, built);
    REQUIRE(found.size() == 2);
    CHECK(found[0].demand == Approx(400).epsilon(1e-3));
    CHECK(found[1].demand == Approx(800).epsilon(1e-3));
    CHECK(found[1].place.find("second rail") == 0);
    CHECK(found[1].ratio == Approx(2 * found[0].ratio).epsilon(1e-3));
  }
}

TEST_CASE("check/allowable: ends without values or without an answer are not judged, and say why") {
  for (const bool is_graded : {true, false}) {
    portal::Built seat = seated(is_graded ? "SPF No.2" : "C24", 800);
    portal::Built notch = notched(is_graded ? "SPF No.2" : "C24", 800);
    portal::Built end = loaded(us_portal(is_graded ? "SPF No.2" : "C24"), 0, 0, -800);
    if (is_graded) {
      for (portal::Built* built : {&seat, &notch, &end}) {
        built->model.combinations.back().purpose = model::Purpose::strength;
      }
    }
    for (const Finding& f : {run(check::allowable_seats, seat, "seat/rail"),
                             run(check::allowable_notches, notch, "notch/rail"),
                             run(check::allowable_post_ends, end, "post-end/left-post")}) {
      CAPTURE(f.id);
      CHECK(f.judgement == Judgement::not_judged);
      CHECK(f.why ==
            (is_graded ? "no combination of loads was answered" : "C24 has no allowable stresses"));
    }
  }
}

TEST_CASE("check/allowable: what bears nothing is at nothing, and what is no timber is not asked") {
  portal::Built built = loaded(us_portal(), 0, 0, 0);
  for (const auto& [check, id] :
       {std::pair{Check{check::allowable_bending}, "bending/rail"},
        std::pair{Check{check::allowable_shear}, "shear/rail"},
        std::pair{Check{check::allowable_torsion}, "torsion/rail"},
        std::pair{Check{check::allowable_beams}, "lateral/rail"},
        std::pair{Check{check::allowable_columns}, "buckling/left-post"}}) {
    const Finding f = run(check, built, id);
    CHECK(f.ratio == 0.0);
    CHECK(f.judgement == Judgement::satisfied);
    CHECK_FALSE(says(f, "would make the sum 1"));
  }
  model::Part strip = built.model.parts.parts[2];
  strip.name = "strip";
  strip.role = model::Role::strip;
  built.model.parts.parts.push_back(strip);
  for (const Check check : {Check{check::allowable_bending}, Check{check::allowable_shear},
                            Check{check::allowable_torsion}}) {
    CHECK(run(check, built).size() == 3);  // two posts and the rail
  }
}

TEST_CASE("check/allowable: a beam whose span is not known is not judged sideways") {
  portal::Built built = loaded(us_portal(), 0, 0, -800);
  built.model.parts.parts[2].span = {};
  const Finding f = run(check::allowable_beams, built, "lateral/rail");
  CHECK(f.judgement == Judgement::not_judged);
  CHECK(f.why == "its span is not known");
}

}  // namespace allowable_limits_test
