// A machine elsewhere, by superposition. Source: the same bench solved by itself; linearity.
#include "decide/influence.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "decide/placing.hpp"
#include "standtrue/bench/turned.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/model/move_machine.hpp"
#include "tests/decide/placed_benches.hpp"

namespace influence_test {

using namespace standtrue;
using bench_files::tables;
using placed_benches::held;
using placed_benches::plated;
using quantity::in_si;
using quantity::metres;

namespace {

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

decide::Placed placed_at(const bench::Bench& bench, double x, double y) {
  decide::Elsewhere elsewhere;
  elsewhere.places = {moved(bench.machines[0], x, y)};
  solve::PlateCache plates;
  const auto influence =
      decide::Influence::make(bench, tables(), elsewhere, {}, decide::is_wanted_at_once, plates);
  REQUIRE(influence);
  return influence->at(0);
}

}  // namespace

TEST_CASE("decide/influence: superposition is a direct solve at random places") {
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
                                             true, {superposed.plates, nullptr});
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
    "decide/influence: an answer is that without the machine and its factor times a unit answer") {
  const bench::Bench bench = bench_files::sound(plated);
  const decide::Placed placed = placed_at(bench, 0.55, 0.2);
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

TEST_CASE(
    "decide/influence: sums of what is known of the plates are what a sweep of its own finds") {
  const bench::Bench bench = held(bench_files::sound(plated));
  decide::Elsewhere elsewhere;
  elsewhere.places = {moved(bench.machines[0], 0.55, 0.2), moved(bench.machines[0], 0.7, 0.25)};
  elsewhere.patches = {{metres(0.4), metres(0.2), metres(0.1)}};
  solve::PlateCache plates;
  const auto influence =
      decide::Influence::make(bench, tables(), elsewhere, {}, decide::is_wanted_at_once, plates);
  REQUIRE(influence);
  const decide::Placed placed = influence->at(1, decide::Influence::Stored{0, 35.0});
  std::size_t forces = 0, movements = 0;
  for (std::size_t c = 0; c < placed.response.states.size(); ++c) {
    CAPTURE(placed.model.combinations[c].name);
    const auto& state = placed.response.states[c];
    REQUIRE(state);
    const solve::Answered one{&placed.response.loadings[c], &*state};
    for (std::size_t p = 0; p < placed.plates.size(); ++p) {
      const auto anew = solve::plate_movements(*placed.response.prepared[0], p, {&one, 1});
      const check::KnownPlate& known = placed.plates[p][c];
      if (known.movements.size() > 0) {
        ++movements;
        CHECK((known.movements - anew).norm() <= 1e-9 * anew.norm());
      }
      if (known.field.at_nodes.size() == 0) continue;
      ++forces;
      const solve::PlateField field = solve::plate_field(placed.model.plates[p], anew, 0);
      CHECK((known.field.at_nodes - field.at_nodes).norm() <= 1e-8 * field.at_nodes.norm());
      CHECK((known.field.in_cells - field.in_cells).norm() <= 1e-8 * field.in_cells.norm());
    }
  }
  CHECK(forces > 0);
  CHECK(movements > 0);
}

TEST_CASE("decide/influence: without words every judgement and ratio is the same") {
  const bench::Bench bench = held(bench_files::sound(plated));
  const decide::Placed placed = placed_at(bench, 0.55, 0.2);
  check::Answers answers{placed.model, placed.response};
  answers.at_mean = false;
  const auto told = check::check_placed(answers, tables(), true, {placed.plates, nullptr});
  answers.words = false;
  const auto silent = check::check_placed(answers, tables(), true, {placed.plates, nullptr});
  std::size_t judged = 0;
  for (const check::Finding& f : told) {
    if (f.kind != check::Kind::safety && f.kind != check::Kind::service) continue;
    CAPTURE(f.id);
    const check::Finding& other = with_id(silent, f.id);
    CHECK(other.kind == f.kind);
    CHECK(other.judgement == f.judgement);
    CHECK((other.ratio == f.ratio || (std::isnan(other.ratio) && std::isnan(f.ratio))));
    ++judged;
  }
  CHECK(judged > 20);
  for (const check::Finding& f : silent) with_id(told, f.id);
}

TEST_CASE("decide/influence: a foot carries what is stored also while somebody stands there") {
  // Statics: all feet together carry the mass, and the nearest of four most of it.
  const bench::Bench bench = held(bench_files::sound(plated));
  decide::Elsewhere elsewhere;
  elsewhere.places = {bench.machines[0]};
  elsewhere.patches = {{metres(0.1), metres(0.1), metres(0.1)}};
  solve::PlateCache plates;
  const auto influence =
      decide::Influence::make(bench, tables(), elsewhere, {}, decide::is_wanted_at_once, plates);
  REQUIRE(influence);
  const auto carries = [&](double mass) {
    const decide::Placed placed = influence->at(0, decide::Influence::Stored{0, mass});
    check::Answers answers{placed.model, placed.response};
    answers.at_mean = false;
    const auto all = check::check_placed(answers, tables(), true, {placed.plates, nullptr});
    const check::Finding& foot = with_id(all, "foot/rating");
    CHECK(foot.combination == "somebody stands: front left corner");
    return foot.demand;
  };
  const double more = carries(40.0) - carries(20.0);
  CHECK(more > 0.5 * 20.0 * 9.80665);
  CHECK(more < 1.1 * 20.0 * 9.80665);  // more than all where the other end lifts a little
}

}  // namespace influence_test
