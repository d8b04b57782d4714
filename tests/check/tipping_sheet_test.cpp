// Statics of a rigid body: each expected value is the sum that stands beside it (EN 1990, Table
// A1.2(A): 0.9 of what helps, 1.1 of what harms, 1.5 of the person).
#include <doctest/doctest.h>

#include <limits>

#include "standtrue/check/feet.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/stability.hpp"
#include "tests/check/solved_bench.hpp"

namespace tipping_sheet_test {

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using check::Judgement;
using check::Kind;
using doctest::Approx;
using quantity::in_si;
using solved_bench::Solved;

namespace {

Solved solved(const std::string& more) {
  return solved_bench::solved(
      "standtrue: 1\n"
      "size: 1500 x 700 x 880 mm\n"
      "timber: C24 45 x 120 mm\n"
      "posts: 70 x 70 mm\n"
      "joints: two corner brackets\n"
      "analysis: {mesh: 200 mm}\n" +
      more);
}

std::string top(const std::string& overhang, const std::string& more) {
  return "top: {sheet: 30 mm birch plywood, load: none, " + more +
         ", overhang: {left: " + overhang + ", right: 0 mm, front: 0 mm, back: 0 mm}}\n";
}

const std::string press =
    "machines: [{kind: arbor press, mass: 50 kg, at: [120 mm, 350 mm], mounting: bolted}]\n";

const Finding& with_id(const std::vector<Finding>& all, const std::string& id) {
  for (const Finding& f : all) {
    if (f.id == id) return f;
  }
  FAIL("no finding " << id);
  return all.front();
}

}  // namespace

TEST_CASE("check/tipping_sheet: a loose top with a machine past its rails, by statics") {
  const Solved bench = solved(top("350 mm", "fixed: loose") + press);
  const auto found = check::tipping_of_sheets(bench.answers(), tables());
  const Finding& f = with_id(found, "sheet-tips/top");
  const bench::Sheet& sheet = bench.model.parts.bench.sheets.at(0);
  const double g = 9.80665;
  const double weight = in_si(sheet.panel.rho_mean) * in_si(sheet.panel.thickness) * 1.5 * 0.7 * g;
  // About the left faces of the posts, 350 mm in; the person 50 mm from the edge (loads.yaml).
  const double edge = in_si(tables().load("stand").edge);
  const double tips =
      1.1 * 50.0 * g * (0.350 - 0.120) + 1.5 * in_si(tables().load("stand").down) * (0.350 - edge);
  const double holds = 0.9 * weight * (0.75 - 0.35);
  CHECK(f.kind == Kind::safety);
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(f.ratio == Approx(tips / holds));
  // On a bench that leans the mass, z above the sheet's underside, lies z/10 further out, and who
  // stands on it by its thickness over 10.
  const Solved leaning = solved(top("350 mm", "fixed: loose") + press +
                                "feet: none\nfloor: {surface: concrete, fall: 1 in 10 to left}\n");
  const auto downhill = check::tipping_of_sheets(leaning.answers(), tables());
  const double thick = in_si(sheet.panel.thickness);
  const double z = thick + in_si(bench.model.parts.bench.machines.at(0).cg_height);
  CHECK(with_id(downhill, "sheet-tips/top").ratio ==
        Approx((tips + 1.1 * 50.0 * g * z / 10 +
                1.5 * in_si(tables().load("stand").down) * thick / 10) /
               holds));
}

TEST_CASE("check/tipping_sheet: a short overhang stays down; a screwed top is not asked") {
  const Solved loose = solved(top("30 mm", "fixed: loose"));
  const auto found = check::tipping_of_sheets(loose.answers(), tables());
  CHECK(with_id(found, "sheet-tips/top").judgement == Judgement::satisfied);
  const Solved screwed = solved(top("350 mm", "screws: {size: 5 x 80 mm, every: 200 mm}"));
  CHECK(check::tipping_of_sheets(screwed.answers(), tables()).empty());
}

TEST_CASE("check/tipping_sheet: a weight that is no number keeps it from being judged") {
  Solved bench = solved(top("350 mm", "fixed: loose") + press);
  for (model::Weight& weight : bench.model.parts.weights) {
    if (weight.of == model::Weight::Of::machine) {
      weight.force = quantity::newtons(std::numeric_limits<double>::quiet_NaN());
    }
  }
  const auto found = check::tipping_of_sheets(bench.answers(), tables());
  CHECK(with_id(found, "sheet-tips/top").judgement == Judgement::not_judged);
}

TEST_CASE("check/tipping_sheet: screws that alone hold a top down are a matter of safety") {
  const std::string screws = "screws: {size: 5 x 80 mm, every: 200 mm}";
  const Solved far = solved(top("350 mm", screws) + press);
  CHECK(with_id(check::plate_screws(far.answers(), tables()), "sheet-screws/top").kind ==
        Kind::safety);
  const Solved near = solved(top("30 mm", screws));
  CHECK(with_id(check::plate_screws(near.answers(), tables()), "sheet-screws/top").kind ==
        Kind::service);
}

TEST_CASE("check/tipping_sheet: castors go by their own rating and have no stem to bend") {
  const Solved bench = solved(top("0 mm", "fixed: screwed") + "feet: {castor: 50 mm}\n" + press);
  const auto found = check::foot_load(bench.answers(), tables());
  // feet.yaml: a 50 mm castor carries 0.4 kN.
  CHECK(with_id(found, "foot/rating").limit == Approx(400.0));
  CHECK(check::stem_bending(bench.answers(), tables()).empty());
}

TEST_CASE("check/tipping_sheet: at rest a foot carries its share of what is planned, nobody's") {
  const Solved bench = solved(top("0 mm", "fixed: screwed"));
  const auto found = check::foot_load(bench.answers(), tables());
  // Alike both ways: a quarter each.
  int told = 0;
  for (const std::string& line : with_id(found, "foot/rating").working) {
    if (line.find("at rest") == std::string::npos) continue;
    CHECK(line.find("(25 % of everything)") != std::string::npos);
    ++told;
  }
  CHECK(told == 4);
}

}  // namespace tipping_sheet_test
