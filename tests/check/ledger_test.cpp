// A bench on a ledger against statics, simple beams and the three-moment equation.
#include "standtrue/bench/ledger.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "check/held.hpp"
#include "check/joint_legs.hpp"
#include "check/sag_line.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/stability.hpp"
#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"
#include "tests/check/hand_built.hpp"

namespace ledger_test {

using namespace hand_built;
using bench_files::named;
using doctest::Approx;
using model::Leading;
using model::Purpose;
using quantity::in_si;

namespace {

std::string hanging(const std::string& more) {
  return "standtrue: 1\n"
         "size: 1500 x 620 x 900 mm\n"
         "timber: C24 45 x 95 mm\n" +
         more;
}

model::Model hung(const std::string& more) {
  const bench_files::Read read = bench_files::read("bench.yaml", hanging(more));
  REQUIRE_MESSAGE(read.bench, read.messages);
  model::Idealisation made = model::idealise(*read.bench, bench_files::tables());
  REQUIRE(made.model);
  return *made.model;
}

/// One combination of one case alone.
solve::Response under(model::Model& m, std::size_t load_case) {
  m.combinations = {combination("alone", Purpose::service, Leading::permanent, {{load_case, 1.0}})};
  solve::OrRefusal<solve::Response> response = solve::static_response(m);
  REQUIRE_MESSAGE(response, response.error().what);
  REQUIRE_MESSAGE(response->states[0], response->states[0].error().what);
  return *response;
}

/// A stiff wall, that rolls no ledger either.
void harden(model::Model& m) {
  for (const model::WallPlace& place : m.parts.wall) {
    for (const std::size_t s : {place.x, place.y, place.z, *place.roll}) {
      m.supports[s].stiffness = 1e12;
    }
  }
}

double sum(const model::Model& m, const solve::State& state, std::size_t model::WallPlace::*wall,
           std::size_t model::FootPlace::*foot) {
  double all = 0.0;
  for (const model::WallPlace& place : m.parts.wall) all += state.support_forces[place.*wall];
  for (const model::FootPlace& place : m.parts.feet) all += state.support_forces[place.*foot];
  return all;
}

}  // namespace

TEST_CASE("check/ledger: statics, a load in the middle of the depth goes half to feet and wall") {
  // From the front posts' axes (22.5 mm) to the ledger's (595 - 22.5 mm): the middle at 297.5 mm is
  // 322.5 mm behind the top's front edge.
  model::Model m = hung(
      "joints: corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "wall: {ledger: 45 x 95 mm}\n"
      "loads: [{at: [750 mm, 322.5 mm], down: 1000 N}]\n");
  const solve::Response response = under(m, m.parts.added_cases.at(0));
  const solve::State& state = *response.states[0];
  double wall = 0.0, feet = 0.0, grip = 0.0, prised = 0.0;
  for (const model::WallPlace& place : m.parts.wall) {
    wall += state.support_forces[place.z];
    prised += state.support_forces[*place.roll];
  }
  for (const model::FootPlace& foot : m.parts.feet) {
    feet += state.support_forces[foot.down];
    grip += state.support_forces[foot.grip_y];
  }
  CHECK(wall + feet == Approx(1000).epsilon(1e-9));
  CHECK(sum(m, state, &model::WallPlace::y, &model::FootPlace::grip_y) ==
        Approx(0.0).scale(1000).epsilon(1e-9));
  // Moments about the line of the feet on the floor, y to the back and z up: the load, the wall's
  // lift and roll at the ledger's axis, and its pull at that height, which the grip makes good.
  const bench::Bench& b = m.parts.bench;
  const double y_feet = in_si(b.posts[0].foot_y), y_wall = in_si(b.posts[2].y);
  const double h = in_si(bench::ledger_of(b)->height);
  CHECK(wall * (y_wall - y_feet) + grip * h + prised ==
        Approx(1000 * (0.2975 - y_feet)).epsilon(1e-6));
  // Half each, but for what the corners of the frame hold of the turning.
  CHECK(wall == Approx(500).epsilon(0.1));
  CHECK(feet == Approx(500).epsilon(0.1));
}

TEST_CASE("check/ledger: three spans between four screws, by the three-moment equation") {
  // P in mid-span of the middle one: M over its screws -3 P l/40, and below their line
  // P l³/48 E I - (3 P l/40) l²/8 E I = 11 P l³/960 E I, without shear (Clapeyron; statics).
  model::Model m = hung(
      "joints: corner brackets\n"
      "rails: {top: {short: {joint: pinned}}}\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "analysis: {sheets: none}\n"
      "wall: {ledger: 45 x 95 mm, screws: [125 mm, 525 mm, 925 mm, 1325 mm]}\n"
      "loads: [{at: [750 mm, 597.5 mm], down: 1000 N}]\n");
  harden(m);
  // Rails that end on it would be twisted as it bends, and hold it by a thousandth.
  for (const model::RailEnd& end : m.parts.rail_ends) {
    if (m.parts.parts[end.onto].name != "ledger") continue;
    m.members[end.member].end_springs[3] = model::EndSpring::free_end();
  }
  // Nothing presses on the feet: they hold both ways, as no frame stands on feet without force.
  for (const model::FootPlace& foot : m.parts.feet) m.supports[foot.down].press_only = false;
  const model::Part& ledger = named(m.parts.parts, "ledger");
  for (const std::size_t member : ledger.members) {
    m.members[member].elastic.G = 1e6 * m.members[member].elastic.G;
  }
  const solve::Response response = under(m, m.parts.added_cases.at(0));
  const model::Member& piece = m.members[ledger.members[0]];
  const double stiff = in_si(piece.elastic.E) * in_si(piece.section.I_y);
  const double l = 0.4, P = 1000.0;
  const auto axis = check::sunk(m, response, 0, ledger);
  const auto lowest =
      check::lowest_below(axis, check::between_screws(m, *response.states[0], ledger));
  CHECK(lowest.at == Approx(0.725).epsilon(1e-3));
  CHECK(lowest.below == Approx(11.0 * P * l * l * l / (960.0 * stiff)).epsilon(1e-4));
  const auto findings = check::sag({m, response}, tables());
  const check::Finding* f = find(findings, "sag/ledger");
  REQUIRE(f);
  CHECK(f->demand == Approx(11.0 * P * l * l * l / (960.0 * stiff)).epsilon(1e-4));
  CHECK_FALSE(f->hand_check);  // a beam over four screws is none on two supports
  CHECK(f->judgement == check::Judgement::satisfied);
  // The inner screws carry P/2 and what the moments there give over the outer spans: 23 P/40.
  const auto screw = [&](std::size_t i) {
    return response.states[0]->support_forces[m.parts.wall[i].z];
  };
  CHECK(screw(0) == Approx(-3.0 * P / 40.0).epsilon(1e-4));
  CHECK(screw(1) == Approx(23.0 * P / 40.0).epsilon(1e-4));
}

TEST_CASE("check/ledger: its sag is counted from a line through all its screws as they give") {
  model::Model m = hung(
      "joints: corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "wall: {ledger: 45 x 95 mm, screws: [100 mm, 300 mm, 900 mm, 1400 mm]}\n"
      "loads: [{at: [400 mm, 560 mm], down: 1000 N}]\n");
  const solve::Response response = under(m, m.parts.added_cases.at(0));
  const solve::State& state = *response.states[0];
  const auto line = check::between_screws(m, state, named(m.parts.parts, "ledger"));
  for (const model::WallPlace& place : m.parts.wall) {
    const model::NodeId node = m.supports[place.z].node;
    const double sunk = -state.at(node, model::Freedom::z);
    CHECK(line(in_si(m.nodes[node].at.x), 0.0) == Approx(sunk).epsilon(1e-9));
    // the spring's own law
    CHECK(state.support_forces[place.z] == Approx(1e6 * sunk).epsilon(1e-6));
  }
}

TEST_CASE("check/ledger: a rail that ends on it holds its post across the bench, not along") {
  const std::string usual = "joints: corner brackets\ntop: 21 mm spruce plywood\n";
  const auto held = [&](const std::string& more) {
    const model::Model m = hung(usual + more);
    return check::held_planes(m, named(m.parts.parts, "front-left post"));
  };
  CHECK(held("wall: {ledger: 45 x 95 mm}\n").across);
  CHECK_FALSE(held("wall: {ledger: 45 x 95 mm}\n").along);
  CHECK_FALSE(held("").across);
  CHECK_FALSE(held("bearers: {at: [700 mm]}\n").across);  // a bearer's ends hold no post
  const auto word = [&](const std::string& more) {
    return std::string(check::held_word(hung(usual + more), true));
  };
  CHECK(word("wall: {ledger: 45 x 95 mm}\n").find("held by the wall") == 0);
  CHECK(word("").find("held by a diagonal") == 0);
}

TEST_CASE(
    "check/ledger: on a stiff wall a pinned rail sags as a simple beam, P L³/48EI + P L/4GA") {
  model::Model m = hung(
      "joints: corner brackets\n"
      "rails: {top: {short: {joint: pinned}}}\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "analysis: {sheets: none}\n"
      "wall: {ledger: 45 x 95 mm}\n");
  harden(m);
  const model::Part& left = named(m.parts.parts, "left top rail");
  REQUIRE(left.members.size() == 1);
  const model::Member& member = m.members[left.members[0]];
  const double span = in_si(model::member_frame(m, member).length);
  CHECK(span == Approx(0.595 - 0.045 - 0.045).epsilon(1e-9));  // post 45 mm deep, ledger 45 mm
  const std::size_t load = load_case(m, "in the middle");
  m.cases[load].point_loads.push_back({left.members[0], metres(span / 2), force(0, 0, -400), {}});
  const solve::Response response = under(m, load);
  const auto axis = check::sunk(m, response, 0, left);
  const double rail_EI = in_si(member.elastic.E) * in_si(member.section.I_y);
  const double rail_GA = in_si(member.elastic.G) * in_si(member.section.A_sz);
  CHECK(
      check::lowest_below(axis, check::between_ends(axis)).below ==
      Approx(400 * span * span * span / (48 * rail_EI) + 400 * span / (4 * rail_GA)).epsilon(1e-6));
  // Told is where it is lowest below the post's top: at its front end, which hangs beside the
  // post's axis and sinks as the post leans (a rigid arm), and by what its bracket slips.
  const auto findings = check::sag({m, response}, tables());
  const check::Finding* f = find(findings, "sag/left-top-rail");
  REQUIRE(f);
  const model::EndSpring& bracket = member.start_springs[2];
  REQUIRE(bracket.kind == model::EndSpring::Kind::elastic);
  using model::Freedom;
  const solve::State& leaning = *response.states[0];
  const double lifted = leaning.at(member.start, Freedom::z) +
                        leaning.at(member.start, Freedom::rx) * in_si(member.start_offset.y) -
                        leaning.at(member.start, Freedom::ry) * in_si(member.start_offset.x);
  const model::NodeId top = m.members[named(m.parts.parts, "front-left post").members.back()].end;
  const double told = leaning.at(top, Freedom::z) - lifted + 200.0 / bracket.gravity;
  CHECK(f->demand / told == Approx(1.0).epsilon(0.01));  // the line has risen a little there
  CHECK(f->sentence.find("below the line from its post to the ledger") != std::string::npos);
  // Half of it hangs on the wall, and at the ledger's face it prises: V t/2 about its axis.
  const solve::State& state = *response.states[0];
  double up = 0.0, roll = 0.0;
  for (const model::WallPlace& place : m.parts.wall) {
    up += state.support_forces[place.z];
    roll += state.support_forces[*place.roll];
  }
  CHECK(up == Approx(200).epsilon(1e-6));
  CHECK(roll == Approx(-200 * 0.0225).epsilon(1e-6));
}

TEST_CASE("check/ledger: a screw is pulled by what prises the ledger off, V t/(d/2) at its face") {
  model::Model m = hung(
      "joints: corner brackets\n"
      "rails: {top: {short: {joint: pinned}}}\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "analysis: {sheets: none}\n"
      "wall: {ledger: 45 x 95 mm, screws: [22.5 mm, 1427.5 mm]}\n");
  const model::Part& left = named(m.parts.parts, "left top rail");
  const std::size_t load = load_case(m, "in the middle");
  const double span = in_si(model::member_frame(m, m.members[left.members[0]]).length);
  m.cases[load].point_loads.push_back({left.members[0], metres(span / 2), force(0, 0, -400), {}});
  const solve::Response response = under(m, load);
  const auto findings = check::fixings({m, response}, tables());
  const check::Finding* f = find(findings, "fixing/wall");
  REQUIRE(f);
  // All 200 N hang on the screw behind that rail: 200 x 45/47.5, and nothing else pulls. A twist
  // of the ledger hands some of it to the other screw.
  CHECK(f->demand <= 200 * 45 / 47.5 + 1.0);
  CHECK(f->demand >= 0.5 * 200 * 45 / 47.5);
  CHECK(f->place == "ledger, 22.5 mm from its left end");
}

TEST_CASE("check/ledger: what is shoved across goes to the wall, and all is in balance") {
  model::Model m = hung(
      "joints: corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "wall: {ledger: 45 x 95 mm}\n");
  for (const model::ShovePlace& place : m.parts.shoves) {
    CAPTURE(place.name);
    model::Model one = m;
    const std::size_t self = *m.parts.self_case;
    one.combinations = {combination("shoved", Purpose::service, Leading::shove,
                                    {{self, 1.0}, {place.forth, 100.0}})};
    const auto response = solve::static_response(one);
    REQUIRE(response);
    const solve::State& state = *response->states[0];
    const bool along = place.way == model::ShoveWay::along;
    CHECK(sum(one, state, along ? &model::WallPlace::x : &model::WallPlace::y,
              along ? &model::FootPlace::grip_x : &model::FootPlace::grip_y) ==
          Approx(-100).epsilon(1e-6));
    if (along) continue;
    double wall = 0.0;
    for (const model::WallPlace& screw : one.parts.wall) wall += state.support_forces[screw.y];
    CHECK(wall < -85.0);  // posts that bend hold little beside rails that run into the wall
  }
  // No edge to tip over, and nothing slides.
  const auto response = solve::static_response(m);
  REQUIRE(response);
  const check::Answers answers{m, *response};
  CHECK(find(check::tipping(answers, tables()), "tipping/wall"));
  for (const check::Finding& f : check::sliding(answers, tables())) {
    CHECK(f.judgement != check::Judgement::exceeded);
  }
}

TEST_CASE("check/ledger: a rail's end on it is a site like a bearer's end on a rail") {
  const model::Model m = hung(
      "joints: corner brackets\n"
      "top: 21 mm spruce plywood\n"
      "wall: {ledger: 45 x 145 mm}\n"
      "bearers: {at: [700 mm]}\n");
  const auto site = [&](const std::string& name) {
    return check::site_of(m, named(m.parts.rail_ends, name));
  };
  const check::Site rail = site("left top rail, back end"), bearer = site("bearer 1, back end");
  CHECK_FALSE(rail.onto_post);
  CHECK(rail.butts);
  for (const check::Site& s : {rail, bearer}) {
    CHECK(in_si(s.onto_behind) == Approx(0.045));
    CHECK(in_si(s.above) == Approx(0.0).scale(1.0));
    CHECK(in_si(s.below) == Approx(0.145 - 0.095));
  }
  CHECK(site("left top rail, front end").onto_post);
  CHECK(in_si(check::lap_length(m, named(m.parts.rail_ends, "left top rail, back end"))) ==
        Approx(0.045));
}

TEST_CASE("check/ledger: one that sags too far wants more screws, or to be deeper") {
  model::Model m = hung(
      "joints: corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "analysis: {sheets: none}\n"
      "wall: {ledger: 45 x 45 mm, screws: [125 mm, 1325 mm]}\n"
      "rails: {top: {section: 45 x 45 mm}}\n"
      "loads: [{at: [750 mm, 597.5 mm], down: 1500 N}]\n");
  const solve::Response response = under(m, m.parts.added_cases.at(0));
  const auto findings = check::sag({m, response}, tables());
  const check::Finding* f = find(findings, "sag/ledger");
  REQUIRE(f);
  CHECK(f->judgement == check::Judgement::exceeded);
  CHECK(f->advice == "more screws into the wall, or a deeper ledger");
  CHECK(f->sentence.find("below the line over its screws") != std::string::npos);
}

TEST_CASE("check/ledger: what sways most is called by its post or its end, and cured in front") {
  const std::string text =
      "joints: corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: none}\n"
      "wall: {ledger: 45 x 95 mm}\n";
  const auto swayed = [](const model::Model& m, const char* id) {
    const auto response = solve::static_response(m);
    REQUIRE(response);
    const auto findings = check::sway({m, *response}, tables());
    const check::Finding* f = find(findings, id);
    REQUIRE(f);
    return *f;
  };
  model::Model m = hung(text);
  for (const char* id : {"sway/along", "sway/across"}) {
    CHECK(swayed(m, id).place.find("at the front-") != std::string::npos);
  }
  // A bench that nothing is asked of but what no bench has: it is cured where a ledger leaves room.
  m.parts.bench.duty.sway = quantity::from_si<quantity::LinearStiffness>(1e9);
  CHECK(swayed(m, "sway/along").advice == "a diagonal in the front");
  CHECK(swayed(m, "sway/across").advice.find("end on the ledger") != std::string::npos);
  // A wall of rubber gives more than the front, and along it is the ledger that moves.
  for (const model::WallPlace& place : m.parts.wall) m.supports[place.x].stiffness = 1.0;
  m.parts.top_corners.erase(
      std::remove_if(m.parts.top_corners.begin(), m.parts.top_corners.end(),
                     [&](model::NodeId n) { return in_si(m.nodes[n].at.y) < 0.3; }),
      m.parts.top_corners.end());
  REQUIRE_FALSE(m.parts.top_corners.empty());
  CHECK(swayed(m, "sway/along").place.find("end of the ledger") != std::string::npos);
}

TEST_CASE("check/ledger: an even bench on one is judged evenly, left and right (symmetry)") {
  const model::Model m = hung(
      "joints: corner brackets\n"
      "top: {sheet: 21 mm spruce plywood, load: 20 kg}\n"
      "wall: {ledger: 45 x 95 mm}\n");
  const auto response = solve::static_response(m);
  REQUIRE(response);
  const auto findings = check::check_all({m, *response}, tables());
  std::size_t compared = 0;
  for (const check::Finding& left : findings) {
    const std::size_t at = left.id.find("left");
    if (at == std::string::npos) continue;
    CAPTURE(left.id);
    std::string id = left.id;
    const check::Finding* right = find(findings, id.replace(at, 4, "right"));
    if (right == nullptr) continue;  // of equally bad ones the first is told
    CHECK(left.judgement == right->judgement);
    CHECK(left.ratio == Approx(right->ratio).epsilon(1e-6));  // to rounding, as audited
    ++compared;
  }
  CHECK(compared >= 10);
  CHECK(find(findings, "sag/ledger"));
}

}  // namespace ledger_test
