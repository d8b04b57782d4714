#include "check/laps.hpp"

#include <doctest/doctest.h>

#include "standtrue/check/strength.hpp"
#include "tests/check/solved_bench.hpp"

namespace laps_test {

using namespace standtrue;
using doctest::Approx;
using quantity::in_si;

namespace {

model::Model model_of(const std::string& rails) {
  return solved_bench::idealised(R"(
standtrue: 1
size: 1300 x 700 x 900 mm
timber: C24 45 x 120 mm
posts: 45 x 95 mm
analysis: {sheets: strip}
top: {sheet: 18 mm spruce plywood, load: none}
)" + rails);
}

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

}  // namespace laps_test
