// The straight path on whole benches.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "standtrue/bench/read.hpp"
#include "standtrue/decide/assess.hpp"
#include "standtrue/model/idealise.hpp"
#include "standtrue/solve/buckling.hpp"

namespace assess_test {

using namespace standtrue;
using check::Finding;
using check::Judgement;
using decide::Assessment;
using decide::Verdict;

namespace {

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

bench::Bench read(const std::string& text) {
  const document::Reading reading = document::parse("bench.yaml", text);
  REQUIRE(reading.document);
  bench::BenchReading read = bench::read_bench(*reading.document, tables());
  REQUIRE_MESSAGE(read.bench, to_text(read.diagnostics.at(0)));
  return *read.bench;
}

bench::Bench plain() {
  return read(R"(
standtrue: 1
size: 1800 x 600 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 21 mm spruce plywood
shelf: {sheet: 15 mm spruce plywood, load: 30 kg/m2}
machines:
  - {kind: vice, at: [300 mm, 200 mm]}
)");
}

const Finding* find(const Assessment& a, const std::string& id) {
  for (const Finding& f : a.findings) {
    if (f.id == id) return &f;
  }
  return nullptr;
}

void let_turn(bench::Bench& bench) {
  for (bench::Rail& rail : bench.rails) {
    rail.start.stiffness.bend = rail.end.stiffness.bend = quantity::newton_metres(0);
  }
  for (bench::Sheet& sheet : bench.sheets) sheet.bond = bench::Bond::loose;
}

}  // namespace

TEST_CASE("decide/assess: all bounds are solved, ids are unique, every finding says where from") {
  const Assessment a = decide::assess(plain(), tables());
  CHECK(a.soft.response);
  CHECK(a.mean.response);
  CHECK(a.stiff.response);
  CHECK(a.after_creep.response);
  std::set<std::string> ids;
  for (const Finding& f : a.findings) {
    CAPTURE(f.id);
    CHECK(ids.insert(f.id).second);
    CHECK_FALSE(f.sentence.empty());
    CHECK_FALSE(f.place.empty());
    CHECK_FALSE(f.rule.empty());
    CHECK_FALSE((f.source.key.empty() && f.source.where.empty()));
    if (f.judgement == Judgement::not_judged) {
      CHECK_FALSE(f.why.empty());
      CHECK(std::isnan(f.ratio));
    }
    if (f.judgement == Judgement::satisfied && f.kind != check::Kind::told) {
      CHECK(f.ratio <= 1.0);
    }
  }
  CHECK(a.verdict == decide::verdict_of(a.findings));
  CHECK_FALSE(a.summary.empty());
  CHECK(a.summary.back() == '.');
  CHECK(a.cautions.back().find("not a certificate") != std::string::npos);
  CHECK(a.assumptions.size() > a.bench.assumptions.size());
}

TEST_CASE("decide/assess: softer joints sway more; a floor of statics does not care") {
  const Assessment a = decide::assess(plain(), tables());
  for (const char* id : {"sway/along", "sway/across"}) {
    const Finding* sway = find(a, id);
    REQUIRE(sway);
    CHECK(sway->demand_soft < sway->demand);
    CHECK(sway->demand < sway->demand_stiff);
    CHECK(sway->ratio_soft > sway->ratio_stiff);
  }
  const Finding* slides = find(a, "sliding/empty");
  REQUIRE(slides);
  CHECK(slides->ratio_soft == slides->ratio_stiff);
  const Finding* later = find(a, "sag-final/front-lower-rail");
  const Finding* now = find(a, "sag/front-lower-rail");
  REQUIRE(later);
  REQUIRE(now);
  CHECK(later->demand > now->demand);
}

TEST_CASE("decide/assess: a frame that nothing holds square can move: do not load") {
  bench::Bench loose = plain();
  let_turn(loose);
  const Assessment a = decide::assess(loose, tables());
  CHECK(a.verdict == Verdict::do_not_load);
  CHECK(a.summary == "the frame can move.");
  REQUIRE(a.findings.size() == 1);
  const Finding& f = a.findings[0];
  CHECK(f.id == "frame/moves");
  CHECK(f.kind == check::Kind::safety);
  CHECK(f.sentence.rfind("The frame can move: ", 0) == 0);
  CHECK_FALSE(f.advice.empty());
  CHECK_FALSE(a.soft.response);
  CHECK(a.soft.bound == model::Bound::soft);
  CHECK_FALSE(a.cautions.empty());
}

TEST_CASE("decide/assess: a bench that can not be idealised is not judged, with the fault") {
  bench::Bench odd = plain();
  for (bench::Sheet& sheet : odd.sheets) sheet.rails.resize(1);
  const Assessment a = decide::assess(odd, tables());
  CHECK(a.verdict == Verdict::not_judged);
  REQUIRE(a.findings.size() == 1);
  CHECK(a.findings[0].why.find(odd.sheets[0].name) != std::string::npos);
  CHECK(a.findings[0].why.find("; ") != std::string::npos);  // the top's fault and the shelf's
  CHECK(a.summary.find(a.findings[0].why) != std::string::npos);
}

namespace {

/// Long top rails on one bracket of thin sheet at each end, in a joint that is taken as stiff; 2
/// kN/m2 on the top.
Assessment under_heavy_load(const std::string& lower_rails, const std::string& more = "") {
  bench::Bench bench = read(
      "standtrue: 1\nsize: 1800 x 600 x 900 mm\ntimber: C24 45 x 95 mm\n"
      "joints: two corner brackets\n"
      "rails: {top: {long: {joint: {kind: corner brackets, thickness: 1.5 mm,\n"
      "                             stiffness: {bend: 8 kN m/rad}}}}" +
      lower_rails +
      "}\n"
      "top: 21 mm spruce plywood\n" +
      more);
  bench.sheets.at(0).stored = quantity::pascals(2000);
  return decide::assess(bench, tables());
}

}  // namespace

TEST_CASE(
    "decide/assess: ductile joints that gravity overloads are let go and the frame solved again") {
  const Assessment a = under_heavy_load("",
                                        "sheets:\n"
                                        "  - {side: back, sheet: 12 mm spruce plywood}\n"
                                        "  - {side: left, sheet: 12 mm spruce plywood}\n"
                                        "  - {side: right, sheet: 12 mm spruce plywood}\n");
  CHECK(a.released ==
        std::vector<std::string>{"back top rail, left end", "back top rail, right end",
                                 "front top rail, left end", "front top rail, right end"});
  for (const decide::Bounded* bound : {&a.soft, &a.mean, &a.stiff, &a.after_creep}) {
    REQUIRE(bound->idealisation.model);
    std::size_t released = 0;
    for (const model::RailEnd& end : bound->idealisation.model->parts.rail_ends) {
      if (end.released) ++released;
    }
    CHECK(released == 4);
    CHECK(bound->response);
  }
  // hinged at both ends: the rail sags as its hand check says, but for the little that the top
  // takes, screwed along it, and where the lowest place is
  const Finding* sag = find(a, "sag/front-top-rail");
  REQUIRE(sag);
  REQUIRE(sag->hand_check);
  CHECK(sag->demand / sag->hand_check->value == doctest::Approx(0.975).epsilon(0.025));
}

TEST_CASE(
    "decide/assess: joints whose release would let the frame move are found overloaded instead") {
  const Assessment a = under_heavy_load(", lower: none", "analysis: {sheets: none}\n");
  CHECK(a.mean.response);
  CHECK(a.released.empty());
  CHECK(a.verdict == Verdict::do_not_load);
  CHECK(std::any_of(a.findings.begin(), a.findings.end(), [](const Finding& f) {
    return f.group == check::Group::joints && f.judgement == Judgement::exceeded;
  }));
}

namespace {

/// 2140 mm long, a diagonal in the back and others as told; nothing else holds it but brackets.
Assessment braced(const std::string& braces, const std::string& more = "") {
  return decide::assess(
      read("standtrue: 1\nsize: 2140 x 800 x 900 mm\ntimber: C24 45 x 95 mm\n"
           "joints: two corner brackets\ntop: {sheet: 21 mm spruce plywood, load: 30 kg}\n"
           "shelf: {sheet: 15 mm spruce plywood, load: 40 kg/m2}\nfeet: M12\n"
           "braces:\n  - {side: back, section: 45 x 95 mm}\n" +
           braces + more),
      tables());
}

}  // namespace

TEST_CASE("decide/assess: joints of a braced end are not lent to an end without a brace") {
  // All eight joints across hold twice what four do, but the diagonal leaves the left four idle:
  // the right end's own ratio is near twice that of all together.
  const Assessment one_end = braced("  - {side: left, section: 45 x 95 mm}\n");
  const Assessment both =
      braced("  - {side: left, section: 45 x 95 mm}\n  - {side: right, section: 45 x 95 mm}\n");
  const Finding* bare = find(one_end, "joint-sum/across");
  const Finding* held = find(both, "joint-sum/across");
  REQUIRE(bare);
  REQUIRE(held);
  CHECK(bare->judgement == Judgement::exceeded);
  CHECK(held->judgement == Judgement::satisfied);
  CHECK(bare->working.at(0).find("of the 4 joints") != std::string::npos);
}

TEST_CASE("decide/assess: a brace slips in its bolts: more of them hold the bench stiffer") {
  const std::string ends =
      "  - {side: left, section: 45 x 95 mm, joint: JOINT}\n"
      "  - {side: right, section: 45 x 95 mm, joint: JOINT}\n";
  const auto with = [&](const std::string& joint) {
    std::string text = ends;
    for (std::size_t at = text.find("JOINT"); at != text.npos; at = text.find("JOINT")) {
      text.replace(at, 5, joint);
    }
    return find(braced(text), "sway/across")->demand;
  };
  CHECK(with("{kind: bolted lap, fasteners: 4}") > 1.05 * with("{kind: bolted lap, fasteners: 2}"));
}

TEST_CASE(
    "decide/assess: under an added load a plate is judged, a strip is not, nor is the bench") {
  const std::string ends =
      "  - {side: left, section: 45 x 95 mm}\n  - {side: right, section: 45 x 95 mm}\n";
  const std::string load = "loads:\n  - {name: anvil, mass: 60 kg, at: [1000 mm, 400 mm]}\n";
  const Assessment plate = braced(ends, load);
  const Assessment bare = braced(ends);
  CHECK_FALSE(find(plate, "sheet-under-load/anvil"));
  CHECK(find(plate, "sheet-bending/top")->ratio > 1.05 * find(bare, "sheet-bending/top")->ratio);
  const Assessment a = braced(ends, load + "analysis: {sheets: strip}\n");
  const Finding* f = find(a, "sheet-under-load/anvil");
  REQUIRE(f);
  CHECK(f->judgement == Judgement::not_judged);
  CHECK(f->kind == check::Kind::safety);
  CHECK(a.verdict != Verdict::stands);
}

TEST_CASE("decide/assess: creep softens the frame at soft joints as well") {
  const bench::Bench bench = read(R"(
standtrue: 1
size: 1500 x 700 x 900 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
analysis: {sheets: strip}
feet: {fixed: yes}
machines:
  - {kind: machine, name: press, mass: 320 kg, at: middle, pads: 300 x 300 mm, centre_height: 250 mm}
)");
  const Assessment a = decide::assess(bench, tables());
  const Finding* f = find(a, "frame/buckling");
  REQUIRE(f);
  // Its own factor, by way of a frame that has soft joints and has crept.
  model::Assumptions crept{model::Bound::soft, true, {}};
  const model::Idealisation made = model::idealise(bench, tables(), crept);
  REQUIRE(made.model);
  const auto sway = solve::prepare(*made.model, model::SpringSet::sway).value();
  const auto stored =
      std::find_if(made.model->combinations.begin(), made.model->combinations.end(),
                   [](const model::Combination& c) { return c.name == "strength-stored"; });
  REQUIRE(stored != made.model->combinations.end());
  solve::Loading loading = solve::loading_of(*stored);
  loading.second_order = false;
  const auto state = solve::respond(sway, loading).value();
  const double factor = solve::buckling(sway, state).value().front().factor;
  const double at_once = a.soft.response->stability->factor;
  CAPTURE(factor);
  CAPTURE(at_once);
  CHECK(factor < 0.8 * at_once);
  CHECK(f->ratio_soft == doctest::Approx(f->limit / factor).epsilon(1e-6));
}

TEST_CASE("decide/assess: creep softens the frame by allowable stress too") {
  const Assessment a = decide::assess(read(R"(
standtrue: 1
size: 1500 x 700 x 900 mm
timber: SYP No.2 2x4
joints: two corner brackets
top: {sheet: 18 mm spruce plywood, load: none}
analysis: {sheets: strip}
feet: {fixed: yes}
rules: allowable stress
machines:
  - {kind: machine, name: press, mass: 320 kg, at: middle, pads: 300 x 300 mm, centre_height: 250 mm}
)"),
                                      tables());
  const Finding* f = find(a, "frame/buckling");
  REQUIRE(f);
  CHECK(f->combination == "strength-stored");
  CHECK(f->limit / f->ratio < 0.8 * a.mean.response->stability->factor);
}

TEST_CASE("decide/assess: loads that tip the bench at rest are found, whatever the shoves say") {
  const Assessment a =
      braced("", "loads:\n  - {name: anvil, mass: 900 kg, at: [2130 mm, 10 mm]}\n");
  const auto unanswered = std::find_if(a.findings.begin(), a.findings.end(), [](const Finding& f) {
    return f.id.rfind("unanswered/", 0) == 0;
  });
  REQUIRE(unanswered != a.findings.end());
  CHECK(unanswered->judgement == Judgement::exceeded);
  CHECK(a.verdict == Verdict::do_not_load);
}

}  // namespace assess_test
