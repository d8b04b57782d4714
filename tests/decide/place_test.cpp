// Where a machine may stand. Expected values are laws (superposition, symmetry, order) or come from
// the same bench solved another way; none is a number of ours.
#include "standtrue/decide/place.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "decide/influence.hpp"
#include "decide/load_plan.hpp"
#include "decide/place_bounds.hpp"
#include "decide/placing.hpp"
#include "standtrue/bench/turned.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/model/move_machine.hpp"
#include "tests/bench/bench_files.hpp"

using namespace standtrue;
using bench_files::tables;
using decide::PlacePlan;
using decide::PlaceStatus;
using decide::Stand;
using quantity::in_si;
using quantity::metres;

namespace {

const std::string frame = R"(
standtrue: 1
size: 900 x 600 x 700 mm
timber: C24 45 x 95 mm
joints: two corner brackets
)";
const std::string plated = frame + R"(
top: {sheet: 18 mm spruce plywood, load: 10 kg}
machines:
  - {kind: machine, name: press, mass: 60 kg, at: [300 mm, 200 mm], pads: 200 x 140 mm, pad: 40 mm}
)";
/// Strips, for speed.
const std::string stripped = frame + R"(
top: {sheet: 18 mm spruce plywood, load: none}
analysis: {sheets: strip}
braces: [{side: back}, {side: left}, {side: right}]
machines:
  - {kind: machine, name: press, mass: 90 kg, at: [350 mm, 225 mm], pads: 200 x 140 mm, pad: 40 mm, centre: [0 mm, 0 mm]}
)";

PlacePlan planned(const bench::Bench& bench) {
  return decide::place(bench, *decide::machine_on_top(bench), tables(), decide::Work::plain());
}

/// Bolted to the floor: a shove at the top of a machine would tip a bench as small as these,
/// wherever it stands.
bench::Bench held(bench::Bench bench) {
  for (bench::Post& post : bench.posts) post.foot.fixed = true;
  return bench;
}

bench::Machine moved(const bench::Machine& machine, double x, double y) {
  bench::Machine there = machine;
  there.x = metres(x);
  there.y = metres(y);
  return there;
}

/// The same model with the machine's own weight case elsewhere, factorised and answered by itself.
decide::Placed by_itself(const bench::Bench& bench, const bench::Machine& there) {
  bench::Bench even = bench;
  bench::Machine& own = even.machines[0];
  const bench::Sheet& sheet = even.sheets[own.sheet];
  own.bolted = false;
  own.x = 0.5 * (sheet.x0 + sheet.x1);
  own.y = 0.5 * (sheet.y0 + sheet.y1);
  model::Model model = model::idealise(even, tables()).model.value();
  model.cases[model.parts.machine_cases[0]] = model::weight_at(model, there);
  model::move_machine(model, 0, there);
  auto& all = model.combinations;
  all.erase(std::remove_if(all.begin(), all.end(),
                           [](const auto& c) { return !decide::is_wanted_at_once(c); }),
            all.end());
  solve::Response response = solve::static_response(model).value();
  return {std::move(model), std::move(response)};
}

const check::Finding& with_id(const std::vector<check::Finding>& findings, const std::string& id) {
  for (const check::Finding& f : findings) {
    if (f.id == id) return f;
  }
  FAIL("no finding " << id);
  return findings.front();
}

double largest(const solve::State& state) {
  double most = 0.0;
  for (const auto& forces : state.end_forces) {
    for (const double f : forces) most = std::max(most, std::abs(f));
  }
  return most;
}

double furthest(const solve::State& a, const solve::State& b) {
  double most = 0.0;
  for (std::size_t m = 0; m < a.end_forces.size(); ++m) {
    for (std::size_t i = 0; i < 12; ++i) {
      most = std::max(most, std::abs(a.end_forces[m][i] - b.end_forces[m][i]));
    }
  }
  return most;
}

}  // namespace

TEST_CASE("decide/place: influence is a direct solve at random places") {
  const bench::Bench bench = held(bench_files::sound(plated));
  const bench::Sheet& top = bench.sheets[bench.machines[0].sheet];
  decide::Elsewhere elsewhere;
  std::mt19937 draw(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(draw() % 1000) / 1000.0;
  };
  for (int i = 0; i < 3; ++i) {
    const bench::Machine& own = bench.machines[0];
    elsewhere.places.push_back(moved(i == 1 ? bench::turned_a_quarter(own) : own,
                                     between(in_si(top.x0) + 0.15, in_si(top.x1) - 0.15),
                                     between(in_si(top.y0) + 0.15, in_si(top.y1) - 0.15)));
  }
  solve::PlateCache plates;
  const auto influence =
      decide::Influence::make(bench, tables(), elsewhere, {}, decide::is_wanted_at_once, plates);
  REQUIRE(influence);
  for (std::size_t i = 0; i < elsewhere.places.size(); ++i) {
    CAPTURE(i);
    const decide::Placed superposed = influence->at(i);
    const decide::Placed direct = by_itself(bench, elsewhere.places[i]);
    std::size_t compared = 0;
    for (std::size_t c = 0; c < superposed.model.combinations.size(); ++c) {
      const std::string& name = superposed.model.combinations[c].name;
      CAPTURE(name);
      const auto& all = direct.model.combinations;
      const auto same =
          std::find_if(all.begin(), all.end(), [&](const auto& d) { return d.name == name; });
      REQUIRE(same != all.end());
      const auto& state = superposed.response.states[c];
      const auto& other = direct.response.states[static_cast<std::size_t>(same - all.begin())];
      REQUIRE(state);
      REQUIRE(other);
      CHECK(state->touching == other->touching);
      CHECK(furthest(*state, *other) <= 1e-6 * largest(*other));
      const double size = other->displacement.cwiseAbs().maxCoeff();
      CHECK((state->displacement - other->displacement).cwiseAbs().maxCoeff() <= 1e-6 * size);
      ++compared;
    }
    CHECK(compared >= 6);
    const auto a = check::check_placed({superposed.model, superposed.response}, tables(), true);
    const auto b = check::check_placed({direct.model, direct.response}, tables(), true);
    const auto by_sums = check::check_placed({superposed.model, superposed.response}, tables(),
                                             true, {superposed.moved, nullptr});
    for (const char* id :
         {"sag/front-top-rail", "sag-board/top", "sag-total/top-under-the-press"}) {
      CAPTURE(id);
      const double sag = with_id(b, id).demand;
      CHECK(std::abs(with_id(a, id).demand - sag) <= 1e-6 * sag);
      CHECK(std::abs(with_id(by_sums, id).demand - sag) <= 1e-6 * sag);
    }
  }
}

TEST_CASE(
    "decide/place: an answer is that without the machine and its factor times a unit answer") {
  const bench::Bench bench = bench_files::sound(plated);
  decide::Elsewhere elsewhere;
  elsewhere.places = {moved(bench.machines[0], 0.55, 0.2)};
  solve::PlateCache plates;
  const auto influence =
      decide::Influence::make(bench, tables(), elsewhere, {}, decide::is_wanted_at_once, plates);
  REQUIRE(influence);
  const decide::Placed placed = influence->at(0);
  const solve::Prepared& prepared = *placed.response.prepared[0];
  const model::CaseId there = placed.model.cases.size();  // the first of the places
  std::size_t compared = 0;
  for (std::size_t c = 0; c < placed.response.states.size(); ++c) {
    const solve::Loading& whole = placed.response.loadings[c];
    solve::Loading without = whole, unit;
    double factor = 0.0;
    without.terms.clear();
    for (const model::Factored& term : whole.terms) {
      if (term.load_case == there) {
        factor += term.factor;
      } else {
        without.terms.push_back(term);
      }
    }
    unit.terms = {{there, 1.0}};
    const auto rest = solve::respond(prepared, without), one = solve::respond(prepared, unit);
    REQUIRE(rest);
    REQUIRE(one);
    const solve::State& state = *placed.response.states[c];
    if (rest->touching != state.touching || one->touching != state.touching) continue;
    const Eigen::VectorXd sum = rest->displacement + factor * one->displacement;
    CHECK((sum - state.displacement).cwiseAbs().maxCoeff() <=
          1e-6 * state.displacement.cwiseAbs().maxCoeff());
    ++compared;
  }
  CHECK(compared > 0);
}

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
  const auto others =
      decide::OtherBounds::make(bench, tables(), elsewhere, bounds.released, alone).value();
  std::size_t estimated = 0;
  for (std::size_t i = 0; i < spots.size(); ++i) {
    decide::Superposed at = decide::superposed(bounds, i, tables());
    if (at.may_turn) decide::add_bounds(at.found, others, i, tables());
    const PlaceStatus whole = decide::status_of(at.found).status;
    const PlaceStatus& told = plan.ways[spots[i].way].at[spots[i].cell];
    CAPTURE(spots[i].way);
    CAPTURE(spots[i].cell);
    CHECK(told.stand == whole.stand);
    CHECK(told.is_near_limit == whole.is_near_limit);
    // A tenth is what `Stretch` allows for what no place has shown.
    CHECK(told.ratio <= 1.1 * whole.ratio);
    CHECK(whole.ratio <= 1.1 * told.ratio);
    estimated += at.may_turn && told.ratio != whole.ratio ? 1 : 0;
  }
  CHECK(estimated > spots.size() / 5);
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

TEST_CASE("decide/place: the largest mass is found from below, on lines that bend upwards") {
  // 0.2 at rest, then the steeper of two lines: 1 at 100 kg.
  std::size_t asked = 0;
  const auto bent = [&asked](double m) {
    ++asked;
    return decide::Governing{std::max(0.2 + 0.004 * m, 0.01 * m), "it"};
  };
  const decide::LargestMass found = decide::largest_mass(bent, bent(0.0), 40.0, 300.0);
  CHECK(found.mass <= 100.0);
  CHECK(found.mass > 97.4);
  CHECK(found.why == "it");
  CHECK(asked < 12);
  const auto flat = [](double) { return decide::Governing{0.4, "other"}; };
  CHECK(decide::largest_mass(flat, flat(0.0), 40.0, 300.0).mass == 300.0);
  CHECK(decide::largest_mass(flat, flat(0.0), 40.0, 300.0).why.empty());
  const auto over = [](double m) { return decide::Governing{1.2 + m, "before"}; };
  CHECK(decide::largest_mass(over, over(0.0), 40.0, 300.0).mass == 0.0);
  CHECK(decide::largest_mass(over, over(0.0), 40.0, 300.0).why == "before");
  // It tips from 30 kg on.
  const auto tips = [](double m) {
    return decide::Governing{m < 30.0 ? 0.1 : std::numeric_limits<double>::infinity(), "tips"};
  };
  const double tipping = decide::largest_mass(tips, tips(0.0), 60.0, 300.0).mass;
  CHECK(tipping < 30.0);
  CHECK(tipping > 27.0);
}

TEST_CASE("decide/place: a machine that is not on the top has no plan and says so") {
  const bench::Bench bench = bench_files::sound(frame + R"(
top: {sheet: 18 mm spruce plywood, load: none}
shelf: {sheet: 12 mm spruce plywood, load: none}
analysis: {sheets: strip}
machines:
  - {kind: drill press, mass: 20 kg, at: middle, sheet: shelf, pads: 200 x 140 mm, pad: 40 mm}
)");
  CHECK_FALSE(decide::machine_on_top(bench));
  const auto named = decide::machine_on_top(bench, "drill press");
  REQUIRE(named);
  const PlacePlan plan = decide::place(bench, *named, tables(), decide::Work::plain());
  CHECK(plan.none.find("stands on the") != std::string::npos);
}
