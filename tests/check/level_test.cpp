// What a bench does to the bed of a lathe: laws, and what the finding says.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "check/printer.hpp"
#include "standtrue/check/level_readings.hpp"
#include "standtrue/check/plates.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/lathe_bench.hpp"
#include "tests/solve/plate_models.hpp"

namespace level_test {

using namespace standtrue;
using namespace lathe_bench;
using check::Finding;
using check::Judgement;
using tests::close_to;

TEST_CASE("check/level: deeper rails cure what the rails twist, as their depth cubed") {
  // Leaning on the front edge bends the front rail alone; under a lathe off the middle it sinks
  // unlike at both ends of the bed. A rail sags as 1/h³, joints and sheet take a part that does
  // not: between the square and the fourth power.
  const double at_95 = change(solved({}), "front edge, middle").bed;
  CHECK(at_95 > 20e-6);
  for (const int rail : {120, 145, 195}) {
    Shop deeper;
    deeper.rail = rail;
    const double now = change(solved(deeper), "front edge, middle").bed;
    const double h = 95.0 / rail;
    CHECK(now < at_95 * h * h);
    CHECK(now > at_95 * h * h * h * h);
  }
}

TEST_CASE("check/level: a deeper rail in front alone leaves the back as it was") {
  Shop front;
  front.front_rail = 195;
  const Solved uneven = solved(front), plain = solved({});
  CHECK(change(uneven, "front edge, middle").bed < 0.25 * change(plain, "front edge, middle").bed);
  CHECK(change(uneven, "back edge, middle").bed ==
        close_to(change(plain, "back edge, middle").bed, 0.05));
  // Unlike rails under a lathe off the middle: at rest the top twists more than over like ones.
  Shop both;
  both.rail = 195;
  CHECK(std::abs(uneven.warp()) > 2.0 * std::abs(solved(both).warp()));
}

TEST_CASE("check/level: a thicker top passes more of the rails' twist on to the bed") {
  // The top warps with its rails, about as much whatever its thickness; but the stiffer it is, the
  // less the bed can hold it back: 1/(1 + k Γ/b²) grows as Γ falls.
  Change before;
  for (const int thickness : {12, 18, 24}) {
    Shop shop;
    shop.top = thickness;
    const Change now = change(solved(shop), "front edge, middle");
    CHECK(now.bed > 1.5 * before.bed);
    if (before.bare > 0.0) CHECK(now.bare == close_to(before.bare, 0.25));
    before = now;
  }
}

TEST_CASE("check/level: leaning beside a pad the sheet twists the bed; rails do nothing there") {
  const double plain = change(solved({}), "middle").bed;
  Shop deep;
  deep.rail = 195;
  CHECK(change(solved(deep), "middle").bed == close_to(plain, 0.05));
  // A top twice as thick warps a sixth as much by itself, yet the bed is twisted more than half as
  // much: what the stiffer top warps less it hands on more.
  Shop thin, thick;
  thin.top = 12;
  thick.top = 24;
  const Change at_12 = change(solved(thin), "middle"), at_24 = change(solved(thick), "middle");
  CHECK(at_24.bed / at_12.bed < 1.0);
  CHECK(at_24.bed / at_12.bed > 0.5);
  CHECK(at_24.bare / at_12.bare < 0.2);
}

TEST_CASE("check/level: the finding holds the worst lean against the test chart's 0.04 mm/m") {
  const Solved bench = solved({});
  const Finding f = bench.finding();
  double worst = 0.0;
  for (const model::PersonPlace& person : bench.model.parts.persons) {
    worst = std::max(worst, std::abs(change(bench, person.name).bed));
  }
  CHECK(f.id == "twist/mini-metal-lathe");
  CHECK(f.kind == check::Kind::service);
  CHECK(f.group == check::Group::twist);
  CHECK(f.unit == quantity::Kind::slope);
  CHECK(f.demand == close_to(worst, 1e-9));
  CHECK(f.limit == close_to(0.04e-3, 1e-12));
  CHECK(f.source.key == "Centre lathe test chart");
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(f.combination == "service-lean-middle");
  CHECK(f.place == "mini metal lathe, leaned on at the middle");
  CHECK(f.sentence ==
        "The bed of the mini metal lathe twists by 0.17 mm/m when somebody leans on the middle; "
        "0.04 mm/m is where it would want levelling again.");
  CHECK(f.advice == "a bearer under each end of it and deeper rails, front and back alike");
}

TEST_CASE("check/level: advice names the rails where they are what twists") {
  Shop shop;
  shop.bearers = "bearers: {under: top, at: [340 mm, 600 mm, 860 mm]}\n";
  const Finding f = solved(shop).finding();
  REQUIRE(f.judgement == Judgement::exceeded);
  CHECK(f.advice ==
        "deeper rails under it, front and back alike; a thicker top alone would pass more of "
        "their twist on to it");
}

TEST_CASE("check/level: a standing lathe is told what its lightest pad keeps, or that it lifts") {
  const auto says = [](const Solved& bench, const std::string& words) {
    const std::vector<std::string> working = bench.finding().working;
    return std::any_of(working.begin(), working.end(), [&](const std::string& line) {
      return line.find(words) != std::string::npos;
    });
  };
  Shop shop;
  CHECK(says(solved(shop), "a pad lifts before that"));
  shop.more = ", mass: 80 kg";
  CHECK(says(solved(shop), "its lightest pad still presses with"));
  shop.mounting = "bolted";
  CHECK(says(solved(shop), "bolted down: the bed is part of the model"));
}

TEST_CASE("check/level: slopes print as a level reads them: two figures, microns per metre") {
  bench::Bench bench;
  const check::Printer metric(bench);
  CHECK(metric.level(0.04e-3) == "0.04 mm/m");
  CHECK(metric.level(-2.394e-3) == "-2.4 mm/m");
  CHECK(metric.level(12.34e-6) == "0.012 mm/m");
  CHECK(metric.level(0.7e-6) == "0.001 mm/m");
  CHECK(metric.level(20e-3) == "20 mm/m");
  CHECK(metric.level(-1e-9) == "0 mm/m");
  bench.units = quantity::UnitSystem::imperial;
  const check::Printer imperial(bench);
  CHECK(imperial.level(0.04e-3) == "0.00048 in/ft");
  CHECK(imperial.level(3.3e-6) == "0.00004 in/ft");
  CHECK(imperial.level(1e-9) == "0 in/ft");
}

TEST_CASE("check/level: without plates it is not judged, and says why") {
  Shop shop;
  for (const char* sheets : {"sheets: strip", "sheets: none"}) {
    shop.sheets = sheets;
    const Finding f = solved(shop).finding();
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(f.why == "the sheet that it stands on is not taken as a plate");
    CHECK(f.sentence == "How far the bed of the mini metal lathe twists is not judged.");
  }
}

TEST_CASE(
    "check/level: of other machines it is told at mean joints; their slope stands with the sag") {
  Shop shop;
  shop.machine = "small drill press";
  const Solved bench = solved(shop);
  REQUIRE(bench.findings().size() == 1);
  CHECK(bench.findings()[0].kind == check::Kind::told);
  check::Answers soft = bench.answers();
  soft.at_mean = false;
  CHECK(check::bed_twist(soft, bench.plates(), tables()).empty());
  CHECK(check::twist_per_foot(bench.answers()).size() == 4);
  const check::PlateAnswers plates = bench.plates();
  const std::vector<std::string> lines = check::level_lines(bench.model, plates, 0);
  REQUIRE(lines.size() == 3);
  // The slope of its pads by itself: the mean of both sides of a rectangle.
  const auto rest = plates.of(bench.model.parts.beds[0].plate, check::is_at_rest);
  std::array<double, 4> w{};
  for (std::size_t p = 0; p < 4; ++p) {
    w[p] = check::mean_w(rest[0].plate, rest[0].movements, bench.model.parts.beds[0].pads[p],
                         rest[0].column);
  }
  const check::Slope slope = *check::slope_of(bench.model.parts, 0, rest[0]);
  CHECK(slope.x == close_to((w[1] + w[2] - w[0] - w[3]) / (2.0 * 0.18), 1e-9));
  CHECK(slope.y == close_to((w[2] + w[3] - w[0] - w[1]) / (2.0 * 0.27), 1e-9));
  CHECK(lines[0].rfind("at rest the bench lets it lean ", 0) == 0);
  CHECK(lines[1].rfind("somebody leaning adds ", 0) == 0);
  // What rises to the back leans down to the front.
  REQUIRE(std::abs(slope.y) > 1e-5);
  REQUIRE(std::abs(slope.x) > 1e-5);
  CHECK(lines[0].find(slope.y > 0.0 ? "down to the front" : "down to the back") !=
        std::string::npos);
  CHECK(lines[0].find(slope.x > 0.0 ? "down to the left" : "down to the right") !=
        std::string::npos);
  const Finding sag = *hand_built::find(check::sag_of_plates(bench.answers(), plates, tables()),
                                        "sag-total/top-under-the-small-drill-press");
  for (const std::string& line : lines) {
    CHECK(std::find(sag.working.begin(), sag.working.end(), line) != sag.working.end());
  }
}

TEST_CASE("check/level: what a level would read at rest is not known where that has no answer") {
  Solved bench = solved({});
  const std::vector<check::FeetSet> one{{std::vector<double>(4, 0.0)}};
  CHECK(check::level_readings(bench.answers(), std::nullopt, one).has_value());
  const std::size_t rest = at_rest(bench.model);
  bench.response.states[rest] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::contact_unsettled, "unsettled", "", {}});
  const auto refused = check::level_readings(bench.answers(), std::nullopt, one);
  REQUIRE_FALSE(refused);
  CHECK(refused.error() == "unsettled");
  bench.model.combinations[rest].name = "another";
  const auto unknown = check::level_readings(bench.answers(), std::nullopt, one);
  REQUIRE_FALSE(unknown);
  CHECK(unknown.error() == "the bench at rest is no loading of this model");
}

}  // namespace level_test
