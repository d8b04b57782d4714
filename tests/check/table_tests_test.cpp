// Published tests of tables against statics by hand, and what they are held to have in common.
// Forces and limits are those of reference/loads.yaml and limits.yaml, whose sources stand there.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "check/plate_answers.hpp"
#include "check/table_test.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/table_tests.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/portal.hpp"

namespace table_tests_test {

using namespace hand_built;
using check::Finding;
using check::Judgement;
using check::Kind;
using doctest::Approx;
using Of = model::Weight::Of;

namespace {

/// 1.8 x 0.6 m between feet, its weight in its middle, the top past the feet by `over`.
model::Parts bench_of(double own = 900, double over = 0.025) {
  model::Parts parts = four_feet();
  parts.bench.sheets.push_back(
      sheet("top", bench::SheetPlace::top, "birch plywood", 18, 1.8, 0.6, over));
  parts.weights.push_back(weight(Of::bench, "front top rail", own, 0.9, 0.3));
  return parts;
}

std::vector<Finding> tipping_of(const model::Parts& parts) {
  return check::tipping_tests(parts, tables());
}

double ratio_of(const model::Parts& parts, const char* id) {
  const std::vector<Finding> all = tipping_of(parts);
  const Finding* f = find(all, id);
  REQUIRE(f);
  return f->ratio;
}

constexpr double h_top = 0.88 + 0.0176;

/// A bench of our own, 1.6 x 0.6 m, with a drill press in its middle.
std::string bench_text(const std::string& duty, const std::string& more = "") {
  return "standtrue: 1\nsize: 1600 x 600 x 900 mm\ntimber: C24 45 x 95 mm\n"
         "joints: two corner brackets\ntop: 18 mm birch plywood\nduty: " +
         duty + "\n" + more;
}
const std::string with_drill =
    "machines:\n  - {kind: drill press, mass: 60 kg, at: [800 mm, 300 mm]}\n";

struct Bench {
  model::Model model;
  solve::Response response;
  explicit Bench(const std::string& text, const reference::Tables& by = tables()) {
    const bench_files::Read read = bench_files::read("bench.yaml", text);
    REQUIRE_MESSAGE(read.bench, read.messages);
    model = *model::idealise(*read.bench, by).model;
    auto answer = solve::static_response(model);
    REQUIRE_MESSAGE(answer, answer.error().what);
    response = *std::move(answer);
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
  [[nodiscard]] check::PlateAnswers plates() const { return {model, response, check::judges_test}; }
  [[nodiscard]] std::vector<Finding> tests() const {
    return check::table_tests(answers(), plates(), tables());
  }
  [[nodiscard]] std::size_t named(const std::string& name) const {
    const auto found = std::find_if(model.combinations.begin(), model.combinations.end(),
                                    [&](const auto& c) { return c.name == name; });
    REQUIRE(found != model.combinations.end());
    return static_cast<std::size_t>(found - model.combinations.begin());
  }
  /// What the floor carries under a combination, N.
  [[nodiscard]] double on_floor(const std::string& name) const {
    double sum = 0.0;
    for (const model::FootPlace& foot : model.parts.feet) {
      sum += response.states[named(name)]->support_forces.at(foot.down);
    }
    return sum;
  }
  /// Down at a place of the top, m.
  [[nodiscard]] double down(const std::string& name, double x, double y) const {
    const std::size_t c = named(name);
    const std::vector<solve::Answered> one{{&response.loadings[c], &*response.states[c]}};
    const auto set = static_cast<std::size_t>(model.combinations[c].springs);
    const solve::PlateMovements moved = solve::plate_movements(*response.prepared[set], 0, one);
    return -solve::plate_w(model.plates[0], moved, x, y, 0);
  }
};

}  // namespace

TEST_CASE("check/table_tests: 736 N on the edge of the empty top, by moments about the pads") {
  // DGUV Grundsatz 315-410, 2.6.1. Over the front: 736 x 0.025 against 900 x 0.3 N m.
  const std::vector<Finding> all = tipping_of(bench_of());
  const Finding* f = find(all, "table-test/edge");
  REQUIRE(f);
  CHECK(f->kind == Kind::told);
  CHECK(f->judgement == Judgement::satisfied);
  CHECK(f->demand == Approx(736 * 0.025));
  CHECK(f->limit == Approx(900 * 0.3));
  CHECK(f->source.key == "DGUV Grundsatz 315-410");
  CHECK(f->why.find("EN 15372:2023") != std::string::npos);
  // An overhang of 400 mm: 736 x 0.4 = 294.4 > 270 N m; it tips at 270/0.4 = 675 N = 69 kg.
  const std::vector<Finding> wide = tipping_of(bench_of(900, 0.4));
  const Finding* tips = find(wide, "table-test/edge");
  REQUIRE(tips);
  CHECK(tips->kind == Kind::caution);
  CHECK(tips->sentence ==
        "A published test of office tables puts 75 kg on the edge of the empty top: it tips to the "
        "front, at 69 kg.");
  // The edge above the pads, or inside them: no weight tips it.
  CHECK(ratio_of(bench_of(900, 0.0), "table-test/edge") == Approx(0.0));
}

TEST_CASE("check/table_tests: 600 N down near the edge and 300 N outwards, by moments") {
  // Furniture Design, figure 6.108a: 300 x 0.8976 - 600 x 0.025 = 254.28 against 900 x 0.3 = 270.
  const std::vector<Finding> all = tipping_of(bench_of());
  const Finding* f = find(all, "table-test/stability");
  REQUIRE(f);
  CHECK(f->demand == Approx(300 * h_top - 600 * 0.025));
  CHECK(f->limit == Approx(270));
  CHECK(f->kind == Kind::told);
  CHECK(f->sentence.find("it stays down.") != std::string::npos);
  // 800 N hold with 240 N m, 94 % of that.
  const std::vector<Finding> lighter = tipping_of(bench_of(800));
  f = find(lighter, "table-test/stability");
  REQUIRE(f);
  CHECK(f->kind == Kind::caution);
  CHECK(f->sentence.find("it tips to the front, at 94 % of that.") != std::string::npos);
  CHECK_FALSE(f->advice.empty());
}

TEST_CASE("check/table_tests: a machine behind the feet tips it as planned, one between them not") {
  model::Parts parts = bench_of(1200);
  parts.bench.machines.resize(1);
  parts.bench.machines[0].name = "drill press";
  // 600 N, 0.4 m behind the back feet: 254.28 + 240 against 1200 x 0.3 = 360 N m.
  parts.weights.push_back(weight(Of::machine, "drill press", 600, 0.9, 1.0));
  const std::vector<Finding> behind = tipping_of(parts);
  const Finding* f = find(behind, "table-test/stability");
  REQUIRE(f);
  CHECK(f->demand == Approx(300 * h_top - 600 * 0.025 + 600 * 0.4));
  CHECK(f->limit == Approx(360));
  CHECK(f->sentence.find("it tips to the back, as planned") != std::string::npos);
  // The edge test is of the empty bench: the machine changes nothing.
  CHECK(ratio_of(parts, "table-test/edge") == ratio_of(bench_of(1200), "table-test/edge"));
  parts.weights.back().y = metres(0.3);
  CHECK(ratio_of(parts, "table-test/stability") ==
        Approx(ratio_of(bench_of(1200), "table-test/stability")));
}

TEST_CASE("check/table_tests: a heavier bench and wider feet never tip earlier") {
  for (const char* id : {"table-test/edge", "table-test/stability"}) {
    double last = 1e9;
    for (const double own : {300, 500, 900, 1500, 3000}) {
      const double ratio = ratio_of(bench_of(own, 0.1), id);
      CHECK(ratio < last);
      CHECK(ratio * own == Approx(300 * ratio_of(bench_of(300, 0.1), id)));
      last = ratio;
    }
    double narrow = 1e9;
    for (const double spread : {0.0, 0.05, 0.1}) {
      model::Parts parts = bench_of(900, 0.1);
      for (bench::Post& post : parts.bench.posts) {
        const double out = quantity::in_si(post.y) > 0.3 ? spread : -spread;
        post.y = post.foot_y = post.y + metres(out);
      }
      const double ratio = ratio_of(parts, id);
      CHECK(ratio <= narrow);
      narrow = ratio;
    }
  }
}

TEST_CASE("check/table_tests: a bench that a wall holds is not tipped") {
  model::Parts parts = bench_of();
  parts.bench.wall.push_back({"back top rail", metres(0.5)});
  CHECK(tipping_of(parts).empty());
}

TEST_CASE("check/strength_under: 1 kN in the middle of a rail on seats, M = F L/4") {
  // C24, 70 x 120 mm over 1.4 - 0.09 m: 1000 x 1.31/4 = 327.5 N m, W = 168e-6 m3, 1.949 N/mm2
  // against 0.9 x 1.0456 x 24/1.3 (EN 1995-1-1, 3.2(3): k_h = (150/120)^0.2).
  portal::Portal p;
  p.joint = "pinned";
  p.bearing = 0.09;
  p.bend = 1e-6;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -1000);
  const portal::Solved strength = portal::solve(built);
  built.model.combinations[0].purpose = model::Purpose::test;
  built.model.combinations[0].name = "test-static-test-here";
  built.model.combinations[0].leading = model::Leading::test;
  const portal::Solved tested = portal::solve(built);
  const check::PlateAnswers none(tested.model, tested.response, check::judges_test);
  const check::StrengthUnder under =
      check::strength_under(tested.answers(), none, check::is_static_test, tables());
  CHECK(under.answered == 1);
  const double f_m_d = 0.9 * std::pow(150.0 / 120.0, 0.2) * 24e6 / 1.3;
  const check::SectionForces of_test(tested.answers(), check::is_static_test);
  const std::vector<Finding> bent = check::bending(tested.answers(), of_test, tables());
  const Finding* rail = find(bent, "bending/rail");
  REQUIRE(rail);
  CHECK(rail->ratio == Approx(327.5 / (0.07 * 0.12 * 0.12 / 6.0) / f_m_d).epsilon(1e-6));
  // The same forces in a combination for strength give the same answers, there and not here. The
  // little that the posts push the rail along makes its sideways check the worst by 0.4 %.
  const check::SectionForces forces(strength.answers());
  const std::vector<Finding> sideways =
      check::lateral_stability(strength.answers(), forces, tables());
  REQUIRE(sideways.size() == 1);
  CHECK(under.ratio == Approx(sideways[0].ratio).epsilon(1e-9));
  CHECK(under.ratio == Approx(rail->ratio).epsilon(0.005));
  CHECK(under.sentence == sideways[0].sentence);
  CHECK(check::strength_under(strength.answers(), none, check::is_static_test, tables()).answered ==
        0);
  CHECK(check::SectionForces(tested.answers()).combinations().empty());
}

TEST_CASE("check/table_tests: the floor carries what is pressed, without any factor") {
  const Bench bench(bench_text("general", with_drill));
  const double rest = bench.on_floor("test-at-rest");
  CHECK(bench.on_floor("test-disc-test-middle") - rest == Approx(1257).epsilon(1e-6));
  CHECK(bench.on_floor("test-static-test-front-edge-middle") - rest == Approx(1000).epsilon(1e-6));
  CHECK(bench.on_floor("test-racking-test-top-along-at-the-front-forth") - rest ==
        Approx(981).epsilon(1e-6));
  CHECK(rest - bench.on_floor("test-empty") == Approx(60 * 9.80665).epsilon(1e-6));
  // And it grips against the push of 300 N.
  double grip = 0.0;
  const std::size_t c = bench.named("test-racking-test-top-along-at-the-front-forth");
  for (const model::FootPlace& foot : bench.model.parts.feet) {
    grip += bench.response.states[c]->support_forces.at(foot.grip_x);
  }
  CHECK(std::abs(grip) == Approx(300).epsilon(1e-6));
}

TEST_CASE(
    "check/table_tests: under the disc, of its force alone; a bearer and a thicker top help") {
  const Bench bench(bench_text("general", with_drill));
  const std::vector<Finding> all = bench.tests();
  const Finding* f = find(all, "table-test/disc");
  REQUIRE(f);
  CHECK(f->limit == Approx(3.2e-3));  // A-A-2122F, 4.8
  CHECK(f->source.key == "A-A-2122F");
  // The bench stands symmetrically under the disc: all post tops sink alike, by this.
  const double x = 0.8 - 0.025, y = 0.3 - 0.025;  // from the posts, 25 mm inside the edges
  double post_tops = 0.0;
  for (const std::size_t node : bench.model.parts.top_corners) {
    for (const auto& [name, sign] :
         {std::pair{"test-disc-test-middle", -1.0}, std::pair{"test-at-rest", 1.0}}) {
      post_tops += sign * bench.response.states[bench.named(name)]->at(node, model::Freedom::z) /
                   static_cast<double>(bench.model.parts.top_corners.size());
    }
  }
  const double sunk =
      bench.down("test-disc-test-middle", x, y) - bench.down("test-at-rest", x, y) - post_tops;
  CHECK(f->demand == Approx(sunk).epsilon(1e-6));
  // All feet press: without the machine the same, by a solution of its own.
  const auto& place = *std::find_if(bench.model.parts.tests.begin(), bench.model.parts.tests.end(),
                                    [](const auto& p) { return p.test == "disc test"; });
  const auto down_with = [&](double disc) {
    const solve::Loading loading{{{*bench.model.parts.self_case, 1.0}, {place.load_case, disc}},
                                 {}};
    const auto state = solve::respond(*bench.response.prepared[0], loading);
    REQUIRE(state);
    const std::vector<solve::Answered> one{{&loading, &*state}};
    const solve::PlateMovements moved = solve::plate_movements(*bench.response.prepared[0], 0, one);
    double tops = 0.0;
    for (const std::size_t node : bench.model.parts.top_corners) {
      tops -= 0.25 * state->at(node, model::Freedom::z);
    }
    return -solve::plate_w(bench.model.plates[0], moved, x, y, 0) - tops;
  };
  CHECK(down_with(1.257) - down_with(0.0) == Approx(f->demand).epsilon(1e-6));

  const auto demand = [](const std::string& text) {
    const std::vector<Finding> found = Bench(text).tests();
    return find(found, "table-test/disc")->demand;
  };
  const std::string bearer = bench_text("general", "bearers: [{at: 800 mm}]\n");
  CHECK(demand(bearer) < f->demand);
  std::string thick = bench_text("general");
  thick.replace(thick.find("18 mm"), 2, "24");
  CHECK(demand(thick) < f->demand);
}

TEST_CASE("check/table_tests: light duty has the lighter tests, held to strength alone") {
  const Bench light(bench_text("light")), general(bench_text("general"));
  const std::vector<Finding> few = light.tests(), all = general.tests();
  const Finding* disc = find(few, "table-test/disc");
  REQUIRE(disc);
  CHECK(disc->source.key == "A-A-2082D");
  CHECK(disc->unit == quantity::Kind::ratio);
  CHECK(light.on_floor("test-light-disc-test-middle") - light.on_floor("test-at-rest") ==
        Approx(883).epsilon(1e-6));
  // 200 N with 50 kg take less than 300 N with 100 kg.
  CHECK(find(few, "table-test/racking")->ratio < find(all, "table-test/racking")->ratio);
  CHECK(find(few, "table-test/static")->ratio == Approx(find(all, "table-test/static")->ratio));
}

TEST_CASE("check/table_tests: a place that tips the bench is not hidden by those that hold") {
  Bench bench(bench_text("general"));
  bench.response.states[bench.named("test-static-test-front-edge-middle")] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "the frame tips", "", {}});
  const std::vector<Finding> tipped = bench.tests();
  const Finding* f = find(tipped, "table-test/static");
  REQUIRE(f);
  CHECK(f->kind == Kind::caution);
  CHECK(std::isinf(f->ratio));
  CHECK(f->sentence.find("somewhere the bench tips under it.") != std::string::npos);
  // Another refusal is said too.
  bench.response.states[bench.named("test-static-test-front-edge-middle")] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::audit_failed, "no audit", "", {}});
  const std::vector<Finding> refused = bench.tests();
  f = find(refused, "table-test/static");
  CHECK(f->kind == Kind::told);
  CHECK(f->sentence.find("where it has an answer.") != std::string::npos);
}

TEST_CASE("check/table_tests: told at mean joints alone") {
  Bench bench(bench_text("general"));
  check::Answers soft = bench.answers();
  soft.at_mean = false;
  CHECK(check::table_tests(soft, bench.plates(), tables()).empty());
  CHECK(check::drop(soft, bench.plates(), tables()).empty());
  CHECK(check::drag(soft, tables()).empty());
}

}  // namespace table_tests_test
