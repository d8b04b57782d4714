#include <doctest/doctest.h>

#include <algorithm>

#include "standtrue/decide/decide.hpp"
#include "tests/bench/bench_files.hpp"

namespace ply_test {

using namespace standtrue;
using bench_files::tables;
using decide::Option;
using decide::SideBySide;
using quantity::in_si;

namespace {

/// Strips, for speed: what is compared does not hang on plates here.
std::string with_top(const std::string& top, const std::string& more = "") {
  return R"(
standtrue: 1
size: 1600 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
analysis: {sheets: strip}
top: )" + top +
         "\n" + more;
}

SideBySide asked_of(const std::string& text) {
  const document::Reading reading = document::parse("bench.yaml", text);
  REQUIRE(reading.document);
  return decide::ply(*reading.document, bench_files::sound(text), tables(), decide::Work::plain());
}

const Option* find(const SideBySide& c, const std::string& name) {
  for (const Option& option : c.options) {
    if (option.name == name) return &option;
  }
  return nullptr;
}

const decide::Figures& figures(const SideBySide& c, const std::string& name) {
  const Option* option = find(c, name);
  REQUIRE_MESSAGE(option, name);
  REQUIRE_MESSAGE(option->figures, name << ": " << option->why);
  return *option->figures;
}

bool says(const SideBySide& c, const std::string& words) {
  return std::any_of(c.answer.begin(), c.answer.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

const std::string press = "machines: [{kind: drill press, mass: 80 kg, at: middle}]\n";

}  // namespace

TEST_CASE("decide/ply: thicker is never weaker; the least that passes is one of the rows") {
  const SideBySide c = asked_of(with_top("{sheet: 18 mm spruce plywood, load: none}"));
  const auto sheet = [&](const char* name) { return figures(c, name).sheet->mean; };
  CHECK(sheet("12 mm, grain along, no bearers") >= sheet("15 mm, grain along, no bearers"));
  CHECK(sheet("15 mm, grain along, no bearers") >= sheet("21 mm, grain along, no bearers"));
  REQUIRE_FALSE(c.answer.empty());
  // The row that it names fails in nothing of the top, and a sheet that is bought gives it.
  int rows = 0;
  for (const Option& o : c.options) {
    if (c.answer[0].find("of the top alone: " + o.name + ". ") == std::string::npos) continue;
    ++rows;
    CHECK(o.figures->uncut.empty());
    CHECK(o.figures->sheets >= 1);
    CHECK(o.figures->sheet->greatest <= 1.0);
    CHECK(o.figures->sag.value_or(0.0) <= 1.0);
  }
  CHECK(rows == 1);
}

TEST_CASE("decide/ply: what no usual sheet is wide enough for is left out, and said so") {
  // Sheets of 2440 x 1220 mm (common practice, no source).
  const SideBySide c = asked_of(with_top("18 mm spruce plywood"));
  CHECK(says(c, "Grain across is left out"));
  for (const Option& o : c.options) {
    CAPTURE(o.name);
    CHECK(o.name.find("grain across") == std::string::npos);
    REQUIRE(o.figures);
    CHECK(o.figures->uncut.empty());
  }
  // Where neither way can be cut, both are told, and what to do.
  const SideBySide long_one = asked_of(R"(
standtrue: 1
size: 2600 x 700 x 900 mm
timber: C24 45 x 145 mm
posts: {stations: [0 mm, 1300 mm, 2550 mm]}
joints: two corner brackets
analysis: {sheets: strip}
top: {sheet: 18 mm spruce plywood, load: none}
)");
  CHECK(find(long_one, "15 mm, grain across, no bearers"));
  CHECK(find(long_one, "15 mm, grain along, no bearers"));
  CHECK(says(long_one, "join it over a bearer"));
}

TEST_CASE("decide/ply: one layer is one layer where two are drawn") {
  const SideBySide c =
      asked_of(with_top("{sheet: 12 mm spruce plywood, layers: 2, layers_joined: glued}"));
  // What a builder would write for it.
  const bench::Bench one =
      bench_files::sound(with_top("{sheet: 12 mm spruce plywood, grain: along}"));
  REQUIRE(one.sheets.at(0).layers == 1);
  const decide::Figures alone = decide::figures_of(decide::assess(one, tables()));
  CHECK(figures(c, "12 mm, grain along, no bearers").mass == alone.mass);
  CHECK(figures(c, "12 mm, grain along, no bearers").sheet->mean == alone.sheet->mean);
  // As many layers as are drawn stay joined as they are: the file says so.
  const Option* other = find(c, "2 x 9 mm, grain along, no bearers");
  REQUIRE(other);
  CHECK(other->write.find("layers_joined: glued") != std::string::npos);
  CHECK(find(c, "2 x 12 mm, grain along, no bearers") == nullptr);  // it is drawn
}

TEST_CASE("decide/ply: bearers at places of their own are kept or left out, not parted anew") {
  const SideBySide c = asked_of(with_top("18 mm spruce plywood", "bearers: {at: [600 mm]}\n"));
  for (const Option& o : c.options) {
    CAPTURE(o.name);
    CHECK(o.why.empty());
    CHECK(o.figures);
  }
  const double with = figures(c, "15 mm, grain along, bearers as drawn").mass;
  CHECK(with > figures(c, "15 mm, grain along, no bearers").mass);
  CHECK(find(c, "15 mm, grain along, no bearers")->pieces == -1);
}

TEST_CASE("decide/ply: what is lighter on bearers can be cut too") {
  const SideBySide c = asked_of(R"(
standtrue: 1
size: 1200 x 800 x 880 mm
timber: C24 45 x 95 mm
top: 18 mm spruce plywood
wall: {rail: back top rail, at: [200 mm, 900 mm]}
machines:
  - {kind: drill press, at: middle}
)");
  const std::string along = "15 mm, grain along, 1 bearer a bay";
  REQUIRE(figures(c, along).failing.empty());
  CHECK(says(c, "Lighter, with a bearer to put in: " + along + "."));
}

TEST_CASE("decide/ply: it looks as far up and down as the least lies") {
  const SideBySide thick = asked_of(with_top("{sheet: 25 mm spruce plywood, load: none}"));
  const SideBySide thin =
      asked_of(with_top("{sheet: 9 mm spruce plywood, load: none}",
                        "wall: {rail: back top rail, at: [300 mm, 1300 mm]}\n" + press));
  const auto least = [](const SideBySide& c) {
    const std::string before = "The least that passes, of the top alone: ";
    REQUIRE(c.answer.at(0).rfind(before, 0) == 0);
    return c.answer[0].substr(before.size(), c.answer[0].find(". The sheets") - before.size());
  };
  const std::string of_thick = least(thick), of_thin = least(thin);
  CAPTURE(of_thick);
  CAPTURE(of_thin);
  CHECK(figures(thick, of_thick).mass < thick.options.at(0).figures->mass);
  CHECK(figures(thin, of_thin).mass > thin.options.at(0).figures->mass);
  // What is a size thinner than the least fails.
  CHECK(find(thick, "12 mm, grain along, no bearers"));
  CHECK(find(thin, "15 mm, grain along, no bearers"));
}

}  // namespace ply_test
