#include <doctest/doctest.h>

#include <fstream>
#include <limits>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/layout.hpp"
#include "standtrue/report/html.hpp"
#include "standtrue/report/report.hpp"

namespace odds_report_test {

using namespace standtrue;
using nlohmann::json;

namespace {

check::Finding sway() {
  check::Finding f;
  f.id = "sway/across";
  f.group = check::Group::sway;
  f.kind = check::Kind::service;
  f.place = "the top, across the bench";
  f.ratio = 0.8;
  f.judgement = check::Judgement::satisfied;
  return f;
}

/// Of 10000, made up: 6120 stand, 3860 carry, 20 should not be loaded.
decide::Odds made() {
  decide::Odds odds;
  odds.drawn = 10000;
  odds.seed = 3;
  odds.outcomes = {{6120, 0.60, 0.62}, {3860, 0.37, 0.39}, {20, 0.001, 0.003}};
  odds.alike = {{5000, 0.49, 0.51}, {5000, 0.49, 0.51}, {0, 0.0, 0.0004}};
  odds.failing.push_back({sway(), {3860, 0.37, 0.39}, 0.4, 0.8, 1.7});
  check::Finding hum = sway();
  hum.id = "hum/grinder";
  hum.group = check::Group::hum;
  hum.place = "grinder";
  hum.judgement = check::Judgement::depends;
  hum.ratio_soft = 0.5;
  hum.ratio_stiff = 3.7;
  odds.left_out.push_back(hum);
  odds.fit = {30, 12, 0.006, 0.015, 0};
  return odds;
}

/// The same of one bench with readings.
decide::Odds measured() {
  decide::Odds odds = made();
  odds.readings =
      decide::ByReadings{true,
                         true,
                         {"timber", "joints"},
                         {"Of the screws these readings tell nothing: as unknown as before."}};
  return odds;
}

std::string page(const decide::Odds& odds, int width = 120) {
  bench::Bench bench;
  bench.title = "Bench";
  report::Style style;
  style.width = width;
  return report::text(odds, bench, style);
}

/// All of ten thousand benches come out one way.
constexpr decide::Share all_of_them{10000, 0.9996, 1.0}, none_of_them{0, 0.0, 0.0004};

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != text.npos;
}

}  // namespace

TEST_CASE("report/odds: the answer comes first, in tenths and in thousandths") {
  const std::string text = page(made());
  CAPTURE(text);
  CHECK(has(text, "About 6 in 10 of the benches that could be built from this file would stand,"));
  CHECK(has(text, "About 4 in 10 would carry, but fail"));
  CHECK(has(text, "2 in a thousand should not be loaded."));
  CHECK(has(text, "612 (600 to 620)"));
  CHECK(has(text, "hum: grinder: 0.5 to 3.7 times the limit, by 'check'."));
  CHECK(has(text, "off by 0.6 % (root mean"));
}

TEST_CASE("report/odds: all, none, all but a few") {
  decide::Odds odds = made();
  odds.left_out.clear();
  odds.outcomes = {all_of_them, none_of_them, none_of_them};
  CHECK(has(page(odds), "All of the benches that could be built from this file would stand."));
  odds.outcomes = {{9970, 0.996, 0.998}, {30, 0.002, 0.004}, none_of_them};
  CHECK(has(page(odds), "All but 3 in a thousand of the benches"));
  odds.outcomes = {none_of_them, none_of_them, all_of_them};
  CHECK(has(page(odds), "None of the benches"));
  CHECK(has(page(odds), "None should be loaded."));
}

TEST_CASE("report/odds: eight checks are shown, and how many more there are") {
  decide::Odds odds = made();
  odds.failing.assign(11, odds.failing.front());
  CHECK(has(page(odds), "3 more fail less often, or by less (--json)."));
  CHECK_FALSE(has(page(made()), "more fail"));
}

TEST_CASE("report/odds: of a bench that was measured it tells the chance, not a share") {
  const std::string text = page(measured(), 400);
  CAPTURE(text);
  CHECK(has(text, "By what its readings say this bench stands with a chance of about 6 in 10, "));
  CHECK(has(text, "The chance that it carries, but fails in service, is about 4 in 10."));
  CHECK(has(text, "The chance that it should not be loaded is 2 in a thousand."));
  CHECK(has(text, "What is likeliest to fail: sway"));
  CHECK(has(text, "chance in 1000"));
  CHECK(has(text, "Drawn by what the readings of this bench say of its stiffness: timber, joints"));
  CHECK(has(text, "Of the screws these readings tell nothing: as unknown as before."));
  CHECK(has(text, "the chance of this one bench, and of no other"));
  CHECK_FALSE(has(text, "of the benches"));
  CHECK_FALSE(has(text, "of 1000 benches"));
  decide::Odds sure = measured();
  sure.outcomes = {all_of_them, none_of_them, none_of_them};
  CHECK(has(page(sure, 400), "this bench is all but certain to stand"));
  sure.outcomes = {none_of_them, none_of_them, all_of_them};
  CHECK(has(page(sure, 400), "is all but certain not to stand"));
  CHECK(has(page(sure, 400), "It should not be loaded."));
  sure.outcomes = {{9999, 0.999, 1.0}, {1, 0.0, 0.001}, none_of_them};
  CHECK(has(page(sure, 400), "stands with a chance of 999 in a thousand"));
}

TEST_CASE("report/odds: readings that are not used are told at once, and why below") {
  decide::Odds odds = measured();
  odds.readings->used = false;
  const std::string text = page(odds);
  CHECK(has(text, "of the benches that could be built from this file would stand"));
  CHECK(has(text, "The readings of the file are not used (below)."));
  odds.readings->agree = false;
  CHECK(has(page(odds), "Not used: they do not agree, or not with this bench."));
  odds.readings->agree = true;
  odds.readings->taught.clear();
  CHECK(has(page(odds), "Not used: they tell nothing."));
}

TEST_CASE("report/odds: the sheet of a bench that was measured says so") {
  bench::Bench bench;
  bench.title = "Bench";
  const std::string one = report::html(measured(), bench, {});
  CHECK(has(one, "With what chance this bench passes"));
  CHECK(has(one, "stands: 612 in 1000"));
  CHECK(has(one, "Chances in a thousand of this bench, by what its readings say"));
  CHECK_FALSE(has(one, "thousand benches"));
  const std::string many = report::html(made(), bench, {});
  CHECK(has(many, "612 of 1000 stand"));
  CHECK(has(many, "Of a thousand benches built from this file"));
}

TEST_CASE("report/odds: no line is wider than the page") {
  for (const int width : {50, 80, 100}) {
    for (const decide::Odds& odds : {made(), measured()}) {
      std::istringstream lines(page(odds, width));
      for (std::string line; std::getline(lines, line);) {
        CHECK(report::columns(line) <= static_cast<std::size_t>(width));
      }
    }
  }
}

TEST_CASE("report/odds: the JSON has what its schema asks for, and nothing else") {
  std::ifstream in(STANDTRUE_SOURCE_DIR "/docs/odds.schema.json");
  const json schema = json::parse(in);
  const json document = json::parse(report::json(made(), "b.yaml", "1"));
  const auto same = [](const json& value, const json& asked) {
    for (const json& key : asked["required"]) CHECK(value.contains(key.get<std::string>()));
    for (const auto& item : value.items()) {
      CAPTURE(item.key());
      if (asked.contains("properties")) CHECK(asked["properties"].contains(item.key()));
    }
  };
  for (const char* key :
       {"drawn", "seed", "outcomes", "timber_alike", "failing", "left_out", "fit"})
    CHECK(document.contains(key));
  same(document, schema);
  same(document["fit"], schema["properties"]["fit"]);
  same(document["outcomes"], schema["$defs"]["outcomes"]);
  same(document["outcomes"]["stands"], schema["$defs"]["share"]);
  same(document["left_out"][0], schema["$defs"]["check"]);
  CHECK(document["failing"][0]["share"]["count"] == 3860);
  CHECK(document["failing"][0]["ratios"]["median"] == doctest::Approx(0.8));
  CHECK_FALSE(document.contains("readings"));
  const json read = json::parse(report::json(measured(), "b.yaml", "1"));
  same(read, schema);
  same(read["readings"], schema["properties"]["readings"]);
  CHECK(read["readings"]["used"] == true);
  CHECK(read["readings"]["taught"] == json::array({"timber", "joints"}));
  decide::Odds none;
  none.why_none = "it can move";
  CHECK(json::parse(report::json(none, "b.yaml", "1"))["why_none"] == "it can move");
}

}  // namespace odds_report_test
