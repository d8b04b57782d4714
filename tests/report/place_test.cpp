#include <doctest/doctest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "report/layout.hpp"
#include "standtrue/report/report.hpp"

namespace place_test {

using namespace standtrue;
using decide::PlacePlan;
using decide::Stand;
using nlohmann::json;
using quantity::metres;

namespace {

/// Four by two cells, a grinder at the left of the back row.
PlacePlan made() {
  PlacePlan plan;
  plan.machine = "drill press";
  plan.mass = quantity::from_si<quantity::Mass>(60.0);
  plan.sheet = "top";
  plan.length = metres(0.4);
  plan.depth = metres(0.2);
  plan.nx = 4;
  plan.ny = 2;
  plan.ways.resize(2);
  plan.ways[1].turned = true;
  for (decide::PlaceGrid& grid : plan.ways) {
    grid.at.resize(8);
    for (decide::PlaceStatus& s : grid.at)
      s = {Stand::clear, "bending/rail", 0.5, 0.4, true, false, false};
    grid.at[0] = {Stand::barred, "edge", 0.0, 0.0, false, false, false};
    grid.at[1].stand = Stand::care;
  }
  plan.taken.resize(8);
  plan.taken[4] = 0;
  plan.others = {"grinder"};
  plan.own = plan.ways[0].at[2];
  plan.best = decide::Spot{1, 6};
  plan.reasons = {{Stand::care, "sag/rail", "The rail sags.", 2, 1.2}};
  plan.loads = {2, 1, metres(0.1), 300.0, {47.9, 300.0}, {47.9, 300.0}, {"sag/rail", ""}, ""};
  plan.confirmed = {3, 10, 2, 1, 0.042, 0.02};
  plan.answer = {"The drill press may stand mid-span: anywhere."};
  return plan;
}

std::string page(int width, quantity::UnitSystem units = quantity::UnitSystem::metric) {
  report::Style style;
  style.width = width;
  return report::text(made(), units, style);
}

bool has(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE("report/place: the back is above, the front below, others are letters") {
  const std::string text = page(80);
  CHECK(has(text, "  |A...|             |A...|\n  |#+..|             |#+..|\n"));
  CHECK(has(text, "The drill press may stand mid-span"));
  CHECK(text.find("may stand mid-span") < text.find("|A..."));
  CHECK(has(text, "A grinder"));
  CHECK(has(text, "sag/rail"));
  CHECK(has(text, "4.2 %"));
  CHECK(has(text, "2 more"));
}

TEST_CASE("report/place: masses are rounded down, to 5 kg or 10 lb") {
  CHECK(has(page(80), "  45 300\n"));
  // 47.9 kg are 105.6 lb, 300 kg are 661 lb.
  CHECK(has(page(80, quantity::UnitSystem::imperial), " 100 660\n"));
}

TEST_CASE("report/place: where nothing more may be stored it says why, and shows no zeros") {
  PlacePlan plan = made();
  plan.loads.mass = plan.loads.mean = {0.0, 0.0};
  const std::string text = report::text(plan, quantity::UnitSystem::metric, report::Style());
  CHECK(has(text, "Nothing more"));
  CHECK_FALSE(has(text, "   0   0"));
}

TEST_CASE("report/place: what hangs on how joints turn out is told beside what is sure") {
  PlacePlan plan = made();
  const auto text = [&plan] {
    return report::text(plan, quantity::UnitSystem::metric, report::Style());
  };
  CHECK_FALSE(has(text(), "on average"));
  plan.loads.mass = {21.0, 300.0};
  CHECK(has(text(), "    20 300\n"));
  CHECK(has(text(), "on average:\n    45 300\n"));
  plan.loads.mass = {0.0, 0.0};
  CHECK(has(text(), "Nothing more for sure"));
  CHECK(has(text(), "on average:\n    45 300\n"));
}

TEST_CASE("report/place: no line is wider than the page") {
  for (const int width : {50, 80, 100}) {
    std::istringstream lines(page(width));
    for (std::string line; std::getline(lines, line);) {
      CHECK(report::columns(line) <= static_cast<std::size_t>(width));
    }
  }
}

TEST_CASE("report/place: the JSON has what its schema asks for, and nothing else") {
  std::ifstream in(STANDTRUE_SOURCE_DIR "/docs/place.schema.json");
  const json schema = json::parse(in);
  const json document = json::parse(report::json(made(), "b.yaml", "1"));
  const auto same = [](const json& value, const json& asked) {
    for (const json& key : asked["required"]) CHECK(value.contains(key.get<std::string>()));
    for (const auto& item : value.items()) {
      CAPTURE(item.key());
      CHECK(asked["properties"].contains(item.key()));
    }
  };
  same(document, schema);
  for (const char* part : {"loads", "confirmed"}) same(document[part], schema["properties"][part]);
  same(document["own"], schema["$defs"]["status"]);
  same(document["ways"][0]["places"][0], schema["$defs"]["place"]);
  same(document["reasons"][0], schema["properties"]["reasons"]["items"]);
  CHECK(document["ways"][0]["places"][0]["stand"] == "barred");
  CHECK(document["best"]["turned"] == true);
  CHECK(document["ways"][0]["places"][5]["x"].get<double>() == doctest::Approx(0.15));
}

}  // namespace place_test
