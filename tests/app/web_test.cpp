#include "standtrue/app/web.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "standtrue/app/run.hpp"
#include "tests/model/frame_files.hpp"
#include "tests/report/schema.hpp"

namespace web_test {

using namespace standtrue;
using nlohmann::json;

namespace {

const char* const web_bench = R"(standtrue: 1
title: Small bench
size: 1200 x 600 x 850 mm
timber: C16 45 x 95 mm
joints: corner brackets
rails: {lower: {underside: 200 mm}}
top: 18 mm spruce plywood
braces: [{side: back, kind: diagonal}]
machines: [{kind: bench grinder, at: middle}]
)";

json ask(const json& request) { return json::parse(app::web_answer(request.dump())); }

json solid_of(const json& picture, const std::string& part) {
  for (const json& solid : picture["solids"]) {
    if (solid["part"] == part && solid["of"] != "foot") return solid;
  }
  return nullptr;
}

}  // namespace

TEST_CASE("app/web: check answers as --json does, word for word") {
  app::Options options;
  options.json = true;
  const app::Outcome told = app::run(app::Command::check, options, "bench.yaml", web_bench);
  const json answer = ask({{"command", "check"}, {"text", web_bench}});
  CHECK(answer["standtrue_web"] == 1);
  CHECK(answer["command"] == "check");
  CHECK(answer["code"] == told.code);
  CHECK(answer["answer"] == json::parse(told.out));
  CHECK(answer["message"] == told.err);
  CHECK(answer["diagnostics"].empty());
  CHECK(answer["picture"].is_null());
  CHECK(answer["page"].is_null());
  CHECK(answer["text"].is_null());
  CHECK(!answer.contains("fault"));
}

TEST_CASE("app/web: a check with its picture and its page") {
  const json answer =
      ask({{"command", "check"}, {"text", web_bench}, {"picture", true}, {"page", true}});
  CHECK(answer["answer"]["title"] == "Small bench");
  CHECK(answer["page"].get<std::string>().find("Small bench") != std::string::npos);
  const json& picture = answer["picture"];
  const std::string schema = std::string(STANDTRUE_SOURCE_DIR) + "/docs/picture.schema.json";
  test::Schema(json::parse(test::slurp(schema))).check(picture, "picture");
  CHECK(picture["length"] == doctest::Approx(1.2));
  REQUIRE(picture["machines"].size() == 1);
  CHECK(picture["machines"][0]["kind"] == "bench grinder");
  CHECK(picture["machines"][0]["written"]["path"] == "machines[1].at");
  CHECK(picture["feet"].size() == 4);
  CHECK(picture["loaded"]["lines"].size() > 4);
  CHECK(picture["sheets"][0]["w"].size() ==
        picture["sheets"][0]["x"].size() * picture["sheets"][0]["y"].size());
  bool has_joint = false;
  for (const json& joint : picture["joints"]) {
    if (joint["part"] != "front top rail") continue;
    has_joint = true;
    CHECK(joint["kind"] == "corner brackets");
    CHECK(joint["at"][2].get<double>() > 0.7);
  }
  CHECK(has_joint);
}

TEST_CASE("app/web: what a page draws is the whole check but for what is only printed") {
  json request = {{"command", "check"}, {"text", web_bench}, {"picture", true}, {"page", true}};
  json whole = ask(request);
  request["extent"] = "drawn";
  json drawn = ask(request);
  CHECK(drawn["page"] == whole["page"]);
  CHECK(drawn["code"] == whole["code"]);
  CHECK(!drawn["answer"].contains("raw"));
  whole["answer"].erase("raw");
  for (json& finding : whole["answer"]["findings"]) finding["mesh_error"] = nullptr;
  CHECK(drawn["answer"] == whole["answer"]);
  for (const char* key : {"solids", "joints", "machines", "feet", "findings", "string"}) {
    CHECK_MESSAGE(drawn["picture"][key] == whole["picture"][key], key);
  }
  CHECK(drawn["picture"]["loaded"].is_null());
  CHECK(drawn["picture"]["swings"].empty());
}

TEST_CASE("app/web: a first look is what the check finds at mean joints before creep, no verdict") {
  json request = {{"command", "check"}, {"text", web_bench}, {"extent", "first look"}};
  const json first = ask(request)["answer"];
  request["extent"] = "drawn";
  const json drawn = ask(request)["answer"];
  CHECK(first["verdict"] == "not_judged");
  CHECK(first["cautions"] == drawn["cautions"]);
  std::size_t alike = 0, later = 0;
  for (const json& finding : drawn["findings"]) {
    const auto same = std::find_if(first["findings"].begin(), first["findings"].end(),
                                   [&](const json& f) { return f["id"] == finding["id"]; });
    if (same == first["findings"].end()) {
      const bool is_creep = finding["id"].get<std::string>().find("-final/") != std::string::npos;
      CHECK_MESSAGE((finding["group"] == "hum" || is_creep), finding["id"]);
      ++later;
      continue;
    }
    CHECK_MESSAGE((*same)["ratio"]["mean"] == finding["ratio"]["mean"], finding["id"]);
    ++alike;
  }
  CHECK(alike == first["findings"].size());
  CHECK(later > 0);
}

TEST_CASE(
    "app/web: a picture tells where the file speaks of a part, and nothing where it does not") {
  const json answer = ask({{"command", "check"}, {"text", web_bench}, {"picture", true}});
  const json& picture = answer["picture"];
  const json lower = solid_of(picture, "front lower rail");
  CHECK(lower["of"] == "rail");
  CHECK(lower["corners"].size() == 8);
  CHECK(lower["written"]["path"] == "rails.lower");
  CHECK(lower["written"]["line"] == 6);
  CHECK(solid_of(picture, "front top rail")["written"]["path"] == "rails");
  CHECK(solid_of(picture, "front-left post")["written"].is_null());
  CHECK(solid_of(picture, "top")["written"]["path"] == "top");
  CHECK(solid_of(picture, "back brace")["written"]["path"] == "braces[1]");
}

TEST_CASE("app/web: faults of a file come with their places") {
  const json answer =
      ask({{"command", "check"}, {"text", "standtrue: 1\nsize: 2100\ntmber: C24\n"}});
  CHECK(answer["code"] == app::wrong_file);
  CHECK(answer["answer"].is_null());
  REQUIRE(answer["diagnostics"].size() >= 2);
  bool has_size = false;
  for (const json& d : answer["diagnostics"]) {
    CHECK(d["severity"] == "error");
    CHECK(!d["what"].get<std::string>().empty());
    if (d["path"] != "size") continue;
    has_size = true;
    CHECK(d["line"] == 2);
    CHECK(d["column"] == 7);
  }
  CHECK(has_size);
  CHECK(answer["message"].get<std::string>().find("bench.yaml:2:7") != std::string::npos);
}

TEST_CASE("app/web: what is no bench file at all is told and does not throw") {
  for (const char* text : {"", "\t", "[", "a: &a [*a]", "{}", "standtrue: 2", "\xff\xfe"}) {
    const std::string answer =
        app::web_answer(R"({"command":"check","text":)" +
                        json(text).dump(-1, ' ', false, json::error_handler_t::ignore) + "}");
    const json read = json::parse(answer);
    CAPTURE(text);
    CHECK(!read.contains("fault"));
    CHECK(read["code"] == app::wrong_file);
    CHECK(!read["message"].get<std::string>().empty());
  }
}

TEST_CASE("app/web: a request that is none is a fault") {
  const auto fault = [](const std::string& request) {
    const json answer = json::parse(app::web_answer(request));
    REQUIRE(answer.contains("fault"));
    return answer["fault"].get<std::string>();
  };
  CHECK(fault("") == "the request is no JSON object");
  CHECK(fault("[]") == "the request is no JSON object");
  CHECK(fault("{\"command\": \"chek\"}") == "the request's 'command' is to be one of the commands");
  CHECK(fault("{}") == "the request has no command");
  CHECK(fault("{\"command\": \"check\", \"colour\": 1}") ==
        "the request has a key that is not known: 'colour'");
  CHECK(fault("{\"command\": \"check\", \"text\": 1}") == "the request's 'text' is to be a text");
  CHECK(fault("{\"command\": \"check\", \"page\": 1}") ==
        "the request's 'page' is to be true or false");
  CHECK(fault("{\"command\": \"odds\", \"seed\": -1}") ==
        "the request's 'seed' is to be a whole number, not negative");
  CHECK(fault("{\"command\": \"check\", \"width\": 1e9}") ==
        "the request's 'width' is to be a whole number from 50 to 1000");
  CHECK(fault("{\"command\": \"check\", \"mesh\": \"finest\"}") ==
        "the request's 'mesh' is to be standard or fine");
  CHECK(fault("{\"command\": \"model\", \"bound\": \"hard\"}") ==
        "the request's 'bound' is to be soft, mean or stiff");
  CHECK(fault(std::string(100000, '[')) == "the request is no JSON object");
}

TEST_CASE("app/web: level and parts answer in JSON; draw, model and tables in text") {
  CHECK(ask({{"command", "level"}, {"text", web_bench}})["answer"]["standtrue_level"] == 1);
  const json parts =
      ask({{"command", "parts"}, {"text", web_bench}, {"report", true}, {"date", "1 May"}});
  CHECK(parts["answer"]["standtrue_parts"] == 1);
  CHECK(parts["report"].get<std::string>().find("1 May") != std::string::npos);
  const json drawn = ask({{"command", "draw"}, {"text", web_bench}, {"drawing", "front"}});
  CHECK(drawn["answer"].is_null());
  CHECK(drawn["text"].get<std::string>().find("<svg") != std::string::npos);
  const json model = ask({{"command", "model"}, {"text", web_bench}, {"bound", "soft"}});
  CHECK(model["text"].get<std::string>().find("frame_case: 1") != std::string::npos);
  const json tables = ask({{"command", "tables"}});
  CHECK(tables["text"].get<std::string>().find("C24") != std::string::npos);
  const json unknown = ask({{"command", "draw"}, {"text", web_bench}, {"drawing", "frnt"}});
  CHECK(unknown["code"] == app::wrong_file);
  CHECK(unknown["message"].get<std::string>().find("did you mean 'front'") != std::string::npos);
}

TEST_CASE("app/web: long work tells how far it is and stops when it is told to") {
  decide::Work work = decide::Work::plain();
  std::size_t told = 0;
  work.keep_going = [&told](std::size_t, std::size_t) { return ++told < 3; };
  const json answer =
      json::parse(app::web_answer(json({{"command", "ply"}, {"text", web_bench}}).dump(), work));
  CHECK(told >= 3);
  CHECK(answer["answer"]["complete"] == false);
}

TEST_CASE("app/web: a machine carried about is judged at each place with room, as `place` judges") {
  app::WebMoving moving;
  const std::string request = json({{"command", "place"}, {"text", web_bench}}).dump();
  const json opened = json::parse(moving.open(request));
  CHECK(opened["code"] == 0);
  CHECK(opened["machine"] == "bench grinder");
  const json& places = opened["places"];
  REQUIRE(places.size() > 50);
  const json plan = ask({{"command", "place"}, {"text", web_bench}})["answer"];
  std::size_t compared = 0;
  for (const json& place : plan["ways"][0]["places"]) {
    for (std::size_t i = 0; i < places.size(); ++i) {
      const bool is_it = std::abs(places[i][0].get<double>() - place["x"].get<double>()) < 1e-6 &&
                         std::abs(places[i][1].get<double>() - place["y"].get<double>()) < 1e-6;
      if (!is_it) continue;
      const json there = json::parse(moving.at(i));
      CAPTURE(there.dump());
      CAPTURE(place.dump());
      // Over all bounds a plan may ask for care where mean joints alone are clear.
      if (there["stand"] != "clear") CHECK(place["stand"] == there["stand"]);
      CHECK(there["ratio"].get<double>() <= place["ratio"].get<double>() * (1.0 + 1e-9));
      CHECK(there["sag"]["demand"].get<double>() > 0.0);
      ++compared;
    }
  }
  CHECK(compared == places.size());

  CHECK(json::parse(moving.at(places.size())).contains("fault"));
  const json broken =
      json::parse(moving.open(json({{"command", "place"}, {"text", "size: 3"}}).dump()));
  CHECK(broken["code"] == app::wrong_file);
  CHECK_FALSE(broken["message"].get<std::string>().empty());
  CHECK(json::parse(moving.at(0)).contains("fault"));
  CHECK(json::parse(moving.open("{")).contains("fault"));
}

}  // namespace web_test
