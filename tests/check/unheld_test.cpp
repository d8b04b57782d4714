// What holds a rail sideways: by the places of screws and bearers in real benches.
#include "check/unheld.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "standtrue/check/allowable.hpp"
#include "standtrue/check/members.hpp"
#include "tests/check/portal.hpp"
#include "tests/check/solved_bench.hpp"

namespace unheld_test {

using namespace standtrue;
using check::Unheld;
using doctest::Approx;
using quantity::in_si;
using solved_bench::idealised;

namespace {

/// The front top rail runs from 95 to 1255 mm: 1160 mm clear, 22 x 120 mm.
std::string bench_of(const std::string& more) {
  return "standtrue: 1\n"
         "size: 1400 x 700 x 900 mm\n"
         "timber: C24 45 x 145 mm\n"
         "posts: 95 x 95 mm\n"
         "joints: {kind: two corner brackets, width: 22 mm}\n"
         "rails: {top: {long: {section: 22 x 120 mm}}}\n" +
         more;
}
const std::string screwed = "top: {sheet: 24 mm spruce plywood, load: none}\n";
const std::string loose = "top: {sheet: 24 mm spruce plywood, fixed: loose, load: none}\n";
const std::string no_shelf = "shelf: none\n";
const std::string two_bearers = "bearers: {at: [475 mm, 875 mm]}\n";

model::PartId part_named(const model::Model& model, const std::string& name) {
  const std::vector<model::Part>& parts = model.parts.parts;
  for (model::PartId id = 0; id < parts.size(); ++id) {
    if (parts[id].name == name) return id;
  }
  FAIL("no part " << name);
  return 0;
}
Unheld free_of(const model::Model& model, const std::string& name = "front top rail") {
  return check::unheld_of(model, part_named(model, name));
}
double mm(quantity::Length length) { return 1e3 * in_si(length); }

void check_mm(const Unheld& free, double upper, double lower, double whole, double edge) {
  CHECK(mm(free.upper) == Approx(upper).epsilon(1e-3));
  CHECK(mm(free.lower) == Approx(lower).epsilon(1e-3));
  CHECK(mm(free.whole) == Approx(whole).epsilon(1e-3));
  CHECK(mm(free.edge) == Approx(edge).epsilon(1e-3));
}

bool says(const check::Finding& finding, const std::string& words) {
  return std::any_of(finding.working.begin(), finding.working.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

check::Finding finding_of(portal::Check check, const std::string& text, const std::string& id) {
  const solved_bench::Solved bench = solved_bench::solved(text);
  const check::SectionForces forces(bench.answers(), bench.model.parts.bench.rules);
  return portal::find(check(bench.answers(), forces, portal::tables()), id);
}

}  // namespace

TEST_CASE("check/unheld: a loose top holds nothing") {
  const Unheld free = free_of(idealised(bench_of(loose + no_shelf)));
  check_mm(free, 1160, 1160, 1160, 1160);
  CHECK(free.upper_said == "held at its ends only");
  CHECK(free.lower_said == "held at its ends only");
  CHECK_FALSE(free.by_sheet);
}

TEST_CASE("check/unheld: a screwed top holds the upper edge at every screw, the lower nowhere") {
  // No screw nearer than 100 mm to a post: 960 mm in four gaps of at most 250 mm, 240 mm.
  const Unheld free = free_of(idealised(bench_of(screwed + no_shelf)));
  check_mm(free, 240, 1160, 1160, 240);
  CHECK(free.by_sheet);
  CHECK(free.upper_said == "held by its ends, the top");
  CHECK(free.lower_said == "held at its ends only");
}

TEST_CASE("check/unheld: glue holds all along but beside the posts") {
  const Unheld free = free_of(idealised(
      bench_of("top: {sheet: 24 mm spruce plywood, fixed: glued, load: none}\n" + no_shelf)));
  CHECK(mm(free.upper) >= 100);  // clear of the post
  CHECK(mm(free.upper) < 150);   // ties at most two cells apart, and a line left out
  CHECK(mm(free.lower) == Approx(1160));
}

TEST_CASE("check/unheld: bracketed bearers hold both edges; against a push with a sheet alone") {
  // Gaps of 380, 400 and 380 mm.
  const Unheld free = free_of(idealised(bench_of(loose + no_shelf + two_bearers)));
  check_mm(free, 400, 400, 1160, 1160);
  CHECK(free.upper_said == "held by its ends, 2 bearers");
  CHECK(free.lower_said == free.upper_said);
  check_mm(free_of(idealised(bench_of(screwed + no_shelf + two_bearers))), 240, 400, 400, 240);
}

TEST_CASE("check/unheld: bearers on pins or screws in their end grain hold nothing") {
  for (const char* joint : {"pinned", "end-grain screws"}) {
    CAPTURE(joint);
    const std::string bearers =
        "bearers: {at: [475 mm, 875 mm], joint: " + std::string(joint) + "}\n";
    check_mm(free_of(idealised(bench_of(loose + no_shelf + bearers))), 1160, 1160, 1160, 1160);
  }
}

TEST_CASE("check/unheld: no screw holds where the top is cut out") {
  // Screws at 195, 435, 675, 915 and 1155 mm; the third is in the cut-out.
  const Unheld free = free_of(idealised(bench_of(
      "top: {sheet: 24 mm spruce plywood, load: none, cut_outs: [{from: [600 mm, 0 mm], to: "
      "[750 mm, 100 mm]}]}\n" +
      no_shelf)));
  CHECK(mm(free.upper) == Approx(480).epsilon(1e-3));
}

TEST_CASE("check/unheld: a screwed shelf holds lower rails alike") {
  const model::Model model =
      idealised(bench_of(screwed + "shelf: {sheet: 12 mm spruce plywood, load: none}\n"));
  const Unheld free = free_of(model, "front lower rail");
  CHECK(free.by_sheet);
  CHECK(free.upper_said == "held by its ends, the shelf");
  CHECK(mm(free.upper) < 260);
  CHECK(mm(free.lower) == Approx(1160));
}

TEST_CASE("check/unheld: a sheet holds what it lies on, and only with another rail") {
  model::Model model = idealised(bench_of(screwed + no_shelf));
  const model::PartId rail = part_named(model, "front top rail");
  model::Model above = model;
  above.parts.bench.sheets[0].underside += quantity::millimetres(10);
  CHECK(mm(check::unheld_of(above, rail).upper) == Approx(1160));
  std::vector<model::Seam>& seams = model.parts.seams;
  seams.erase(std::remove_if(seams.begin(), seams.end(),
                             [&](const model::Seam& seam) { return seam.part != rail; }),
              seams.end());
  REQUIRE_FALSE(seams.empty());
  CHECK(mm(check::unheld_of(model, rail).upper) == Approx(1160));
}

TEST_CASE("check/unheld: bearers under a fixed sheet hold a rail that it does not lie on") {
  model::Model model = idealised(bench_of(screwed + no_shelf + two_bearers));
  const model::PartId rail = part_named(model, "front top rail");
  std::vector<model::Seam>& seams = model.parts.seams;
  seams.erase(std::remove_if(seams.begin(), seams.end(),
                             [&](const model::Seam& seam) { return seam.part == rail; }),
              seams.end());
  const Unheld free = check::unheld_of(model, rail);
  check_mm(free, 400, 400, 400, 400);
  CHECK_FALSE(free.by_sheet);
}

TEST_CASE("check/unheld: a ledger's span is that between its screws, whatever lies on it") {
  const model::Model model = idealised(
      "standtrue: 1\n"
      "size: 1500 x 620 x 900 mm\n"
      "timber: C24 45 x 95 mm\n"
      "top: {sheet: 18 mm spruce plywood, load: none}\n"
      "wall: {ledger: 45 x 95 mm}\n");
  const auto ledger = std::find_if(model.parts.bench.rails.begin(), model.parts.bench.rails.end(),
                                   [](const bench::Rail& rail) { return rail.on_wall; });
  REQUIRE(ledger != model.parts.bench.rails.end());
  const model::PartId id = part_named(model, ledger->name);
  const Unheld free = check::unheld_of(model, id);
  CHECK(free.upper == model.parts.parts[id].span);
  CHECK(free.edge == model.parts.parts[id].span);
}

TEST_CASE("check/unheld: held at one edge 22 x 120 C24 turns about it at 13.6 N/mm2, by hand") {
  model::Part part;
  part.timber = *portal::tables().timber("C24");
  part.width = quantity::millimetres(22);
  part.depth = quantity::millimetres(120);
  // J = 120 x 22^3/3 (1 - 0.63 x 0.1833) = 376.7e3 mm4 (Timoshenko & Goodier, art. 109);
  // r^2 = (22^2 + 120^2)/12 + 60^2 = 4840.3 mm2; N_T = 7400/16 x 376.7e3/4840.3 = 35998 N on 2640
  // mm2: 13.635 N/mm2; sqrt(21/13.635) = 1.241
  CHECK(check::slenderness_about_edge(part, portal::tables()) == Approx(1.241).epsilon(1e-3));
  part.width = {};
  CHECK_THROWS_AS((void)check::slenderness_about_edge(part, portal::tables()), std::logic_error);
}

TEST_CASE("check/unheld: between screws 240 mm apart 22 x 120 loses nothing (6.32), (6.34)") {
  // 0.78 x 22^2 x 7400/(120 (240 + 240)) = 48.50 N/mm2; sqrt(24/48.50) = 0.70 < 0.75: k_crit = 1.
  const std::string screws = bench_of(screwed + no_shelf), id = "lateral/front-top-rail";
  const check::Finding held = finding_of(check::lateral_stability, screws, id);
  CHECK(says(held,
             "its upper edge is pressed, 240 mm of it free at most, l_ef = that + 2 h = 480 "
             "mm, sigma_m,crit = 48.5 N/mm2, lambda_rel,m = 0.70, k_crit = 1.000"));
  // lambda_rel,z: 240 sqrt 12/22/pi sqrt(21/7400) = 0.64, about its edge 1.24, over its span 3.10
  CHECK(says(held, "1160 mm free sideways, 240 mm at its upper edge"));
  CHECK(says(held, "lambda_rel,z = 1.24"));
  // 0.78 x 22^2 x 7400/(120 (1160 + 240)) = 16.63; 1.20: k_crit = 1.56 - 0.75 x 1.2013 = 0.659
  const check::Finding free = finding_of(check::lateral_stability, bench_of(loose + no_shelf), id);
  CHECK(says(free, "held at its ends only: l_ef = span + 2 h = 1400 mm"));
  CHECK(says(free, "k_crit = 0.659"));
}

TEST_CASE("check/unheld: lifted in its middle a rail hogs, and its lower edge is free (6.3.3(5))") {
  // Its feet stay on the floor under 300 kg over each of the front posts.
  const std::string lifted =
      "loads: [{name: hoist, at: [675 mm, 11 mm], force: [0 N, 0 N, 4 kN]}, {name: left, at: [48 "
      "mm, 48 mm], mass: 300 kg}, {name: right, at: [1302 mm, 48 mm], mass: 300 kg}]\n";
  const std::string id = "lateral/front-top-rail";
  const check::Finding free =
      finding_of(check::lateral_stability, bench_of(screwed + no_shelf + lifted), id);
  CHECK(says(free, "held at its ends only: l_ef = span + 2 h = 1400 mm"));
  const check::Finding held =
      finding_of(check::lateral_stability, bench_of(screwed + no_shelf + two_bearers + lifted), id);
  CHECK(
      says(held, "its lower edge is pressed, 400 mm of it free at most, l_ef = that + 2 h = 640"));
}

TEST_CASE("check/unheld: a 2x6 between screws 223 mm apart: C_L = 0.994 (NDS 2018, 3.3.3)") {
  // l_u/d = 1.6: l_e = 2.06 x 223.4 = 460 mm; R_B^2 = 460 x 139.7/38.1^2 = 44.3; F_bE = 1.2 x
  // 510e3/44.3 = 13815 psi; F_b* = 875 x 1.25 x 1.3 = 1421.9: r = 9.716; C_L = 5.640 -
  // sqrt(31.81 - 10.227) = 0.994
  const std::string text =
      "standtrue: 1\n"
      "rules: allowable stress\n"
      "size: 96 x 28 x 36 in\n"
      "timber: SPF No.2 2x4\n"
      "posts: 4x4\n"
      "joints: {kind: two corner brackets}\n"
      "rails: {top: {long: {section: 2x6}}}\n"
      "shelf: none\n";
  const check::Finding held =
      finding_of(check::allowable_beams, text + "top: {sheet: 3/4 in spruce plywood, load: none}\n",
                 "lateral/front-top-rail");
  CHECK(held.judgement == check::Judgement::satisfied);
  CHECK(says(held, "l_u = 223 mm of its upper edge, R_B = 6.7"));
  CHECK(says(held, "C_L = 0.994"));
  CHECK(says(held, "held by its ends, the top"));
}

TEST_CASE("check/unheld: a rail laid flat is held sideways as a column alone (NDS 2018, 3.7.1)") {
  const std::string flat =
      "standtrue: 1\n"
      "rules: allowable stress\n"
      "size: 60 x 28 x 36 in\n"
      "timber: SPF No.2 2x4\n"
      "posts: 4x4\n"
      "joints: {kind: two corner brackets}\n"
      "rails: {top: {laid: flat}}\n"
      "shelf: none\n"
      "top: {sheet: 3/4 in spruce plywood, load: none}\n";
  const model::Model model = idealised(flat);
  const Unheld free = free_of(model);
  REQUIRE(free.edge < free.whole);
  const check::Finding f = finding_of(check::allowable_beams, flat, "lateral/front-top-rail");
  // 1295 mm clear; 100 mm from its posts on five gaps of 219 mm.
  CHECK(says(f, "l_e1 = 219 mm edgewise, l_e2 = 1296 mm flatwise: held by its ends, the top"));
  CHECK(says(f, "l_u = 1296 mm, "));
}

TEST_CASE("check/unheld: cures that act on what is pressed") {
  model::Part rail;
  rail.name = "rail";
  Unheld free;
  CHECK(check::sideways_cure(rail, free, false, true) ==
        "a wider rail, or a sheet screwed along it");
  CHECK(check::sideways_cure(rail, free, true, true) ==
        "a wider rail, or a bearer bracketed to it in the middle");
  CHECK(check::sideways_cure(rail, free, false, false) ==
        "a deeper rail, a shorter span, or less on it");
  free.by_sheet = true;
  free.pieces = 2;
  CHECK(check::sideways_cure(rail, free, false, true) ==
        "a wider rail, or its screws nearer to each other");
  CHECK(check::sideways_cure(rail, free, true, true) ==
        "a wider rail, or bracketed bearers nearer to each other");
  rail.role = model::Role::bearer;
  CHECK(check::sideways_cure(rail, free, true, true) == "a wider rail");
}

}  // namespace unheld_test
