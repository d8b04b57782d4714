#include "check/laps.hpp"

#include <doctest/doctest.h>

#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "tests/check/portal.hpp"
#include "tests/check/solved_bench.hpp"
#include "tests/check/us_lumber.hpp"

namespace laps_test {

using namespace standtrue;
using doctest::Approx;
using quantity::in_si;

namespace {

std::string text_of(const std::string& rails) {
  return R"(
standtrue: 1
size: 1300 x 700 x 900 mm
timber: C24 45 x 120 mm
posts: 45 x 95 mm
analysis: {sheets: strip}
top: {sheet: 18 mm spruce plywood, load: none}
)" + rails;
}

model::Model model_of(const std::string& rails) { return solved_bench::idealised(text_of(rails)); }

const model::Part& post_of(const model::Model& model) {
  for (const model::Part& part : model.parts.parts) {
    if (part.name == "front-left post") return part;
  }
  FAIL("no post");
  return model.parts.parts.front();
}

/// Least and greatest area that is left along the post, as a share of the whole.
std::pair<double, double> left_of(const model::Model& model) {
  const model::Part& post = post_of(model);
  const check::Laps laps(model, post);
  double least = 1.0, most = 0.0;
  for (const std::size_t m : post.members) {
    const model::Member& member = model.members[m];
    const double length = in_si(model::member_frame(model, member).length);
    for (const double share : {0.0, 0.5, 1.0}) {
      check::Station station{};
      station.at = quantity::metres(share * length);
      const model::Part there = laps.left(member, station);
      const double area =
          in_si(there.width) * in_si(there.depth) / (in_si(post.width) * in_si(post.depth));
      least = std::min(least, area);
      most = std::max(most, area);
    }
  }
  return {least, most};
}

}  // namespace

TEST_CASE("check/laps: a post is halved where one rail is lapped with it, whole elsewhere") {
  const auto [least, most] = left_of(
      model_of("rails: {top: {long: {joint: half lap}, short: {joint: two corner brackets}}, "
               "lower: {joint: two corner brackets}}\n"));
  CHECK(least == Approx(0.5));
  CHECK(most == Approx(1.0));
}

TEST_CASE("check/laps: rails lapped from both sides leave a quarter; brackets leave it whole") {
  CHECK(left_of(model_of("joints: half lap\n")).first == Approx(0.25));
  const model::Model bracketed = model_of("joints: two corner brackets\n");
  CHECK(check::Laps(bracketed, post_of(bracketed)).none());
}

TEST_CASE(
    "check/laps: half the thickness doubles the stress about one axis, four times the other") {
  // W = b h²/6 (any handbook).
  const model::Model model = model_of(
      "rails: {top: {long: {joint: half lap}, short: {joint: two corner brackets}}, "
      "lower: {joint: two corner brackets}}\n");
  const model::Part& post = post_of(model);
  const check::Laps laps(model, post);
  const auto stress = [](const model::Part& part) {
    return check::bending_stress({quantity::newton_metres(100.0), quantity::newton_metres(100.0)},
                                 part.width, part.depth);
  };
  const auto whole = stress(post);
  bool is_found = false;
  for (const std::size_t m : post.members) {
    const model::Part there = laps.left(model.members[m], check::Station{});
    if (!(there.width * there.depth < post.width * post.depth)) continue;
    is_found = true;
    const auto left = stress(there);
    const double a = in_si(left.y) / in_si(whole.y), b = in_si(left.z) / in_si(whole.z);
    CHECK(std::min(a, b) == Approx(2.0));
    CHECK(std::max(a, b) == Approx(4.0));
  }
  CHECK(is_found);
}

TEST_CASE("check/laps: rails of 45 mm let into a post of 60 x 60 mm from two sides leave 15 x 15") {
  // W = 15^3/6 = 562.5 mm3 of 36000; 123 N m on it are 218.67 N/mm2.
  bench::Bench bench = bench_files::sound(R"(
standtrue: 1
size: 1300 x 700 x 900 mm
timber: C24 45 x 95 mm
posts: 60 x 60 mm
joints: two corner brackets
analysis: {sheets: strip}
top: {sheet: 18 mm spruce plywood, load: none}
)");
  for (bench::Rail& rail : bench.rails) rail.seat = bench::Seat::notched;
  const model::Model model = solved_bench::idealised(bench);
  CHECK(left_of(model).first == Approx(15.0 * 15.0 / (60.0 * 60.0)));
  CHECK(left_of(model).second == Approx(1.0));
  const model::Part& post = post_of(model);
  check::Station end{};
  end.at = model::member_frame(model, model.members[post.members.front()]).length;
  const model::Part there = check::Laps(model, post).left(model.members[post.members.front()], end);
  const auto sigma =
      check::bending_stress({quantity::newton_metres(123.0), {}}, there.width, there.depth);
  CHECK(1e-6 * in_si(sigma.y) == Approx(218.667).epsilon(1e-5));
}

namespace {

/// A rail that is flush with its posts' faces, let into them or between them.
portal::Built portal_with(portal::Portal p, bench::Seat seat, double fy, double fz) {
  p.aside = -0.5 * (p.post - p.rail_width);
  portal::Built built = portal::build(p);
  built.model.parts.bench.rails[0].seat = seat;
  portal::add_force(built.model, 0, fy, fz);
  return built;
}

struct Ratios {
  check::Finding between, notched;
};
Ratios ratios(portal::Check check, const portal::Portal& p, const std::string& id, double fy,
              double fz, bool is_allowed = false) {
  const auto of = [&](bench::Seat seat) {
    portal::Built built = portal_with(p, seat, fy, fz);
    if (is_allowed) us_lumber::allow(built);
    return portal::find(portal::run(check, built), id + "/left-post");
  };
  return {of(bench::Seat::between), of(bench::Seat::notched)};
}

bool tells_of_cut(const check::Finding& finding) {
  for (const std::string& line : finding.working) {
    if (line.find("rails are let in there: ") == 0) return true;
  }
  return false;
}

}  // namespace

TEST_CASE("check/laps: 20 x 90 mm of 90 x 90 bend, shear and buckle at 4.5 times the stress") {
  // A rail of 70 mm along x leaves 20 mm of the side along y: A and W_y (b h^2/6) are 1/4.5.
  const portal::Portal p;
  const Ratios sheared = ratios(check::shear, p, "shear", 0, -3000);
  CHECK(sheared.notched.ratio == Approx(4.5 * sheared.between.ratio));
  CHECK(sheared.notched.demand == Approx(4.5 * sheared.between.demand));
  CHECK(tells_of_cut(sheared.notched));
  CHECK_FALSE(tells_of_cut(sheared.between));
  const Ratios pressed = ratios(check::column_stability, p, "buckling", 0, -3000);
  CHECK(pressed.notched.ratio == Approx(4.5 * pressed.between.ratio));
  CHECK(tells_of_cut(pressed.notched));
  // 1500 N on 8100 mm2 against 0.9 x 21/1.3 N/mm2 count squared (6.19).
  const Ratios bent = ratios(check::bending, p, "bending", 0, -3000);
  const double c = 1500.0 / 8100.0 / (0.9 * 21.0 / 1.3);
  CHECK(bent.notched.ratio ==
        Approx(4.5 * (bent.between.ratio - c * c) + 4.5 * 4.5 * c * c).epsilon(1e-4));
  CHECK(tells_of_cut(bent.notched));
}

TEST_CASE("check/laps: 45 x 90 mm of 90 x 90 twist at 3.38 times the stress (Timoshenko)") {
  // tau = T/(alpha b^2 h), alpha = 0.208 at h/b = 1 and 0.246 at 2, in three digits:
  // 0.208 x 90^3/(0.246 x 45^2 x 90) = 3.382.
  portal::Portal p;
  p.rail_width = 0.045;
  const Ratios twisted = ratios(check::torsion, p, "torsion", 500, 0);
  CHECK(twisted.notched.demand == Approx(3.382 * twisted.between.demand).epsilon(5e-3));
  CHECK(tells_of_cut(twisted.notched));
}

TEST_CASE("check/laps: where it gives way the cure is not to let rails in; by the NDS as well") {
  const portal::Portal p;
  for (const portal::Check check : {check::bending, check::column_stability}) {
    const Ratios r = ratios(
        check, p, check == portal::Check{check::bending} ? "bending" : "buckling", 0, -20000);
    CHECK(r.between.judgement == check::Judgement::satisfied);
    CHECK(r.notched.judgement == check::Judgement::exceeded);
    CHECK(r.notched.advice == "rails that are not let into the left post, or a thicker post");
  }
  // A 2x4 let into a 4x4: 88.9 - 38.1 = 50.8 mm are left, 88.9/50.8 = 1.75.
  portal::Portal us = us_lumber::us_portal();
  us.bend = 1e4;
  const Ratios sheared = ratios(check::allowable_shear, us, "shear", 0, -3000, true);
  CHECK(sheared.notched.ratio == Approx(1.75 * sheared.between.ratio));
  CHECK(tells_of_cut(sheared.notched));
  const Ratios bent = ratios(check::allowable_bending, us, "bending", 0, -3000, true);
  const double c = 1500.0 / (0.0889 * 0.0889) / (1150 * 1.25 * 1.15 * us_lumber::psi);
  CHECK(bent.notched.ratio ==
        Approx(1.75 * (bent.between.ratio - c * c) + 1.75 * 1.75 * c * c).epsilon(1e-4));
  CHECK(tells_of_cut(bent.notched));
  const Ratios pressed = ratios(check::allowable_columns, us, "buckling", 0, -3000, true);
  CHECK(pressed.notched.ratio > 1.5 * pressed.between.ratio);
  CHECK(tells_of_cut(pressed.notched));
}

}  // namespace laps_test
