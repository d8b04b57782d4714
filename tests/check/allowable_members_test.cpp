// Findings of allowable stress on a portal whose rail hangs in hinges: its moments are by statics.
#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/us_lumber.hpp"

namespace allowable_members_test {

using namespace us_lumber;

namespace {

/// Nothing pushes along the rail.
portal::Built without_push(portal::Built built) {
  built.model.members[4].start_springs[0] = model::EndSpring::elastic(1e-3);
  return built;
}

}  // namespace

TEST_CASE("check/allowable: PL/4 on a 2x4 of SPF No.2 for a week, by hand (NDS 2018, 3.3.1)") {
  const Finding f = run(check::allowable_bending, loaded(us_portal(), 0, 0, -800), "bending/rail");
  // 800 x 1.3111/4 = 262.2 N m; S = 38.1 x 88.9^2/6 = 50185 mm3; f_b = 5.225 N/mm2
  // F_b* = 875 psi x 1.25 x 1.5 = 1640.6 psi = 11.312 N/mm2
  CHECK(f.ratio ==
        doctest::Approx(800 * L / 4 / (b * d * d / 6) / (875 * 1.25 * 1.5 * psi)).epsilon(1e-4));
  CHECK(f.ratio == doctest::Approx(0.4619).epsilon(1e-3));
  CHECK(f.judgement == Judgement::satisfied);
  CHECK(f.kind == check::Kind::safety);
  CHECK(f.sentence == "The rail is bent to half of what its grade allows.");
  CHECK(f.rule == "NDS 2018, 3.3.1, 3.9.1 and 3.9.2, eq. (3.9-1)");
  CHECK(f.source.key == "NDS Supplement");
  CHECK(f.combination == "c0");
  CHECK(f.place == "rail, 656 mm from its left end");
  REQUIRE(f.working.size() >= 4);
  CHECK(f.working[0] == "somebody stands on it; short term loads, no load factors: C_D = 1.25");
  CHECK(f.working[3] ==
        "F_b* = F_b C_D C_M C_F = 6.03 N/mm2 x 1.25 x 1 x 1.5 = 11.3 N/mm2; flatwise times C_fu = "
        "1.1: 12.4 N/mm2");
}

TEST_CASE("check/allowable: shear 3V/2bd and its units (NDS 2018, 3.4.2)") {
  const Finding f = run(check::allowable_shear, loaded(us_portal(), 0, 0, -800), "shear/rail");
  // V = 400 N: 1.5 x 400/3387 mm2 = 0.1771 N/mm2 against 135 psi x 1.25 = 1.1635
  CHECK(f.demand == doctest::Approx(1.5 * 400 / (b * d)).epsilon(1e-4));
  CHECK(f.limit == doctest::Approx(135 * 1.25 * psi));
  CHECK(f.ratio == doctest::Approx(0.1523).epsilon(1e-3));
  CHECK(f.unit == quantity::Kind::stress);
}

TEST_CASE("check/allowable: twist is held against F_v', and says that this is ours") {
  const portal::Built built = loaded(us_portal(), 0, 0, -800);
  const Finding f = run(check::allowable_torsion, built, "torsion/rail");
  CHECK(f.judgement == Judgement::satisfied);
  CHECK(f.rule.find("the NDS has no rule for twist (ours)") != std::string::npos);
  CHECK(f.limit == doctest::Approx(135 * 1.25 * psi));
}

TEST_CASE("check/allowable: a 2x4 rail held at its ends gives way sideways (NDS 2018, 3.3.3)") {
  const Finding f =
      run(check::allowable_beams, without_push(loaded(us_portal(), 0, 0, -800)), "lateral/rail");
  // l_u/d = 14.75: l_e = 1.84 x 1311.1 = 2412.4 mm; R_B = sqrt(2412.4 x 88.9)/38.1 = 12.155;
  // F_bE = 1.2 x 510e3/147.74 = 4142 psi; F_b* = 1640.6: r = 2.5249; C_L = 1.85523 -
  // sqrt(3.44187 - 2.65775) = 0.96973. Nothing pushes: f_b1/F_b1' alone.
  const double f_b = 800 * L / 4 / (b * d * d / 6) / psi;
  CHECK(f.ratio == doctest::Approx(f_b / (0.96973 * 1640.6)).epsilon(1e-4));
  CHECK(f.judgement == Judgement::satisfied);
}

TEST_CASE("check/allowable: a pull eases the edge that would give way (NDS 2018, eq. (3.9-2))") {
  portal::Built built = without_push(loaded(us_portal(), 0, 0, -800));
  model::LoadCase& load = built.model.cases.back();
  load.point_loads.push_back(load.point_loads[0]);
  load.point_loads[1].at = millimetres(1);  // all to the right of it is pulled
  load.point_loads[1].force = {quantity::newtons(-3000), {}, {}};
  const double f_b = 800 * L / 4 / (b * d * d / 6) / psi, f_t = 3000 / (b * d) / psi;
  CHECK(run(check::allowable_beams, built, "lateral/rail").ratio ==
        doctest::Approx((f_b - f_t) / (0.96973 * 1640.6)).epsilon(1e-3));
  CHECK(run(check::allowable_bending, built, "bending/rail").ratio ==
        doctest::Approx(f_b / 1640.6 + f_t / (450 * 1.25 * 1.5)).epsilon(1e-3));
}

TEST_CASE("check/allowable: laid flat a 2x4 takes C_fu and can not tip (NDS 2018, 3.3.3.1)") {
  Portal p = us_portal();
  std::swap(p.rail_width, p.rail_depth);
  const portal::Built built = without_push(loaded(p, 0, 0, -300));
  const Finding f = run(check::allowable_bending, built, "bending/rail");
  const double f_b = 300 * L / 4 / (d * b * b / 6) / psi;
  CHECK(f.ratio == doctest::Approx(f_b / (875 * 1.25 * 1.5 * 1.1)).epsilon(1e-4));
  CHECK(run(check::allowable_beams, built, "lateral/rail").ratio ==
        doctest::Approx(f.ratio).epsilon(1e-6));
}

TEST_CASE(
    "check/allowable: a post free to sway is a column of twice its height (NDS 2018, 3.7.1)") {
  // The posts are clamped and carry half each: 6 kN, and no moment but what their joints give.
  const Finding f =
      run(check::allowable_columns, loaded(us_portal(), 0, 0, -12000), "buckling/left-post");
  REQUIRE(f.judgement != Judgement::not_judged);
  // l_e/d = 2 x 900/88.9 = 20.247: F_cE = 0.822 x 510e3/409.95 = 1022.6 psi;
  // F_c* = 1150 x 1.25 x 1.15 = 1653.1; r = 0.61860; C_P = 1.01162 - sqrt(1.02338 - 0.77325)
  //      = 0.51149; f_c = 6000/7903.2 mm2 = 110.11 psi
  bool has_factor = false;
  for (const std::string& line : f.working) {
    has_factor = has_factor || line.find("C_P = 0.511") != std::string::npos;
  }
  CHECK(has_factor);
  CHECK(f.ratio >= 110.11 / (0.51149 * 1653.1));
  CHECK(f.source.key == "NDS Supplement");
}

TEST_CASE("check/allowable: l_e/d over 50 is judged only where next to nothing pushes") {
  Portal p = us_portal();
  p.span = 2.6;  // (2600 - 88.9)/38.1 = 65.9
  const auto of = [&](double push) {
    portal::Built built = loaded(p, 0, 0, -300);
    // Pushed from the right end: the left half of the rail is in compression.
    model::LoadCase& load = built.model.cases.back();
    load.point_loads[0].force.x = quantity::newtons(-2.0 * push);
    return run(check::allowable_beams, built, "lateral/rail");
  };
  // F_cE2 = 0.822 x 510e3/65.9^2 = 96.5 psi on 5.25 in2: 2254 N; a twentieth is 113 N.
  CHECK(of(0).judgement == Judgement::satisfied);
  CHECK(of(90).judgement == Judgement::satisfied);
  const Finding f = of(150);
  CHECK(f.judgement == Judgement::not_judged);
  CHECK(f.why ==
        "it is pushed along, and its slenderness l_e/d = 66 is over 50, where the rule ends");
  CHECK(f.advice == "a wider rail, or a sheet screwed along it");
  // What exceeds is not hidden by what can not be judged.
  portal::Built built = loaded(p, 0, 0, -4000);
  built.model.cases.back().point_loads[0].force.x = quantity::newtons(-300);
  CHECK(run(check::allowable_beams, built, "lateral/rail").judgement == Judgement::exceeded);
}

TEST_CASE("check/allowable: R_B over 50 is not judged (NDS 2018, 3.3.3.7)") {
  Portal p = us_portal();
  p.span = 10.5;
  p.rail_depth = 0.2858;  // l_e = 1.84 x 10.411 m; R_B = sqrt(19.156 x 0.2858)/0.0381 = 61.4
  const Finding f = run(check::allowable_beams, loaded(p, 0, 0, -10), "lateral/rail");
  CHECK(f.judgement == Judgement::not_judged);
  CHECK(f.why == "its slenderness as a beam R_B = 61 is over 50, where the rule ends");
}

TEST_CASE("check/allowable: a 2x4 rail on its seats: F_c_perp b l_b, no C_D (NDS 2018, 3.10.2)") {
  Portal p = us_portal();
  p.bearing = 0.0889;
  const Finding f = run(check::allowable_seats, loaded(p, 0, 0, -4000), "seat/rail");
  CHECK(f.limit == doctest::Approx(425 * psi * b * 0.0889));
  CHECK(f.demand == doctest::Approx(2000).epsilon(1e-3));
  CHECK(f.ratio == doctest::Approx(2000 / (425 * psi * b * 0.0889)).epsilon(1e-3));
}

TEST_CASE(
    "check/allowable: the end of a post that stands on the floor: F_c* A (NDS 2018, 3.10.1)") {
  portal::Built built = loaded(us_portal(), 0, 0, -12000);
  for (bench::Post& post : built.model.parts.bench.posts) post.foot.bare = true;
  const Finding f = run(check::allowable_post_ends, built, "post-end/left-post");
  CHECK(f.limit == doctest::Approx(1150 * 1.25 * 1.15 * psi * 0.0889 * 0.0889));
  CHECK(f.demand == doctest::Approx(6000).epsilon(1e-3));
}

TEST_CASE("check/allowable: notches up to a quarter of the depth (NDS 2018, 3.4.3.2 and 4.4.3.2)") {
  const auto notched = [](double notch_mm) {
    portal::Built built = loaded(us_portal(), 0, 0, -800);
    built.model.parts.bench.rails[0].notch = millimetres(notch_mm);
    return run(check::allowable_notches, built, "notch/rail");
  };
  const Finding f = notched(20);
  const double d_n = 0.0689;
  CHECK(f.limit ==
        doctest::Approx(135 * 1.25 * psi * b * d_n / 1.5 * (d_n / d) * (d_n / d)).epsilon(1e-6));
  CHECK(f.demand == doctest::Approx(400).epsilon(1e-3));
  const Finding deep = notched(30);  // 0.34 of the depth
  CHECK(deep.judgement == Judgement::not_judged);
  CHECK(deep.why == "the notch takes 0.34 of its depth, and the rule ends at 0.25");
}

TEST_CASE("check/allowable: a better grade is never worse, a longer load never better") {
  // Of the listed woods only these two stand in one order in every value.
  struct Checked {
    Check check;
    std::string id;
  };
  for (const Checked& c : {Checked{check::allowable_bending, "bending/rail"},
                           Checked{check::allowable_shear, "shear/rail"},
                           Checked{check::allowable_torsion, "torsion/rail"},
                           Checked{check::allowable_beams, "lateral/rail"},
                           Checked{check::allowable_columns, "buckling/left-post"}}) {
    CAPTURE(c.id);
    CHECK(run(c.check, loaded(us_portal("DF-L No.2"), 0, 0, -800), c.id).ratio <=
          run(c.check, loaded(us_portal("SPF No.2"), 0, 0, -800), c.id).ratio);
    double last = 0.0;
    for (const Duration duration :
         {Duration::instantaneous, Duration::short_term, Duration::medium_term, Duration::long_term,
          Duration::permanent}) {
      const double r = run(c.check, loaded(us_portal(), 0, 0, -800, duration), c.id).ratio;
      CHECK(r >= last);
      last = r;
    }
  }
}

TEST_CASE("check/allowable: strength combinations are not judged, and nothing is left unsaid") {
  portal::Built built = loaded(us_portal(), 0, 0, -800);
  built.model.combinations.back().purpose = model::Purpose::strength;
  const Finding f = run(check::allowable_bending, built, "bending/rail");
  CHECK(f.judgement == Judgement::not_judged);
  CHECK(f.why == "no combination of loads was answered");
}

TEST_CASE("check/allowable: timber of no grade is not judged, with the reason") {
  const portal::Built built = loaded(us_portal("C24"), 0, 0, -800);
  for (const Finding& f : {run(check::allowable_bending, built, "bending/rail"),
                           run(check::allowable_shear, built, "shear/rail"),
                           run(check::allowable_beams, built, "lateral/rail"),
                           run(check::allowable_columns, built, "buckling/left-post"),
                           run(check::allowable_post_ends, built, "post-end/left-post")}) {
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(f.why == "C24 has no allowable stresses");
  }
}

TEST_CASE(
    "check/allowable: a piece too thin or too thick for its grade is not judged, with a cure") {
  Portal p = us_portal();
  p.rail_width = 0.01905;
  p.post = 0.1397;
  const portal::Built built = loaded(p, 0, 0, -100);
  const Finding thin = run(check::allowable_beams, built, "lateral/rail");
  CHECK(thin.judgement == Judgement::not_judged);
  CHECK(thin.advice == "lumber of 2 in (nominal) or more");
  const Finding thick = run(check::allowable_post_ends, built, "post-end/left-post");
  CHECK(thick.judgement == Judgement::not_judged);
  CHECK(thick.advice == "lumber of 4 in (nominal) or less");
}

TEST_CASE("check/check_all: the bench's rules choose who judges members; joints stay") {
  portal::Built built = loaded(us_portal(), 0, 0, -800);
  portal::add_force(built.model, 0, 0, -1200);
  const auto rules_of = [](const portal::Built& which) {
    const portal::Solved solved = portal::solve(which);
    std::string bending, joint;
    for (const Finding& f : check::check_all(solved.answers(), portal::tables())) {
      if (f.id == "bending/rail") bending = f.rule;
      if (f.id.rfind("joint", 0) == 0 && joint.empty()) joint = f.rule;
    }
    return std::pair(bending, joint);
  };
  const auto us = rules_of(built);
  CHECK(us.first.rfind("NDS 2018", 0) == 0);
  CHECK(us.second.rfind("EN 1995-1-1", 0) == 0);
  built.model.parts.bench.rules = bench::Rules::limit_states;
  CHECK(rules_of(built).first.rfind("EN 1995-1-1", 0) == 0);
}

}  // namespace allowable_members_test
