// Where a machine may stand. Expected values are laws (superposition, symmetry, order) or come from
// the same bench solved another way; none is a number of ours.
#include "standtrue/decide/place.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "decide/place_bounds.hpp"
#include "decide/placing.hpp"
#include "standtrue/bench/turned.hpp"
#include "tests/decide/placed_benches.hpp"

namespace place_test {

using namespace standtrue;
using bench_files::tables;
using decide::PlacePlan;
using decide::PlaceStatus;
using decide::Stand;
using placed_benches::frame;
using placed_benches::held;
using placed_benches::plated;
using placed_benches::stripped;
using quantity::in_si;
using quantity::metres;

namespace {

PlacePlan planned(const bench::Bench& bench) {
  return decide::place(bench, *decide::machine_on_top(bench), tables(), decide::Work::plain());
}

}  // namespace

TEST_CASE("decide/place: an even bench has an even plan") {
  bench::Bench bench = held(bench_files::sound(plated));
  const bench::Sheet& top = bench.sheets[bench.machines[0].sheet];
  // Where the file has it, joints that it overloads would be let go on one side.
  bench.machines[0].x = 0.5 * (top.x0 + top.x1);
  bench.machines[0].y = 0.5 * (top.y0 + top.y1);
  const PlacePlan plan = planned(bench);
  REQUIRE(plan.none.empty());
  REQUIRE(plan.complete);
  for (const decide::PlaceGrid& grid : plan.ways) {
    for (std::size_t j = 0; j < plan.ny; ++j) {
      for (std::size_t i = 0; i < plan.nx; ++i) {
        const PlaceStatus& a = grid.at[j * plan.nx + i];
        const PlaceStatus& b = grid.at[j * plan.nx + plan.nx - 1 - i];
        CAPTURE(i);
        CAPTURE(j);
        CHECK(a.has_room == b.has_room);
        if (a.is_confirmed != b.is_confirmed) continue;  // one of them was drawn
        CHECK(a.stand == b.stand);
        // Ties are picked from the mesh lines from the left on, so that a mesh is even but for
        // them; strength on it is right to about a hundredth (docs/method.md).
        CHECK(std::abs(a.mean_ratio - b.mean_ratio) <= 0.01 * b.mean_ratio);
      }
    }
  }
  const decide::LoadPlan& loads = plan.loads;
  for (std::size_t j = 0; j < loads.ny; ++j) {
    for (std::size_t i = 0; i < loads.nx; ++i) {
      const double a = loads.mass[j * loads.nx + i];
      const double b = loads.mass[j * loads.nx + loads.nx - 1 - i];
      // What `largest_mass` leaves open: 2.5 kg, or a hundredth of the limit, of which the patch
      // may have half.
      CHECK(std::abs(a - b) <= std::max(2.5, 0.02 * std::max(a, b)));
      CHECK(a > 0.0);
    }
  }
  CHECK(plan.confirmed.others == 10);
  CHECK(plan.own.stand != Stand::not_looked_at);
}

TEST_CASE("decide/place: a heavier machine is nowhere clear where a lighter one is not") {
  bench::Bench bench = held(bench_files::sound(stripped));
  bench.machines[0].pads_y = bench.machines[0].pads_x;  // the same either way round
  std::size_t clear_before = 1000;
  std::vector<PlacePlan> plans;
  for (const double mass : {30.0, 90.0, 250.0}) {
    bench.machines[0].mass = quantity::from_si<quantity::Mass>(mass);
    plans.push_back(planned(bench));
    const std::size_t clear = plans.back().ways[0].count(Stand::clear);
    CHECK(clear <= clear_before);
    clear_before = clear;
  }
  for (std::size_t p = 1; p < plans.size(); ++p) {
    for (std::size_t cell = 0; cell < plans[p].ways[0].at.size(); ++cell) {
      CAPTURE(cell);
      const bool clear = plans[p].ways[0].at[cell].stand == Stand::clear;
      if (clear) CHECK(plans[p - 1].ways[0].at[cell].stand == Stand::clear);
    }
  }
  CHECK(plans[0].ways[0].count(Stand::clear) > plans[2].ways[0].count(Stand::clear));
}

TEST_CASE("decide/place: what is clear passes a check at mean joints") {
  const bench::Bench bench = held(bench_files::sound(stripped));
  const PlacePlan plan = planned(bench);
  std::vector<decide::Spot> clear;
  for (std::size_t way = 0; way < 2; ++way) {
    for (std::size_t cell = 0; cell < plan.ways[way].at.size(); ++cell) {
      if (plan.ways[way].at[cell].stand == Stand::clear) clear.push_back({way, cell});
    }
  }
  REQUIRE(clear.size() > 3);
  // A joint is looked at by the plan too, under gravity: whatever fails of the bench as it is, and
  // not of its own place, is told (found on benches drawn by chance).
  std::size_t joints = 0;
  for (const check::Finding& f : decide::assess(bench, tables()).findings) {
    const bool fails =
        f.judgement == check::Judgement::exceeded || f.judgement == check::Judgement::depends;
    // What a shove nearly fails is told as that: where the machine stands may turn it.
    const double worst = std::max({f.ratio, f.ratio_soft, f.ratio_stiff, f.ratio_poor});
    const bool is_near = f.combination.find("shove") != std::string::npos && worst > 0.85;
    const bool is_told =
        std::find(plan.nearly.begin(), plan.nearly.end(), f.id) != plan.nearly.end();
    if (f.kind == check::Kind::safety && !fails && is_near) CHECK(is_told);
    if (f.kind == check::Kind::safety && worst < 0.85) CHECK_FALSE(is_told);
    if (f.kind != check::Kind::safety || !fails || f.id == plan.own.why) continue;
    CHECK(std::find(plan.besides.begin(), plan.besides.end(), f.id) != plan.besides.end());
    joints += f.id.rfind("joint/", 0) == 0 ? 1 : 0;
  }
  CHECK(joints > 0);
  std::mt19937 draw(3);
  for (int i = 0; i < 4; ++i) {
    const decide::Spot spot = clear[draw() % clear.size()];
    CAPTURE(spot.way);
    CAPTURE(spot.cell);
    bench::Machine there = bench.machines[0];
    if (spot.way == 1) there = bench::turned_a_quarter(there);
    there.x = plan.x(spot.cell);
    there.y = plan.y(spot.cell);
    const auto found = decide::assess(decide::with_machine(bench, 0, there), tables());
    for (const check::Finding& f : found.findings) {
      if (f.kind != check::Kind::safety) continue;
      CAPTURE(f.id);
      CHECK_FALSE(f.ratio > 1.0);
    }
  }
}

TEST_CASE("decide/place: where the bounds were not solved they would have said the same") {
  const bench::Bench bench = held(bench_files::sound(plated));
  const PlacePlan plan = planned(bench);
  decide::Elsewhere elsewhere;
  std::vector<decide::Spot> spots;
  for (std::size_t way = 0; way < 2; ++way) {
    for (std::size_t cell = 0; cell < plan.ways[way].at.size(); ++cell) {
      const PlaceStatus& s = plan.ways[way].at[cell];
      if (!s.has_room || s.is_confirmed) continue;
      bench::Machine there = bench.machines[0];
      if (way == 1) there = bench::turned_a_quarter(there);
      there.x = plan.x(cell);
      there.y = plan.y(cell);
      elsewhere.places.push_back(there);
      spots.push_back({way, cell});
    }
  }
  const decide::Work alone = decide::Work::plain();
  const auto bounds = decide::InfluenceBounds::make(bench, tables(), elsewhere, alone).value();
  const auto others = decide::OtherBounds::make(bench, tables(), elsewhere, bounds, alone).value();
  std::size_t estimated = 0;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    decide::Superposed at = decide::superposed(bounds, i, tables(), true);
    if (at.may_turn) decide::add_bounds(at.found, others, i, tables(), true);
    const PlaceStatus whole = decide::status_of(at.found).status;
    const PlaceStatus& told = plan.ways[spots[i].way].at[spots[i].cell];
    CAPTURE(spots[i].way);
    CAPTURE(spots[i].cell);
    CHECK(told.stand == whole.stand);
    CHECK((told.off_limit <= 0.1) == (whole.off_limit <= 0.1));
    // A tenth is what `Stretch` allows for what no place has shown.
    CHECK(told.ratio <= 1.1 * whole.ratio);
    CHECK(whole.ratio <= 1.1 * told.ratio);
    estimated += at.may_turn && told.ratio != whole.ratio ? 1 : 0;
  }
  CHECK(estimated > spots.size() / 5);
}

TEST_CASE("decide/place: near the limit as many are solved anew as the differences ask for") {
  // What governs is the shelf, wherever the machine stands: a mesh of its own changes nothing.
  const std::string shelf = placed_benches::frame + R"(
top: {sheet: 18 mm spruce plywood, load: 10 kg}
shelf: {sheet: 9 mm spruce plywood, load: 100 kg}
machines:
  - {kind: machine, name: press, mass: 20 kg, at: [300 mm, 200 mm], pads: 200 x 140 mm, pad: 40 mm}
)";
  for (const std::string& file : {shelf, placed_benches::plated}) {
    const PlacePlan plan = planned(held(bench_files::sound(file)));
    const decide::Confirmation& c = plan.confirmed;
    std::size_t left = plan.own.off_limit <= 0.1 && !plan.own.is_confirmed ? 1 : 0;
    for (const decide::PlaceGrid& way : plan.ways) {
      for (const PlaceStatus& s : way.at) {
        if (!s.has_room || s.is_confirmed) continue;
        CHECK(s.off_limit > 2.0 * c.furthest);
        left += s.off_limit <= 0.1 ? 1 : 0;
      }
    }
    CHECK(left == c.left);
    if (file != shelf) continue;
    CHECK(c.near_limit == 12);
    CHECK(c.left > 100);
  }
}

TEST_CASE("decide/place: pads over an edge or on another's ground are barred, and say why") {
  bench::Bench bench = held(bench_files::sound(stripped));
  bench::Machine grinder = bench.machines[0];
  grinder.name = "grinder";
  grinder.mass = quantity::from_si<quantity::Mass>(5.0);
  grinder.x = metres(0.75);
  grinder.y = metres(0.225);
  grinder.pads_x = grinder.pads_y = metres(0.1);
  bench.machines.push_back(grinder);
  const PlacePlan plan = planned(bench);
  CHECK(plan.machine == "press");
  REQUIRE(plan.others == std::vector<std::string>{"grinder"});
  const bench::Sheet& top = bench.sheets[bench.machines[0].sheet];
  std::size_t edge = 0, on_it = 0;
  for (std::size_t way = 0; way < 2; ++way) {
    const double hx = way == 0 ? 0.12 : 0.09, hy = way == 0 ? 0.09 : 0.12;
    for (std::size_t cell = 0; cell < plan.ways[way].at.size(); ++cell) {
      const PlaceStatus& s = plan.ways[way].at[cell];
      const double x = in_si(plan.x(cell)), y = in_si(plan.y(cell));
      const bool over = x - hx < in_si(top.x0) - 1e-4 || x + hx > in_si(top.x1) + 1e-4 ||
                        y - hy < in_si(top.y0) - 1e-4 || y + hy > in_si(top.y1) + 1e-4;
      if (over) {
        ++edge;
        CHECK(s.stand == Stand::barred);
        CHECK(s.why == "edge");
      } else if (std::abs(x - 0.75) < hx + 0.07 - 1e-6 && std::abs(y - 0.225) < hy + 0.07 - 1e-6) {
        ++on_it;
        CHECK(s.stand == Stand::barred);
        CHECK(s.why == "grinder");
      } else {
        CHECK(s.has_room);
      }
    }
  }
  CHECK(edge > 0);
  CHECK(on_it > 0);
}

TEST_CASE("decide/place: what the plan does not look at is told where it fails") {
  bench::Bench bench = held(bench_files::sound(stripped));
  bench.braces.clear();  // its brackets alone do not hold a shove on bolted feet
  const PlacePlan plan = planned(bench);
  const auto& told = plan.besides;
  CHECK(std::find(told.begin(), told.end(), "joint-sum/along") != told.end());
  CHECK(std::any_of(plan.answer.begin(), plan.answer.end(), [](const std::string& line) {
    return line.find("joint-sum/along") != std::string::npos;
  }));
}

TEST_CASE("decide/place: a machine that is not on the top has no plan and says so") {
  const bench::Bench bench = bench_files::sound(frame + R"(
top: {sheet: 18 mm spruce plywood, load: none}
shelf: {sheet: 12 mm spruce plywood, load: none}
analysis: {sheets: strip}
machines:
  - {kind: drill press, mass: 20 kg, at: middle, sheet: shelf, pads: 200 x 140 mm, pad: 40 mm, centre_height: 200 mm, height: 400 mm}
)");
  CHECK_FALSE(decide::machine_on_top(bench));
  const auto named = decide::machine_on_top(bench, "drill press");
  REQUIRE(named);
  const PlacePlan plan = decide::place(bench, *named, tables(), decide::Work::plain());
  CHECK(plan.none.find("stands on the") != std::string::npos);
}

TEST_CASE("decide/place: the screws of an upright sheet are judged at every place, as by check") {
  const bench::Bench bench = bench_files::sound(R"(
standtrue: 1
size: 1900 x 700 x 930 mm
timber: oak 47 x 97 mm
posts: {section: 95 x 95 mm}
joints: bolted lap
rails: {top: {back: {seat: notched}}, lower: {back: {seat: notched}}}
top: 21 mm spruce plywood
sheets: [{side: back, sheet: 12 mm OSB/3}]
feet: M16
machines: [{kind: wood lathe, mass: 60 kg, at: middle}]
)");
  const auto placed = decide::judged_directly(bench, tables(), true);
  const auto checked = decide::assess(bench, tables()).findings;
  const auto of = [](const std::vector<check::Finding>& findings) {
    return std::find_if(findings.begin(), findings.end(),
                        [](const auto& f) { return f.id == "sheet-screws/back-sheet"; });
  };
  const auto whole = of(checked);
  REQUIRE(whole != checked.end());
  REQUIRE(of(placed.mean) != placed.mean.end());
  REQUIRE(of(placed.stiff) != placed.stiff.end());
  CHECK(of(placed.mean)->ratio == doctest::Approx(whole->ratio).epsilon(1e-9));
  CHECK(of(placed.stiff)->ratio == doctest::Approx(whole->ratio_stiff).epsilon(1e-9));
}

TEST_CASE("decide/place: what appears at another bound alone may matter anywhere") {
  check::Finding bending;
  bending.id = "bending/rail";
  bending.judgement = check::Judgement::satisfied;
  bending.ratio = 0.2;
  check::Finding tips;
  tips.id = "unanswered/strength";
  decide::AtBounds at;
  at.mean = at.soft = at.stiff = at.poor = {bending};
  decide::Stretch stretch;
  stretch.see(at);
  CHECK_FALSE(stretch.may_matter({bending}));
  at.soft.push_back(tips);
  stretch.see(at);
  CHECK(stretch.may_matter({bending}));
  // Not judged there, judged at mean joints.
  at.soft = {bending};
  at.soft[0].judgement = check::Judgement::not_judged;
  decide::Stretch other;
  other.see(at);
  CHECK(other.may_matter({bending}));
}

TEST_CASE("decide/place: the words for a strip that is barred, and for a place between the cells") {
  PlacePlan plan;
  plan.machine = "saw";
  plan.length = quantity::millimetres(1500.0);
  plan.depth = quantity::millimetres(600.0);
  plan.nx = 15;
  plan.ny = 1;
  plan.is_alike_turned = true;
  plan.ways.resize(2);
  plan.ways[0].at.resize(15);
  for (auto& status : plan.ways[0].at) status.stand = Stand::clear;
  plan.ways[0].at[7].stand = Stand::barred;  // one cell of 100 mm
  const auto first = [&] {
    return decide::place_words(plan, quantity::UnitSystem::metric).front();
  };
  CHECK(first() == "The saw may not stand mid-span: only outside the middle 100 mm of its length.");
  for (auto& status : plan.ways[0].at) status.stand = Stand::barred;
  plan.own.stand = Stand::barred;
  CHECK(first() == "The saw may not stand anywhere on this top.");
  plan.own.stand = Stand::clear;
  CHECK(first().find("The saw may stand where the file has it, and at none") == 0);
}

TEST_CASE("decide/place: a strip is named where most of it is clear, not for a few dots in it") {
  PlacePlan plan;
  plan.machine = "saw";
  plan.length = quantity::millimetres(1500.0);
  plan.depth = quantity::millimetres(600.0);
  plan.nx = 15;
  plan.ny = 5;  // rows of 120 mm
  plan.is_alike_turned = true;
  plan.ways.resize(2);
  plan.ways[0].at.resize(75);
  for (auto& status : plan.ways[0].at) status.stand = Stand::barred;
  const auto mark = [&](std::size_t columns) {
    for (std::size_t i = 0; i < columns; ++i) {
      plan.ways[0].at[14 - i].stand = plan.ways[0].at[60 + 14 - i].stand = Stand::clear;
    }
    return decide::place_words(plan, quantity::UnitSystem::metric).front();
  };
  CHECK(mark(2) == "The saw may not stand mid-span: only where the plan has dots, 4 of 75 places.");
  CHECK(mark(12) ==
        "The saw may not stand mid-span: only near the front and back rails: within 120 mm of the "
        "front edge or 120 mm of the back.");
}

TEST_CASE("decide/place: it stands best where the file has it, unless another place is better") {
  // Moved to where it stood best, it stands best there: the same bench, asked twice.
  bench::Bench bench = held(bench_files::sound(stripped));
  const PlacePlan first = planned(bench);
  REQUIRE(first.best);
  const PlaceStatus& best = first.ways[first.best->way].at[first.best->cell];
  if (first.own.stand == Stand::clear) CHECK(best.ratio < first.own.ratio - 0.01);
  CHECK(first.answer.back().find("It stands best with the middle of its pads") == 0);
  bench::Machine& press = bench.machines[0];
  if (first.best->way == 1) press = bench::turned_a_quarter(press);
  press.x = first.x(first.best->cell);
  press.y = first.y(first.best->cell);
  const PlacePlan again = planned(bench);
  CHECK(again.own.ratio == doctest::Approx(best.ratio).epsilon(1e-6));
  CHECK_FALSE(again.best);
  CHECK(again.answer.back() == "It stands best where the file has it.");
}

TEST_CASE("decide/place: where nothing is clear, or nobody looked at all, no place is the best") {
  PlacePlan plan;
  plan.machine = "saw";
  plan.nx = plan.ny = 1;
  plan.is_alike_turned = true;
  plan.ways.resize(2);
  plan.ways[0].at.resize(1);
  const auto last = [&plan](Stand own, bool complete) {
    plan.own.stand = own;
    plan.complete = complete;
    return decide::place_words(plan, quantity::UnitSystem::metric).back();
  };
  CHECK(last(Stand::clear, true) == "It stands best where the file has it.");
  CHECK(last(Stand::clear, false).find("Where the file has it now it is clear") == 0);
  CHECK(last(Stand::care, true).find("Where the file has it now it asks for care") == 0);
}

}  // namespace place_test
