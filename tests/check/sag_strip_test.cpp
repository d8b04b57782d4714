// Sag of strips of the top over what carries them, of boards and of overhangs, against closed forms
// (Roark's Formulas, simple beams; shear by M/(G A_s)).
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "check/sag_line.hpp"
#include "tests/check/sagging.hpp"

namespace sag_strip_test {

using namespace hand_built;
using check::Judgement;
using doctest::Approx;

namespace {

/// A strip 0.6 m long on two held nodes, and a bearer of the same make beside it; the corner nodes
/// of the top stand still.
model::Model strip_on_two(double sink) {
  model::Model m;
  m.parts = four_feet(1.8, 0.6);
  m.parts.bench.sheets.push_back(sheet("top", bench::SheetPlace::top, "birch plywood", 18));
  const double corners[4][2] = {{0, 0}, {1.8, 0}, {1.8, 0.6}, {0, 0.6}};
  for (const auto& corner : corners) {
    const model::NodeId foot = node(m, "foot", corner[0], corner[1], 0.0);
    m.parts.top_corners.push_back(node(m, "corner", corner[0], corner[1], 0.88));
    member(m, "post", foot, m.parts.top_corners.back(), 0.089, 0.089);
    hold(m, foot);
  }
  const model::NodeId front = node(m, "front", 0.9, 0.0, 0.88);
  const model::NodeId back = node(m, "back", 0.9, 0.6, 0.88);
  for (const model::NodeId end : {front, back}) {
    hold(m, end);
    m.supports.erase(m.supports.end() - 3);  // free to turn about x, with the strip's bending
  }
  m.supports[m.supports.size() - 3].imposed = -sink;  // z of the back carrier
  const std::size_t bends = member(m, "strip", front, back, 0.3, 0.018);
  m.parts.parts.push_back(part("strip 1 of the top", model::Role::strip, {bends}, 0.6, 0));
  model::Strip strip;
  strip.part = 0;
  strip.width = metres(0.3);
  strip.bay = metres(0.6);
  strip.carriers = {metres(0.0), metres(0.6)};
  m.parts.strips.push_back(strip);
  bench::Rail rail;
  rail.name = "front top rail";
  m.parts.bench.rails.push_back(rail);
  m.parts.bench.sheets[0].rails = {0};
  load_case(m, "load");
  press(m, 0, bends, 0.3, 100);
  service(m, "service-permanent", model::Leading::permanent);
  return m;
}

}  // namespace

TEST_CASE("check/sag_strip: a strip below its carriers, and below the plane of the post tops") {
  const double I = 0.3 * std::pow(0.018, 3) / 12.0, A = 0.3 * 0.018 * 5.0 / 6.0;
  const double own = 100 * std::pow(0.6, 3) / (48 * E * I) + 100 * 0.6 / (4 * G * A);
  const Solved solved(strip_on_two(0.2e-3));
  const auto findings = check::sag(solved.answers(), tables());
  const check::Finding* sheet_alone = find(findings, "sag/strip-1-of-the-top");
  const check::Finding* total = find(findings, "sag-total/strip-1-of-the-top");
  REQUIRE(sheet_alone);
  REQUIRE(total);
  CHECK(sheet_alone->demand == Approx(own).epsilon(1e-6));
  CHECK(sheet_alone->limit == Approx(0.6 / 300));
  CHECK_FALSE(sheet_alone->hand_check);
  CHECK(total->demand >= own + 0.1e-3);  // lowest a little towards the sunken carrier
  CHECK(total->demand < own + 0.12e-3);
  CHECK(total->working.at(1).find("of that the sheet itself") != std::string::npos);
  CHECK(
      sheet_alone->sentence ==
      "The top under a machine (strip 1) sags 0.392 mm below what carries it under what stands on "
      "it; 2 mm allowed.");
}

TEST_CASE("check/sag_strip: the total is judged by the longest of what carries the strip") {
  model::Model m = strip_on_two(0.0);
  model::Part rail = part("front top rail", model::Role::rail, m.parts.parts[0].members, 1.8, 0);
  m.parts.parts.push_back(rail);
  m.parts.bench.posts.resize(2);
  m.parts.bench.rails[0].from = 0;
  m.parts.bench.rails[0].to = 1;
  for (std::size_t p = 0; p < 2; ++p) {
    m.parts.parts.push_back(part("post", model::Role::post, m.parts.parts[0].members, 1, p));
  }
  const Solved solved(m);
  const auto findings = check::sag(solved.answers(), tables());
  CHECK(find(findings, "sag-total/strip-1-of-the-top")->limit == Approx(1.8 / 300));
  CHECK(find(findings, "sag/strip-1-of-the-top")->limit == Approx(0.6 / 300));
}

TEST_CASE("check/sag_strip: a strip over a bearer is judged by the rails that carry the bearer") {
  model::Model m = strip_on_two(0.0);
  m.cases[0].point_loads[0].force = force(0, 0, -5000);
  model::Part rail = part("front top rail", model::Role::rail, m.parts.parts[0].members, 1.8, 0);
  model::Part bearer = part("bearer 1", model::Role::bearer, m.parts.parts[0].members, 0.5, 0);
  m.parts.parts.push_back(bearer);
  m.parts.bench.bearers.emplace_back();
  m.parts.bench.sheets[0].rails.clear();
  m.parts.bench.sheets[0].bearers = {0};
  m.parts.parts.push_back(rail);
  m.parts.bench.posts.resize(2);
  m.parts.bench.rails[0].to = 1;
  for (std::size_t p = 0; p < 2; ++p) {
    m.parts.parts.push_back(part("post", model::Role::post, m.parts.parts[0].members, 1, p));
  }
  const Solved solved(m);
  const auto findings = check::sag(solved.answers(), tables());
  CHECK(find(findings, "sag-total/strip-1-of-the-top")->limit == Approx(1.8 / 300));
  CHECK(find(findings, "sag/strip-1-of-the-top")->advice ==
        "a bearer under the machine, or a thicker top");
  m.parts.strips.clear();  // a strip that is not listed is not measured
  CHECK_FALSE(find(check::sag(Solved(m).answers(), tables()), "sag/strip-1-of-the-top"));
}

TEST_CASE("check/sag_strip: bearers below the line between their own ends, their total told") {
  model::Model m = strip_on_two(2e-3);
  m.parts.parts[0].role = model::Role::bearer;
  m.parts.parts[0].name = "bearer 1";
  m.parts.strips.clear();
  bench::Bearer bearer;
  bearer.name = "bearer 1";
  m.parts.bench.bearers.push_back(bearer);
  const Solved solved(m);
  const check::Finding f = check::sag(solved.answers(), tables()).at(0);
  const double I = 0.3 * std::pow(0.018, 3) / 12.0, A = 0.3 * 0.018 * 5.0 / 6.0;
  CHECK(f.demand ==
        Approx(100 * std::pow(0.6, 3) / (48 * E * I) + 100 * 0.6 / (4 * G * A)).epsilon(1e-6));
  CHECK(f.working.at(1).find("below the plane of the post tops") != std::string::npos);
  CHECK(f.hand_check);
  CHECK(f.sentence.rfind("Bearer 1 sags", 0) == 0);
}

TEST_CASE(
    "check/sag_strip: the broken line over three carriers, beyond the outer ones straight on") {
  const auto straight = [](double from, double x, double length, double at_start, double at_end) {
    check::Sunk member{from, length, {x, 0.3}, {x + length, 0.3}, {}};
    member.down.add({0.0, length, {at_start, (at_end - at_start) / length}});
    return member;
  };
  // carriers at 0, 0.5 and 1.2 sink 1, 3 and 2 mm; the strip reaches on to 1.4
  const std::vector<check::Sunk> axis{straight(0.0, 0.0, 0.5, 1e-3, 3e-3),
                                      straight(0.5, 0.5, 0.7, 3e-3, 2e-3),
                                      straight(1.2, 1.2, 0.2, 2e-3, 9e-3)};
  model::Strip strip;
  strip.along_x = true;
  strip.carriers = {metres(0.0), metres(0.5), metres(1.2)};
  const check::Reference line = check::over_carriers(strip, axis);
  CHECK(line(0.25, 0.3) == Approx(2e-3));
  CHECK(line(0.85, 0.3) == Approx(2.5e-3));
  CHECK(line(1.4, 0.3) == Approx(2e-3 - 0.2e-3 / 0.7));
  CHECK(check::below_at(axis, line, 0.85) == Approx(0.0));
  CHECK(check::below_at(axis, line, 1.4) == Approx(7e-3 + 0.2e-3 / 0.7));
  const check::Lowest lowest = check::lowest_below(axis, line);
  CHECK(lowest.at == Approx(1.4));
  CHECK(lowest.below == Approx(7e-3 + 0.2e-3 / 0.7));
  strip.carriers.resize(1);
  CHECK_THROWS_AS((void)check::over_carriers(strip, axis), std::logic_error);
}

TEST_CASE("check/sag_strip: the plane of the post tops, and corners in a row") {
  model::Model m;
  const double corners[4][2] = {{0, 0}, {2, 0}, {2, 1}, {0, 1}};
  for (const auto& at : corners) {
    m.parts.top_corners.push_back(node(m, "corner", at[0], at[1], 1));
  }
  solve::State state;
  state.displacement.setZero(24);
  const auto sink = [&](std::size_t i, double w) {
    state.displacement(static_cast<Eigen::Index>(6 * i + 2)) = -w;
  };
  const auto plane = [&](double x, double y) { return 0.001 + 0.002 * x - 0.003 * y; };
  sink(0, plane(0, 0));
  sink(1, plane(2, 0));
  sink(2, plane(2, 1));
  sink(3, plane(0, 1));
  CHECK(check::plane_of_post_tops(m, state)(0.7, 0.4) == Approx(plane(0.7, 0.4)));
  m.parts.top_corners.resize(2);  // only the front ones: no tilt across
  CHECK(check::plane_of_post_tops(m, state)(0.5, 9.0) == Approx(plane(0.5, 0.0)));
  m.parts.top_corners.resize(1);
  CHECK(check::plane_of_post_tops(m, state)(5.0, 9.0) == Approx(plane(0, 0)));
  m.parts.top_corners.clear();
  CHECK(check::plane_of_post_tops(m, state)(5.0, 9.0) == 0.0);
  m.parts.top_corners = {1, 3};  // on the falling diagonal
  CHECK(check::plane_of_post_tops(m, state)(1.0, 0.5) == Approx(0.5 * (plane(2, 0) + plane(0, 1))));
  CHECK(check::plane_of_post_tops(m, state)(2.0, 0.0) == Approx(plane(2, 0)));
}

TEST_CASE("check/sag_board: 5 q a⁴/384EI + q a²/8GA_s; creep by k_def on the share that stays") {
  model::Parts parts = four_feet();
  parts.bench.sheets.push_back(sheet("shelf", bench::SheetPlace::shelf, "birch plywood", 18));
  bench::Sheet& shelf = parts.bench.sheets[0];
  shelf.stored = quantity::pascals(500);
  model::SheetSpan span;
  span.bay = metres(0.8);
  span.grain_along = true;
  parts.spans.push_back(span);
  const double t = 0.0176, I = t * t * t / 12;
  const double g = 680 * t * 9.80665;
  const auto w = [&](double q) {
    return 5 * q * std::pow(0.8, 4) / (384 * 10048e6 * I) + q * 0.64 / (8 * 206e6 * t * 5 / 6);
  };
  const Rigid bench(parts);
  const auto findings = check::sag_of_boards(bench.answers(), tables());
  REQUIRE(findings.size() == 2);
  CHECK(findings[0].demand == Approx(w(g + 500)).epsilon(1e-9));
  CHECK(findings[0].limit == Approx(0.8 / 300));
  CHECK(findings[1].demand == Approx(w(g) * 2.0 + w(500) * 1.8).epsilon(1e-9));
  {
    model::Parts wide = parts;
    wide.spans[0].bay = metres(2.0);
    const Rigid hollow(wide);
    CHECK(check::sag_of_boards(hollow.answers(), tables())[0].advice ==
          "a thicker board, or a bearer in the bay");
  }
  // two loose layers share, two glued ones act as one
  parts.bench.sheets[0].layers = 2;
  const Rigid two(parts);
  const double w2 = check::sag_of_boards(two.answers(), tables())[0].demand;
  parts.bench.sheets[0].between_layers = bench::Bond::glued;
  const Rigid glued(parts);
  CHECK(check::sag_of_boards(glued.answers(), tables())[0].demand < w2 / 2);
  // a board that does not belong in that air has no creep factor
  parts.bench.sheets[0].family = *tables().panel_family("MDF");
  parts.bench.sheets[0].panel.G_r_0 = {};
  parts.bench.sheets[0].stored.reset();
  parts.spans[0].bay = metres(0.3);
  const Rigid damp(parts);
  const auto mdf = check::sag_of_boards(damp.answers(), tables());
  CHECK(mdf[0].judgement == Judgement::satisfied);
  CHECK(mdf[0].limit == Approx(1.5e-3));
  CHECK(mdf[1].judgement == Judgement::not_judged);
  CHECK_FALSE(mdf[1].why.empty());
  parts.bench.sheets[0].panel.E_m_0 = {};
  const Rigid unknown(parts);
  CHECK(check::sag_of_boards(unknown.answers(), tables()).empty());
}

TEST_CASE("check/sag_overhang: the end of a beam with an overhang, F c²(a + c)/3EI, on its strip") {
  model::Parts parts = four_feet();
  parts.bench.sheets.push_back(sheet("top", bench::SheetPlace::top, "birch plywood", 18));
  parts.bench.sheets[0].panel.G_r_0 = {};  // bending alone
  model::SheetSpan span;
  span.bay = metres(0.6);
  span.grain_along = true;
  span.overhang = metres(0.3);
  span.effective_width = metres(0.5);
  parts.spans.push_back(span);
  const Rigid bench(parts);
  const auto findings = check::sag_of_overhangs(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  const double EI_m = 10048e6 * std::pow(0.0176, 3) / 12, c = 0.3, c_a = 0.25, F = 500;
  const double w =
      F * c_a * c_a * (3 * c - c_a) / (6 * EI_m * 0.7) + F * c_a * 0.6 * c / (3 * EI_m * 0.7);
  CHECK(findings[0].demand == Approx(w).epsilon(1e-9));
  CHECK(findings[0].limit == Approx(c / 150));
  CHECK(findings[0].judgement == Judgement::exceeded);
  // a short one: half of the patch beyond the carrier, 1 mm allowed; the side does not turn
  parts.spans[0].overhang = metres(0.0);
  parts.spans[0].overhang_side = metres(0.05);
  const Rigid side(parts);
  const check::Finding f = check::sag_of_overhangs(side.answers(), tables()).at(0);
  const double E90 = 7452e6 * std::pow(0.0176, 3) / 12;
  CHECK(f.demand == Approx(250 * 0.025 * 0.025 * (0.15 - 0.025) / (6 * E90 * 0.2) +
                           250 * 0.025 / (183e6 * 0.0176 * 5 / 6 * 0.2)));
  CHECK(f.limit == Approx(1e-3));
  parts.spans[0].overhang = metres(0.02);  // the worse of both ways is told
  const Rigid both(parts);
  CHECK(check::sag_of_overhangs(both.answers(), tables()).at(0).demand == Approx(f.demand));
  parts.spans[0].overhang = metres(0.0);
  parts.spans[0].overhang_side = metres(0.0);
  const Rigid flush(parts);
  CHECK(check::sag_of_overhangs(flush.answers(), tables()).empty());
  parts.spans[0].overhang = metres(0.1);
  parts.bench.sheets[0].place = bench::SheetPlace::shelf;
  const Rigid shelf(parts);
  CHECK(check::sag_of_overhangs(shelf.answers(), tables()).empty());
}

}  // namespace sag_strip_test
