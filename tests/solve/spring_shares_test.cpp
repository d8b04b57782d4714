// How much of a mode's strain energy lies in springs: by hand, and by what their change does.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <utility>

#include "tests/solve/swinging_models.hpp"

namespace spring_shares_test {

using namespace standtrue;
using namespace standtrue::quantity;
using namespace standtrue::tests;

namespace {

constexpr double E = 11.2e9, L = 1.2, b = 0.045, h = 0.095, kg = 8.0;
constexpr double EI = E * b * h * h * h / 12.0;

/// A cantilever without mass or shear strain, and a mass on its tip.
model::Model cantilever() {
  model::Model m;
  m.nodes = {swinging_node("foot", 0.0, 0.0, 0.0), swinging_node("tip", L, 0.0, 0.0)};
  m.members = {swinging_member(0, 1, 1e3 * b, 1e3 * h, 0.0)};
  m.members[0].section.A_sy = m.members[0].section.A_sz = Area{};
  m.masses = {point_mass(1, kg)};
  return m;
}

/// Its joint turns by M/k about y.
model::Model on_joint(double k) {
  model::Model m = cantilever();
  support(m, 0, all_six);
  m.members[0].start_springs[4] = model::EndSpring::elastic(9.0 * k, k);
  return m;
}

using Share = std::function<double(const solve::Mode::InSprings&)>;
using Scale = std::function<void(model::Model&, double)>;

void scale_ends(model::Model& m, double by) {
  for (model::Member& one : m.members) {
    for (model::EndSprings* springs : {&one.start_springs, &one.end_springs}) {
      for (model::EndSpring& spring : *springs) {
        spring.gravity *= by;
        spring.sway *= by;
      }
    }
  }
}

void scale_slip(model::Model& m, double by) {
  for (model::PlateTie& tie : m.plates[0].ties) {
    tie.stiffness[0] *= by;
    tie.stiffness[1] *= by;
  }
}

void scale_supports(model::Model& m, double by) {
  for (model::Support& one : m.supports) {
    if (one.stiffness) *one.stiffness *= by;
  }
}

}  // namespace

TEST_CASE("solve/spring_shares: a joint in series with a cantilever (own, by hand)") {
  // The tip gives L³/(3 E I) + L²/k. With k = 3 E I/L both are alike: a half each. A joint c times
  // as stiff makes that 1 + 1/c of the first: f of a clamped one over √2, 2 and √(4/3).
  const double clamped = std::sqrt(3.0 * EI / (L * L * L) / kg) / (2.0 * pi);
  const double k = 3.0 * EI / L;
  const auto upright = [](double stiffness) {
    return modes_of(on_joint(stiffness), {}, model::SpringSet::sway).at(1);
  };
  const solve::Mode mode = upright(k);
  CHECK(mode.in_springs.ends == close_to(0.5, 1e-9));
  CHECK(mode.in_springs.slip == 0.0);
  CHECK(mode.in_springs.supports == 0.0);
  CHECK(mode.frequency == close_to(clamped / std::sqrt(2.0), 1e-9));
  CHECK(upright(k / 3.0).frequency == close_to(clamped / 2.0, 1e-9));
  CHECK(upright(3.0 * k).frequency == close_to(clamped * std::sqrt(0.75), 1e-9));
  // What swings sideways knows nothing of it.
  const solve::Mode sideways = modes_of(on_joint(k), {}, model::SpringSet::sway).at(0);
  CHECK(sideways.in_springs.ends == doctest::Approx(0.0).epsilon(1e-9));
}

TEST_CASE("solve/spring_shares: the same cantilever on a foot that turns (own, by hand)") {
  model::Model m = cantilever();
  support(m, 0, {0, 1, 2, 3, 5});
  support(m, 0, {4}, 3.0 * EI / L);
  const solve::Mode mode = modes_of(m).at(1);
  CHECK(mode.in_springs.supports == close_to(0.5, 1e-9));
  CHECK(mode.in_springs.ends == 0.0);
}

TEST_CASE("solve/spring_shares: a share is what λ grows by with its springs (d ln λ/d ln k)") {
  const std::array<std::pair<Scale, Share>, 3> kinds{
      {{scale_ends, [](const solve::Mode::InSprings& s) { return s.ends; }},
       {scale_slip, [](const solve::Mode::InSprings& s) { return s.slip; }},
       {scale_supports, [](const solve::Mode::InSprings& s) { return s.supports; }}}};
  for (const model::SpringSet springs : {model::SpringSet::gravity, model::SpringSet::sway}) {
    model::Model m = table();
    m.plates[0].ties[3].gravity_only = true;  // holds nothing under sway
    // A member's mass follows its springs, which would be in the growth but is no strain.
    for (model::Member& one : m.members) one.elastic.density = {};
    const std::vector<solve::Mode> modes = modes_of(m, {20, 0.0, nullptr}, springs);
    for (const auto& [scale, share] : kinds) {
      constexpr double step = 1e-4;
      model::Model more = m, less = m;
      scale(more, 1.0 + step);
      scale(less, 1.0 - step);
      const std::vector<solve::Mode> up = modes_of(more, {20, 0.0, nullptr}, springs);
      const std::vector<solve::Mode> down = modes_of(less, {20, 0.0, nullptr}, springs);
      for (std::size_t i = 0; i < 8; ++i) {
        CAPTURE(i);
        // Of λ = (2π f)²; the step's own error is its square.
        const double growth = std::log(up[i].frequency / down[i].frequency) / step;
        CHECK(std::abs(share(modes[i].in_springs) - growth) < 2e-6);
      }
    }
    for (const solve::Mode& mode : modes) {
      const solve::Mode::InSprings& s = mode.in_springs;
      CHECK(std::min({s.ends, s.slip, s.supports}) >= 0.0);
      CHECK(s.ends + s.slip + s.supports < 1.0);
    }
  }
}

}  // namespace spring_shares_test
