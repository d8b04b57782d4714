// What has no answer is not judged and says why: each check with the answers that it needs refused,
// or with nobody asking for them. Ours: the rule that nothing is satisfied by default.
#include <doctest/doctest.h>

#include <limits>
#include <string>

#include "standtrue/check/feet.hpp"
#include "standtrue/check/level.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/pushes.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/stability.hpp"
#include "standtrue/check/vibration.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/lathe_bench.hpp"
#include "tests/check/portal.hpp"

namespace unanswered_test {

using namespace standtrue;
using check::Finding;
using check::Judgement;
using lathe_bench::Shop;
using lathe_bench::Solved;
using lathe_bench::tables;
using model::Combination;
using model::Leading;
using model::Purpose;

namespace {

const std::string refused = "no such answer";

template <class Wanted>
void refuse(Solved& bench, Wanted wanted) {
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    if (!wanted(bench.model.combinations[c])) continue;
    bench.response.states[c] =
        tl::unexpected(solve::Refusal{solve::Refusal::Why::contact_unsettled, refused, "", {}});
  }
}

bool is_any(const Combination&) { return true; }
bool is_service(const Combination& c) { return c.purpose == Purpose::service; }
bool is_strength(const Combination& c) { return c.purpose == Purpose::strength; }

check::PlateAnswers plates_of(const Solved& bench) {
  return {bench.model, bench.response,
          [](const auto& c) { return check::judges_strength(c) || check::judges_sag(c); }};
}

void check_unjudged(const std::vector<Finding>& findings, const std::string& why) {
  CHECK_FALSE(findings.empty());
  for (const Finding& f : findings) {
    CAPTURE(f.id);
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(f.why == why);
    CHECK_FALSE(f.sentence.empty());
  }
}

/// With an upright sheet, whose screws are judged too.
Shop shop() {
  Shop shop;
  shop.bearers = "sheets: [{side: back, sheet: 9 mm spruce plywood, screws: 4 x 40 mm}]\n";
  return shop;
}

}  // namespace

TEST_CASE("check/unanswered: a bed without its bench at rest, or without anybody leaning") {
  Solved rest = lathe_bench::solved({});
  refuse(rest, check::is_at_rest);
  CHECK(rest.finding().why == refused);
  CHECK(check::twist_per_foot(rest.answers()).empty());
  Solved leans = lathe_bench::solved({});
  refuse(leans, check::is_leaned_on);
  CHECK(leans.finding().why == refused);
  // What is known of it without is told all the same.
  CHECK(check::twist_per_foot(leans.answers()).size() == 4);
  Solved nobody = lathe_bench::solved({});
  for (Combination& c : nobody.model.combinations) {
    if (c.leading == Leading::lean) c.leading = Leading::permanent;
  }
  CHECK(nobody.finding().why == "nobody leans on the bench");
  Solved never = lathe_bench::solved({});
  for (Combination& c : never.model.combinations) {
    if (check::is_at_rest(c)) c.name = "another";
  }
  CHECK(never.finding().why == "a twist of its pads has no answer");
}

TEST_CASE("check/unanswered: the trials were answered and the plates were not") {
  // A bed that was tried, and plates that hold no answer of it.
  const Solved bench = lathe_bench::solved({});
  const check::PlateAnswers nothing(bench.model, bench.response,
                                    [](const Combination&) { return false; });
  const std::vector<Finding> found = check::bed_twist(bench.answers(), nothing, tables());
  check_unjudged(found, "nobody leans on the bench");
}

TEST_CASE("check/unanswered: a drill press' twist is told only with an answer") {
  Shop press;
  press.machine = "small drill press";
  Solved bench = lathe_bench::solved(press);
  refuse(bench, check::is_leaned_on);
  const Finding f = bench.finding();
  CHECK(f.kind == check::Kind::told);
  CHECK(f.sentence.find("is not judged") != std::string::npos);
}

TEST_CASE("check/unanswered: level lines of what is not on a plate, or not at rest") {
  Solved bench = lathe_bench::solved({});
  CHECK(check::level_lines(bench.model, bench.plates(), 7).empty());
  CHECK_FALSE(check::slope_of(bench.model.parts, 7, bench.plates().of(0, check::is_at_rest).front())
                  .has_value());
  refuse(bench, check::is_leaned_on);
  for (const std::string& line : check::level_lines(bench.model, bench.plates(), 0)) {
    CHECK(line.find("somebody leaning") == std::string::npos);
  }
  refuse(bench, check::is_at_rest);
  CHECK(check::level_lines(bench.model, bench.plates(), 0).empty());
}

TEST_CASE("check/unanswered: sag of plates and of what stands on them") {
  Solved bench = lathe_bench::solved({});
  refuse(bench, is_service);
  check_unjudged(check::sag_of_plates(bench.answers(), plates_of(bench), tables()), refused);
  CHECK(check::sag_of_plate_edges(bench.answers(), plates_of(bench), tables()).empty());
  // Nobody asks: nothing is said.
  Solved given = lathe_bench::solved({});
  for (Combination& c : given.model.combinations) c.purpose = Purpose::as_given;
  CHECK(check::sag_of_plates(given.answers(), plates_of(given), tables()).empty());
  // Nobody leans: the rest is judged.
  Solved nobody = lathe_bench::solved({});
  refuse(nobody, check::is_leaned_on);
  for (const Finding& f : check::sag_of_plates(nobody.answers(), plates_of(nobody), tables())) {
    CHECK(f.judgement != Judgement::not_judged);
    for (const std::string& line : f.working) {
      CHECK(line.find("somebody leaning") == std::string::npos);
    }
  }
  // A lean without its place, or on another sheet, is none of this edge's.
  Solved lost = lathe_bench::solved({});
  for (Combination& c : lost.model.combinations) {
    if (c.leading == Leading::lean) c.place.reset();
  }
  CHECK(check::sag_of_plate_edges(lost.answers(), plates_of(lost), tables()).empty());
  Solved elsewhere = lathe_bench::solved({});
  for (model::PersonPlace& person : elsewhere.model.parts.persons) person.sheet = 9;
  CHECK(check::sag_of_plate_edges(elsewhere.answers(), plates_of(elsewhere), tables()).empty());
}

TEST_CASE("check/unanswered: the creep that has a model and no response is left out") {
  const Solved bench = lathe_bench::solved({});
  check::Answers answers = bench.answers();
  answers.creep_model = &bench.model;
  for (const Finding& f : check::sag_of_plates(answers, plates_of(bench), tables())) {
    CHECK(f.id.find("-final") == std::string::npos);
  }
  for (const Finding& f : check::sag(answers, tables())) {
    CHECK(f.id.find("-final") == std::string::npos);
  }
}

TEST_CASE("check/unanswered: strength of sheets and of their screws") {
  Solved bench = lathe_bench::solved(shop());
  refuse(bench, is_strength);
  check_unjudged(check::plate_strength(bench.answers(), plates_of(bench), tables()), refused);
  check_unjudged(check::plate_screws(bench.answers(), tables()), "no loads for strength");
  Solved unasked = lathe_bench::solved(shop());
  for (Combination& c : unasked.model.combinations) c.purpose = Purpose::service;
  check_unjudged(check::plate_strength(unasked.answers(), plates_of(unasked), tables()),
                 "no loads for strength");
  // Loads as given are judged like those for strength.
  Solved given = lathe_bench::solved(shop());
  for (Combination& c : given.model.combinations) {
    if (c.purpose == Purpose::strength) c.purpose = Purpose::as_given;
  }
  const Solved plain = lathe_bench::solved(shop());
  const auto as_given = check::plate_strength(given.answers(), plates_of(given), tables());
  const auto factored = check::plate_strength(plain.answers(), plates_of(plain), tables());
  REQUIRE(as_given.size() == factored.size());
  for (std::size_t i = 0; i < factored.size(); ++i) CHECK(as_given[i].ratio == factored[i].ratio);
}

TEST_CASE("check/unanswered: sheets and screws in air that they do not belong in") {
  Solved wet = lathe_bench::solved(shop());
  wet.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
  for (const Finding& f : check::plate_strength(wet.answers(), plates_of(wet), tables())) {
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(f.why.find("does not belong in air as damp as") != std::string::npos);
  }
  // Of the two of a seam either may have no k_mod.
  for (const bool is_timber : {true, false}) {
    Solved bench = lathe_bench::solved(shop());
    bench.model.parts.bench.air.service_class = reference::ServiceClass::sc3;
    if (is_timber) {
      for (model::Part& part : bench.model.parts.parts) {
        part.timber.material = reference::Material::mdf;
      }
    } else {
      for (bench::Sheet& sheet : bench.model.parts.bench.sheets) {
        sheet.family.material = reference::Material::osb_3;
      }
    }
    check_unjudged(check::plate_screws(bench.answers(), tables()),
                   is_timber ? "the code gives no strength of MDF in air of service class 3"
                             : "the code gives no strength of OSB/3 in air of service class 3");
  }
}

TEST_CASE("check/unanswered: the frame's stability: nobody asked, refused, nothing pressed") {
  Solved bench = lathe_bench::solved({});
  CHECK(check::frame_stability(bench.answers(), tables()).empty());  // nobody asked
  bench.response.no_stability =
      solve::Refusal{solve::Refusal::Why::modes_unsettled, refused, "", {}};
  check_unjudged(check::frame_stability(bench.answers(), tables()), refused);
  bench.response.no_stability.reset();
  bench.response.stability =
      solve::Stability{std::numeric_limits<double>::infinity(), 0, Eigen::VectorXd()};
  CHECK(check::frame_stability(bench.answers(), tables()).empty());  // nothing is pressed
  refuse(bench, is_any);
  check_unjudged(check::frame_stability(bench.answers(), tables()),
                 "no combination of loads has an answer");
}

TEST_CASE("check/unanswered: vibration at other bounds, without a frame, without mass") {
  Solved bench = lathe_bench::solved({});
  check::Answers soft = bench.answers();
  soft.at_mean = false;
  CHECK(check::vibration(soft, tables()).empty());
  check::Answers still = bench.answers();
  still.swings = false;  // nobody asks how it swings
  CHECK(check::vibration(still, tables()).empty());
  bench.response.prepared[1].reset();
  CHECK(check::vibration(bench.answers(), tables()).empty());
  // Members that weigh nothing do not swing.
  portal::Built light = portal::build({});
  for (model::Member& member : light.model.members) member.elastic.density = {};
  portal::add_force(light.model, 0, 0, -100);
  light.model.combinations[0].springs = model::SpringSet::sway;
  const portal::Solved solved = portal::solve(light);
  check_unjudged(check::vibration(solved.answers(), tables()), "nothing with mass can swing");
}

TEST_CASE("check/unanswered: machines that turn with nothing, or slower than the zones begin") {
  Solved bench = lathe_bench::solved({});
  bench::Machine& lathe = bench.model.parts.bench.machines[0];
  const auto hum = [&] {
    return *hand_built::find(check::vibration(bench.answers(), tables()), "hum/mini-metal-lathe");
  };
  lathe.speed_min = lathe.speed_max = quantity::from_si<quantity::Frequency>(5.0);  // 300 rpm
  const Finding slow = hum();
  CHECK(slow.kind == check::Kind::told);
  CHECK(slow.why == "told, not judged: the zones begin at 600 rpm");
  lathe.kind.rotating = {};
  lathe.speed_max = quantity::from_si<quantity::Frequency>(50.0);
  const Finding unknown = hum();
  CHECK(unknown.judgement == Judgement::not_judged);
  CHECK(unknown.why == "what turns in it is not known");
}

TEST_CASE("check/unanswered: pushes without a frame are those of the rigid body alone") {
  Solved bench = lathe_bench::solved({});
  bench.response.prepared[1].reset();
  for (const check::Push& push : check::pushes(bench.answers())) {
    CHECK(std::isfinite(push.tips_at));
    CHECK(std::isinf(push.tips_at_frame));
    CHECK(std::isinf(push.slides_at));
  }
  const auto findings = check::tipping(bench.answers(), tables());
  const Finding* push = hand_built::find(findings, "tipping/push");
  REQUIRE(push != nullptr);
  CHECK(push->working.back().find("frame on its feet none that was looked at") !=
        std::string::npos);
}

TEST_CASE("check/unanswered: feet without loads of use, or whose loads are not known") {
  Solved bench = lathe_bench::solved({});
  for (Combination& c : bench.model.combinations) c.purpose = Purpose::as_given;
  check_unjudged(check::foot_load(bench.answers(), tables()), "there are no loads of use");
  Solved refused_ones = lathe_bench::solved({});
  refuse(refused_ones, is_any);
  for (auto& prepared : refused_ones.response.prepared) prepared.reset();  // nobody stands on it
  check_unjudged(check::foot_load(refused_ones.answers(), tables()), refused);
  CHECK(check::lifting_feet(refused_ones.answers(), tables()).empty());
}

TEST_CASE("check/unanswered: what tips on a short foot wants that foot set, not a wider bench") {
  Solved bench = lathe_bench::solved({});
  bench.response.states.front() =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "it tips", "", {}});
  const auto advice = [&] {
    for (const Finding& f : check::unanswered(bench.answers(), tables())) {
      if (f.id == "unanswered/tips") return f.advice;
    }
    return std::string();
  };
  CHECK(advice() == "spread the feet, or move the load inwards");
  bench.model.parts.bench.posts.front().foot.height_error = quantity::millimetres(2.0);
  CHECK(advice().find("set the feet so that all touch") == 0);
}

}  // namespace unanswered_test
