// Frames, feet and machines in answers that benches rarely give: made by changing a solved bench,
// as a solver or a file could.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "check/bed.hpp"
#include "check/sag_line.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/pushes.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/sheets.hpp"
#include "standtrue/check/stability.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/check/vibration.hpp"
#include "tests/check/hand_built.hpp"
#include "tests/check/lathe_bench.hpp"
#include "tests/check/portal.hpp"

namespace rare_frames_test {

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

TEST_CASE("check/rare_frames: how the frame gives way, told by the tops of its posts") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -3000);
  solve::PlateCache plates;
  auto response = solve::static_response(built.model, plates, 10.0);
  REQUIRE(response.has_value());
  model::Model& m = built.model;
  const auto way = [&] { return check::frame_stability({m, *response}, tables()).at(0).sentence; };
  CHECK(way().find("a part of it bends out") != std::string::npos);  // no corners are known
  m.parts.top_corners = {2};
  response->stability->shape.setZero();
  response->stability->shape(12) = 1.0;
  CHECK(way().find("it sways along") != std::string::npos);  // one corner can not turn
  response->stability->shape.setZero();
  CHECK(way().find("a part of it bends out while its top stays") != std::string::npos);
  m.parts.top_corners = {2, 5};  // far from the corner that is measured from, and apart
  for (const model::NodeId top : {2u, 5u}) m.nodes[top].at.x = m.nodes[top].at.x + metres(3);
  response->stability->shape(13) = response->stability->shape(31) = 1.0;
  CHECK(way().find("it sways across") != std::string::npos);
  response->stability->shape(31) = -1.0;
  CHECK(way().find("its top turns") != std::string::npos);
  CHECK(way().find("off the floor") == std::string::npos);
  response->states[response->stability->combination]->touching[0] = false;
  CHECK(way().find("its top turns, a foot off the floor") != std::string::npos);
}

TEST_CASE("check/rare_frames: after creep: nothing lasts, nothing presses, no answer") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 0, 0, -3000);
  solve::PlateCache plates;
  const auto response = solve::static_response(built.model, plates, 10.0);
  REQUIRE(response.has_value());
  model::Model crept = built.model;
  solve::Response later = *response;
  check::Answers answers{built.model, *response};
  answers.creep_model = &crept;
  answers.creep_response = &later;
  const auto says_creep = [&] {
    return tells(check::frame_stability(answers, tables()).at(0), "after creep, under what lasts");
  };
  CHECK_FALSE(says_creep());  // no combination of what lasts
  crept.combinations[0].name = "strength-stored";
  CHECK(says_creep());
  later.loadings[0].terms[0].factor = -1.0;  // it hangs: nothing is pressed
  CHECK_FALSE(says_creep());
  later.prepared[1].reset();
  CHECK_FALSE(says_creep());
}

TEST_CASE("check/rare_frames: what buckles has no factor where its frame has none") {
  Solved bench = lathe_bench::solved({});
  bench.response.stability = solve::Stability{
      5.0, 0, Eigen::VectorXd::Zero(static_cast<Eigen::Index>(6 * bench.model.nodes.size()))};
  const std::size_t rest = at_rest(bench.model);
  bench.response.states[rest] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::buckles, "buckles", "", {}});
  const Finding f = check::frame_stability(bench.answers(), tables()).at(0);
  CHECK(tells(f, "it gives way under service-stored"));
  // A second that buckles, under twice the load and so at half the factor, is told in its place.
  const auto told = [&](const std::string& name) {
    return tells(check::frame_stability(bench.answers(), tables()).at(0),
                 "it gives way under " + name);
  };
  const std::size_t last = bench.model.combinations.size() - 1;
  REQUIRE(last > rest);
  bench.response.loadings[last] = bench.response.loadings[rest];
  for (model::Factored& term : bench.response.loadings[last].terms) term.factor *= 2.0;
  bench.response.states[last] = bench.response.states[rest];
  CHECK(told(bench.model.combinations[last].name));
  for (model::Factored& term : bench.response.loadings[last].terms) term.factor *= 0.25;
  CHECK(told("service-stored"));
  bench.response.states[last] =
      tl::unexpected(solve::Refusal{solve::Refusal::Why::tips, "tips", "", {}});
  // Turned upside down it tips before anything is known.
  for (model::Factored& term : bench.response.loadings[rest].terms) term.factor *= -1.0;
  CHECK_FALSE(tells(check::frame_stability(bench.answers(), tables()).at(0), "it gives way under"));
}

TEST_CASE("check/rare_frames: a mode of nothing is mixed; of one post alone it sways") {
  portal::Built light = portal::build({});
  for (model::Member& m : light.model.members) m.elastic.density = {};
  solve::Mode mode;
  mode.displacement =
      Eigen::VectorXd::Zero(static_cast<Eigen::Index>(6 * light.model.nodes.size()));
  CHECK(check::words_of(light.model, mode).shape == "mixed");
  CHECK(check::words_of(light.model, mode).share == 0.0);
  model::Model post;
  const model::NodeId foot = node(post, "foot", 0, 0, 0), head = node(post, "head", 0, 0, 0.9);
  member(post, "post", foot, head, 0.07, 0.07);
  post.members[0].elastic.density = quantity::from_si<quantity::Density>(420.0);
  mode.displacement = Eigen::VectorXd::Zero(12);
  mode.displacement(6) = 1.0;
  CHECK(check::words_of(post, mode).shape == "sways along");
  mode.displacement.setZero();
  mode.displacement(8) = 1.0;
  CHECK(check::words_of(post, mode).shape.find("up and down") != std::string::npos);
}

TEST_CASE("check/rare_frames: feet that lift under loads that nothing is known to lead") {
  Solved bench = lathe_bench::solved({});
  std::size_t lifted = 0;
  for (std::size_t c = 0; c < bench.model.combinations.size(); ++c) {
    Combination& combination = bench.model.combinations[c];
    if (combination.leading != Leading::lean || lifted > 0) continue;
    combination.leading = Leading::stand;  // with its place, but no lean and no shove
    const std::size_t down = bench.model.parts.feet[0].down;
    bench.response.states[c]->touching[down] = false;
    bench.response.states[c]->support_forces[down] = 0.0;
    ++lifted;
  }
  const auto lifts = [&] {
    const auto found = check::lifting_feet(bench.answers(), tables());
    const Finding* f = find(found, "foot-lifts/front-left-foot");
    REQUIRE(f != nullptr);
    return f->sentence;
  };
  const std::string said = lifts();
  bench.response.loadings.clear();
  CHECK(lifts() == said);
}

TEST_CASE("check/rare_frames: sag is judged where something is asked for, after creep as well") {
  Solved bench = lathe_bench::solved({});
  check::Answers answers = bench.answers();
  model::Model crept = bench.model;
  for (Combination& c : crept.combinations) {
    if (c.name == "final") c.name = "another";
  }
  answers.creep_model = &crept;
  answers.creep_response = &bench.response;
  for (const Finding& f : check::sag(answers, tables())) {
    CHECK(f.id.find("-final") == std::string::npos);
  }
  for (Combination& c : bench.model.combinations) c.purpose = Purpose::as_given;
  CHECK(check::sag(bench.answers(), tables()).empty());
}

TEST_CASE("check/rare_frames: a strip's axis may be listed from either end") {
  model::Strip strip;
  strip.along_x = true;
  strip.carriers = {metres(0.0), metres(1.0), metres(2.0)};
  std::vector<check::Sunk> axis(2);
  for (std::size_t i = 0; i < 2; ++i) {
    const double from = static_cast<double>(i);
    axis[i].from = from;
    axis[i].length = 1.0;
    axis[i].start = {from, 0.0};
    axis[i].end = {from + 1.0, 0.0};
    axis[i].down.add({0.0, 1.0, {from, 1.0}});  // sinks as x
  }
  const double forward = check::over_carriers(strip, axis)(1.5, 0.0);
  strip.carriers.push_back(metres(7.0));  // one that it does not reach
  std::reverse(axis.begin(), axis.end());
  CHECK(check::over_carriers(strip, axis)(1.5, 0.0) == doctest::Approx(forward));
  CHECK(forward == doctest::Approx(1.5));
}

TEST_CASE("check/rare_frames: it tips before a foot slips where feet grip like rubber") {
  for (const bool grips : {true, false}) {
    Solved bench = lathe_bench::solved({});
    bench.model.parts.bench.floor.friction = grips ? 50.0 : 0.0;
    for (const model::FootPlace& foot : bench.model.parts.feet) {
      for (const std::size_t s : {foot.grip_x, foot.grip_y}) {
        bench.model.supports[s].friction = grips ? 50.0 : 0.0;
      }
    }
    const Solved now(bench.model);
    const auto found = check::sliding(now.answers(), tables());
    const Finding* f = find(found, "sliding/push");
    REQUIRE(f != nullptr);
    CHECK(tells(*f, "it tips before a foot slips") == grips);
    if (!grips) CHECK(f->judgement == Judgement::exceeded);
  }
}

TEST_CASE("check/rare_frames: what stands exactly on its edge is held by nothing") {
  model::Parts parts = four_feet();
  parts.weights = {weight(model::Weight::Of::machine, "lathe", 400, 0.9, 0.0)};
  parts.bench.sheets = {sheet("top", bench::SheetPlace::top, "spruce plywood", 18)};
  const Rigid bench(std::move(parts));
  const auto found = check::tipping(bench.answers(), tables());
  CHECK(find(found, "tipping/push")->sentence ==
        "As planned and loaded nothing holds it from tipping to the front.");
}

TEST_CASE("check/rare_frames: a column with k_c about one axis alone counts as stocky") {
  check::Strengths f;
  f.f_m = {quantity::pascals(12e6), quantity::pascals(16e6)};
  f.k_m = 0.7;
  f.f_c_0 = quantity::pascals(14e6);
  const check::AboutAxes<quantity::Stress> bent{quantity::pascals(6e6), quantity::pascals(2e6)};
  const quantity::Stress pressed = quantity::pascals(7e6);
  CHECK(check::column_ratio(bent, pressed, f, {1.0, std::nullopt}) ==
        check::bending_compression_ratio(bent, pressed, f));
}

TEST_CASE("check/rare_frames: a thin brace that buckles wants to be thicker, or a cross") {
  portal::Built built = portal::build({});
  portal::add_force(built.model, 900, 0, -3000);
  model::Part brace;
  brace.name = "brace";
  brace.role = model::Role::brace;
  brace.timber = *tables().timber("C24");
  brace.width = brace.depth = quantity::millimetres(6);
  brace.members = {portal::detail::add_member(built.model, "brace", 0, 5, 0.019, 0.089, 3)};
  built.model.parts.parts.push_back(brace);
  bench::Brace drawn;
  drawn.to_post = 1;
  built.model.parts.bench.braces = {drawn};
  const portal::Solved solved = portal::solve(built);
  const check::SectionForces forces(solved.answers());
  const auto found = check::column_stability(solved.answers(), forces, tables());
  CHECK(find(found, "buckling/brace")->judgement == Judgement::exceeded);
  CHECK(find(found, "buckling/brace")->advice == "a thicker brace, or a cross of two");
}

TEST_CASE("check/rare_frames: a dial that shakes too much; a blank that meets no swing") {
  Solved bench = lathe_bench::solved({});
  bench::Machine& lathe = bench.model.parts.bench.machines[0];
  const auto hum = [&](const char* id) {
    const auto found = check::vibration(bench.answers(), tables());
    const Finding* f = find(found, id);
    REQUIRE_MESSAGE(f, id);
    return *f;
  };
  lathe.kind.rotating = quantity::kilograms(30.0);
  CHECK(hum("hum/mini-metal-lathe").advice.find("or keep to the speeds that do not shake") !=
        std::string::npos);
  lathe.kind = *tables().machine("wood lathe");
  lathe.kind.rotating = quantity::kilograms(1e-9);  // shavings
  CHECK(hum("hum/mini-metal-lathe-untrue").sentence.find("No speed of a fresh blank") == 0);
}

}  // namespace rare_frames_test
