// Strips of board against sums by hand. Birch plywood of nominal 18 mm: 17.6 mm, f_m 40.2 and 34.1,
// f_r 2.67 and 2.34 N/mm2; gamma_M 1.2; k_mod 0.6, 0.7, 0.9.
#include <doctest/doctest.h>

#include <cmath>

#include "check/board.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/cautions.hpp"
#include "standtrue/check/sheets.hpp"
#include "tests/check/hand_built.hpp"

namespace sheets_test {

using namespace hand_built;
using check::Judgement;
using doctest::Approx;

namespace {

constexpr double t = 0.0176;

model::Parts boarded(const char* family = "birch plywood") {
  model::Parts parts = four_feet();
  parts.bench.sheets.push_back(sheet("top", bench::SheetPlace::top, family, 18));
  model::SheetSpan span;
  span.bay = metres(0.6);
  span.grain_along = true;
  span.effective_width = metres(0.4);
  parts.spans.push_back(span);
  return parts;
}

void let_stand(model::Parts& parts) {
  parts.persons.push_back({"middle", 0, metres(0.9), metres(0.3), 0});
}

}  // namespace

TEST_CASE("check/board: loose layers share, glued ones act as one") {
  bench::Sheet board = sheet("top", bench::SheetPlace::top, "birch plywood", 18);
  CHECK(check::board_section(board).W == Approx(t * t / 6));
  board.layers = 2;
  CHECK(check::board_section(board).W == Approx(2 * t * t / 6));
  CHECK(check::board_section(board).I == Approx(2 * t * t * t / 12));
  board.between_layers = bench::Bond::glued;
  CHECK(check::board_section(board).W == Approx(4 * t * t / 6));
  CHECK(check::board_section(board).I == Approx(8 * t * t * t / 12));
  CHECK(check::board_section(board).thickness == Approx(2 * t));
}

TEST_CASE("check/board: a patch at the edge: what lies beyond the carrier") {
  CHECK(check::on_edge(1000, 0.1, 0.3).arm == Approx(0.25));
  CHECK(check::on_edge(1000, 0.1, 0.3).width == Approx(0.7));
  CHECK(check::on_edge(1000, 0.1, 0.04).force == Approx(400));
  CHECK(check::on_edge(1000, 0.1, 0.04).arm == Approx(0.02));
  CHECK_THROWS_AS((void)check::on_edge(1000, 0.1, 0.0), std::logic_error);
}

TEST_CASE("check/board_bay: own weight, what is stored, somebody standing; each with its k_mod") {
  model::Parts parts = boarded();
  const double g = 1.35 * 680 * 9.80665 * t;
  const double W = t * t / 6;
  {
    const Rigid bench(parts);
    const auto findings = check::board_between_carriers(bench.answers(), tables());
    const check::Finding* bends = find(findings, "sheet-bay-bending/top");
    REQUIRE(bends);
    CHECK(bends->demand == Approx(g * 0.36 / 8 / W));
    CHECK(bends->limit == Approx(40.2e6 * 0.6 / 1.2));
    CHECK(find(findings, "sheet-bay-shear/top")->demand == Approx(1.5 * g * 0.3 / t));
  }
  parts.bench.sheets[0].stored = quantity::pascals(2000);
  {
    const Rigid bench(parts);
    const auto findings = check::board_between_carriers(bench.answers(), tables());
    CHECK(find(findings, "sheet-bay-bending/top")->demand == Approx((g + 3000) * 0.36 / 8 / W));
    CHECK(find(findings, "sheet-bay-bending/top")->limit == Approx(40.2e6 * 0.7 / 1.2));
  }
  let_stand(parts);
  const Rigid bench(parts);
  const auto findings = check::board_between_carriers(bench.answers(), tables());
  const double m = (g + 3000) * 0.36 / 8 + 1500 * (0.6 / 4 - 0.1 / 8) / 0.4;
  CHECK(find(findings, "sheet-bay-bending/top")->demand == Approx(m / W));
  CHECK(find(findings, "sheet-bay-bending/top")->limit == Approx(40.2e6 * 0.9 / 1.2));
  const double x = 0.05 + t;
  const double v = (g + 3000) * 0.3 + 1500 * (1 - x / 0.6) / (0.1 + 2 * x);
  CHECK(find(findings, "sheet-bay-shear/top")->demand == Approx(1.5 * v / t));
  CHECK(find(findings, "sheet-bay-shear/top")->limit == Approx(2.67e6 * 0.9 / 1.2));
}

TEST_CASE(
    "check/board_bay: thin board over a wide bay is exceeded; grain across takes its values") {
  model::Parts parts = boarded("spruce plywood");
  parts.spans[0].grain_along = false;
  let_stand(parts);
  parts.bench.sheets[0].panel.thickness = metres(0.006);
  const Rigid bench(parts);
  const auto findings = check::board_between_carriers(bench.answers(), tables());
  CHECK(find(findings, "sheet-bay-bending/top")->judgement == Judgement::exceeded);
  CHECK(find(findings, "sheet-bay-bending/top")->limit == Approx(11.4e6 * 0.9 / 1.2));
  CHECK(find(findings, "sheet-bay-bending/top")->advice ==
        "a thicker board, or a bearer in the bay");
}

TEST_CASE("check/board_bay: values that are not known, or the wrong air, are not judged") {
  model::Parts parts = boarded("MDF");
  let_stand(parts);
  const Rigid damp(parts);  // unheated: MDF is for dry air
  for (const check::Finding& f : check::board_between_carriers(damp.answers(), tables())) {
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(f.why == "MDF does not belong in air as damp as unheated");
    CHECK(std::isnan(f.ratio));
  }
  parts.bench.air = *tables().air("heated");
  const Rigid dry(parts);
  const auto findings = check::board_between_carriers(dry.answers(), tables());
  CHECK(find(findings, "sheet-bay-bending/top")->judgement != Judgement::not_judged);
  CHECK(find(findings, "sheet-bay-shear/top")->why ==
        "the rolling shear strength of MDF along its grain is not known");
  parts.bench.sheets[0].family.wettest = reference::ServiceClass::sc3;
  parts.bench.air = *tables().air("outdoors");  // the code has no k_mod there
  const Rigid wet(parts);
  CHECK(check::board_between_carriers(wet.answers(), tables())[0].judgement ==
        Judgement::not_judged);
}

TEST_CASE("check/board_edge: a person on the overhang, both ways of the board") {
  model::Parts parts = boarded();
  CHECK(check::board_edge(Rigid(parts).answers(), tables()).empty());  // no overhang
  parts.spans[0].overhang = metres(0.05);
  parts.spans[0].overhang_side = metres(0.3);
  const Rigid bench(parts);
  const auto findings = check::board_edge(bench.answers(), tables());
  REQUIRE(findings.size() == 1);
  // The side, grain along the edge: 1500 N at 0.25 m on 0.7 m.
  CHECK(findings[0].demand == Approx(1500 * 0.25 / (t * t / 6 * 0.7)));
  CHECK(findings[0].limit == Approx(34.1e6 * 0.9 / 1.2));
  parts.spans[0].overhang_side = metres(0.0);
  const Rigid shallow(parts);  // shear governs close to the carrier
  const check::Finding f = check::board_edge(shallow.answers(), tables()).at(0);
  CHECK(f.demand == Approx(1.5 * 750 / (t * 0.2)));
  CHECK(f.limit == Approx(2.67e6 * 0.9 / 1.2));
  parts.spans[0].overhang = metres(0.4);
  parts.bench.sheets[0].panel.thickness = metres(0.008);
  CHECK(check::board_edge(Rigid(parts).answers(), tables()).at(0).judgement == Judgement::exceeded);
  parts.bench.sheets[0].panel.f_r_0_k = {};
  CHECK(check::board_edge(Rigid(parts).answers(), tables()).at(0).judgement ==
        Judgement::not_judged);
  parts.bench.air = *tables().air("outdoors");
  parts.bench.sheets[0].family.wettest = reference::ServiceClass::sc2;
  CHECK(check::board_edge(Rigid(parts).answers(), tables()).at(0).judgement ==
        Judgement::not_judged);
  parts.bench.sheets[0].place = bench::SheetPlace::shelf;
  CHECK(check::board_edge(Rigid(parts).answers(), tables()).empty());
}

TEST_CASE(
    "check/board: the side overhang counts from a rail square to the carriers, if there is one") {
  model::Parts parts = boarded();  // spans across: its carriers run along x
  model::SheetSpan& span = parts.spans[0];
  span.overhang_side = metres(0.114);
  CHECK(check::side_overhang(parts, span) == Approx(0.114));
  bench::Rail left, front, right;
  left.from = 0;
  left.along_x = false;
  left.width = metres(0.038);
  front.along_x = true;
  right = left;
  right.from = 1;
  parts.bench.rails = {left, front, right};
  parts.bench.sheets[0].rails = {0, 1};  // held at the left end only
  CHECK(check::side_overhang(parts, span) == Approx(0.114));
  parts.bench.sheets[0].rails = {0, 1, 2};
  CHECK(check::side_overhang(parts, span) == Approx(0.025 - 0.019));
  parts.bench.rails[2].aside = metres(0.03);  // under the sheet's very edge
  CHECK(check::side_overhang(parts, span) == Approx(0.006));
  span.along_x = true;  // carriers along y, square to them the front rail
  parts.bench.sheets[0].rails = {1};
  CHECK(check::side_overhang(parts, span) == Approx(0.114));  // the back has none
}

namespace {

bench::Machine machine(const char* kind, double mass) {
  bench::Machine machine;
  machine.name = kind;
  machine.kind = *tables().machine(kind);
  machine.mass = quantity::kilograms(mass);
  machine.pads_x = metres(0.25);
  machine.pads_y = metres(0.4);
  machine.pad = metres(0.05);
  return machine;
}

}  // namespace

TEST_CASE("check/punching: the heaviest pad, standing and running") {
  model::Parts parts = boarded();
  CHECK(check::punching(Rigid(parts).answers(), tables()).empty());
  parts.bench.machines = {machine("drill press", 60)};
  const double area = 4 * (0.05 + t) * t;
  const double W = 60 * 9.80665;
  {
    const check::Finding f = check::punching(Rigid(parts).answers(), tables()).at(0);
    CHECK(f.id == "punching/drill-press");
    CHECK(f.demand == Approx(1.35 * W / 4 / area));  // permanent with k_mod 0.6 governs
    CHECK(f.limit == Approx(2.34e6 * 0.6 / 1.2));
  }
  parts.bench.machines[0].cg_x = metres(0.05);
  parts.bench.machines[0].cg_y = metres(-0.1);
  CHECK(check::punching(Rigid(parts).answers(), tables()).at(0).demand ==
        Approx(1.35 * W * (0.25 + 0.05 / 0.5 + 0.1 / 0.8) / area));
  parts.bench.machines[0].kind.pads = 1;
  CHECK(check::punching(Rigid(parts).answers(), tables()).at(0).demand == Approx(1.35 * W / area));
  parts.bench.machines[0].kind.pads = 2;
  CHECK(check::punching(Rigid(parts).answers(), tables()).at(0).demand ==
        Approx(1.35 * W * (0.5 + 0.05 / 0.25) / area));
  parts.bench.machines[0].kind.pads = 3;
  parts.bench.machines[0].cg_x = parts.bench.machines[0].cg_y = metres(0);
  // two in front at -0.2, one behind at +0.2: a centre in the middle puts half on the one behind
  CHECK(check::punching(Rigid(parts).answers(), tables()).at(0).demand ==
        Approx(1.35 * W * 0.5 / area));
}

TEST_CASE("check/punching: running by drive, by hand never; too small a pad; unknown strength") {
  model::Parts parts = boarded();
  parts.bench.machines = {machine("vice", 20), machine("scroll saw", 20)};
  parts.bench.machines[1].kind.drive = reference::Drive::reciprocating;
  auto findings = check::punching(Rigid(parts).answers(), tables());
  REQUIRE(findings.size() == 2);
  CHECK(findings[0].working[0].find("standing") != std::string::npos);
  CHECK(findings[1].judgement == Judgement::satisfied);
  // 1.35 + 1.5 x 0.5 = 2.10 at 0.9 against 1.35 at 0.6: running governs
  CHECK(findings[1].working[0].find("running") != std::string::npos);
  parts.bench.machines[0].mass = quantity::kilograms(5000);
  CHECK(check::punching(Rigid(parts).answers(), tables())[0].judgement == Judgement::exceeded);
  parts.bench.sheets[0].panel.f_r_90_k = {};
  CHECK(check::punching(Rigid(parts).answers(), tables())[0].judgement == Judgement::not_judged);
  parts.bench.air = *tables().air("outdoors");
  parts.bench.sheets[0].family.wettest = reference::ServiceClass::sc1;
  CHECK(check::punching(Rigid(parts).answers(), tables())[0].judgement == Judgement::not_judged);
}

namespace {

/// A strip of the top 0.3 m wide over two held carriers 0.6 m apart, a force in its middle.
struct StripBench {
  model::Model model;
  solve::Response response;

  explicit StripBench(double P, const char* family = "birch plywood", bool grain_along = true) {
    model.parts = boarded(family);
    const model::NodeId front = node(model, "front", 0.9, 0, 0.88);
    const model::NodeId back = node(model, "back", 0.9, 0.6, 0.88);
    for (const model::NodeId end : {front, back}) {
      hold(model, end);
      model.supports.erase(model.supports.end() - 3);  // free to turn about x
    }
    const std::size_t bends = member(model, "strip", front, back, 0.3, t);
    model::Part part;
    part.name = "strip 1 of the top";
    part.role = model::Role::strip;
    part.members = {bends};
    model.parts.parts.push_back(part);
    model::Strip strip;
    strip.width = metres(0.3);
    strip.bay = metres(0.6);
    strip.grain_along = grain_along;
    strip.carriers = {metres(0), metres(0.6)};
    model.parts.strips.push_back(strip);
    load_case(model, "machine");
    model.cases[0].point_loads.push_back({bends, metres(0.3), force(0, 0, -P), {}});
    model::Combination permanent = combination("strength-permanent", model::Purpose::strength,
                                               model::Leading::permanent, {{0, 1.35}});
    model::Combination running = permanent;
    running.name = "strength-running";
    running.duration = reference::Duration::short_term;
    running.terms[0].factor = 1.65;
    model.combinations = {permanent, running};
    auto solved = solve::static_response(model);
    REQUIRE(solved.has_value());
    response = std::move(*solved);
  }
  [[nodiscard]] check::Answers answers() const { return {model, response}; }
  [[nodiscard]] check::Finding bending() const {
    return check::strip_bending(answers(), check::SectionForces(answers()), tables()).at(0);
  }
  [[nodiscard]] check::Finding shear() const {
    return check::strip_shear(answers(), check::SectionForces(answers()), tables()).at(0);
  }
};

}  // namespace

TEST_CASE(
    "check/strip: M/(W b) and 1.5 V/(t b); the shorter k_mod can govern over the larger load") {
  const StripBench strip(400);
  const check::Finding bends = strip.bending();
  CHECK(bends.id == "sheet-bending/strip-1-of-the-top");
  CHECK(bends.demand == Approx(1.35 * 400 * 0.6 / 4 / (t * t / 6 * 0.3)));
  CHECK(bends.limit == Approx(40.2e6 * 0.6 / 1.2));
  CHECK(bends.combination == "strength-permanent");
  CHECK(bends.judgement == Judgement::satisfied);
  const check::Finding shears = strip.shear();
  CHECK(shears.demand == Approx(1.5 * 1.35 * 200 / (t * 0.3)));
  CHECK(shears.limit == Approx(2.67e6 * 0.6 / 1.2));
  const StripBench across(400, "birch plywood", false);
  CHECK(across.bending().limit == Approx(34.1e6 * 0.6 / 1.2));
  CHECK(across.shear().limit == Approx(2.34e6 * 0.6 / 1.2));
  CHECK(StripBench(40000).bending().judgement == Judgement::exceeded);
  CHECK(StripBench(40000).bending().advice == "a thicker top, or a bearer under the machine");
}

TEST_CASE("check/strip: not judged in the wrong air, without values, without answers") {
  CHECK(StripBench(400, "MDF").bending().judgement == Judgement::not_judged);
  StripBench unknown(400);
  unknown.model.parts.bench.sheets[0].panel.f_r_0_k = {};
  CHECK(unknown.shear().judgement == Judgement::not_judged);
  CHECK(unknown.bending().judgement == Judgement::satisfied);
  StripBench refused(400);
  for (auto& state : refused.response.states) {
    state = tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "the frame tips", "", {}});
  }
  CHECK(refused.bending().why == "the frame tips");
  StripBench unloaded(400);
  unloaded.model.combinations.clear();
  unloaded.response.states.clear();
  CHECK(unloaded.bending().why == "no loads for strength");
}

TEST_CASE("check/cautions: what applies to this bench, and what is not looked at") {
  bench::Bench plain;
  CHECK(check::cautions(plain).size() == 3);
  CHECK(check::cautions(plain).back().find("not a certificate") != std::string::npos);
  bench::Bench full;
  full.machines = {machine("drill press", 60), machine("bench grinder", 20)};
  full.bought_damp = true;
  full.wall.push_back({"back rail", metres(0)});
  CHECK(check::cautions(full).size() == 10);
  full.machines[0].bolted = true;
  const std::vector<std::string> all_lines = check::cautions(full);
  CHECK(all_lines.size() == 9);
  // From 45 kg on, and only then; grinders have lines of their own.
  const auto says = [](const std::vector<std::string>& lines, const std::string& line) {
    return std::find(lines.begin(), lines.end(), line) != lines.end();
  };
  CHECK(says(all_lines, "Lift the drill press with two people or a hoist."));
  CHECK(says(all_lines, "Keep the guards and rests of the grinder as its maker sets them."));
  CHECK(says(all_lines, "Fix and guard machines as their makers say."));
  bench::Bench turning;
  turning.machines = {machine("wood lathe", 44), machine("metal lathe", 175)};
  const std::vector<std::string> lines = check::cautions(turning);
  CHECK(says(lines, "Lift the metal lathe with two people or a hoist."));
  CHECK(says(lines,
             "Anchor the wood lathe and the metal lathe as the maker says, so that nothing "
             "walks."));
  CHECK(says(lines, "Guard machines as their makers say."));
  // 9000 rpm over the diameter in inches.
  CHECK(says(lines,
             "Start a fresh blank on the lathe below 228600 rpm divided by its diameter in "
             "mm, stand clear, and stop if it shakes."));

  model::Parts parts = boarded();
  const auto few = check::outside_this_tool(Rigid(parts).answers(), tables());
  CHECK(few.empty());
  parts.bench.machines = {machine("metal lathe", 150)};
  parts.strips.emplace_back();
  const auto all = check::outside_this_tool(Rigid(parts).answers(), tables());
  CHECK(all.size() == 1);
  for (const check::Finding& f : all) {
    CHECK(f.kind == check::Kind::caution);
    CHECK(f.judgement == Judgement::outside_this_tool);
    CHECK_FALSE(f.sentence.empty());
    CHECK_FALSE(f.source.where.empty());
  }
}

}  // namespace sheets_test
