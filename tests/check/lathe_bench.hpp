#pragma once

#include <doctest/doctest.h>
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include "check/bed.hpp"
#include "check/plate_answers.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

/// A bench with a lathe on it, for tests of what it does to the bed.
namespace lathe_bench {

using namespace standtrue;
using bench_files::tables;

struct Solved {
  model::Model model;
  solve::Response response;

  explicit Solved(model::Model made) : model(std::move(made)) {
    solve::OrRefusal<solve::Response> answer = solve::static_response(model);
    REQUIRE_MESSAGE(answer, answer.error().what);
    response = std::move(*answer);
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
  [[nodiscard]] check::PlateAnswers plates() const { return {model, response, check::judges_sag}; }
  [[nodiscard]] std::vector<check::Finding> findings() const {
    return check::bed_twist(answers(), plates(), tables());
  }
  [[nodiscard]] check::Finding finding() const {
    const std::vector<check::Finding> found = findings();
    REQUIRE(found.size() == 1);
    return found.front();
  }
  /// The warp of the first bed's pads, m.
  [[nodiscard]] double warp(bool (*wanted)(const model::Combination&) = check::is_at_rest) const {
    const check::PlateAnswers plates_ = plates();
    const model::BedPlace& bed = model.parts.beds.front();
    const auto views = plates_.of(bed.plate, wanted);
    REQUIRE_FALSE(views.empty());
    return check::warp_of(bed, views[0].plate, views[0].movements, views[0].column);
  }
  [[nodiscard]] std::array<double, 4> per_foot() const {
    std::array<double, 4> turns{};
    for (const check::FootTurn& turn : check::twist_per_foot(answers())) {
      turns.at(turn.foot) = turn.per_metre;
    }
    return turns;
  }
};

// A bench of our own: a mini lathe nearer the front than the back and left of the middle.

struct Shop {
  int rail = 95;         ///< depth of all rails, mm
  int front_rail = 0;    ///< of the front top rail alone
  int top = 18;          ///< mm
  int x = 600, y = 190;  ///< of the lathe, mm
  std::string machine = "mini metal lathe";
  std::string mounting = "standing";
  std::string more;  ///< of the machine
  std::string bearers;
  std::string sheets = "mesh: 100 mm";
};

inline model::Model model_of(const Shop& shop, model::Bound bound = model::Bound::mean) {
  std::string text = fmt::format(R"(
standtrue: 1
size: 1500 x 600 x 880 mm
timber: C24 45 x {} mm
posts: 70 x 70 mm
joints: two corner brackets
top: {{sheet: {} mm spruce plywood, grain: across, load: 20 kg}}
analysis: {{{}}}
machines:
  - {{kind: {}, at: [{} mm, {} mm], mounting: {}{}}}
)",
                                 shop.rail, shop.top, shop.sheets, shop.machine, shop.x, shop.y,
                                 shop.mounting, shop.more);
  text += shop.bearers;
  if (shop.front_rail > 0) {
    text += fmt::format("rails:\n  top: {{front: {{section: 45 x {} mm}}}}\n", shop.front_rail);
  }
  model::Idealisation made =
      model::idealise(bench_files::sound(text), tables(), {bound, false, {}});
  REQUIRE(made.model);
  return *made.model;
}

inline Solved solved(const Shop& shop) { return Solved(model_of(shop)); }

/// Change of the bed's twist with somebody leaning at a place, rad; and of the bare top.
struct Change {
  double bed = 0.0, bare = 0.0;
};
inline Change change(const Solved& bench, const std::string& person) {
  const check::Trials trials = check::trials_at_rest(bench.answers(), {0});
  const model::BedPlace& bed = bench.model.parts.beds[0];
  const check::PlateAnswers plates = bench.plates();
  for (const auto& view : plates.of(bed.plate, check::is_leaned_on)) {
    const model::Combination& c = bench.model.combinations[view.combination];
    if (bench.model.parts.persons[*c.place].name != person) continue;
    const double q = check::warp_of(bed, view.plate, view.movements, view.column) - bench.warp();
    return {trials.shares[0].share * q / bed.breadth, q / bed.breadth};
  }
  FAIL("nobody leans on the " << person);
  return {};
}

/// The combination that a machine is levelled under.
inline std::size_t at_rest(const model::Model& model) {
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    if (check::is_at_rest(model.combinations[c])) return c;
  }
  FAIL("nothing at rest");
  return 0;
}

/// Whether a line of the working holds these words.
inline bool tells(const check::Finding& f, const std::string& words) {
  return std::any_of(f.working.begin(), f.working.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

}  // namespace lathe_bench
