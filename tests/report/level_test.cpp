// The card for setting feet, as text and as JSON.
#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "report/layout.hpp"
#include "standtrue/report/report.hpp"

namespace level_test {

using namespace standtrue;
using decide::FootToSet;
using decide::Levelling;

namespace {

FootToSet foot(const char* name, double out) {
  FootToSet f;
  f.name = name;
  f.pitch = 1.75e-3;
  f.out = f.for_load = out;
  f.stem = 0.025 + out;
  f.x = 0.4;
  f.y = -0.8;
  f.twist = 0.5;
  f.pressed = 200.0;
  f.presses = 250.0;
  return f;
}

Levelling lathe() {
  Levelling l;
  l.machine = "mini metal lathe";
  l.is_precise = true;
  l.good_twist = 0.02e-3;
  l.feet = {foot("front-left foot", 0.0), foot("front-right foot", 0.44e-3),
            foot("back-right foot", 1.75e-3), foot("back-left foot", 2.6e-3)};
  l.now.x = 0.3e-3;
  l.now.y = -0.2e-3;
  l.now.twist = 0.4e-3;
  l.alike = l.now;
  return l;
}

bench::Bench shop(quantity::UnitSystem units = quantity::UnitSystem::metric) {
  bench::Bench b;
  b.title = "Lathe bench";
  b.units = units;
  return b;
}

report::Style style(int width = 90) {
  report::Style s;
  s.width = width;
  return s;
}

bool says(const std::string& page, const std::string& words) {
  std::string flat;
  for (const char c : page) {
    if (c != '\n' && !(c == ' ' && !flat.empty() && flat.back() == ' ')) flat += c;
    if (c == '\n' && !flat.empty() && flat.back() != ' ') flat += ' ';
  }
  return flat.find(words) != std::string::npos;
}

}  // namespace

TEST_CASE(
    "report/level: the card says how far, which way round, and what is read before and after") {
  const std::string page = report::text(lathe(), shop(), style());
  CHECK(says(page, "level, its bed has no twist, and every foot presses."));
  CHECK(says(page, "front-left foot 0.00 mm leave it"));
  CHECK(says(page, "front-right foot 0.44 mm 90 deg"));
  CHECK(says(page, "back-right foot 1.75 mm 1 turn "));
  CHECK(says(page, "back-left foot 2.60 mm 1 turn 175 deg"));
  CHECK(says(page, "clockwise as seen from above"));
  // Across: -0.2 in the middle, half of the twist less at the left end and more at the right one.
  CHECK(says(page, "across the bed at its left end 0.4 mm/m, low at the back level"));
  CHECK(says(page, "across the bed at its right end level level"));
  CHECK(says(page, "along the bed 0.3 mm/m, low left level"));
  CHECK(says(page, "twist: one end against the other +0.4 mm/m 0 mm/m"));
  CHECK(says(page, "both ends read alike to within 0.02 mm/m"));
  // A quarter turn is 0.4375 mm.
  CHECK(says(page, "back-left foot +0.18 -0.35 +0.22"));
  CHECK_FALSE(says(page, "for the floor"));
  CHECK_FALSE(says(page, "Shims"));
}

TEST_CASE("report/level: no line is wider than the page") {
  Levelling l = lathe();
  l.falls = true;
  l.shims = decide::Shims{0.3e-3, {"front-right", "back-left"}, 0.05e-3};
  l.leaves_wall = true;
  l.feet[3].out = 12e-3;
  for (const int width : {50, 60, 80, 100}) {
    const std::string page = report::text(l, shop(), style(width));
    std::size_t from = 0;
    for (std::size_t to; (to = page.find('\n', from)) != std::string::npos; from = to + 1) {
      INFO(page.substr(from, to - from));
      CHECK(report::columns(page.substr(from, to - from)) <= static_cast<std::size_t>(width));
    }
  }
}

TEST_CASE("report/level: what feet can not do is said first") {
  Levelling l = lathe();
  l.shims = decide::Shims{0.31e-3, {"front-right", "back-left"}, 0.05e-3};
  std::string page = report::text(l, shop(), style());
  CHECK(says(page, "The feet alone can not take the twist out of its bed"));
  CHECK(says(page, "its bed keeps a twist of 0.05 mm/m at best"));
  CHECK(says(page, "Shims: 0.31 mm under the front-right and the back-left foot"));
  l.all_press = false;
  page = report::text(l, shop(), style());
  CHECK(says(page, "no setting of the feet"));
  l.why_none = "the bench tips over";
  CHECK(says(report::text(l, shop(), style()), "It can not be reckoned: the bench tips over."));
}

TEST_CASE("report/level: a floor that falls, a long stem, packing, a wall, inches") {
  Levelling l = lathe();
  l.falls = true;
  l.alike.x = -12.2e-3;
  l.feet[3].out = l.feet[3].for_floor = 12e-3;
  l.feet[3].stem = 37e-3;
  l.leaves_wall = true;
  std::string page = report::text(l, shop(), style(100));
  CHECK(says(page, "for the floor for the load"));
  CHECK(says(page, "12 mm/m, low right"));
  CHECK(says(page, "these stand out far: the back-left foot 37.00 mm. See"));
  CHECK(says(page, "fixed to the wall"));
  l.feet[2].pitch = 0.0;
  page = report::text(l, shop(quantity::UnitSystem::imperial), style(100));
  CHECK(says(page, "pack up"));
  CHECK(says(page, "so much packing"));
  CHECK(says(page, "front-right foot 0.017 in 90 deg"));
  CHECK(says(page, "in/ft"));
}

TEST_CASE("report/level: without a machine there is no bed and no twist") {
  Levelling l = lathe();
  l.machine.clear();
  l.is_precise = false;
  const std::string page = report::text(l, shop(), style());
  CHECK(says(page, "then the top is level, and every foot presses."));
  CHECK(says(page, "along the top 0.3 mm/m, low left"));
  CHECK_FALSE(says(page, "bed"));
  CHECK_FALSE(says(page, "twist"));
}

TEST_CASE(
    "report/level: sixteenths of a turn for what is no metal lathe; nothing to turn says so") {
  Levelling l = lathe();
  l.machine = "wood lathe";
  l.is_precise = false;
  std::string page = report::text(l, shop(), style());
  CHECK(says(page, "front-left foot 0.00 mm leave it"));
  CHECK(says(page, "front-right foot 0.44 mm 1/4 turn "));
  CHECK(says(page, "back-right foot 1.75 mm 1 turn "));
  CHECK(says(page, "back-left foot 2.60 mm 1 1/2 turns "));
  CHECK(says(page, "along the bed"));
  CHECK(says(page, "Only a metal lathe needs a straight bed"));
  for (FootToSet& f : l.feet) f.out = 0.04e-3;
  page = report::text(l, shop(), style());
  CHECK(says(page, "Leave the feet as they are: the wood lathe"));
  CHECK_FALSE(says(page, "clockwise"));
  // Eight degrees, of which five or ten are turned: a metal lathe shows that.
  l.is_precise = true;
  page = report::text(l, shop(), style());
  CHECK(says(page, "front-right foot 0.04 mm 10 deg"));
}

TEST_CASE("report/level: a machine that stands front to back, and is no lathe") {
  Levelling l = lathe();
  l.machine = "drill press";
  l.is_precise = false;
  l.along_x = false;
  l.now.x = 0.1e-3;
  const std::string page = report::text(l, shop(), style());
  CHECK(says(page, "its base has no twist"));
  // 0.1 in the middle, half of the twist of 0.4 to either side.
  CHECK(says(page, "across the base at its front end 0.1 mm/m, low right level"));
  CHECK(says(page, "across the base at its back end 0.3 mm/m, low left level"));
  CHECK(says(page, "along the base 0.2 mm/m, low at the back level"));
  CHECK(says(page, "back-left foot +0.18 -0.35 +0.22"));
  CHECK(says(page, "the back end comes to rise more to the right than the front end."));
}

TEST_CASE("report/level: JSON") {
  Levelling l = lathe();
  const auto read = nlohmann::json::parse(report::json(l, "a.yaml", "1"));
  CHECK(read["standtrue_level"] == 1);
  CHECK(read["machine"] == "mini metal lathe");
  CHECK(read["feet"].size() == 4);
  CHECK(read["feet"][1]["turns"].get<double>() == doctest::Approx(0.44 / 1.75));
  CHECK(read["feet"][1]["per_metre_out"]["twist"] == 0.5);
  CHECK(read["readings"]["before"]["slope_x"] == 0.3e-3);
  CHECK(read["shims"].is_null());
  CHECK(read["flat"] == true);
  l.why_none = "it tips";
  const auto none = nlohmann::json::parse(report::json(l, "a.yaml", "1"));
  CHECK(none["why_none"] == "it tips");
  CHECK_FALSE(none.contains("feet"));
}

}  // namespace level_test
