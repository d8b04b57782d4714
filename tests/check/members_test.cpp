#include "standtrue/check/members.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "check/words.hpp"
#include "standtrue/check/strength.hpp"
#include "tests/check/portal.hpp"

namespace members_test {

using namespace standtrue;
using check::Finding;
using check::Judgement;
using portal::Check;
using portal::find;
using portal::Portal;
using portal::run;
using quantity::in_si;
using quantity::metres;
using quantity::millimetres;

namespace {

/// The rail hangs in hinges: its moments are by statics.
portal::Built hinged(Portal p = {}) {
  p.bend = 1e-3;
  return portal::build(p);
}

}  // namespace

TEST_CASE("check/members: PL/4 on a 70 x 120 C24 rail for a short time, by hand (6.1.6)") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -3000);
  const Finding f = find(run(check::bending, built), "bending/rail");
  // 3000 x 1.31/4 = 982.5 N m; W = 70 x 120^2/6 = 168000; sigma = 5.848
  // f_m,d = (150/120)^0.2 x 0.9 x 24/1.3 = 1.04564 x 16.6154 = 17.3737
  CHECK(f.ratio == doctest::Approx(5.84821 / 17.3737).epsilon(1e-4));
  CHECK(f.judgement == Judgement::satisfied);
  CHECK(f.sentence == "The rail is bent to a third of its strength.");
  CHECK(f.place == "rail, 655 mm from its left end");
  CHECK(f.combination == "c0");
  CHECK(f.kind == check::Kind::safety);
  CHECK(f.group == check::Group::carry);
  CHECK(f.source.key == "EN 338:2016");
  CHECK(f.working.size() >= 5);
}

TEST_CASE("check/members: tension and compression along the rail count by their own rules (6.2)") {
  const auto ratio = [](double fx) {
    portal::Built built = hinged();
    built.model.members[4].start_springs[0] =
        model::EndSpring::elastic(1e-3);  // N to the right end
    portal::add_force(built.model, fx, 0, -3000);
    return find(run(check::bending, built), "bending/rail").ratio;
  };
  const double bent = ratio(0.0);
  const double A = 0.07 * 0.12;
  const double f_t = 1.04564 * 0.9 * 14.5e6 / 1.3, f_c = 0.9 * 21e6 / 1.3;
  // Pushed to the left from the middle, the right half is in tension.
  CHECK(ratio(-9000) == doctest::Approx(bent + 9000 / A / f_t).epsilon(1e-3));
  // In compression the square adds less at the middle than the tension side on the left of it.
  CHECK(ratio(9000) >= bent + std::pow(9000 / A / f_c, 2) * 0.999);
  CHECK(ratio(9000) < ratio(-9000));
}

TEST_CASE("check/members: a stronger class or a deeper rail is never worse") {
  for (const Check check :
       {check::bending, check::shear, check::torsion, check::lateral_stability}) {
    double last = 1e9;
    for (const char* timber : {"C14", "C16", "C24", "C30"}) {
      Portal p;
      p.timber = timber;
      portal::Built built = hinged(p);
      portal::add_force(built.model, 500, 300, -3000);
      for (const Finding& f : run(check, built)) {
        if (f.place.rfind("rail", 0) != 0) continue;
        CHECK(f.ratio <= last);
        last = f.ratio;
      }
    }
  }
}

TEST_CASE("check/members: a part that belongs to other air is not judged, never satisfied") {
  portal::Built built = hinged();
  built.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
  for (model::Part& part : built.model.parts.parts) part.timber.material = reference::Material::mdf;
  built.model.parts.parts[2].bearing = millimetres(90);
  portal::add_force(built.model, 0, 0, -3000);
  for (const Check check :
       {check::bending, check::shear, check::torsion, check::column_stability,
        check::lateral_stability, check::seat_bearing, check::post_end_bearing}) {
    const std::vector<Finding> findings = run(check, built);
    CHECK_FALSE(findings.empty());
    for (const Finding& f : findings) {
      CHECK(f.judgement == Judgement::not_judged);
      CHECK(f.why.find("service class 3") != std::string::npos);
      CHECK(std::isnan(f.ratio));
    }
  }
}

TEST_CASE("check/members: without an answered combination nothing is satisfied") {
  portal::Built built = hinged();
  built.model.parts.parts[2].bearing = millimetres(90);
  portal::add_force(built.model, 0, 0, -3000);
  built.model.combinations[0].purpose = model::Purpose::service;
  for (const Check check :
       {check::bending, check::shear, check::torsion, check::column_stability,
        check::lateral_stability, check::seat_bearing, check::post_end_bearing}) {
    for (const Finding& f : run(check, built)) {
      CHECK(f.judgement == Judgement::not_judged);
      CHECK(f.why == "no combination of loads was answered");
    }
  }
}

TEST_CASE("check/members: forces that are no numbers never pass") {
  portal::Built built = hinged();
  built.model.parts.parts[2].bearing = millimetres(90);
  portal::add_force(built.model, 0, 0, -3000);
  portal::Solved solved = portal::solve(built);
  for (auto& forces : solved.response.states[0]->end_forces) forces.fill(std::nan(""));
  for (double& force : solved.response.states[0]->support_forces) force = std::nan("");
  const check::SectionForces forces(solved.answers());
  for (const Check check :
       {check::bending, check::shear, check::torsion, check::column_stability,
        check::lateral_stability, check::seat_bearing, check::post_end_bearing}) {
    for (const Finding& f : check(solved.answers(), forces, portal::tables())) {
      CHECK(f.judgement == Judgement::not_judged);
      CHECK(f.why == "the forces are not numbers");
    }
  }
}

TEST_CASE("check/members: half of 3 kN shears the rail: 1.5 V/(0.67 b h) (6.1.7)") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -3000);
  const Finding f = find(run(check::shear, built), "shear/rail");
  CHECK(f.demand == doctest::Approx(1.5 * 1500 / (0.67 * 0.07 * 0.12)).epsilon(1e-4));
  CHECK(f.limit == doctest::Approx(0.9 * 4.0e6 / 1.3));
  CHECK(f.unit == quantity::Kind::stress);
  CHECK(f.sentence == "The rail is sheared to a sixth of its strength.");
}

TEST_CASE("check/members: overloaded members are exceeded and say what cures them") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -60000);
  portal::add_force(built.model, 0, 0, -60000);
  model::MemberPointLoad& load = built.model.cases[1].point_loads[0];
  load.moment.x = quantity::newton_metres(4000);
  for (const Check check :
       {check::bending, check::shear, check::torsion, check::lateral_stability}) {
    for (const Finding& f : run(check, built)) {
      if (f.place.rfind("rail", 0) != 0) continue;
      CHECK(f.judgement == Judgement::exceeded);
      CHECK_FALSE(f.advice.empty());
      CHECK(f.sentence.find("times") != std::string::npos);
    }
  }
}

TEST_CASE("check/members: twist of the rail by hand (6.1.8)") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -1);
  built.model.cases[0].point_loads[0].moment.x = quantity::newton_metres(200);
  const Finding f = find(run(check::torsion, built), "torsion/rail");
  // Half each way: 100 N m; tau = T/(k_2 a b^2), k_2 = 0.238 for 120:70 (Timoshenko & Goodier)
  CHECK(f.demand == doctest::Approx(100 / (0.238 * 0.12 * 0.07 * 0.07)).epsilon(5e-3));
  CHECK(f.limit == doctest::Approx((1.0 + 0.05 * 120 / 70) * 0.9 * 4.0e6 / 1.3));
}

TEST_CASE(
    "check/members: a post sways as a cantilever of twice its height until it is held (6.3.2)") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -3000);
  const auto post = [&] { return find(run(check::column_stability, built), "buckling/left-post"); };
  const auto says = [](const Finding& f, const std::string& words) {
    for (const std::string& line : f.working) {
      if (line.find(words) != std::string::npos) return true;
    }
    return false;
  };
  const Finding free = post();
  CHECK(says(free, "effective length 2 x 900 mm about y, 2 x 900 mm about z"));
  // lambda_rel = 1800 sqrt 12/90/pi sqrt(21/7400) = 1.175
  CHECK(says(free, "lambda_rel,y = 1.17, lambda_rel,z = 1.17"));

  // A diagonal from foot to top, in the plane of the posts.
  model::Part brace;
  brace.name = "brace";
  brace.role = model::Role::brace;
  brace.timber = *portal::tables().timber("C24");
  brace.width = millimetres(19);
  brace.depth = millimetres(89);
  brace.members = {portal::detail::add_member(built.model, "brace", 0, 5, 0.019, 0.089, 3)};
  built.model.parts.parts.push_back(brace);
  bench::Brace drawn;
  drawn.to_post = 1;
  built.model.parts.bench.braces = {drawn};
  const Finding held = post();
  CHECK(says(held, "effective length 1 x 900 mm about y, 2 x 900 mm about z"));
  CHECK(says(held, "along held by a diagonal or a fixed sheet; across free to sway"));
  const Finding pressed = find(run(check::column_stability, built), "buckling/brace");
  CHECK(says(pressed, "a brace is taken as pinned"));
  CHECK(pressed.place.find("lower end") != std::string::npos);

  // The same as a knee to a rail holds nothing.
  built.model.parts.bench.braces[0].to_post.reset();
  built.model.parts.bench.braces[0].to_rail = 0;
  CHECK(says(post(), "2 x 900 mm about y"));
}

TEST_CASE("check/members: sheets hold posts in their plane, or two planes hold all") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -3000);
  const auto says = [&](const std::string& words) {
    const Finding f = find(run(check::column_stability, built), "buckling/left-post");
    for (const std::string& line : f.working) {
      if (line.find(words) != std::string::npos) return true;
    }
    return false;
  };
  bench::Sheet back;
  back.place = bench::SheetPlace::back;
  back.y0 = metres(0.5);
  built.model.parts.bench.sheets = {back};
  built.model.parts.shear_fields = {{"back", 0, 1e6, {}}};
  CHECK(says("along free to sway"));  // half a metre behind the posts, and alone
  back.y0 = metres(-0.5);
  built.model.parts.bench.sheets.push_back(back);
  built.model.parts.shear_fields.push_back({"front", 1, 1e6, {}});
  CHECK(says("along held"));
  CHECK(says("across free"));
  bench::Sheet end;
  end.place = bench::SheetPlace::end;
  end.x0 = metres(0.04);
  built.model.parts.bench.sheets.push_back(end);
  built.model.parts.shear_fields.push_back({"end", 2, 1e6, {}});
  CHECK(says("across held"));
}

TEST_CASE("check/members: a thin post under a heavy load buckles") {
  Portal p;
  p.post = 0.03;
  p.span = 0.5;
  portal::Built built = hinged(p);
  portal::add_force(built.model, 0, 0, -12000);
  const Finding f = find(run(check::column_stability, built), "buckling/left-post");
  CHECK(f.judgement == Judgement::exceeded);
  CHECK_FALSE(f.advice.empty());
}

TEST_CASE("check/members: a short thick post is judged without buckling (6.3.2(2))") {
  Portal p;
  p.post = 0.25;
  p.height = 0.32;
  p.rail_height = 0.25;
  portal::Built built = hinged(p);
  portal::add_force(built.model, 0, 0, -3000);
  const double stability = find(run(check::column_stability, built), "buckling/left-post").ratio;
  CHECK(stability <= find(run(check::bending, built), "bending/left-post").ratio + 1e-9);
}

TEST_CASE("check/members: rails tip sideways by k_crit, and buckle when pushed (6.3.3, (6.35))") {
  Portal p;
  p.rail_width = 0.018;
  p.rail_depth = 0.16;
  p.span = 2.5;
  portal::Built built = hinged(p);
  portal::add_force(built.model, 0, 0, -300);
  const Finding slender = find(run(check::lateral_stability, built), "lateral/rail");
  const double bent = find(run(check::bending, built), "bending/rail").ratio;
  // l_ef = 2.41 + 0.32 = 2.73 m; sigma_crit = 0.78 x 18^2 x 7400/(160 x 2730) = 4.281;
  // lambda_rel = sqrt(24/4.281) = 2.368; k_crit = 1/5.606
  // and a little compression, as the posts lean on the rail
  CHECK(slender.ratio >= bent * 5.6);
  CHECK(slender.ratio < bent * 5.6 * 1.03);
  portal::add_force(built.model, 2000, 0, -300);
  CHECK(find(run(check::lateral_stability, built), "lateral/rail").ratio > slender.ratio);
  built.model.parts.parts[2].span = {};
  CHECK(find(run(check::lateral_stability, built), "lateral/rail").why == "its span is not known");
}

TEST_CASE("check/members: a seat of 90 mm under 1.5 kN (6.1.5)") {
  Portal p;
  p.bearing = 0.09;
  portal::Built built = hinged(p);
  portal::add_force(built.model, 0, 0, -3000);
  const Finding f = find(run(check::seat_bearing, built), "seat/rail");
  // 1.5 x 0.9 x 2.5/1.3 x 70 x (90 + 30) = 21808 N
  CHECK(f.limit == doctest::Approx(21807.7).epsilon(1e-4));
  CHECK(f.demand == doctest::Approx(1500).epsilon(1e-4));
  CHECK(f.sentence == "The rail is pressed on its seat to a tenth of its strength.");
  portal::add_force(built.model, 0, 0, -60000);
  const Finding crushed = find(run(check::seat_bearing, built), "seat/rail");
  CHECK(crushed.judgement == Judgement::exceeded);
  CHECK_FALSE(crushed.advice.empty());
  portal::Built lifted = hinged(p);
  portal::add_force(lifted.model, 0, 0, 3000);
  CHECK(find(run(check::seat_bearing, lifted), "seat/rail").ratio == 0.0);
}

TEST_CASE("check/members: the post's end on the flange of its insert (6.1.4)") {
  portal::Built built = hinged();
  portal::add_force(built.model, 0, 0, -3000);
  const Finding f = find(run(check::post_end_bearing, built), "post-end/left-post");
  // M10: flange 25, barrel 12: 377.8 mm2 x 0.9 x 21/1.3 = 5493 N
  CHECK(f.limit == doctest::Approx(3.14159265 / 4 * (625 - 144) * 0.9 * 21 / 1.3).epsilon(1e-6));
  CHECK(f.demand == doctest::Approx(1500).epsilon(1e-3));
  built.model.parts.bench.posts[0].foot.bare = true;
  CHECK(find(run(check::post_end_bearing, built), "post-end/left-post").limit ==
        doctest::Approx(8100 * 0.9 * 21 / 1.3));
  built.model.parts.bench.posts[0].foot.bare = false;
  built.model.parts.bench.posts[0].foot.thread.insert_flange = {};
  CHECK(find(run(check::post_end_bearing, built), "post-end/left-post").judgement ==
        Judgement::not_judged);
  portal::add_force(built.model, 0, 0, -30000);
  const Finding crushed = find(run(check::post_end_bearing, built), "post-end/right-post");
  CHECK(crushed.judgement == Judgement::exceeded);
  CHECK_FALSE(crushed.advice.empty());
}

TEST_CASE("check/members: places are told from the end that a person would measure from") {
  portal::Built built = hinged();
  model::Model& m = built.model;
  const auto place = [&](const model::Part& part, double at) {
    return check::place_on(m, part, part.members[0], metres(at));
  };
  CHECK(place(m.parts.parts[2], 0.3) == "rail, 300 mm from its left end");
  CHECK(place(m.parts.parts[0], 0.3) == "left post, 300 mm from its foot");
  CHECK(check::place_on(m, m.parts.parts[0], m.parts.parts[0].members[1], metres(0.1)) ==
        "left post, 800 mm from its foot");
  // A rail that runs from the right to the left, and one to the back.
  std::swap(m.members[4].start, m.members[4].end);
  std::swap(m.members[4].start_offset, m.members[4].end_offset);
  CHECK(place(m.parts.parts[2], 0.3) == "rail, 1010 mm from its left end");
  m.nodes[m.members[4].start].at.y = metres(9);
  CHECK(place(m.parts.parts[2], 0.0).find("from its front end") != std::string::npos);
}

TEST_CASE("check/members: shares of a strength in words") {
  CHECK(check::share_of(0.0) == "a twentieth or less of");
  CHECK(check::share_of(0.33) == "a third of");
  CHECK(check::share_of(1.0) == "nearly all of");
  CHECK(check::share_of(1.04) == "a little more than");
  CHECK(check::share_of(1.26) == "1.3 times");
  CHECK(check::share_of(50.0) == "many times");
  CHECK(check::share_of(std::nan("")) == "many times");
}

}  // namespace members_test
