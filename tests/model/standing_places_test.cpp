// Where people stand on a top: own geometry.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace standing_places_test {

using namespace standtrue;
using bench_files::tables;
using doctest::Approx;
using quantity::in_si;

namespace {

model::Model model_of(const std::string& more) {
  const bench_files::Read read = bench_files::read(
      "bench.yaml", "standtrue: 1\ntimber: C24 45 x 95 mm\njoints: two corner brackets\n" + more);
  REQUIRE_MESSAGE(read.bench, read.messages);
  const model::Idealisation made = model::idealise(*read.bench, tables(), {});
  REQUIRE(made.model);
  return *made.model;
}

/// From the top's front left corner.
const model::PersonPlace* place_at(const model::Model& model, double x, double y) {
  const auto& all = model.parts.persons;
  x += in_si(model.parts.bench.sheets.at(0).x0);
  y += in_si(model.parts.bench.sheets.at(0).y0);
  const auto found = std::find_if(all.begin(), all.end(), [&](const model::PersonPlace& p) {
    return std::abs(in_si(p.x) - x) < 1e-6 && std::abs(in_si(p.y) - y) < 1e-6;
  });
  return found == all.end() ? nullptr : &*found;
}

std::string name_at(const model::Model& model, double x, double y) {
  const model::PersonPlace* place = place_at(model, x, y);
  return place ? place->name : "nobody";
}

}  // namespace

TEST_CASE("model/standing: a plain top has its middle, four edges and four corners") {
  const model::Model plain = model_of("size: 1600 x 600 x 900 mm\ntop: 18 mm birch plywood\n");
  CHECK(plain.parts.persons.size() == 9);
  CHECK(name_at(plain, 0.8, 0.3) == "middle");
  CHECK(name_at(plain, 0.8, 0.05) == "front edge, middle");
  CHECK(name_at(plain, 1.55, 0.55) == "back right corner");
}

TEST_CASE("model/standing: in every bay between bearers, and over each") {
  const model::Model model =
      model_of("size: 1600 x 600 x 900 mm\ntop: 18 mm birch plywood\nbearers: {at: [800 mm]}\n");
  // A bearer is where it is from the left face of the left posts, 25 mm or more inside the top.
  const double bearer = in_si(model.parts.bench.bearers.at(0).at);
  const double end = in_si(model.parts.bench.sheets.at(0).x0);
  const auto middle = [&](const char* rail) {
    for (const bench::Rail& r : model.parts.bench.rails) {
      if (r.name == rail) return in_si(model.parts.bench.posts.at(r.from).x + r.aside);
    }
    return 0.0;
  };
  CHECK(name_at(model, 0.5 * (middle("left top rail") + bearer) - end, 0.3) ==
        "bay 1 from the left");
  CHECK(name_at(model, 0.5 * (middle("right top rail") + bearer) - end, 0.3) ==
        "bay 2 from the left");
  CHECK(name_at(model, 0.8, 0.3) == "middle");
  CHECK(model.parts.persons.size() == 11);
  const model::Model two = model_of(
      "size: 1600 x 600 x 900 mm\ntop: 18 mm birch plywood\nbearers: {at: [400 mm, 900 mm]}\n");
  const double first = in_si(two.parts.bench.bearers.at(0).at);
  const double second = in_si(two.parts.bench.bearers.at(1).at);
  const double left = in_si(two.parts.bench.sheets.at(0).x0);
  CHECK(name_at(two, first - left, 0.3) == "over the bearer 1");
  CHECK(name_at(two, second - left, 0.3) == "over the bearer 2");
  CHECK(name_at(two, 0.5 * (first + second) - left, 0.3) == "bay 2 from the left");
}

TEST_CASE("model/standing: at the middle of every rail along an edge") {
  const model::Model model = model_of(
      "size: 3000 x 600 x 900 mm\ntop: 18 mm birch plywood\n"
      "posts: {section: 95 x 95 mm, stations: [0 mm, 1000 mm, 2950 mm]}\n");
  for (const model::Part& part : model.parts.parts) {
    if (part.role != model::Role::rail || part.name.find("top rail") == part.name.npos) continue;
    CAPTURE(part.name);
    const model::Point& from = model.nodes[model.members[part.members.front()].start].at;
    const model::Point& to = model.nodes[model.members[part.members.back()].end].at;
    const double x = 0.5 * in_si(from.x + to.x), y = 0.5 * in_si(from.y + to.y);
    // As near as an edge allows, and half a patch where two places are one.
    CHECK(std::any_of(model.parts.persons.begin(), model.parts.persons.end(),
                      [&](const model::PersonPlace& p) {
                        return std::abs(in_si(p.x) - x) < 0.05 && std::abs(in_si(p.y) - y) < 0.05;
                      }));
  }
}

TEST_CASE("model/standing: beside what is cut out, never in it") {
  const model::Model model = model_of(
      "size: 1600 x 600 x 900 mm\ntop: {sheet: 18 mm birch plywood, cut_outs: [{from: [300 mm, 200 "
      "mm], to: [500 mm, 400 mm]}]}\n");
  for (const std::array<double, 2> at : {std::array{0.4, 0.15}, std::array{0.4, 0.45},
                                         std::array{0.25, 0.3}, std::array{0.55, 0.3}}) {
    CAPTURE(at[0]);
    CAPTURE(at[1]);
    CHECK(name_at(model, at[0], at[1]).find("cut-out 1") != std::string::npos);
  }
}

TEST_CASE("model/standing: beside a bed of precision, where it twists most") {
  const std::string bench = "size: 2000 x 600 x 900 mm\ntop: 18 mm birch plywood\nmachines: ";
  const model::Model lathe =
      model_of(bench + "[{kind: mini metal lathe, at: [1000 mm, 300 mm]}]\n");
  CHECK(name_at(lathe, 0.5, 0.05) == "front edge, a quarter from the left");
  CHECK(name_at(lathe, 1.5, 0.55) == "back edge, a quarter from the right");
  const model::Model grinder = model_of(bench + "[{kind: bench grinder, at: [1000 mm, 300 mm]}]\n");
  CHECK(place_at(grinder, 0.5, 0.05) == nullptr);
}

}  // namespace standing_places_test
