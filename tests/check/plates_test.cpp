// Sheets as plates: strength, screws, the free edge. Laws and sums by another road; closed forms of
// bending and sag are in tests/decide/plated_bench_test.cpp.
#include "standtrue/check/plates.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/plate_answers.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/solved_bench.hpp"
#include "tests/solve/plate_models.hpp"

namespace plates_test {

using namespace standtrue;
using check::Finding;
using check::Judgement;
using quantity::in_si;
using quantity::millimetres;
using tests::close_to;

namespace {

using bench_files::tables;

struct Solved : solved_bench::Solved {
  [[nodiscard]] check::PlateAnswers plates() const {
    return {model, response,
            [](const auto& c) { return check::judges_strength(c) || check::judges_sag(c); }};
  }
  [[nodiscard]] std::vector<Finding> strength() const {
    return check::plate_strength(answers(), plates(), tables());
  }
  [[nodiscard]] std::vector<Finding> screws() const {
    return check::plate_screws(answers(), tables());
  }
  [[nodiscard]] std::vector<Finding> edges() const {
    return check::sag_of_plate_edges(answers(), plates(), tables());
  }
};

Solved solved(const bench::Bench& bench) { return {solved_bench::solved(bench)}; }

Finding find(const std::vector<Finding>& findings, const std::string& id) {
  const Finding* found = hand_built::find(findings, id);
  REQUIRE_MESSAGE(found, id);
  return *found;
}

bench::Bench bench_with(const std::string& more) {
  return bench_files::sound(R"(
standtrue: 1
size: 1500 x 600 x 880 mm
timber: C24 45 x 95 mm
posts: 70 x 70 mm
joints: two corner brackets
analysis: {mesh: 100 mm}
)" + more);
}
/// Its back sheet, which holds it square along, is the second of its sheets.
bench::Bench with_back() {
  return bench_with(
      "top: {sheet: 18 mm spruce plywood, load: none}\n"
      "sheets: [{side: back, sheet: 9 mm spruce plywood, screws: 4 x 40 mm}]\n");
}

/// The greatest of what `of` reads of the forces of a plate, over the combinations for strength,
/// over what the duration allows.
template <class Of>
double worst(const Solved& bench, std::size_t plate, Of of) {
  double most = 0.0;
  const check::PlateAnswers plates = bench.plates();
  for (const auto& view : plates.of(plate, check::judges_strength)) {
    const reference::Duration duration = bench.model.combinations[view.combination].duration;
    const double k = *check::k_mod(reference::Material::plywood,
                                   bench.model.parts.bench.air.service_class, duration, tables());
    for (const solve::PlateForces& f : view.forces()) most = std::max(most, of(f) * 1.2 / k);
  }
  return most;
}

}  // namespace

TEST_CASE("check/plates: |M_xy|/W + |N_xy|/t against f_v, W = t²/6 (EN 1995-1-1, 6.1.7, γ_M 1.2)") {
  const Solved bench = solved(with_back());
  const bench::Sheet& back = bench.model.parts.bench.sheets.at(1);
  const double t = in_si(back.panel.thickness), f_v = in_si(back.panel.f_v_k);
  const double ratio = worst(bench, 1, [&](const solve::PlateForces& f) {
    return (std::abs(f.M_xy) * 6.0 / (t * t) + std::abs(f.N_xy) / t) / f_v;
  });
  const Finding found = find(bench.strength(), "sheet-panel-shear/back-sheet");
  CHECK(found.ratio == close_to(ratio, 1e-9));
  CHECK(found.ratio > 0.0);
}

TEST_CASE("check/plates: bending with what the sheet takes in its plane (EN 1995-1-1, 6.2.3)") {
  const Solved bench = solved(with_back());
  const bench::Sheet& back = bench.model.parts.bench.sheets.at(1);
  const reference::Panel& p = back.panel;
  const double t = in_si(p.thickness);
  const auto way = [&](double M, double N, bool along) {
    const double f_m = in_si(along ? p.f_m_0_k : p.f_m_90_k);
    const double flat =
        N > 0.0 ? in_si(along ? p.f_t_0_k : p.f_t_90_k) : in_si(along ? p.f_c_0_k : p.f_c_90_k);
    return std::abs(M) * 6.0 / (t * t * f_m) + std::abs(N) / (t * flat);
  };
  const double ratio = worst(bench, 1, [&](const solve::PlateForces& f) {
    return std::max(way(f.M_x, f.N_x, back.grain_along_x), way(f.M_y, f.N_y, !back.grain_along_x));
  });
  CHECK(find(bench.strength(), "sheet-bending/back-sheet").ratio == close_to(ratio, 1e-9));
}

TEST_CASE("check/plates: half of the bending strength stands in for one in the plane (ours)") {
  bench::Bench bench = with_back();
  const Solved before = solved(bench);
  bench::Sheet& back = bench.sheets.at(1);
  for (auto* f : {&back.panel.f_t_0_k, &back.panel.f_c_0_k}) *f = 0.5 * back.panel.f_m_0_k;
  for (auto* f : {&back.panel.f_t_90_k, &back.panel.f_c_90_k}) *f = 0.5 * back.panel.f_m_90_k;
  const double halved = find(solved(bench).strength(), "sheet-bending/back-sheet").ratio;
  for (auto* f :
       {&back.panel.f_t_0_k, &back.panel.f_c_0_k, &back.panel.f_t_90_k, &back.panel.f_c_90_k}) {
    *f = {};
  }
  CHECK(find(solved(bench).strength(), "sheet-bending/back-sheet").ratio == close_to(halved, 1e-9));
}

TEST_CASE("check/plates: a strength that is not known is not judged, and says which") {
  const auto why = [](const char* id, auto forget) {
    bench::Bench bench = with_back();
    forget(bench.sheets.at(1).panel);
    const Finding found = find(solved(bench).strength(), id);
    CHECK(found.judgement == Judgement::not_judged);
    return found.why;
  };
  using reference::Panel;
  CHECK(why("sheet-bending/back-sheet", [](Panel& p) { p.f_m_0_k = {}; }) ==
        "the bending strength of spruce plywood along its grain is not known");
  CHECK(why("sheet-bending/back-sheet", [](Panel& p) { p.f_m_90_k = {}; }) ==
        "the bending strength of spruce plywood across its grain is not known");
  CHECK(why("sheet-shear/back-sheet", [](Panel& p) { p.f_r_0_k = {}; }) ==
        "the rolling shear strength of spruce plywood along its grain is not known");
  CHECK(why("sheet-shear/back-sheet", [](Panel& p) { p.f_r_90_k = {}; }) ==
        "the rolling shear strength of spruce plywood across its grain is not known");
  CHECK(why("sheet-panel-shear/back-sheet", [](Panel& p) { p.f_v_k = {}; }) ==
        "the panel shear strength of spruce plywood is not known");
}

TEST_CASE("check/plates: an upright sheet's screw goes by eq. (8.28) of its pull and its shear") {
  const Solved bench = solved(with_back());
  const Finding found = find(bench.screws(), "sheet-screws/back-sheet");
  CHECK(found.judgement == Judgement::satisfied);
  CHECK(found.kind == check::Kind::safety);
  CHECK(found.rule == "EN 1995-1-1, 8.2.2, 8.3.3 and 8.7, eq. (8.28)");
  // 4 x 40 mm: 31 mm of C24 behind 9 mm, threaded to the head, so d_ef = 1.1 x 2.5 mm; of the
  // thread 27 mm count: F_ax = min(11 x 4 x 27, f_head d_h² (410/350)^0.8 = 10 x 64 x 1.135) N.
  // In the sheet f_h = 0.11 x 410 x 2.75^-0.3 = 33.295, in the post 21.188 N/mm2: a 824, b 1806, c
  // 646, d 530, e 794, f 788 N: mode d with a quarter of F_ax, 711.6 N.
  REQUIRE(found.working.size() >= 2);
  CHECK(found.working[0].find("mode d: F_v,Rk = 712 N, ") != std::string::npos);
  CHECK(found.working[0].find("F_ax,Rk = 726 N (its head pulls through)") != std::string::npos);
}

TEST_CASE("check/plates: twice the screws bear half each, of one force; more is never weaker") {
  bench::Bench bench = with_back();
  double last = 1e9;
  for (const double every : {300.0, 200.0, 150.0, 100.0, 75.0}) {
    bench.sheets.at(1).screws.every = millimetres(every);
    const double ratio = find(solved(bench).screws(), "sheet-screws/back-sheet").ratio;
    CHECK(ratio < last);
    last = ratio;
  }
}

TEST_CASE("check/plates: screws without a rule are not judged: short ones, and MDF (8.3.1.3)") {
  bench::Bench bench = with_back();
  bench.sheets.at(1).screws.length = millimetres(30);  // 21 mm reach in, 6 d = 24 are needed
  const Finding brief = find(solved(bench).screws(), "sheet-screws/back-sheet");
  CHECK(brief.judgement == Judgement::not_judged);
  CHECK(brief.why.find("reach 21 mm into the") != std::string::npos);
  CHECK(brief.advice == "longer screws");
  bench = with_back();
  bench.sheets.at(1).family = *tables().panel_family("MDF");
  const Finding mdf = find(solved(bench).screws(), "sheet-screws/back-sheet");
  CHECK(mdf.judgement == Judgement::not_judged);
  CHECK(mdf.why.find("MDF") != std::string::npos);
}

TEST_CASE(
    "check/plates: screws of a lying sheet are asked for their pull alone, as service (ours)") {
  const Solved bench =
      solved(bench_with("top: {sheet: 18 mm spruce plywood, load: 40 kg, fixed: screwed}\n"));
  const Finding found = find(bench.screws(), "sheet-screws/top");
  CHECK(found.kind == check::Kind::service);
  CHECK(found.rule == "EN 1995-1-1, 8.7.2, screws pulled");
  CHECK(found.judgement == Judgement::satisfied);
}

TEST_CASE("check/plates: the edge gives less the less it reaches out; limit c/150 (Table 7.2)") {
  double last = 1e9;
  for (const int over : {200, 150, 100}) {
    CAPTURE(over);
    const Solved bench = solved(bench_with(
        fmt::format("top: {{sheet: 18 mm spruce plywood, load: none, overhang: {} mm}}\n", over)));
    const Finding found = find(bench.edges(), "sag-overhang/top");
    // From the outer face of the rail, which stands flush in the post or set back in it.
    const std::string said = found.working.at(0);
    const double c = std::stod(said.substr(said.rfind("overhang ") + 9)) * 1e-3;
    CHECK(found.limit == close_to(std::max(c / 150.0, 1e-3), 1e-2));
    CHECK(found.demand > 0.0);
    CHECK(found.demand < last);
    last = found.demand;
  }
}

TEST_CASE("check/plates: a thicker board is never worse, in strength and at its edge") {
  double edge = 1e9;
  std::array<double, 2> ratios{1e9, 1e9};
  for (const int t : {12, 15, 18, 21, 24}) {
    CAPTURE(t);
    const Solved bench = solved(bench_with(
        fmt::format("top: {{sheet: {} mm spruce plywood, load: 60 kg, overhang: 100 mm}}\n", t)));
    const double sag = find(bench.edges(), "sag-overhang/top").demand;
    CHECK(sag < edge);
    edge = sag;
    const char* ids[] = {"sheet-bending/top", "sheet-shear/top"};
    for (std::size_t i = 0; i < 2; ++i) {
      const double ratio = find(bench.strength(), ids[i]).ratio;
      CHECK(ratio < ratios[i]);
      ratios[i] = ratio;
    }
  }
}

}  // namespace plates_test
