// The glue between sheets and what carries them: closed forms, statics, and benches.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "check/glued_seam.hpp"
#include "check/tie_answers.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/check/plates.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/solved_bench.hpp"
#include "tests/solve/plate_frames.hpp"

namespace plate_glue_test {

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using check::GlueFlow;
using check::Judgement;
using quantity::in_si;
using tests::close_to;

namespace {

// --- Two beams glued under the two edges of a strip, each with half of it ------------------------

constexpr double L = 2.0, width = 0.3, t = 0.018, h = 0.095, q = 1500.0;  // q per area
constexpr double glue = 1e9;  // N/m², as in build_plates
constexpr std::size_t cells = 32;
constexpr double cell = L / static_cast<double>(cells);

model::Model glued_beams() {
  model::Model m;
  model::PlateStiffness strip = tests::orthotropic(9e9, 4e9, 0.0, 0.5e9, 0.5e9, 0.5e9, t);
  strip.S_x = strip.S_y = 1e10;  // no shear strain, as in the closed form
  m.plates.push_back(tests::plate(L, width, cells, 1, strip));
  model::Plate& p = m.plates[0];
  p.thickness = t;
  p.tie_level = -0.5 * t;
  for (const std::size_t j : {0u, 1u}) {
    for (std::size_t i = 0; i <= cells; ++i) {
      const std::size_t n = m.nodes.size();
      m.nodes.push_back(tests::node("n" + std::to_string(n), p.x[i], p.y[j], -0.5 * (t + h)));
      const double k = glue * cell * (i == 0 || i == cells ? 0.5 : 1.0);
      p.ties.push_back({i, j, n, {k, k, 1e10}});
      if (i == 0) continue;
      m.members.push_back(tests::member(n - 1, n, 45.0, 1e3 * h));
      m.members.back().section.A_sy = m.members.back().section.A_sz = quantity::Area{};
    }
    tests::hold_node(m, m.nodes.size() - cells - 1, {0, 1, 2, 3});
    tests::hold_node(m, m.nodes.size() - 1, {1, 2, 3});
  }
  m.cases.resize(1);
  m.cases[0].patch_loads.push_back({0, {0.0, L, 0.0, width}, {0.0, 0.0, -q * L * width}});
  return m;
}

/// Of the first beam.
model::Seam seam_along(std::size_t ties, double each, bool half_at_ends) {
  model::Seam seam;
  seam.along_x = true;
  seam.last = ties;
  seam.lengths.assign(ties, quantity::metres(each));
  if (half_at_ends) seam.lengths.front() = seam.lengths.back() = quantity::metres(0.5 * each);
  return seam;
}

// --- A plate with three ties that stand for 20, 60 and 20 mm
// --------------------------------------

struct ThreeTies {
  model::Plate plate;
  model::Seam seam = seam_along(3, 0.06, false);
  std::vector<std::array<double, 3>> ties{{100.0, 7.0, 1.0}, {600.0, 0.0, 2.0}, {100.0, 0.0, 1.0}};

  ThreeTies() {
    plate.x = {0.0, 0.05, 0.1};
    plate.y = {0.0, 0.2};
    plate.tie_level = -0.009;
    for (const std::size_t i : {0u, 1u, 2u}) plate.ties.push_back({i, 0, i, {}});
    seam.lengths.front() = seam.lengths.back() = quantity::metres(0.02);
  }
  [[nodiscard]] std::vector<GlueFlow> flows(double reach, check::GlueBeyond beyond = {}) const {
    return check::glue_flows(plate, seam, ties, reach, beyond);
  }
};

// --- Benches
// ---------------------------------------------------------------------------------------

/// 330 kg on narrow deep rails, which need the top to carry them.
std::string narrow_rails(int rail_mm = 22, const std::string& fixed = "glued") {
  return fmt::format(R"(
standtrue: 1
size: 1400 x 700 x 900 mm
timber: C24 45 x 145 mm
posts: 95 x 95 mm
joints: {{kind: two corner brackets, thickness: 4 mm, resistance: {{moment: 900 N m, shear: 10 kN}}}}
rails: {{top: {{long: {{section: {} x 120 mm}}}}, lower: {{long: {{section: 45 x 95 mm}}, short: {{section: 45 x 95 mm}}}}}}
top: {{sheet: 24 mm spruce plywood, fixed: {}, load: none}}
shelf: none
bearers: {{at: [475 mm, 875 mm]}}
braces: [{{side: back}}, {{side: left}}, {{side: right}}]
feet: {{thread: M16, material: steel}}
machines:
  - {{kind: machine, mass: 330 kg, at: [700 mm, 350 mm], pads: 400 x 300 mm, pad: 80 mm, centre_height: 200 mm, height: 300 mm, mounting: bolted}}
)",
                     rail_mm, fixed);
}

std::string small_bench(const std::string& more) {
  return R"(
standtrue: 1
size: 1500 x 600 x 880 mm
timber: C24 45 x 95 mm
posts: 70 x 70 mm
joints: two corner brackets
analysis: {mesh: 100 mm}
)" + more;
}
const std::string glued_top = "top: {sheet: 9 mm spruce plywood, load: none, fixed: glued}\n";

std::vector<Finding> glue_of(const solved_bench::Solved& bench) {
  return check::plate_glue(bench.answers(), tables());
}
Finding only_glue(const solved_bench::Solved& bench) {
  const std::vector<Finding> found = glue_of(bench);
  REQUIRE(found.size() == 1);
  return found.front();
}

check::GlueStrengths strengths_on(const bench::Bench& bench, double b, model::Role role) {
  model::Part part;
  part.role = role;
  part.timber = bench.rails.front().stock.timber;
  part.width = quantity::metres(b);
  part.depth = quantity::millimetres(95.0);
  const auto f = check::glue_strengths(bench, bench.sheets.front(), part, b,
                                       reference::Duration::short_term, tables());
  REQUIRE(f);
  return *f;
}

}  // namespace

TEST_CASE(
    "check/plate_glue: a glued flange is sheared by V S/I (beam theory, transformed section)") {
  const model::Model m = glued_beams();
  const tests::Response response = tests::answer(m);
  const auto ties = solve::tie_forces(*response.prepared, 0, response.state);
  constexpr double reach = 1.5 * cell;  // from a beam's end to where what its second tie has ends
  const auto flows = check::glue_flows(m.plates[0], seam_along(cells + 1, cell, true), ties, reach);
  REQUIRE(flows.size() == cells + 1);
  const double EA_1 = 9e9 * t * width / 2.0, EA_2 = 11e9 * 0.045 * h, r = 0.5 * (t + h);
  const double EA = EA_1 * EA_2 / (EA_1 + EA_2);  // r EA: the flange's first moment, times E
  const double EI_loose = EA_1 * t * t / 12.0 + EA_2 * h * h / 12.0;
  const double EI = EI_loose + r * r * EA;
  const double p = q * width / 2.0;
  // A quarter of the way V = p L/4. What the glue of 1 GN/m² slips is gone but for e^(-aL/4),
  // 0.2 %; the mesh leaves (1/16)² for the half span.
  const double a = std::sqrt(glue * EI / (EI_loose * EA));
  CHECK(a * L / 4.0 > 6.0);
  CHECK(std::abs(flows[cells / 4].along) == close_to(p * L / 4.0 * r * EA / EI, 0.006));
  CHECK(flows[cells / 4].at == close_to(L / 4.0, 1e-12));
  // At the end the flow grows from what slips: N(reach)/reach by Newmark, Siess & Viest (1951),
  // N = r EA/EI (M - p/a² (1 - cosh(a(x - L/2))/cosh(aL/2))).
  const double M = 0.5 * p * reach * (L - reach);
  const double end = std::cosh(a * (reach - 0.5 * L)) / std::cosh(0.5 * a * L);
  const double N = r * EA / EI * (M - p / (a * a) * (1.0 - end));
  CHECK(std::abs(flows.front().along) == close_to(N / reach, 1.0 / 256.0));
  for (const GlueFlow& flow : flows) CHECK(std::abs(flow.along) < p * L / 2.0 * r * EA / EI);
}

TEST_CASE("check/plate_glue: means over a length, by hand: 5, 10 and 5 N/mm on 20, 60 and 20 mm") {
  const ThreeTies three;
  const auto along = [](const std::vector<GlueFlow>& flows) {
    std::vector<double> out;
    for (const GlueFlow& flow : flows) out.push_back(flow.along);
    return out;
  };
  // 40 mm: at the ends 20 of 5 and 20 of 10, in the middle 10.
  const std::vector<double> forty = along(three.flows(0.04));
  CHECK(forty[0] == close_to(7.5e3, 1e-12));
  CHECK(forty[1] == close_to(10e3, 1e-12));
  CHECK(forty[2] == close_to(7.5e3, 1e-12));
  // Longer than the line: 800 N over its 100 mm.
  for (const double flow : along(three.flows(1.0))) CHECK(flow == close_to(8e3, 1e-12));
  // 30 mm more of glue before the first tie: its 100 N are spread over 50 mm.
  CHECK(along(three.flows(0.04, {0.03, 0.0})).front() == close_to(2e3, 1e-12));
  CHECK(three.flows(0.02).front().across == close_to(7.0 / 0.02, 1e-12));
}

TEST_CASE(
    "check/plate_glue: what pulls the frame towards the sheet opens the glue, on both sides") {
  // A tie's force is what the plate pulls the frame with (docs/conventions.md).
  ThreeTies three;
  CHECK(three.flows(1.0).front().pull == close_to(40.0, 1e-12));
  three.plate.tie_level = 0.009;  // the frame on the side of the normal
  CHECK(three.flows(1.0).front().pull == close_to(-40.0, 1e-12));
}

TEST_CASE(
    "check/plate_glue: strengths by hand (EN 1995-1-1, 9.1.2(6) and (7); half by hand, ours)") {
  // Short-term, dry or covered: k_mod 0.9; plywood 1.2: 0.9 x 0.9/1.2 = 0.675 N/mm2.
  bench::Bench bench = bench_files::sound(small_bench(glued_top));
  const check::GlueStrengths rail = strengths_on(bench, 0.045, model::Role::rail);
  CHECK(rail.along == close_to(0.675e6 * std::pow(36.0 / 45.0, 0.8), 1e-9));  // 4 x 9 mm
  // C24, 1.3: half of 2 x 0.4 x 0.9/1.3 across, half of 0.4 x 0.9/1.3 pulled
  CHECK(rail.across == close_to(0.27692e6, 1e-4));
  CHECK(rail.pull == close_to(0.13846e6, 1e-4));
  CHECK(strengths_on(bench, 0.036, model::Role::rail).along == close_to(0.675e6, 1e-9));
  CHECK(strengths_on(bench, 0.045, model::Role::bearer).along == close_to(0.675e6, 1e-9));
  CHECK(strengths_on(bench, 0.145, model::Role::bearer).along ==
        close_to(0.675e6 * std::pow(72.0 / 145.0, 0.8), 1e-9));
  // Two layers are a flange of 18 mm if they are glued, else the lower one alone.
  bench.sheets[0].layers = 2;
  CHECK(strengths_on(bench, 0.045, model::Role::rail).along == close_to(rail.along, 1e-9));
  bench.sheets[0].between_layers = bench::Bond::glued;
  CHECK(strengths_on(bench, 0.045, model::Role::rail).along == close_to(0.675e6, 1e-9));
  // Birch rolls at 2.34 x 0.9/1.2 = 1.755; half of 0.67 x 4.0 x 0.9/1.3 = 0.928 by hand is less.
  bench = bench_files::sound(
      small_bench("top: {sheet: 18 mm birch plywood, load: none, fixed: glued}\n"));
  CHECK(strengths_on(bench, 0.045, model::Role::rail).f_r == close_to(1.755e6, 1e-9));
  CHECK(strengths_on(bench, 0.045, model::Role::rail).along == close_to(0.92769e6, 1e-4));
}

TEST_CASE("check/plate_glue: shears as vectors, pull on top of them, by hand") {
  const check::GlueStrengths f{0.6e6, 0.3e6, 0.1e6};
  // 9, 2 and 1 N/mm on 30 mm: 0.3, 0.0667 and 0.0333 N/mm2: √(0.5² + 0.2222²) + 0.3333
  CHECK(check::glue_ratio({9e3, -2e3, 1e3}, 0.03, f) == close_to(0.88049, 1e-4));
  CHECK(check::glue_ratio({9e3, -2e3, -1e3}, 0.03, f) == close_to(0.54716, 1e-4));  // pressed
  CHECK_THROWS((void)check::glue_ratio({9e3, 0.0, 0.0}, 0.0, f));
}

TEST_CASE("check/plate_glue: narrow rails that the top helps: the glue gives what pulls the rail") {
  const solved_bench::Solved bench = solved_bench::solved(narrow_rails());
  const Finding found = only_glue(bench);
  CHECK(found.id == "sheet-glue/top");
  CHECK(found.kind == check::Kind::safety);
  CHECK(found.judgement == Judgement::exceeded);
  // Statics: all that pulls the rail comes through the glue from its post to its middle.
  const model::Parts& parts = bench.model.parts;
  const auto seam = std::find_if(parts.seams.begin(), parts.seams.end(), [](const model::Seam& s) {
    return s.name == "top on the back top rail";
  });
  REQUIRE(seam != parts.seams.end());
  const check::GlueBeyond beyond = check::glue_beyond(parts, bench.model.plates[0], *seam);
  CHECK(beyond.start == close_to(0.1, 1e-9));  // ties begin 100 mm from the post, glue at it
  CHECK(beyond.end == close_to(0.1, 1e-9));
  CHECK(check::glue_width(parts, bench.model.plates[0], *seam) == close_to(0.022, 1e-9));
  double pulled = 0.0;  // N in the rail's middle less that at its end
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    if (bench.model.combinations[c].name != "strength-stand-back-edge-middle") continue;
    const std::vector<std::size_t>& members = parts.parts[seam->part].members;
    const auto& forces = bench.response.states.at(c)->end_forces;
    double most = -1e9;
    for (const std::size_t m : members) most = std::max(most, forces[m][6]);
    pulled = most - forces[members.front()][6];
  }
  CHECK(pulled > 6000.0);
  // Over 605 mm from the post's face to the middle, 22 mm wide, against 0.675 N/mm2: the mean,
  // which the worst 120 mm exceed, towards the post, where V is greatest: by less than twice, V S/I
  // being even between post and bearer and falling from there.
  const double mean = pulled / 0.605 / 0.022 / 0.675e6;
  CHECK(found.ratio > mean);
  CHECK(found.ratio < 2.0 * mean);
}

TEST_CASE("check/plate_glue: wider rails have less of it; screwed and loose sheets have none") {
  double last = 1e9;
  for (const int rail : {22, 32, 45, 70}) {
    CAPTURE(rail);
    const double ratio = only_glue(solved_bench::solved(narrow_rails(rail))).ratio;
    CHECK(ratio < last);
    last = ratio;
  }
  CHECK(last < 1.0);
  CHECK(glue_of(solved_bench::solved(narrow_rails(22, "screwed"))).empty());
  CHECK(glue_of(solved_bench::solved(narrow_rails(22, "loose"))).empty());
}

TEST_CASE("check/plate_glue: the worst changes little with the mesh") {
  bench::Bench bench = bench_files::sound(narrow_rails());
  const double usual = only_glue(solved_bench::solved(bench)).ratio;
  bench.analysis.mesh = quantity::millimetres(25.0);
  // A mean over 120 mm: one tie of the usual mesh, four of this one.
  CHECK(only_glue(solved_bench::solved(bench)).ratio == close_to(usual, 0.1));
}

TEST_CASE("check/plate_glue: upright sheets are glued to the faces of rails and posts") {
  const solved_bench::Solved bench = solved_bench::solved(
      small_bench("top: {sheet: 18 mm spruce plywood, load: none}\n"
                  "sheets: [{side: back, sheet: 9 mm spruce plywood, fixed: glued}, "
                  "{side: left, sheet: 9 mm spruce plywood, fixed: glued}]\n"));
  const std::vector<Finding> found = glue_of(bench);
  REQUIRE(found.size() == 2);
  for (const Finding& f : found) CHECK(f.judgement == Judgement::satisfied);
  CHECK(found[0].id == "sheet-glue/back-sheet");
  const model::Parts& parts = bench.model.parts;
  for (const model::Seam& seam : parts.seams) {
    const model::Part& part = parts.parts[seam.part];
    if (lies(parts.bench.sheets[seam.sheet])) continue;
    CAPTURE(seam.name);
    // From the outer faces of the posts, from the lowest rail up: all of each face.
    const double face = part.role == model::Role::post ? 0.07 : 0.095;
    const model::Plate& plate = bench.model.plates[seam.plate];
    CHECK(check::glue_width(parts, plate, seam) == close_to(face, 1e-6));
    CHECK(check::glue_beyond(parts, plate, seam).start == 0.0);
  }
}

TEST_CASE(
    "check/plate_glue: past its ties glue goes to a post, not past the sheet, nor on a ledger") {
  const auto beyond = [](const std::string& more, const std::string& name) {
    const solved_bench::Solved bench = solved_bench::solved(small_bench(more));
    for (const model::Seam& seam : bench.model.parts.seams) {
      if (seam.name != name) continue;
      return check::glue_beyond(bench.model.parts, bench.model.plates[seam.plate], seam);
    }
    FAIL("no seam " << name);
    return check::GlueBeyond{};
  };
  // A shelf from 40 mm past the post's face to the middle: its ties begin 100 mm from the post.
  const check::GlueBeyond shelf = beyond(
      "top: {sheet: 18 mm spruce plywood, load: none}\n"
      "shelf: {sheet: 12 mm spruce plywood, load: none, fixed: glued, from: 110 mm, to: 750 mm}\n",
      "shelf on the front lower rail");
  CHECK(shelf.start == close_to(0.06, 1e-6));
  CHECK(shelf.end == 0.0);
  const check::GlueBeyond ledger =
      beyond(glued_top + "wall: {ledger: 45 x 95 mm}\n", "top on the ledger");
  CHECK(ledger.start == 0.0);
  CHECK(ledger.end == 0.0);
}

TEST_CASE("check/plate_glue: screws into the posts are not its glue; strips have none to judge") {
  const std::string into =
      "top: {sheet: 18 mm spruce plywood, load: none, fixed: glued, screws: {size: 5 x 60 mm, "
      "into_posts: yes}}\n";
  const Finding found = only_glue(solved_bench::solved(small_bench(into)));
  CHECK(found.judgement == Judgement::satisfied);
  CHECK(found.place.find("post") == std::string::npos);
  for (const bench::Analysis::Sheets sheets :
       {bench::Analysis::Sheets::strip, bench::Analysis::Sheets::none}) {
    bench::Bench bench = bench_files::sound(small_bench(glued_top));
    bench.analysis.sheets = sheets;
    CHECK(glue_of(solved_bench::solved(bench)).empty());
  }
}

TEST_CASE("check/plate_glue: what is not known is not judged, and says why") {
  const auto why = [](auto spoil) {
    solved_bench::Solved bench = solved_bench::solved(small_bench(glued_top));
    spoil(bench.model);
    const Finding found = only_glue(bench);
    CHECK(found.judgement == Judgement::not_judged);
    return found.why;
  };
  CHECK(why([](model::Model& m) { m.parts.bench.sheets[0].panel.f_r_90_k = {}; }) ==
        "the rolling shear strength of spruce plywood across its grain is not known");
  CHECK(why([](model::Model& m) {
          m.parts.bench.air.service_class = reference::ServiceClass::sc3;
        }).find("does not belong in air as damp as") != std::string::npos);
  CHECK(why([](model::Model& m) {
          m.parts.bench.air.service_class = reference::ServiceClass::sc3;
          m.parts.bench.sheets[0].family.wettest = reference::ServiceClass::sc3;
          for (model::Part& part : m.parts.parts) {
            part.timber.material = reference::Material::mdf;
          }
        }).find("MDF") != std::string::npos);
  CHECK(why([](model::Model& m) {
          for (model::Combination& c : m.combinations) c.purpose = model::Purpose::service;
        }) == "no loads for strength");
}

}  // namespace plate_glue_test
