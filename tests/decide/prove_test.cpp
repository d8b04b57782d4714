#include "standtrue/decide/prove.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "decide/trials.hpp"
#include "standtrue/model/scatter.hpp"
#include "tests/bench/bench_files.hpp"

namespace prove_test {

using namespace standtrue;
using bench::Test;
using bench_files::tables;
using decide::ProvingPlan;
using decide::Work;
using doctest::Approx;
using quantity::in_si;

namespace {

/// Strips, for speed.
const std::string plain = R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
analysis: {sheets: strip}
)";
const std::string plated = R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
)";

const decide::Trial& named(const ProvingPlan& plan, Test test) {
  return plan.trials.at(static_cast<std::size_t>(test));
}

/// What would be read on a bench of this stiffness, without any error.
std::vector<bench::Reading> made(const bench::Bench& bench, const std::vector<Test>& tests,
                                 const model::Scales& scales) {
  const decide::Proving proving(bench, tables());
  std::vector<bench::Reading> readings;
  for (const Test test : tests) {
    const double force = bench::is_pull(test) ? 30.0 : 200.0;
    const decide::Proving::Moved moved = proving.moves({{test, force}}, scales).front();
    REQUIRE(moved.why.empty());
    readings.push_back(
        {test, quantity::newtons(force), quantity::metres(moved.by), quantity::millimetres(0.01)});
  }
  return readings;
}

bool says(const ProvingPlan& plan, const std::string& words) {
  return std::any_of(plan.answer.begin(), plan.answer.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

const decide::Known& known(const ProvingPlan& plan, std::size_t i) {
  REQUIRE(plan.learned);
  return plan.learned->known.at(i);
}

}  // namespace

TEST_CASE("decide/prove: the loose rail sags F L³/48 E I + F L/4 G A_s, E of EN 338 and JCSS") {
  const bench::Bench bench = bench_files::sound(plain);
  const ProvingPlan plan = decide::prove(bench, {}, tables(), Work::plain());
  const decide::Trial& t = named(plan, Test::loose_rail);
  REQUIRE(t.why.empty());
  // C24: E 11000, G 690 N/mm2 (EN 338). The top reaches 25 mm past the posts, which
  // show their 95 mm along the bench: 1600 - 2 x 25 - 2 x 95 =
  // 1360 long, on blocks 1250 apart (whole 50 mm, 50 mm past each). On edge 40 kg would bend it
  // 0.6 mm: it is laid flat.
  CHECK(t.act.find("wide face") != std::string::npos);
  const double L = 1.25, b = 0.095, h = 0.045, E = 11e9, G = 690e6;
  const double mean = t.force * L * L * L / (48.0 * E * b * h * h * h / 12.0) +
                      t.force * L / (4.0 * G * 5.0 / 6.0 * b * h);
  // Lognormal with a coefficient of variation of 0.13 (JCSS): s² = ln(1 + 0.13²), median below the
  // mean by exp(-s²/2). Sag goes with 1/E.
  const double s = std::sqrt(std::log(1.0 + 0.13 * 0.13));
  CHECK(t.expected == Approx(mean * std::exp(0.5 * s * s)).epsilon(1e-6));
  CHECK(t.soft / t.expected == Approx(std::exp(1.644854 * s)).epsilon(1e-3));
  CHECK(t.expected / t.stiff == Approx(std::exp(1.644854 * s)).epsilon(1e-3));
  CHECK(t.expected >= 1e-3);
  CHECK(t.expected <= 10e-3);
  CHECK(0.25 * t.force * L / (b * h * h / 6.0) <= 24e6 / 3.0);  // f_m,k of C24: 24 N/mm2
  REQUIRE(t.lessons.size() == 1);
  CHECK(t.lessons[0].of == "timber");
}

TEST_CASE("decide/prove: a pull is at most half of what tips a rigid body or makes it slide") {
  const bench::Bench bench = bench_files::sound(plain);
  const ProvingPlan plan = decide::prove(bench, {}, tables(), Work::plain());
  for (const Test test :
       {Test::bare_along, Test::bare_across, Test::finished_along, Test::finished_across}) {
    const decide::Trial& t = named(plan, test);
    CAPTURE(t.name);
    REQUIRE(t.why.empty());
    const bool is_bare = test == Test::bare_along || test == Test::bare_across;
    const bool is_along = test == Test::bare_along || test == Test::finished_along;
    const bench::Bench state = is_bare ? decide::bare_frame(bench) : decide::emptied(bench);
    const model::Idealisation made = model::idealise(state, tables());
    REQUIRE(made.model);
    // H = W a/h and mu W, by hand: alike on all sides, feet under the axes of posts that
    // stand 25 mm in.
    double W = 0.0;
    for (const model::Weight& weight : made.model->parts.weights) W += in_si(weight.force);
    const double half = 0.5 * (is_along ? 1.55 - 0.095 : 0.65 - 0.045);
    const double height = is_bare ? 0.882 : 0.9;
    CHECK(t.force <= 0.5 * W * half / height * (1.0 + 1e-6));
    CHECK(t.tips_at == Approx(W * half / height).epsilon(0.01));
    CHECK(t.force <= 0.5 * 0.5 * W);  // no foot of the table grips better than 0.5 or so
    CHECK(t.force <= 0.5 * t.slides_at);
    CHECK(t.force < 200.0);
    CHECK(t.soft > t.expected);
    CHECK(t.expected > t.stiff);
  }
  CHECK(named(plan, Test::bare_across).lessons.at(0).of == "joints");
}

TEST_CASE("decide/prove: the foretold sway of the finished bench is that of check") {
  // Bolted down, so that no foot lifts under the 200 N of check; and so low that second order, of
  // which a pull of 20 N knows nothing, does not count.
  const std::string low = std::string(plain).replace(plain.find("900 mm"), 3, "700");
  const bench::Bench bench = decide::emptied(bench_files::sound(low + "feet: {fixed: yes}\n"));
  const decide::Proving proving(bench, tables());
  const decide::Assessment assessment = decide::assess(bench, tables());
  REQUIRE_FALSE(assessment.mean.response->second_order);
  for (const bool along : {true, false}) {
    const double force = 20.0;
    const auto moved =
        proving.moves({{along ? Test::finished_along : Test::finished_across, force}}, {}).front();
    const std::string id = along ? "sway/along" : "sway/across";
    for (const check::Finding& f : assessment.findings) {
      if (f.id == id) CHECK(force / moved.by == Approx(f.demand).epsilon(1e-6));
    }
  }
}

TEST_CASE("decide/prove: stiffness that is known comes back from readings without error") {
  const bench::Bench bench = bench_files::sound(plain);
  const model::Scales truth{0.88, 0.45, 1.0};
  const ProvingPlan plan = decide::prove(
      bench, made(bench, {Test::loose_rail, Test::bare_along, Test::bare_across}, truth), tables(),
      Work::plain());
  CHECK(known(plan, 0).low < 0.88);
  CHECK(known(plan, 0).high > 0.88);
  CHECK(known(plan, 0).is_narrowed);
  CHECK(known(plan, 1).low < 0.45);
  CHECK(known(plan, 1).high > 0.45);
  // The reading weighs (s/e)² times what the prior does: a twentieth of ln 0.45 is left at most.
  CHECK(std::log(known(plan, 1).median) == Approx(std::log(0.45)).epsilon(0.1));
  CHECK(known(plan, 1).high / known(plan, 1).low < 2.0);  // three times three before
  for (const decide::Told& t : plan.learned->readings) {
    CAPTURE(t.name);
    CHECK_FALSE(t.contradicts);
    CHECK_FALSE(t.is_useless);
  }
  CHECK(plan.learned->after);
  CHECK(plan.is_sound());
}

TEST_CASE(
    "decide/prove: two sways alone do not tell soft timber from soft joints, and it says so") {
  const bench::Bench bench = bench_files::sound(plain);
  const ProvingPlan plan =
      decide::prove(bench, made(bench, {Test::bare_along, Test::bare_across}, {0.85, 0.7, 1.0}),
                    tables(), Work::plain());
  CHECK_FALSE(known(plan, 0).is_narrowed);
  CHECK(known(plan, 1).is_narrowed);
  CHECK(plan.learned->timber_joints < 0.0);
  CHECK(says(plan, "do not tell soft timber from soft joints"));
}

TEST_CASE("decide/prove: readings that contradict each other are named and change no verdict") {
  const bench::Bench bench = bench_files::sound(plain);
  auto readings = made(bench, {Test::loose_rail, Test::bare_along, Test::bare_across}, {1, 1, 1});
  readings[1].moves = readings[1].moves * 3.0;
  readings[2].moves = readings[2].moves / 3.0;
  const ProvingPlan plan = decide::prove(bench, readings, tables(), Work::plain());
  REQUIRE(plan.learned);
  CHECK_FALSE(plan.learned->readings[0].contradicts);
  CHECK(plan.learned->readings[1].contradicts);
  CHECK(plan.learned->readings[2].contradicts);
  CHECK(says(plan, "'bare frame along' does not agree"));
  CHECK_FALSE(plan.learned->after);
  CHECK_FALSE(plan.is_sound());
}

TEST_CASE("decide/prove: a rule too coarse teaches nothing, and what is beyond belief is said") {
  const bench::Bench bench = bench_files::sound(plain);
  auto readings = made(bench, {Test::loose_rail}, {1, 1, 1});
  readings[0].gauge = readings[0].moves * 4.0;
  const ProvingPlan coarse = decide::prove(bench, readings, tables(), Work::plain());
  REQUIRE(coarse.learned);
  CHECK(coarse.learned->readings[0].is_useless);
  CHECK(says(coarse, "'loose rail' teaches nothing"));
  auto odd = made(bench, {Test::bare_along}, {1, 1, 1});
  odd[0].moves = odd[0].moves * 20.0;
  const ProvingPlan plan = decide::prove(bench, odd, tables(), Work::plain());
  CHECK(known(plan, 1).is_far_out);
  CHECK(says(plan, "beyond belief"));
  CHECK_FALSE(plan.learned->after);
}

TEST_CASE("decide/prove: with joints known the sway no longer runs over the whole band") {
  const bench::Bench bench = bench_files::sound(plain);
  decide::KnownScales scales;
  scales.soft.joints = 1.9;
  scales.mean.joints = scales.stiff.joints = 2.0;
  scales.poor.joints = 1.9;
  const decide::Assessment before = decide::assess(bench, tables());
  const decide::Assessment after = decide::assess(bench, tables(), false, &scales);
  const auto sway = [](const decide::Assessment& a) {
    for (const check::Finding& f : a.findings) {
      if (f.id == "sway/along") return f;
    }
    FAIL("no sway");
    return check::Finding{};
  };
  CHECK(sway(before).demand_stiff / sway(before).demand_soft > 3.0);
  CHECK(sway(after).demand_stiff / sway(after).demand_soft < 1.3);
  CHECK(sway(after).demand > sway(before).demand);
  CHECK(sway(after).measure.empty());
}

TEST_CASE("decide/prove: scales go to timber, joints and screws, in place of the band") {
  const bench::Bench bench = bench_files::sound(plated);
  model::Assumptions soft;
  soft.bound = model::Bound::soft;
  soft.low_timber = true;
  soft.scales = {0.8, 2.0, 1.5};
  const model::Idealisation mean = model::idealise(bench, tables());
  const model::Idealisation scaled = model::idealise(bench, tables(), soft);
  REQUIRE(mean.model);
  REQUIRE(scaled.model);
  const model::Model& a = *mean.model;
  const model::Model& b = *scaled.model;
  REQUIRE(a.members.size() == b.members.size());
  CHECK(in_si(b.members[0].elastic.E) == Approx(0.8 * in_si(a.members[0].elastic.E)));
  CHECK(in_si(b.members[0].elastic.G) == Approx(0.8 * in_si(a.members[0].elastic.G)));
  CHECK(b.parts.rail_ends[0].stiffness.bend_sway ==
        Approx(2.0 * a.parts.rail_ends[0].stiffness.bend_sway));
  double most = 0.0, least = 1e30;
  for (std::size_t t = 0; t < a.plates[0].ties.size(); ++t) {
    if (a.plates[0].ties[t].stiffness[0] <= 0.0) continue;
    const double times = b.plates[0].ties[t].stiffness[0] / a.plates[0].ties[t].stiffness[0];
    most = std::max(most, times);
    least = std::min(least, times);
  }
  CHECK(least == Approx(1.5));
  CHECK(most == Approx(1.5));
}

TEST_CASE("decide/prove: what was narrowed takes the place of the band, what was not keeps it") {
  const decide::Known timber{"timber", 0.8, 0.98, 1.2, 0.9, 0.95, 1.0, true, false};
  const decide::Known joints{"joints", 0.33, 1.0, 3.0, 0.6, 0.8, 1.1, true, false};
  const decide::Known screws{"screws", 0.5, 0.94, 1.6, 0.5, 0.93, 1.6, false, false};
  const decide::KnownScales s = decide::scales_of({timber, joints, screws});
  CHECK(s.soft.joints == 0.6);
  CHECK(s.mean.joints == 0.8);
  CHECK(s.stiff.joints == 1.1);
  CHECK(s.poor.joints == 0.6);
  CHECK(s.soft.timber == 0.95);
  CHECK(s.stiff.timber == 0.95);
  CHECK(s.poor.timber == 0.9);
  CHECK_FALSE(s.soft.screws);
  CHECK_FALSE(s.poor.screws);
}

TEST_CASE("decide/prove: the top's weight stands in a bay and sags as rails and sheet do") {
  const bench::Bench bench = bench_files::sound(plated);
  const ProvingPlan plan = decide::prove(bench, {}, tables(), Work::plain());
  const decide::Trial& t = named(plan, Test::top_sag);
  REQUIRE(t.why.empty());
  CHECK(t.force <= 500.0);
  // Rails alone, halves of the weight, free at their ends: softer than rails and sheet together in
  // that part, so the whole is between the half and some times of it.
  const double L = 1.6, E = 11e9, I = 0.045 * std::pow(0.095, 3) / 12.0;
  const double rails = 0.5 * t.force * L * L * L / (48.0 * E * I);
  CHECK(t.expected > 0.3 * rails);
  CHECK(t.expected < 5.0 * rails);
}

TEST_CASE("decide/prove: what can not be tested says why") {
  const bench::Bench bench = bench_files::sound(plain + "feet: {castor: 75 mm}\n");
  const ProvingPlan plan = decide::prove(bench, {}, tables(), Work::plain());
  CHECK(named(plan, Test::finished_along).why.find("castors") != std::string::npos);
  CHECK(named(plan, Test::top_sag).why.find("plates") != std::string::npos);
  CHECK(named(plan, Test::loose_rail).why.empty());
  const std::vector<bench::Reading> readings = {{Test::finished_along, quantity::newtons(50.0),
                                                 quantity::millimetres(1.0),
                                                 quantity::millimetres(0.1)}};
  const ProvingPlan told = decide::prove(bench, readings, tables(), Work::plain());
  CHECK(says(told, "can not be used"));
  CHECK_FALSE(told.learned->after);
}

}  // namespace prove_test
