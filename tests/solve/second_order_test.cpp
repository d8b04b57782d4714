#include <doctest/doctest.h>

#include <cmath>

#include "standtrue/model/divide.hpp"
#include "standtrue/solve/buckling.hpp"
#include "standtrue/solve/solve.hpp"
#include "tests/solve/plate_models.hpp"

namespace second_order_test {

// Second order and buckling as laws; published values are in reference/cases/d*.yaml.

using namespace standtrue;
using model::Freedom;
using quantity::from_si;
using quantity::metres;
using quantity::newtons;

namespace {

constexpr double E = 11e9, L = 2.0, side = 0.06;
const double I = std::pow(side, 4) / 12.0;

void hold(model::Model& m, model::NodeId node, bool rotation, model::Direction along) {
  model::Support support;
  support.node = node;
  support.rotation = rotation;
  support.along = along;
  support.name = "s" + std::to_string(m.supports.size());
  m.supports.push_back(support);
}

/// A post clamped at its foot, pressed and pushed at its head; no shear.
model::Model post(double pressed, double pushed, int pieces = 1) {
  model::Model m;
  m.nodes = {{"foot", {metres(0), metres(0), metres(0)}},
             {"head", {metres(0), metres(0), metres(L)}}};
  model::Member member;
  member.name = "post";
  member.start = 0;
  member.end = 1;
  member.elastic = {from_si<model::Stress>(E), from_si<model::Stress>(E / 16.0), {}};
  member.section = model::rectangle(metres(side), metres(side));
  member.section.A_sy = member.section.A_sz = {};
  m.members.push_back(member);
  for (const bool rotation : {false, true}) {
    hold(m, 0, rotation, {1, 0, 0});
    hold(m, 0, rotation, {0, 1, 0});
    hold(m, 0, rotation, {0, 0, 1});
  }
  model::LoadCase press, push;
  press.name = "press";
  press.node_loads.push_back({1, {newtons(0), newtons(0), newtons(-pressed)}, {}, {}});
  push.name = "push";
  push.node_loads.push_back({1, {newtons(pushed), newtons(0), newtons(0)}, {}, {}});
  m.cases = {press, push};
  return pieces == 1 ? m : model::divided(m, pieces).model;
}

solve::Loading moved(double press, double push, std::array<double, 2> lean = {0.0, 0.0}) {
  solve::Loading loading{{{0, press}, {1, push}}, {}};
  loading.second_order = true;
  loading.lean = lean;
  return loading;
}

double euler() { return std::pow(3.14159265358979323846, 2) * E * I / (4.0 * L * L); }

solve::State answer(const model::Model& m, const solve::Loading& loading) {
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  const auto state = solve::respond(*prepared, loading);
  REQUIRE_MESSAGE(state.has_value(), state.error().what);
  return *state;
}

}  // namespace

TEST_CASE(
    "solve/second_order: a cantilever under P and H moves as H L^3 3 (tan a - a)/(3 E I a^3)") {
  // Closed form: M = H L tan(a)/a with a = L sqrt(P/E I); Timoshenko & Gere (from memory).
  for (const double share : {0.1, 0.5, 0.9}) {
    CAPTURE(share);
    const double P = share * euler(), H = 100.0;
    const double a = L * std::sqrt(P / (E * I));
    const double moves = H * std::pow(L, 3) / (E * I) * (std::tan(a) - a) / std::pow(a, 3);
    const solve::State state = answer(post(P, H, 16), moved(1.0, 1.0));
    // Cubics in 16 pieces lie 5e-8 over the buckling load; that share is magnified by 1/(1 -
    // share).
    CHECK(state.at(1, Freedom::x) == tests::close_to(moves, 1e-5));
    const double M = H * L * std::tan(a) / a;
    CHECK(std::abs(state.end_forces[0][4]) == tests::close_to(M, 1e-5));
  }
}

TEST_CASE("solve/second_order: with no axial force it is the first order, to the last figures") {
  const model::Model m = post(0.0, 100.0);
  const auto prepared = solve::prepare(m);
  REQUIRE(prepared.has_value());
  const auto first = solve::respond(*prepared, {{{0, 1.0}, {1, 1.0}}, {}});
  const solve::State second = answer(m, moved(1.0, 1.0));
  CHECK((first->displacement - second.displacement).norm() <= 1e-14 * first->displacement.norm());
}

TEST_CASE(
    "solve/second_order: a lean of 1 in n is a push of P/n at the head, to first order in P") {
  // EN 1995-1-1, 5.4.4 by its equivalent force; the difference is of the order of P over the
  // buckling load.
  const double share = 1e-6;
  const double P = share * euler();
  const solve::State leaning = answer(post(P, 0.0), moved(1.0, 0.0, {1.0 / 200.0, 0.0}));
  const double moves = (P / 200.0) * std::pow(L, 3) / (3.0 * E * I);
  CHECK(leaning.at(1, Freedom::x) == tests::close_to(moves, 1e-5));
  CHECK(std::abs(leaning.at(1, Freedom::y)) < 1e-12 * moves);
  const solve::State other = answer(post(P, 0.0), moved(1.0, 0.0, {0.0, -1.0 / 200.0}));
  CHECK(other.at(1, Freedom::y) == tests::close_to(-moves, 1e-5));
  // The moment at the foot is that of the head's weight at its arm, and the foot feels no push.
  CHECK(std::abs(leaning.end_forces[0][4]) == tests::close_to(P * L / 200.0, 1e-5));
  CHECK(std::abs(leaning.support_forces[0]) < 1e-9 * P);
}

TEST_CASE(
    "solve/second_order: beyond the buckling load it is refused, as near as a tenth of a per "
    "cent") {
  for (const double share : {1.001, 1.5, 3.0}) {
    CAPTURE(share);
    const auto prepared = solve::prepare(post(share * euler(), 100.0, 8));
    REQUIRE(prepared.has_value());
    const auto state = solve::respond(*prepared, moved(1.0, 1.0));
    REQUIRE_FALSE(state.has_value());
    CHECK(state.error().why == solve::Refusal::Why::buckles);
  }
  const solve::State below = answer(post(0.99 * euler(), 100.0, 8), moved(1.0, 1.0));
  CHECK(below.at(1, Freedom::x) > 0.0);
}

TEST_CASE("solve/second_order: moments along a member take the axial force at its arm") {
  // One piece. Exact: M = H L/a (tan a cos(a x/L) - sin(a x/L)), a = L sqrt(P/E I); Timoshenko &
  // Gere (from memory). A cubic stands for the shape: half a per cent at half the buckling load.
  const double P = 0.5 * euler(), H = 100.0;
  const model::Model m = post(P, H);
  const auto prepared = solve::prepare(m);
  const solve::Loading loading = moved(1.0, 1.0);
  const auto state = solve::respond(*prepared, loading);
  REQUIRE(state.has_value());
  const solve::MemberDiagrams d = solve::diagrams(*prepared, 0, loading, *state);
  const double head = state->at(1, Freedom::x);
  const double foot_moment = H * L + P * head;
  CHECK(std::abs(d.M_y.at(0.0)) == tests::close_to(foot_moment, 1e-9));
  CHECK(std::abs(d.M_y.at(L)) < 1e-9 * foot_moment);
  CHECK(d.w.at(L) == tests::close_to(head, 1e-9));
  const double a = L * std::sqrt(P / (E * I));
  for (const double share : {0.2, 0.5, 0.8}) {
    CAPTURE(share);
    const double exact = H * L / a * (std::tan(a) * std::cos(a * share) - std::sin(a * share));
    CHECK(std::abs(d.M_y.at(share * L)) == tests::close_to(exact, 1e-2));
  }
}

TEST_CASE("solve/second_order: a weak way that nothing pushes is not overlooked") {
  // Above the buckling load of the weak axis and far below that of the strong one.
  model::Model m = post(1.0, 100.0);
  m.members[0].section.I_z = 0.25 * m.members[0].section.I_y;  // bends across
  m = model::divided(m, 4).model;
  const auto prepared = solve::prepare(m);
  const auto state = solve::respond(*prepared, moved(0.4 * euler(), 1.0));
  REQUIRE_FALSE(state.has_value());
  CHECK(state.error().why == solve::Refusal::Why::buckles);
  CHECK(solve::respond(*prepared, moved(0.2 * euler(), 1.0)).has_value());
}

TEST_CASE(
    "solve/second_order: stiffness over gamma is a frame so much softer, as far as forces go") {
  const double gamma = 1.3, P = 0.4 * euler(), H = 100.0;
  model::Model soft = post(P, H, 4);
  for (model::Member& member : soft.members) {
    member.elastic.E = member.elastic.E / gamma;
    member.elastic.G = member.elastic.G / gamma;
  }
  solve::Loading over = moved(1.0, 1.0, {1.0 / 200.0, 0.0});
  const solve::State softer = answer(soft, over);
  over.stiffness_over = gamma;
  const solve::State divided = answer(post(P, H, 4), over);
  for (std::size_t i = 0; i < 12; ++i) {
    CHECK(std::abs(softer.end_forces[0][i] - divided.end_forces[0][i]) < 1e-6 * P);
  }
  CHECK(softer.at(1, Freedom::x) == tests::close_to(gamma * divided.at(1, Freedom::x), 1e-6));
}

TEST_CASE("solve/buckling: loads twice as large have half the factor; pulled frames have none") {
  const model::Model m = post(1.0, 0.0, 8);
  const auto prepared = solve::prepare(m);
  const auto one = solve::respond(*prepared, {{{0, 1000.0}}, {}});
  const auto two = solve::respond(*prepared, {{{0, 2000.0}}, {}});
  const auto pulled = solve::respond(*prepared, {{{0, -1000.0}}, {}});
  const auto at_one = solve::buckling(*prepared, *one, 2);
  const auto at_two = solve::buckling(*prepared, *two, 2);
  REQUIRE(at_one.has_value());
  REQUIRE(at_one->size() == 2);
  // A square post gives way alike in both directions.
  CHECK((*at_one)[0].factor == tests::close_to((*at_one)[1].factor, 1e-9));
  CHECK((*at_one)[0].factor == tests::close_to(2.0 * (*at_two)[0].factor, 1e-9));
  double moves = 0.0;
  for (Eigen::Index i = 0; i < (*at_one)[0].shape.size(); ++i) {
    if (i % 6 < 3) moves = std::max(moves, std::abs((*at_one)[0].shape(i)));
  }
  CHECK(moves == tests::close_to(1.0, 1e-12));  // of movements, whatever it turns by
  const auto none = solve::buckling(*prepared, *pulled);
  REQUIRE(none.has_value());
  CHECK(none->empty());
}

TEST_CASE("solve/buckling: shapes of one state tell the factor of another") {
  // Exactly for the same state and its multiples (the laws above); never below what a solve finds
  // where the load is elsewhere (Rayleigh), and near it.
  model::Model m = post(1.0, 0.0, 8);
  model::LoadCase middle;
  middle.name = "at the middle";
  middle.node_loads.push_back({5, {}, {}, {}});
  middle.node_loads.back().force.z = quantity::newtons(-1.0);
  m.cases.push_back(middle);
  const auto half = static_cast<model::CaseId>(m.cases.size() - 1);
  const auto prepared = solve::prepare(m);
  const auto at_head = solve::respond(*prepared, {{{0, 1000.0}}, {}});
  const auto twice = solve::respond(*prepared, {{{0, 2000.0}}, {}});
  const auto lower = solve::respond(*prepared, {{{0, 200.0}, {half, 800.0}}, {}});
  const auto pulled = solve::respond(*prepared, {{{0, -1000.0}}, {}});
  const solve::Buckling frame(*prepared, *at_head);
  const auto shapes = frame.modes(*at_head, 4);
  REQUIRE(shapes.has_value());
  REQUIRE(shapes->size() == 4);
  const solve::AlikeBuckling alike(*prepared, *at_head, *shapes);
  const double factor = shapes->front().factor;
  CHECK(alike.trial_factor(*at_head) == tests::close_to(factor, 1e-9));
  CHECK(alike.trial_factor(*twice) == tests::close_to(0.5 * factor, 1e-9));
  CHECK(std::isinf(alike.trial_factor(*pulled)));
  const double exact = frame.modes(*lower)->front().factor;
  CHECK(exact > factor);
  CHECK(alike.trial_factor(*lower) >= exact);
  CHECK(alike.trial_factor(*lower) < 1.05 * exact);
  // By hand, with the shape 1 - cos(pi x/2 L) alone: of its slopes squared the lower half has
  // (L/4 - L/2 pi)/(L/2) = 1/2 - 1/pi; the two ways of a square post share no slopes.
  const solve::AlikeBuckling one_shape(*prepared, *at_head, {shapes->front()});
  const double pi = std::acos(-1.0);
  CHECK(one_shape.trial_factor(*lower) ==
        tests::close_to(factor / (0.2 + 0.8 * (0.5 - 1.0 / pi)), 1e-4));
}

TEST_CASE(
    "solve/buckling: a spring that is let go holds nothing: Euler's cantilever, by both roads") {
  for (const int pieces : {1, 24}) {
    CAPTURE(pieces);
    model::Model m = post(0.5 * euler(), 10.0);
    hold(m, 1, false, {0, 1, 0});
    model::Support beside;  // holds a head that comes to it, and this one goes
    beside.name = "beside";
    beside.node = 1;
    beside.along = {1, 0, 0};
    beside.press_only = true;
    beside.stiffness = 1e7;
    m.supports.push_back(beside);
    if (pieces > 1) m = model::divided(m, pieces).model;
    const auto prepared = solve::prepare(m);
    REQUIRE(prepared.has_value());
    const auto state = solve::respond(*prepared, moved(1.0, 1.0));
    REQUIRE(state.has_value());
    REQUIRE_FALSE(state->touching.back());
    // One cubic element is 0.75 % too stiff for a cantilever (2.486 of 2.467 E I/L^2).
    CHECK(solve::buckling(*prepared, *state)->front().factor ==
          doctest::Approx(2.0).epsilon(pieces == 1 ? 0.01 : 1e-6));
    // The head that comes is held there: a column clamped below and pinned above, 8.18 times as
    // strong.
    const auto pressed = solve::respond(*prepared, moved(3.0, -1.0));
    CHECK(pressed.has_value());
    const auto beyond = solve::respond(*prepared, moved(2.2, 1.0));
    REQUIRE_FALSE(beyond.has_value());
    CHECK(beyond.error().why == solve::Refusal::Why::buckles);
  }
}

TEST_CASE("solve/buckling: the sparse road finds what the dense one does") {
  // 16 pieces have 96 unknowns and go by Lanczos, 8 have 48 and go in full; cubics converge as h^4.
  const auto factor = [](int pieces) {
    const auto prepared = solve::prepare(post(1.0, 0.0, pieces));
    const auto state = solve::respond(*prepared, {{{0, 1.0}}, {}});
    return solve::buckling(*prepared, *state)->front().factor;
  };
  const double exact = euler();
  CHECK(factor(8) == tests::close_to(exact, 4e-6));
  CHECK(factor(16) == tests::close_to(exact, 3e-7));
  CHECK((factor(8) - exact) / (factor(16) - exact) == doctest::Approx(16.0).epsilon(0.2));
}

TEST_CASE(
    "solve/buckling: second order grows as 1/(1 - 1/alpha) where the mode is what is pushed") {
  // Near the buckling load the mode alone answers: the law becomes exact.
  const double share = 0.98;
  const model::Model m = post(share * euler(), 100.0, 16);
  const auto prepared = solve::prepare(m);
  const auto first = solve::respond(*prepared, {{{0, 1.0}, {1, 1.0}}, {}});
  const solve::State second = answer(m, moved(1.0, 1.0));
  const double growth = second.at(1, Freedom::x) / first->at(1, Freedom::x);
  // The mode holds 32/π^4 (3 of a cantilever's tip: 0.986) of what a push at the head does.
  CHECK(growth == doctest::Approx(1.0 / (1.0 - share)).epsilon(0.02));
}

}  // namespace second_order_test
