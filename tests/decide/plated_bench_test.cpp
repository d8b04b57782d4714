// What sheets do to whole benches.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "check/joint_strength.hpp"
#include "standtrue/check/check_all.hpp"
#include "standtrue/decide/assess.hpp"
#include "standtrue/solve/plate_response.hpp"
#include "tests/bench/bench_files.hpp"

namespace plated_bench_test {

using namespace standtrue;
using check::Finding;
using doctest::Approx;

namespace {

using bench_files::tables;

bench::Bench read(const std::string& text) {
  return bench_files::read("bench.yaml", text).bench.value();
}

/// A bench with mean joints alone.
struct Solved {
  model::Model model;
  solve::Response response;

  [[nodiscard]] std::vector<Finding> findings() const {
    return check::check_all({model, response}, tables());
  }
  [[nodiscard]] Finding finding(const std::string& id) const {
    for (const Finding& f : findings()) {
      if (f.id == id) return f;
    }
    FAIL("no finding " << id);
    return {};
  }
  [[nodiscard]] double demand(const std::string& id) const { return finding(id).demand; }
  [[nodiscard]] double ratio(const std::string& id) const { return finding(id).ratio; }
};

Solved solved(const bench::Bench& bench) {
  model::Idealisation made = model::idealise(bench, tables(), {});
  REQUIRE(made.model);
  solve::OrRefusal<solve::Response> response = solve::static_response(*made.model);
  REQUIRE_MESSAGE(response, response.error().what);
  return {*made.model, *response};
}

const std::string frame = R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
)";
const std::string laden = frame + R"(
top: {sheet: 21 mm spruce plywood, grain: across, load: none}
machines:
  - {kind: machine, mass: 80 kg, at: [775 mm, 325 mm], pads: 200 x 200 mm, pad: 50 mm}
)";

/// How far the diagonals of the posts' plan at a height differ under a shove at one corner.
double lost_square(const Solved& bench, double height) {
  const model::Model& model = bench.model;
  std::size_t combination = 0;
  while (model.combinations[combination].name.find("shove-across-at-the-left-end-forth") ==
         std::string::npos) {
    ++combination;
  }
  const solve::State& state = *bench.response.states.at(combination);
  std::array<std::size_t, 4> corners{};  // front-left, front-right, back-right, back-left
  for (std::size_t c = 0; c < 4; ++c) {
    double best = -1e9;
    for (std::size_t n = 0; n < model.nodes.size(); ++n) {
      const model::Point& p = model.nodes[n].at;
      if (model.nodes[n].name.find("post") == std::string::npos) continue;
      const double x = quantity::in_si(p.x), y = quantity::in_si(p.y);
      const double reach = (c == 1 || c == 2 ? x : -x) + (c >= 2 ? y : -y) -
                           10.0 * std::abs(quantity::in_si(p.z) - height);
      if (reach > best) {
        best = reach;
        corners[c] = n;
      }
    }
  }
  const auto stretch = [&](std::size_t a, std::size_t b) {
    const model::Point& p = model.nodes[a].at;
    const model::Point& q = model.nodes[b].at;
    const double dx = quantity::in_si(q.x - p.x), dy = quantity::in_si(q.y - p.y);
    const double du = state.at(b, model::Freedom::x) - state.at(a, model::Freedom::x);
    const double dv = state.at(b, model::Freedom::y) - state.at(a, model::Freedom::y);
    return (dx * du + dy * dv) / std::hypot(dx, dy);
  };
  return std::abs(stretch(corners[0], corners[2]) - stretch(corners[1], corners[3]));
}

}  // namespace

TEST_CASE("decide/plates: loose, screwed, glued: the rail sags less and less, between bounds") {
  bench::Bench bench = read(laden);
  std::array<double, 3> sag{};
  for (const bench::Bond bond : {bench::Bond::loose, bench::Bond::screwed, bench::Bond::glued}) {
    bench.sheets[0].bond = bond;
    sag[static_cast<std::size_t>(bond)] = solved(bench).demand("sag/front-top-rail");
  }
  CHECK(sag[1] < sag[0]);
  CHECK(sag[2] < sag[1]);
  // Real screws give a little, glue a lot: a quarter of what glue saves at most.
  CHECK(sag[0] - sag[1] < 0.4 * (sag[0] - sag[2]));
}

TEST_CASE("decide/plates: a bay is stood in wherever it lies (beam tables)") {
  const auto with = [](const char* at) {
    return solved(read(frame + "top: {sheet: 15 mm spruce plywood, load: none}\nbearers: {at: " +
                       std::string(at) + "}\n"))
        .ratio("sheet-bending/top");
  };
  // 700 mm between the same bearers, in the middle of the top and beside its end. There it goes on
  // over one bearer alone, and a load in mid-bay bends it more: 0.20 to 0.18 P L of beams, less of
  // plates, which carry to the long rails too.
  const double in_the_middle = with("[450 mm, 1150 mm]"), at_the_end = with("[720 mm]");
  CHECK(at_the_end > 0.95 * in_the_middle);
  CHECK(at_the_end < 1.3 * in_the_middle);
}

TEST_CASE(
    "decide/plates: a screwed shelf holds an open frame square (common practice, no source)") {
  const std::string top = "top: {sheet: 18 mm spruce plywood, fixed: loose}\n";
  bench::Bench bench = read(frame + top + "shelf: {sheet: 18 mm spruce plywood, load: none}\n");
  const double height = quantity::in_si(bench.sheets.at(1).underside) - 0.0475;
  const double screwed = lost_square(solved(bench), height);
  bench.sheets[1].bond = bench::Bond::loose;
  const double loose = lost_square(solved(bench), height);
  CHECK(screwed < 0.2 * loose);
}

TEST_CASE("decide/plates: sag, sway and moments hardly change on a mesh twice as fine") {
  bench::Bench bench = read(laden);
  const Solved usual = solved(bench);
  bench.analysis.mesh = quantity::millimetres(25.0);
  const Solved fine = solved(bench);
  // Twice as fine tells three quarters of the way to the limit, four times fifteen sixteenths.
  for (const std::string id : {"sag/front-top-rail", "sag-board/top",
                               "sag-total/top-under-the-machine", "sway/along", "sway/across"}) {
    CAPTURE(id);
    CHECK(usual.demand(id) == Approx(fine.demand(id)).epsilon(0.01));
  }
  CHECK(usual.demand("sheet-bending/top") ==
        Approx(fine.demand("sheet-bending/top")).epsilon(0.03));
}

TEST_CASE("decide/plates: the strip and the plate tell the same sag of the sheet itself") {
  // One line of pads along the middle of a long top on two rails: what the strip is meant for.
  const std::string text = R"(
standtrue: 1
size: 2600 x 650 x 900 mm
timber: C24 45 x 195 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, grain: across, load: none, fixed: loose}
machines:
  - {kind: machine, mass: 60 kg, at: [1275 mm, 300 mm], pads: 60 x 60 mm, pad: 40 mm}
)";
  bench::Bench bench = read(text);
  const double plate = solved(bench).demand("sag-board/top");
  bench.analysis.sheets = bench::Analysis::Sheets::strip;
  double strip = 0.0;
  for (const Finding& f : solved(bench).findings()) {
    if (f.id.rfind("sag/top-under", 0) == 0) strip = std::max(strip, f.demand);
  }
  // The strip's width is that of a point in the middle of an endless plate on knife edges; pads 60
  // mm apart share it, and rails that twist a little: within a seventh.
  CHECK(strip == Approx(plate).epsilon(0.15));
}

TEST_CASE("decide/plates: a bearer under the machine and grain across cure what they should") {
  bench::Bench bench = read(laden);
  const double across = solved(bench).demand("sag-board/top");
  bench.sheets[0].grain_along_x = true;
  const double along = solved(bench).demand("sag-board/top");
  CHECK(across < 0.8 * along);
}

TEST_CASE("decide/plates: out of plumb, what stands over a post still goes down the post") {
  // The lean of 1/200 adds little to 200 kg; hung on the joints they would be several times as
  // much.
  const Solved bench = solved(read(frame + R"(
top: {sheet: 21 mm spruce plywood, load: none}
loads: [{at: [1545 mm, 645 mm], mass: 200 kg}]
)"));
  const auto shear = [&](const std::string& combination) {
    const auto& all = bench.model.combinations;
    const auto c = std::find_if(all.begin(), all.end(),
                                [&](const auto& one) { return one.name == combination; });
    REQUIRE(c != all.end());
    const auto& state = bench.response.states.at(static_cast<std::size_t>(c - all.begin()));
    REQUIRE(state);
    double most = 0.0;
    for (const model::RailEnd& end : bench.model.parts.rail_ends) {
      if (end.name != "right top rail, back end") continue;
      most = std::abs(state->end_forces[end.member][end.at_end ? 8 : 2]);
    }
    return most;
  };
  const double plumb = shear("strength-stored");
  for (const char* way : {"left", "right", "front", "back"}) {
    CAPTURE(way);
    CHECK(shear(std::string("strength-askew-") + way) < 1.5 * plumb + 50.0);
  }
}

TEST_CASE("decide/plates: while it is shoved the weight of a top stays on its posts") {
  model::Idealisation made =
      model::idealise(read(frame + "top: {sheet: 21 mm spruce plywood}\n"), tables(), {});
  REQUIRE(made.model);
  const model::Model& model = *made.model;
  const auto sinks = [&](model::SpringSet springs, double push) {
    const auto prepared = solve::prepare(model, springs);
    REQUIRE(prepared);
    solve::Loading loading;
    loading.terms = {{*model.parts.self_case, 1.0}, {model.parts.shoves.at(3).forth, push}};
    const auto state = solve::respond(*prepared, loading);
    REQUIRE(state);
    double sum = 0.0;
    for (const std::size_t corner : model.parts.top_corners) {
      sum += state->at(corner, model::Freedom::z);
    }
    return sum;
  };
  // It presses the posts down by their ends, as under gravity, shoved or not.
  const double under_weight = sinks(model::SpringSet::gravity, 0.0);
  for (const double push : {0.0, 20.0}) {
    CHECK(sinks(model::SpringSet::sway, push) / under_weight == Approx(1.0).epsilon(0.01));
  }
}

TEST_CASE("decide/plates: over a post a machine presses on its end, before a shove as at rest") {
  // Were the joints alone to carry it while the bench is shoved, they would by half its weight.
  const Solved bench = solved(read(frame + R"(
top: {sheet: 21 mm spruce plywood, load: none}
machines:
  - {kind: machine, mass: 300 kg, at: [110 mm, 110 mm], pads: 100 x 100 mm, pad: 40 mm}
)"));
  const auto hangs = [&](const std::string& combination) {
    for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
      if (bench.model.combinations[c].name != combination) continue;
      double down = 0.0;
      for (const model::RailEnd& end : bench.model.parts.rail_ends) {
        if (end.name != "front top rail, left end" && end.name != "left top rail, front end")
          continue;
        down += check::end_forces(end, *bench.response.states[c])[check::Component::down];
      }
      return down;
    }
    FAIL("no combination " << combination);
    return 0.0;
  };
  const double machine = 300.0 * 9.81;
  CHECK(std::abs(hangs("sway-rest") - hangs("service-stored")) < 0.05 * machine);
}

TEST_CASE("decide/plates: the error told of the mesh covers what a fine mesh shows") {
  const bench::Bench bench = read(laden);
  const decide::Assessment usual = decide::assess(bench, tables(), true);
  bench::Bench finer = bench;
  finer.analysis.mesh = quantity::millimetres(12.5);
  const Solved fine = solved(finer);
  for (const std::string id : {"sag-board/top", "sag/front-top-rail", "sheet-bending/top"}) {
    CAPTURE(id);
    const auto found = std::find_if(usual.findings.begin(), usual.findings.end(),
                                    [id](const Finding& f) { return f.id == id; });
    REQUIRE(found != usual.findings.end());
    REQUIRE(found->mesh_error);
    const double off = std::abs(found->ratio - fine.ratio(id)) / found->ratio;
    // An estimate: three times over, or a thousandth, where both are next to nothing.
    CAPTURE(*found->mesh_error);
    CHECK(off < 3.0 * *found->mesh_error + 1e-3);
  }
}

TEST_CASE("decide/plates: stress and sag of a laden shelf are those of a strip, by hand") {
  // A long loose shelf, grain across, far from its ends: m = q a²/8, w = 5 q a⁴/384 E I + q a²/8 G
  // A_s (Roark, simple beams); design loads 1.35 and 1.5 (EN 1990, Table A1.2(B)), 200 kg/m²
  // stored.
  const Solved bench = solved(read(R"(
standtrue: 1
size: 2600 x 650 x 900 mm
timber: C24 45 x 195 mm
joints: {kind: bolted lap}
top: {sheet: 18 mm spruce plywood, load: none}
shelf: {sheet: 12 mm spruce plywood, grain: across, load: 200 kg/m2, fixed: loose}
braces:
  - {side: back, kind: cross}
  - {side: front, kind: cross}
  - {side: left}
  - {side: right}
)"));
  const model::Parts& parts = bench.model.parts;
  const bench::Sheet& shelf = parts.bench.sheets.at(1);
  const auto span = std::find_if(parts.spans.begin(), parts.spans.end(),
                                 [](const model::SheetSpan& s) { return s.sheet == 1; });
  const double a = quantity::in_si(span->bay), t = quantity::in_si(shelf.panel.thickness);
  const double g = 9.80665, own = quantity::in_si(shelf.panel.rho_mean) * t * g;
  const double m = (1.35 * own + 1.5 * 200.0 * g) * a * a / 8.0;
  // k_mod 0.6, 0.7 and 0.9 for years, storage and people, γ_M 1.2 (EN 1995-1-1, Tables 3.1
  // and 2.3).
  double worst = 0.0, in_mid = 0.0;
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    const model::Combination& combination = bench.model.combinations[c];
    const bool is_shoved = combination.springs == model::SpringSet::sway;
    if (combination.purpose != model::Purpose::strength || is_shoved) continue;
    const double k_mod = combination.duration == reference::Duration::permanent   ? 0.6
                         : combination.duration == reference::Duration::long_term ? 0.7
                                                                                  : 0.9;
    const solve::Answered one{&bench.response.loadings[c], &*bench.response.states[c]};
    const solve::PlateMovements moved =
        solve::plate_movements(*bench.response.prepared[0], 1, {&one, 1});
    const model::Plate& plate = bench.model.plates[1];
    for (const solve::PlateForces& f : solve::plate_forces(plate, moved, 0)) {
      const double by = 6.0 / (t * t) * 1.2 / k_mod;
      worst = std::max({worst, by * std::abs(f.M_y) / quantity::in_si(shelf.panel.f_m_0_k),
                        by * std::abs(f.M_x) / quantity::in_si(shelf.panel.f_m_90_k)});
    }
    if (combination.name == "strength-stored") {
      in_mid = -solve::plate_forces_at(plate, moved, 1.275, 0.3, 0).M_y;
    }
  }
  CHECK(in_mid == Approx(m).epsilon(0.05));
  // What a loose sheet takes in its plane is next to nothing.
  CHECK(bench.ratio("sheet-bending/shelf") == Approx(worst).epsilon(0.01));
  const double q = own + 200.0 * g, E = quantity::in_si(shelf.panel.E_m_0);
  const double w = 5.0 * q * std::pow(a, 4) / (384.0 * E * t * t * t / 12.0) +
                   q * a * a / (8.0 * quantity::in_si(shelf.panel.G_r_0) * t / 1.2);
  CHECK(bench.demand("sag-board/shelf") == Approx(w).epsilon(0.05));
}

TEST_CASE("decide/plates: a loose top over a frame shorter than deep lies on it too") {
  // It spans along the bench, so that its longest seams hold by weight alone.
  const auto verdict = [](const std::string& top) {
    return decide::assess(read("standtrue: 1\nsize: 700 x 850 x 850 mm\n"
                               "timber: C16 38 x 89 mm\njoints: two corner brackets\n"
                               "machines: [{kind: bench grinder, mass: 20 kg, at: middle}]\ntop: " +
                               top + "\n"),
                          tables(), true);
  };
  const auto least_stiffness = [](const decide::Assessment& a) {
    double least = 1e9;  // N/m, of the corners pushed along and across
    for (const check::Finding& f : a.findings) {
      CHECK(f.id.rfind("unanswered", 0) != 0);
      if (f.id.rfind("sway", 0) == 0) least = std::min(least, f.demand);
    }
    return least;
  };
  const double loose = least_stiffness(verdict("{sheet: 21 mm spruce plywood, fixed: loose}"));
  const double screwed = least_stiffness(verdict("21 mm spruce plywood"));
  CHECK(screwed < 1e9);
  CHECK(loose <= screwed);
}

}  // namespace plated_bench_test
