// Forces in SI.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>
#include <string>
#include <utility>

#include "model/idealising.hpp"
#include "standtrue/contract.hpp"
#include "standtrue/reference/table_test.hpp"

namespace standtrue::model {

using quantity::in_si;
using quantity::metres;
using std::numbers::pi;

namespace {

constexpr std::array disc_tests{"disc test", "light disc test"};
constexpr std::array racking_tests{"racking test", "light racking test"};

/// What is told of mean joints alone is not worth its place at the other bounds.
bool are_looked_at(const Idealising& work) {
  const Assumptions& a = work.assumptions;
  return a.bound == Bound::mean && !a.after_creep && !a.coarse_mesh && !a.low_timber;
}

bool runs(const Idealising& work, const char* test) {
  return reference::runs_table_test(work.tables, test, work.bench.duty.key);
}

/// Where one stands, on a patch as large and as far from the edge, a test presses too.
void static_places(Idealising& work) {
  if (!runs(work, "static test")) return;
  const reference::Load& load = work.tables.load("static test");
  const reference::Load& stand = work.tables.load("stand");
  expects(load.patch == stand.patch && load.edge == stand.edge,
          "build_tests: the static test has the places of those who stand");
  for (const PersonPlace& place : work.model.parts.persons) {
    work.model.parts.tests.push_back({"static test", "static test, " + place.name, place.sheet,
                                      place.x, place.y, place.load_case});
  }
}

struct Middle {
  std::string name;
  double x = 0.0, y = 0.0;
};

/// The middle of a top, and that of its longest bay where it is another place.
std::vector<Middle> middles(const bench::Sheet& sheet, const Lying& lying) {
  const double x = 0.5 * in_si(sheet.x0 + sheet.x1), y = 0.5 * in_si(sheet.y0 + sheet.y1);
  const std::string of = sheet.name == "top" ? "" : " of the " + sheet.name;
  std::vector<Middle> places{{"middle" + of, x, y}};
  double longest = 0.0, at = lying.along_x ? x : y;
  for (std::size_t i = 0; i + 1 < lying.carriers.size(); ++i) {
    const double bay = lying.carriers[i + 1].at - lying.carriers[i].at;
    if (bay <= longest + 1e-6) continue;
    longest = bay;
    at = 0.5 * (lying.carriers[i].at + lying.carriers[i + 1].at);
  }
  constexpr double same_spot = 0.01;  // m
  const Middle bay{"middle of the longest bay" + of, lying.along_x ? at : x,
                   lying.along_x ? y : at};
  if (std::hypot(bay.x - x, bay.y - y) > same_spot) places.push_back(bay);
  return places;
}

/// A round disc as a square of the same area: that of the diameter times √π/2.
void discs(Idealising& work) {
  for (const char* test : disc_tests) {
    if (!runs(work, test)) continue;
    const double side = in_si(work.tables.load(test).patch) * std::sqrt(pi) / 2.0;
    for (const Lying& lying : work.lying) {
      const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
      const std::optional<std::size_t> plate = plate_of(work.model, lying.sheet);
      // Without a plate nothing would bend under it.
      if (sheet.place != bench::SheetPlace::top || !plate) continue;
      for (const Middle& at : middles(sheet, lying)) {
        if (!touches(work.model.plates[*plate], patch_at(sheet, at.x, at.y, side))) continue;
        LoadCase& load_case =
            add_case(work, "test-disc-" + slug(at.name), "1 kN on a disc, " + at.name,
                     work.tables.load(test).duration);
        load_case.weight = true;
        press(work, load_case, lying, at.x, at.y, side, 1e3);
        work.model.parts.tests.push_back({test, fmt::format("{}, {}", test, at.name), lying.sheet,
                                          metres(at.x), metres(at.y), work.model.cases.size() - 1});
      }
    }
  }
}

/// 1 kN all over every top: what lies on it while it is pushed.
void spread(Idealising& work) {
  for (const char* test : racking_tests) {
    if (!runs(work, test)) continue;
    for (const Lying& lying : work.lying) {
      const bench::Sheet& sheet = work.bench.sheets[lying.sheet];
      if (sheet.place != bench::SheetPlace::top) continue;
      LoadCase& load_case =
          add_case(work, "test-spread-" + slug(sheet.name), "1 kN all over the " + sheet.name,
                   work.tables.load(test).duration);
      double area = in_si(sheet.x1 - sheet.x0) * in_si(sheet.y1 - sheet.y0);
      for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
        area -= in_si(cut.x1 - cut.x0) * in_si(cut.y1 - cut.y0);
      }
      load_case.weight = true;
      press_all_over(work, load_case, lying, 1e3 / area);
      work.model.parts.tests.push_back({test, fmt::format("{}, {}", test, sheet.name), lying.sheet,
                                        0.5 * (sheet.x0 + sheet.x1), 0.5 * (sheet.y0 + sheet.y1),
                                        work.model.cases.size() - 1});
    }
  }
}

/// The bench with its machines at rest, as a test finds it.
Combination at_rest(const Idealising& work, std::string name, std::string title,
                    Duration duration) {
  Combination c;
  c.name = std::move(name);
  c.title = std::move(title);
  c.purpose = Purpose::test;
  c.leading = Leading::test;
  c.duration = duration;
  const Parts& parts = work.model.parts;
  if (parts.self_case) c.terms.push_back({*parts.self_case, 1.0});
  for (const std::size_t machine : parts.machine_cases) c.terms.push_back({machine, 1.0});
  return c;
}

void pressed(Idealising& work, std::size_t place) {
  const TestPlace& test = work.model.parts.tests[place];
  const reference::Load& load = work.tables.load(test.test);
  Combination c =
      at_rest(work, "test-" + slug(test.name), "a published " + test.name, load.duration);
  c.place = place;
  c.terms.push_back({test.load_case, in_si(load.down) / 1e3});
  work.model.combinations.push_back(std::move(c));
}

/// Pushed at each corner, both ways and both senses, with the load of the source on the top. A push
/// goes where a shove does: at the top of the corner post, not 50 mm from the corner of the sheet.
void racked(Idealising& work, std::size_t place) {
  const TestPlace& test = work.model.parts.tests[place];
  const reference::Load& load = work.tables.load(test.test);
  const std::vector<ShovePlace>& shoves = work.model.parts.shoves;
  for (std::size_t s = 0; s < shoves.size(); ++s) {
    if (shoves[s].name.find("spread") != std::string::npos) continue;
    for (const double sense : {1.0, -1.0}) {
      const char* to = sense > 0.0 ? "forth" : "back";
      Combination c =
          at_rest(work, fmt::format("test-{}-{}-{}", slug(test.name), slug(shoves[s].name), to),
                  fmt::format("a published {}, {}, {}", test.name, shoves[s].name,
                              shoves[s].towards(sense)),
                  load.duration);
      // A shove for the joints, which share it.
      c.leading = Leading::shove;
      c.place = s;
      c.springs = SpringSet::sway;
      c.terms.push_back({test.load_case, in_si(load.down) / 1e3});
      c.terms.push_back({shoves[s].case_of(sense), sense * in_si(load.sideways)});
      c.limited = c.terms.size() - 1;
      work.model.combinations.push_back(std::move(c));
    }
  }
}

/// What the movement under a test is counted from.
void rest(Idealising& work) {
  Combination c = at_rest(work, "test-at-rest", "bench and machines, before a published test",
                          Duration::permanent);
  c.leading = Leading::permanent;
  work.model.combinations.push_back(std::move(c));
}

/// The heaviest machine alone on the bench, and the bench without it; the weight is scaled when its
/// sag is known.
void dropped(Idealising& work) {
  const std::vector<bench::Machine>& machines = work.bench.machines;
  const auto heaviest =
      std::max_element(machines.begin(), machines.end(),
                       [](const auto& a, const auto& b) { return a.mass < b.mass; });
  if (heaviest == machines.end()) return;
  if (in_si(heaviest->mass) < work.tables.constant("drop from mass").value) return;
  const auto m = static_cast<std::size_t>(heaviest - machines.begin());
  const Parts& parts = work.model.parts;
  Combination c;
  c.name = "test-drop-" + slug(heaviest->name);
  c.title = "the " + heaviest->name + " let down too fast";
  c.purpose = Purpose::test;
  c.leading = Leading::test;
  c.duration = Duration::instantaneous;
  if (parts.self_case) c.terms.push_back({*parts.self_case, 1.0});
  Combination empty = c;
  empty.name = "test-empty";
  empty.title = "the bench alone";
  empty.leading = Leading::permanent;
  c.terms.push_back({parts.machine_cases.at(m), 1.0});
  work.model.combinations.push_back(std::move(empty));
  work.model.combinations.push_back(std::move(c));
}

bool is_among(const std::array<const char*, 2>& tests, const std::string& test) {
  return std::any_of(tests.begin(), tests.end(), [&test](const char* t) { return test == t; });
}

}  // namespace

void build_test_cases(Idealising& work) {
  static_places(work);
  discs(work);
  spread(work);
}

void build_test_combinations(Idealising& work) {
  if (!are_looked_at(work)) return;
  rest(work);
  for (std::size_t place = 0; place < work.model.parts.tests.size(); ++place) {
    if (is_among(racking_tests, work.model.parts.tests[place].test)) {
      racked(work, place);
    } else {
      pressed(work, place);
    }
  }
  dropped(work);
}

}  // namespace standtrue::model
