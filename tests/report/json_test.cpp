#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "report/words.hpp"
#include "standtrue/report/report.hpp"
#include "tests/model/frame_files.hpp"
#include "tests/report/assessments.hpp"
#include "tests/report/schema.hpp"
#include "tests/report/solved_bench.hpp"

namespace json_test {

using namespace standtrue;
using nlohmann::json;
using test::Schema;

namespace {

Schema schema() {
  return Schema(
      json::parse(test::slurp(std::string(STANDTRUE_SOURCE_DIR) + "/docs/assessment.schema.json")));
}

}  // namespace

TEST_CASE("report/json: every verdict is as docs/assessment.schema.json says") {
  const Schema rules = schema();
  for (const decide::Assessment& assessment :
       {test::stands(), test::depends(), test::carries_but(), test::do_not_load(), test::unjudged(),
        test::with_answers(test::depends())}) {
    rules.check(json::parse(report::json(assessment, "bench.yaml", "0.1.0")), "");
  }
}

TEST_CASE("report/json: what was found is read back") {
  const decide::Assessment assessment = test::depends();
  const json read = json::parse(report::json(assessment, "bench.yaml", "0.1.0"));
  CHECK(read["standtrue_assessment"] == 1);
  CHECK(read["file"] == "bench.yaml");
  CHECK(read["version"] == "0.1.0");
  CHECK(read["verdict"] == "depends");
  REQUIRE(read["findings"].size() == assessment.findings.size());
  const json& sag = read["findings"][1];
  CHECK(sag["id"] == "sag/front-top-rail");
  CHECK(sag["unit"] == "m");
  CHECK(sag["demand"]["soft"] == 0.0029);
  CHECK(sag["limit"] == 0.006);
  CHECK(sag["hand_check"]["value"] == 0.0031);
  CHECK(sag["working"].size() == 2);
  CHECK(read["findings"][2]["judgement"] == "depends");
  CHECK(read["findings"][2]["unit"] == "N/m");
}

TEST_CASE("report/json: what is not a number is null, never a figure") {
  decide::Assessment assessment = test::unjudged();
  assessment.findings[0].demand_soft = std::numeric_limits<double>::infinity();
  const std::string text = report::json(assessment, "bench.yaml", "0.1.0");
  const json read = json::parse(text);
  CHECK(read["findings"][0]["demand"]["soft"].is_null());
  CHECK(read["findings"][1]["ratio"]["mean"].is_null());
  CHECK(text.find("nan") == std::string::npos);
  CHECK(text.find("inf") == std::string::npos);
}

TEST_CASE("report/json: the raw answers balance: the feet carry what presses on the top") {
  const decide::Assessment assessment = test::with_answers(test::stands());
  const json read = json::parse(report::json(assessment, "bench.yaml", "0.1.0"));
  const json& answer = read["raw"]["mean"]["combinations"]["service-stored"];
  CHECK(answer["refusal"].is_null());
  double down = 0.0;
  for (const json& foot : answer["feet"]) down += foot["down"].get<double>();
  CHECK(down == doctest::Approx(1000.0));
  const json& left = answer["rail_ends"]["top-rail/left-end"];
  const json& right = answer["rail_ends"]["top-rail/right-end"];
  CHECK(left["V_z"].get<double>() == doctest::Approx(-right["V_z"].get<double>()));
  CHECK(left["M_y"].get<double>() > 0.0);  // the rail hogs at its joints
  CHECK(answer["corners"]["left-top"]["z"].get<double>() < 0.0);
}

TEST_CASE("report/json: names become stable keys") {
  CHECK(report::key_of("Front top rail, left end") == "front-top-rail/left-end");
  CHECK(report::key_of("front-left foot") == "front-left-foot");
}

}  // namespace json_test
