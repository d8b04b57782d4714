// Sag of rails against closed forms (Roark's Formulas, simple beams; shear by M/(G A_s)).
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "tests/check/sagging.hpp"

namespace sag_test {

using namespace hand_built;
using check::Judgement;
using doctest::Approx;

namespace {

/// A rail in `pieces` members, hinged to the tops of two posts held at their feet.
model::Model portal(int pieces, bool along_x = true) {
  model::Model m;
  m.parts = four_feet(L, 0.6);
  m.parts.bench.posts.resize(2);
  m.parts.bench.posts[1] = along_x ? post("right post", L, 0) : post("back post", 0, L);
  bench::Rail rail;
  rail.name = "front top rail";
  rail.from = 0;
  rail.to = 1;
  rail.along_x = along_x;
  m.parts.bench.rails.push_back(rail);
  std::vector<model::NodeId> tops;
  for (std::size_t p = 0; p < 2; ++p) {
    const double x = p == 1 && along_x ? L : 0.0, y = p == 1 && !along_x ? L : 0.0;
    const model::NodeId foot = node(m, "foot", x, y, 0.0);
    tops.push_back(node(m, "top", x, y, 0.88));
    hold(m, foot);
    const std::size_t stands = member(m, "post", foot, tops.back(), 0.089, 0.089);
    m.members[stands].depth = model::Direction{1, 0, 0};
    m.parts.parts.push_back(part("post", model::Role::post, {stands}, 0.88, p));
    m.parts.top_corners.push_back(tops.back());
  }
  std::vector<std::size_t> members;
  model::NodeId before = tops[0];
  for (int i = 1; i <= pieces; ++i) {
    const double at = L * i / pieces;
    const model::NodeId next =
        i == pieces ? tops[1] : node(m, "rail", along_x ? at : 0.0, along_x ? 0.0 : at, 0.88);
    members.push_back(member(m, "rail", before, next, b, d));
    before = next;
  }
  m.members[members.front()].start_springs[4] = model::EndSpring::free_end();
  m.members[members.back()].end_springs[4] = model::EndSpring::free_end();
  m.parts.parts.push_back(part("front top rail", model::Role::rail, members, L, 0));
  return m;
}

}  // namespace

TEST_CASE("check/sag: a hinged rail under a load in mid-span, P L³/48EI + P L/4GA_s") {
  for (const bool along_x : {true, false}) {
    for (const int pieces : {1, 2, 3}) {
      CAPTURE(pieces);
      model::Model m = portal(pieces, along_x);
      load_case(m, "load");
      const std::size_t middle = m.parts.parts.back().members[pieces == 1 ? 0 : 1];
      press(m, 0, middle, pieces == 1 ? L / 2 : pieces == 2 ? 0.0 : L / 6, 600);
      service(m, "service-permanent", model::Leading::permanent);
      service(m, "service-stored", model::Leading::stored, 0.5);
      service(m, "service-lean", model::Leading::lean, 2.0);
      const Solved solved(m);
      const auto findings = check::sag(solved.answers(), tables());
      REQUIRE(findings.size() == 1);
      const check::Finding& f = findings[0];
      const double w = 600 * L * L * L / (48 * EI()) + 600 * L / (4 * GA());
      CHECK(f.id == "sag/front-top-rail");
      CHECK(f.demand == Approx(w).epsilon(1e-6));
      CHECK(f.limit == Approx(L / 300));
      CHECK(f.combination == "service-permanent");
      REQUIRE(f.hand_check);
      CHECK(f.hand_check->value == Approx(w).epsilon(1e-6));
      CHECK(f.place ==
            std::string("front top rail, 900 mm from its ") + (along_x ? "left end" : "front end"));
      CHECK(f.working.back().find("somebody leaning") != std::string::npos);
      CHECK(f.judgement == (w > L / 300 ? Judgement::exceeded : Judgement::satisfied));
      CHECK(f.advice.empty() == (f.judgement == Judgement::satisfied));
    }
  }
}

TEST_CASE("check/sag: spread and pointed loads: the hand check adds them, the end moments do not") {
  model::Model m = portal(2);
  load_case(m, "load");
  const model::LineLoadVector q{{}, {}, quantity::from_si<quantity::LineLoad>(-300)};
  for (const std::size_t piece : m.parts.parts.back().members) {
    m.cases[0].line_loads.push_back({piece, metres(0), metres(L / 2), q, q});
  }
  press(m, 0, m.parts.parts.back().members[0], 0.5, 200);
  press(m, 0, m.parts.parts.back().members[1], 0.4, 200);
  service(m, "service-stored", model::Leading::stored);
  const Solved solved(m);
  const check::Finding f = check::sag(solved.answers(), tables()).at(0);
  // Points at 0.5 and 1.3 m: symmetric, so the middle is the lowest place.
  const double w = 5 * 300 * std::pow(L, 4) / (384 * EI()) +
                   2 * 200 * 0.5 * (3 * L * L - 4 * 0.25) / (48 * EI()) +
                   (300 * L * L / 8 + 200 * 0.5) / GA();
  CHECK(f.demand == Approx(w).epsilon(1e-6));
  CHECK(f.hand_check->value == Approx(w).epsilon(1e-9));
}

TEST_CASE("check/sag: shortening of the posts is not sag of the rail") {
  model::Model m = portal(1);
  load_case(m, "load");
  m.cases[0].node_loads.push_back({m.parts.top_corners[1], force(0, 0, -5e4), {}, {}});
  service(m, "service-permanent", model::Leading::permanent);
  const Solved solved(m);
  const check::Finding f = check::sag(solved.answers(), tables()).at(0);
  CHECK(f.demand < 1e-9);
  CHECK(f.judgement == Judgement::satisfied);
  CHECK(
      f.sentence ==
      "The front top rail sags less than 0.1 mm below the line between the tops of its posts under "
      "what stands on it; 6 mm allowed, and good for a front edge.");
  m.parts.bench.units = quantity::UnitSystem::imperial;
  CHECK(check::sag(Solved(m).answers(), tables()).at(0).sentence.find("less than 0.004 in") !=
        std::string::npos);
}

TEST_CASE("check/sag: what cures it, by kind of part") {
  model::Model m = portal(1);
  load_case(m, "load");
  press(m, 0, 2, L / 2, 6000);
  service(m, "service-permanent", model::Leading::permanent);
  const auto advice = [&] { return check::sag(Solved(m).answers(), tables()).at(0).advice; };
  CHECK(advice() == "a deeper rail: stiffness grows with the cube of its depth");
  m.parts.parts.back().role = model::Role::bearer;
  CHECK(advice() == "a deeper bearer, or one more beside it");
}

TEST_CASE("check/sag: short spans are not judged below 1.5 mm; a stiff front edge is called good") {
  model::Model m = portal(1);
  m.parts.parts.back().span = metres(0.3);
  load_case(m, "load");
  press(m, 0, 2, L / 2, 10);
  service(m, "service-permanent", model::Leading::permanent);
  const Solved solved(m);
  const check::Finding f = check::sag(solved.answers(), tables()).at(0);
  CHECK(f.limit == Approx(1.5e-3));
  CHECK(f.source.where == tables().limits.sag_least.source.where);
  CHECK(f.sentence.find("good for a front edge") != std::string::npos);
  model::Model behind = m;
  behind.parts.bench.posts.push_back(post("another", 0, -0.5));
  CHECK(check::sag(Solved(behind).answers(), tables()).at(0).sentence.find("good") ==
        std::string::npos);
  behind.parts.bench.rails[0].level = bench::Level::lower;
  CHECK(check::sag(Solved(behind).answers(), tables()).at(0).sentence.find("good") ==
        std::string::npos);
}

TEST_CASE("check/sag: after years by the answer after creep to 'final'") {
  model::Model m = portal(1);
  load_case(m, "load");
  press(m, 0, 2, L / 2, 300);
  service(m, "service-permanent", model::Leading::permanent);
  service(m, "final", model::Leading::stored, 0.9);
  model::Model creeping = m;
  for (model::Member& member : creeping.members) {
    member.elastic.E /= 1.8;
    member.elastic.G /= 1.8;
  }
  const Solved now(m), later(creeping);
  check::Answers answers = now.answers();
  answers.creep_model = &later.model;
  answers.creep_response = &later.response;
  const auto findings = check::sag(answers, tables());
  REQUIRE(findings.size() == 2);
  const double w = 300 * L * L * L / (48 * EI()) + 300 * L / (4 * GA());
  CHECK(findings[0].demand == Approx(w).epsilon(1e-6));
  CHECK(findings[1].id == "sag-final/front-top-rail");
  CHECK(findings[1].demand == Approx(0.9 * 1.8 * w).epsilon(1e-6));
  CHECK(findings[1].limit == Approx(L / 250));
}

TEST_CASE("check/sag: a refused combination is passed over; when all are, it is not judged") {
  model::Model m = portal(1);
  load_case(m, "load");
  press(m, 0, 2, L / 2, 300);
  service(m, "service-permanent", model::Leading::permanent);
  service(m, "service-stored", model::Leading::stored);
  service(m, "final", model::Leading::stored);
  Solved solved(m);
  const solve::Refusal tips{solve::Refusal::Why::tips, "the frame tips", "spread the feet", {}};
  solved.response.states[1] = tl::unexpected(tips);
  CHECK(check::sag(solved.answers(), tables()).at(0).judgement != Judgement::not_judged);
  solved.response.states[0] = tl::unexpected(tips);
  solved.response.states[2] = tl::unexpected(tips);
  check::Answers answers = solved.answers();
  answers.creep_model = &solved.model;
  answers.creep_response = &solved.response;
  for (const check::Finding& f : check::sag(answers, tables())) {
    CHECK(f.judgement == Judgement::not_judged);
    CHECK(std::isnan(f.ratio));
    CHECK(f.why == "the frame tips");
  }
}

TEST_CASE("check/sag: a section without a shear area bends only, by hand too") {
  model::Model m = portal(1);
  m.members.back().section.A_sz = {};
  load_case(m, "load");
  press(m, 0, 2, L / 2, 300);
  service(m, "service-permanent", model::Leading::permanent);
  const check::Finding f = check::sag(Solved(m).answers(), tables()).at(0);
  CHECK(f.hand_check->value == Approx(300 * L * L * L / (48 * EI())));
  CHECK(f.demand == Approx(f.hand_check->value).epsilon(1e-6));
}

}  // namespace sag_test
