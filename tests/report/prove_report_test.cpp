#include <doctest/doctest.h>

#include <algorithm>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/layout.hpp"
#include "standtrue/report/report.hpp"

namespace prove_report_test {

using namespace standtrue;
using nlohmann::json;

namespace {

decide::ProvingPlan plan() {
  decide::ProvingPlan plan;
  plan.answer = {"1 test can be made on this bench: finished along."};
  decide::Trial pull;
  pull.name = "finished along";
  pull.state = "the finished bench, nothing on it";
  pull.act = "pull with 10 kg on a spring balance at the top of the front-left post, to the left";
  pull.read = "how far the top of that post moves";
  pull.force = 98.0665;
  pull.expected = 0.5e-3;
  pull.stiff = 0.25e-3;
  pull.soft = 1.2e-3;
  pull.gauge = 0.05e-3;
  pull.slides_at = 300.0;
  pull.safe = "a foot would slip at 31 kg";
  pull.lessons = {{"joints", 3.0, 1.4}};
  decide::Trial sag;
  sag.name = "top sag";
  sag.is_pull = false;
  sag.why = "the file does not ask for sheets as plates";
  plan.trials = {pull, sag};
  return plan;
}

decide::ProvingPlan learned(bool contradicts) {
  decide::ProvingPlan with = plan();
  decide::Learning l;
  decide::Told t;
  t.name = "finished along";
  t.force = 98.0665;
  t.moved = 0.6e-3;
  t.gauge = 0.05e-3;
  t.expected = 0.5e-3;
  t.fitted = 0.58e-3;
  t.misfit = 0.3;
  t.contradicts = contradicts;
  l.readings = {t};
  l.known = {{"timber", 0.8, 0.99, 1.2, 0.8, 0.98, 1.2, false, false},
             {"joints", 0.33, 1.0, 3.0, 0.6, 0.8, 1.1, true, false},
             {"screws", 0.5, 0.94, 1.6, 0.5, 0.93, 1.6, false, false}};
  l.before = decide::Verdict::depends;
  l.summary_before = "measure first.";
  if (!contradicts) l.after = decide::Verdict::stands;
  l.summary_after = "safe to load.";
  with.learned = l;
  return with;
}

std::string page(const decide::ProvingPlan& p, int width, quantity::UnitSystem units) {
  bench::Bench bench;
  bench.title = "Small bench";
  bench.units = units;
  report::Style style;
  style.width = width;
  return report::text(p, bench, style);
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("report/prove: the card fits its page and says what to do, read and expect") {
  for (const int width : {50, 80, 100}) {
    for (const auto& p : {plan(), learned(false), learned(true)}) {
      std::istringstream lines(page(p, width, quantity::UnitSystem::metric));
      for (std::string line; std::getline(lines, line);) {
        CAPTURE(line);
        CHECK(report::columns(line) <= static_cast<std::size_t>(width));
      }
    }
  }
  const std::string text = page(plan(), 100, quantity::UnitSystem::metric);
  CHECK(has(text, "dial gauge"));
  CHECK(has(text, "0.25 mm to 1.2 mm"));
  CHECK(has(text, "the joints, from 3.0 times either way to 40 %"));
  CHECK(has(text, "not here: the file does not ask for sheets as plates"));
  CHECK(has(text, "- {test: finished along, pull: 10 kg, moves: 0.5 mm}"));
  CHECK(has(page(plan(), 100, quantity::UnitSystem::imperial), "pull: 22 lb, moves: 0.02 in"));
}

TEST_CASE("report/prove: the verdict before and after; none after where readings disagree") {
  const std::string good = page(learned(false), 80, quantity::UnitSystem::metric);
  CHECK(has(good, "Before  DEPENDS"));
  CHECK(has(good, "Now     STANDS"));
  CHECK(has(good, "learned"));
  const std::string bad = page(learned(true), 80, quantity::UnitSystem::metric);
  CHECK(has(bad, "disagrees"));
  CHECK_FALSE(has(bad, "STANDS"));
}

TEST_CASE("report/prove: JSON holds SI numbers, and null for what is not there") {
  const json read = json::parse(report::json(learned(false), "bench.yaml", "0.1.0"));
  CHECK(read["standtrue_proving"] == 1);
  CHECK(read["trials"][0]["soft"] == 1.2e-3);
  CHECK(read["trials"][0]["tips_at"].is_null());  // infinite
  CHECK(read["trials"][1]["expected"].is_null());
  CHECK(read["learned"]["known"][1]["now"]["median"] == 0.8);
  CHECK(read["learned"]["after"]["verdict"] == "stands");
  CHECK(json::parse(report::json(plan(), "b.yaml", "0"))["learned"].is_null());
  CHECK(json::parse(report::json(learned(true), "b.yaml", "0"))["learned"]["after"].is_null());
}

}  // namespace prove_report_test
