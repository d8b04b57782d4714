// Answers that benches rarely give: made by changing a solved bench, as a solver or a file could.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "check/bed.hpp"
#include "check/carriers.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/sheets.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/lathe_bench.hpp"

namespace rare_answers_test {

using namespace hand_built;
using check::Finding;
using check::Judgement;
using lathe_bench::at_rest;
using lathe_bench::Shop;
using lathe_bench::Solved;
using lathe_bench::tells;
using model::Combination;
using model::Leading;
using model::Purpose;

namespace {

check::PlateAnswers plates_of(const Solved& bench) {
  return {bench.model, bench.response,
          [](const auto& c) { return check::judges_strength(c) || check::judges_sag(c); }};
}

}  // namespace

TEST_CASE("check/rare_answers: a lean that names no place is told by its title") {
  Solved bench = lathe_bench::solved({});
  for (Combination& c : bench.model.combinations) {
    if (c.leading == Leading::lean) {
      c.place.reset();
      c.title = "somebody leans somewhere";
    }
  }
  CHECK(bench.finding().sentence.find("somebody leans somewhere") != std::string::npos);
}

TEST_CASE("check/rare_answers: a bolted bed that is not in the model, and no feet to set") {
  Shop bolted;
  bolted.mounting = "bolted";
  Solved bench = lathe_bench::solved(bolted);
  CHECK(tells(bench.finding(), "bolted down: the bed is part of the model"));
  bench.model.parts.beds[0].in_model = false;  // as where one of its pads is cut
  CHECK(tells(bench.finding(), "bolted down; its bed is reckoned by the formula"));
  bench.model.parts.feet.clear();
  CHECK_FALSE(tells(bench.finding(), "a foot set"));
}

TEST_CASE("check/rare_answers: a trial that tips the bench has no answer") {
  Solved bench = lathe_bench::solved({});
  const std::size_t rest = at_rest(bench.model);
  solve::Loading& loading = bench.response.loadings[rest];
  for (model::Factored& term : loading.terms) term.factor *= 1e-6;  // next to nothing on its feet
  const auto state = solve::respond(*bench.response.prepared[0], loading);
  REQUIRE(state.has_value());
  bench.response.states[rest] = *state;
  // In the place of the pattern 1 kN on the front edge, which reaches out beyond the feet.
  const auto& persons = bench.model.parts.persons;
  const auto front = std::find_if(persons.begin(), persons.end(), [](const auto& person) {
    return person.name == "front edge, middle";
  });
  REQUIRE(front != persons.end());
  bench.model.parts.beds[0].load_case = front->load_case;
  const check::Trials trials = check::trials_at_rest(bench.answers(), {0});
  CHECK(trials.shares.empty());
  CHECK(trials.feet.empty());
  CHECK(bench.finding().why == "a twist of its pads has no answer");
}

TEST_CASE("check/rare_answers: means over a patch leave out what is cut away") {
  model::Plate plate;
  plate.x = {0.0, 1.0, 2.0};
  plate.y = {0.0, 1.0};
  plate.holes = {{1.0, 2.0, 0.0, 1.0}};
  solve::PlateMovements moves = solve::PlateMovements::Zero(30, 1);
  for (std::size_t n = 0; n < 6; ++n) {
    moves(static_cast<Eigen::Index>(5 * n + 2), 0) = plate.x[n % 3];  // w = x
  }
  CHECK(check::mean_w(plate, moves, {0.0, 2.0, 0.0, 1.0}, 0) == doctest::Approx(0.5));
}

TEST_CASE("check/rare_answers: carriers: one alone is no line, none beyond the last") {
  Solved bench = lathe_bench::solved({});
  const check::PlateAnswers plates = bench.plates();
  const auto view = plates.of(0, check::is_at_rest).front();
  const check::Carriers both(bench.model, 0);
  CHECK(both.at(view, 0.5, 0.3).has_value());
  CHECK_FALSE(both.at(view, 0.5, 9.0).has_value());
  CHECK_FALSE(both.at(view, 0.5, -9.0).has_value());
  // A seam twice on one line counts once.
  std::vector<model::Seam>& seams = bench.model.parts.seams;
  const std::vector<model::Seam> before = seams;
  seams.insert(seams.end(), before.begin(), before.end());
  CHECK(*check::Carriers(bench.model, 0).at(view, 0.5, 0.3) == *both.at(view, 0.5, 0.3));
  seams.clear();
  CHECK_FALSE(check::Carriers(bench.model, 0).at(view, 0.5, 0.3).has_value());
  CHECK_FALSE(check::Carriers(bench.model, 0).at_node(view, 1, 1).has_value());
  for (const Finding& f :
       check::sag_of_plates(bench.answers(), plates_of(bench), lathe_bench::tables())) {
    if (f.id == "sag-board/top") CHECK(f.why == "nothing to compare it with");
    if (f.id == "sag-total/top-under-the-mini-metal-lathe") {
      CHECK(tells(f, "of that the sheet itself 0 mm"));
    }
  }
  // Refused, but none of what sag at once asks for.
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    if (!check::is_leaned_on(bench.model.combinations[c])) continue;
    bench.response.states[c] =
        tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "tips", "", {}});
  }
  const auto found = check::sag_of_plates(bench.answers(), plates_of(bench), lathe_bench::tables());
  CHECK(find(found, "sag-board/top")->why == "nothing to compare it with");
}

TEST_CASE("check/rare_answers: a bay under 450 mm is judged by the small length (1.5 mm, ours)") {
  Shop shop;
  shop.bearers = "bearers: {under: top, every: 300 mm}\n";
  const Solved bench = lathe_bench::solved(shop);
  const auto found = check::sag_of_plates(bench.answers(), plates_of(bench), lathe_bench::tables());
  const Finding own = *find(found, "sag-board/top");
  CHECK(own.limit == doctest::Approx(1.5e-3));
  CHECK(own.source.where == tables().limits.sag_least.source.where);
}

TEST_CASE("check/rare_answers: a strip whose moduli are not known is no hand check of a plate") {
  Solved bench = lathe_bench::solved({});
  const auto hand = [&] {
    const auto found =
        check::sag_of_plates(bench.answers(), plates_of(bench), lathe_bench::tables());
    return find(found, "sag-board/top")->hand_check.has_value();
  };
  CHECK(hand());
  bench.model.parts.bench.sheets[0].panel.E_m_0 =
      bench.model.parts.bench.sheets[0].panel.E_m_90 = {};
  CHECK_FALSE(hand());
}

TEST_CASE(
    "check/rare_answers: short thread in the post is not pulled; a dense sheet's head holds") {
  Shop shop;
  shop.bearers = "sheets: [{side: back, sheet: 9 mm spruce plywood, screws: 4 x 35 mm}]\n";
  const Solved brief = lathe_bench::solved(shop);
  const auto of = [](const Solved& bench) {
    const auto found = check::plate_screws(bench.answers(), lathe_bench::tables());
    return *find(found, "sheet-screws/back-sheet");
  };
  CHECK(of(brief).judgement == Judgement::not_judged);  // 26 mm less its point: under 6 d
  CHECK(of(brief).why ==
        "screws with less than 6 d of thread in the timber have no strength against pull");
  shop.bearers = "sheets: [{side: back, sheet: 9 mm spruce plywood, screws: 4 x 40 mm}]\n";
  Solved dense = lathe_bench::solved(shop);
  CHECK(tells(of(dense), "(its head pulls through)"));
  for (bench::Sheet& sheet : dense.model.parts.bench.sheets) {
    sheet.panel.rho_k = quantity::from_si<quantity::Density>(1500.0);
  }
  // 10 x 8^2 (1500/350)^0.8 = 2050 N against 11 x 4 x 27 = 1188 N (8.40a, 8.40b).
  CHECK_FALSE(tells(of(dense), "(its head pulls through)"));
  CHECK(tells(of(dense), "F_ax,Rk = 1.19 kN") + tells(of(dense), "F_ax,Rk = 1188 N") == 1);
}

TEST_CASE("check/rare_answers: an upright sheet that is sheared too much wants a brace") {
  Shop shop;
  shop.bearers = "sheets: [{side: back, sheet: 9 mm spruce plywood}]\n";
  Solved bench = lathe_bench::solved(shop);
  bench.model.parts.bench.sheets[1].panel.f_v_k = quantity::pascals(10.0);
  const auto found =
      check::plate_strength(bench.answers(), plates_of(bench), lathe_bench::tables());
  const Finding f = *find(found, "sheet-panel-shear/back-sheet");
  CHECK(f.judgement == Judgement::exceeded);
  CHECK(f.advice == "a thicker board, or one more brace");
}

TEST_CASE("check/rare_answers: strength is not told what was refused of service") {
  Solved bench = lathe_bench::solved({});
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    const bool is_strength = bench.model.combinations[c].purpose == Purpose::strength;
    bench.response.states[c] = tl::unexpected(solve::Refusal{
        solve::Refusal::Why::tips, is_strength ? "of strength" : "of service", "", {}});
  }
  for (const Finding& f :
       check::plate_strength(bench.answers(), plates_of(bench), lathe_bench::tables())) {
    CHECK(f.why == "of strength");
  }
}

TEST_CASE("check/rare_answers: boards whose bending strength is not known are not judged in it") {
  Rigid bench(four_feet());
  bench::Sheet top = sheet("top", bench::SheetPlace::top, "spruce plywood", 18);
  top.stored = quantity::pascals(1.0);  // less than years of its own weight
  model::SheetSpan span;
  span.bay = metres(0.6);
  span.overhang = metres(0.1);
  span.effective_width = metres(0.5);
  bench.model.parts.spans = {span};
  bench.model.parts.bench.sheets = {top};
  const auto judged = check::board_between_carriers(bench.answers(), tables());
  CHECK(find(judged, "sheet-bay-bending/top")->sentence.find("under its own weight") !=
        std::string::npos);
  bench.model.parts.bench.sheets[0].panel.f_m_0_k = {};
  bench.model.parts.bench.sheets[0].panel.f_m_90_k = {};
  for (const auto check : {check::board_between_carriers, check::board_edge}) {
    bool is_said = false;
    for (const Finding& f : check(bench.answers(), tables())) {
      is_said = is_said || f.why.find("the bending strength of spruce plywood") == 0;
    }
    CHECK(is_said);
  }
  bench.model.parts.bench.sheets[0].panel.E_m_0 =
      bench.model.parts.bench.sheets[0].panel.E_m_90 = {};
  CHECK(check::sag_of_overhangs(bench.answers(), tables()).empty());
}

TEST_CASE("check/rare_answers: a final answer among those at once is not read as one of them") {
  const Solved bench = lathe_bench::solved({});
  const check::PlateAnswers all(bench.model, bench.response,
                                [](const Combination&) { return true; });
  const auto some = check::sag_of_plates(bench.answers(), plates_of(bench), lathe_bench::tables());
  const auto same = check::sag_of_plates(bench.answers(), all, lathe_bench::tables());
  REQUIRE(some.size() == same.size());
  for (std::size_t i = 0; i < some.size(); ++i) CHECK(some[i].demand == same[i].demand);
}

TEST_CASE(
    "check/rare_answers: a board without a creep factor in this air is no hand check after years") {
  Solved bench = lathe_bench::solved({});
  check::Answers answers = bench.answers();
  answers.creep_model = &bench.model;
  answers.creep_response = &bench.response;
  const auto hand = [&] {
    const auto found = check::sag_of_plates(answers, plates_of(bench), lathe_bench::tables());
    return find(found, "sag-board-final/top")->hand_check.has_value();
  };
  CHECK(hand());
  bench.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
  bench.model.parts.bench.sheets[0].family.material = reference::Material::osb_3;
  CHECK_FALSE(hand());
}

}  // namespace rare_answers_test
