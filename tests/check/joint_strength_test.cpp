#include <doctest/doctest.h>

#include <cmath>

#include "tests/check/joint_cases.hpp"

namespace joint_strength_test {

using namespace joint_cases;

TEST_CASE(
    "check/joint_strength: end forces by sense: a clamped end hogs, and its rail presses down") {
  Portal p;
  p.bend = 1e6;
  portal::Built built = portal::build(p);
  portal::add_force(built.model, 0, 0, -1000);
  portal::Solved solved = portal::solve(built);
  for (const model::RailEnd& end : solved.model.parts.rail_ends) {
    const Shares f = check::end_forces(end, *solved.response.states[0]);
    CHECK(f[Component::down] == doctest::Approx(500));
    CHECK(f[Component::up] == 0.0);
    CHECK(f[Component::top] > 50.0);  // up to PL/8 = 164 N m
    CHECK(f[Component::top] < 164.0);
    CHECK(f[Component::bottom] == 0.0);
  }
  // A push to the right in mid-span presses the right post and pulls at the left one.
  portal::Built pushed = portal::build(p);
  portal::add_force(pushed.model, 1000, 0, 0);
  solved = portal::solve(pushed);
  const auto& ends = solved.model.parts.rail_ends;
  const Shares left = check::end_forces(ends[0], *solved.response.states[0]);
  const Shares right = check::end_forces(ends[1], *solved.response.states[0]);
  CHECK(left[Component::pull] == doctest::Approx(500).epsilon(0.01));
  CHECK(right[Component::push] == doctest::Approx(500).epsilon(0.01));
  CHECK(left[Component::push] == 0.0);
}

TEST_CASE(
    "check/joint_strength: glue and pins have no strength here but the one that the file gives") {
  Portal glued;
  glued.joint = "glued";
  CHECK_FALSE(strength(glued).why.empty());
  const auto give = [](bool moment, bool shear) {
    return [moment, shear](portal::Built& b) {
      if (moment) b.joint(0).moment_resistance = quantity::newton_metres(300);
      if (shear) b.joint(0).shear_resistance = newtons(2000);
    };
  };
  CHECK_FALSE(strength(glued, give(true, false)).why.empty());
  const JointStrength shear_only = strength(glued, give(false, true));
  CHECK(shear_only.why.empty());
  CHECK_FALSE(shear_only.why_bending.empty());
  const JointStrength both = strength(glued, give(true, true));
  CHECK(both.why.empty());
  CHECK(both.why_bending.empty());
  CHECK(bends(both, Component::top).moment == doctest::Approx(300 * 0.9 / 1.3));
  CHECK_FALSE(bends(both, Component::top).ductile);
  CHECK(under(both, Component::down, 1000).ratio == doctest::Approx(1000 * 1.3 / 0.9 / 2000));
  Portal pin;
  pin.joint = "pinned";
  CHECK_FALSE(strength(pin).why.empty());
  const JointStrength held = strength(pin, give(false, true));
  CHECK(held.why.empty());
  CHECK(held.why_bending.empty());
  // A bracket's own figures give way to those of the file.
  const JointStrength bracket = strength({}, give(true, false));
  CHECK(bends(bracket, Component::top).moment == doctest::Approx(300 * 0.9 / 1.3));
  CHECK(under(bracket, Component::down, 100).name == "screws in the post");
}

TEST_CASE("check/joint_strength: what presses down on a seat is no matter of the fasteners") {
  Portal p;
  p.bearing = 0.09;
  const JointStrength joint = strength(p);
  CHECK(under(joint, Component::down, 1e6).ratio == 0.0);
  CHECK(under(joint, Component::up, 100).ratio > 0.0);
}

TEST_CASE(
    "check/joint_strength: forces that are no numbers, and joints without strength, never pass") {
  const JointStrength joint = strength({});
  for (std::size_t c = 0; c < check::component_count; ++c) {
    CHECK(std::isnan(under(joint, static_cast<Component>(c), std::nan("")).ratio));
  }
  Portal glued;
  glued.joint = "glued";
  CHECK_THROWS_AS((void)under(strength(glued), Component::down, 1.0), std::logic_error);
  CHECK_THROWS_AS((void)bends(joint, Component::down), std::logic_error);
}

TEST_CASE("check/joint_strength: a bigger force is never better, a stronger timber never worse") {
  for (const char* kind : {"corner brackets", "two corner brackets", "plywood gusset"}) {
    double last = 0.0;
    for (const char* timber : {"C14", "C16", "C24", "C30"}) {
      Portal p;
      p.joint = kind;
      p.timber = timber;
      const double M = bends(strength(p), Component::top).moment;
      CHECK(M >= last * (1 - 1e-12));
      last = M;
    }
    const JointStrength joint = strength([&] {
      Portal p;
      p.joint = kind;
      return p;
    }());
    for (std::size_t c = 0; c < check::component_count; ++c) {
      const auto component = static_cast<Component>(c);
      CHECK(under(joint, component, 20).ratio <= under(joint, component, 30).ratio);
    }
  }
}

TEST_CASE(
    "check/joint_strength: k_mod of two materials is the root of both; one may have none (2.6)") {
  JointStrength joint;
  joint.rail = reference::Material::solid_timber;
  joint.other = reference::Material::osb_3;
  const auto k = [&](reference::ServiceClass air) {
    return check::joint_k_mod(joint, air, Duration::permanent, tables());
  };
  CHECK(*k(reference::ServiceClass::sc1) == doctest::Approx(std::sqrt(0.6 * 0.4)));
  CHECK_FALSE(k(reference::ServiceClass::sc3).has_value());
  joint.rail = reference::Material::osb_2;
  CHECK_FALSE(k(reference::ServiceClass::sc3).has_value());
}

TEST_CASE("check/joint_strength: a shear of the file stands in the place of a bracket's own") {
  const JointStrength joint =
      strength({}, [](portal::Built& b) { b.joint(0).shear_resistance = newtons(2000); });
  CHECK(joint.why_bending.empty());
  CHECK(under(joint, Component::down, 1000).name == "the shear resistance given by the file");
  CHECK(bends(joint, Component::top).moment == doctest::Approx(M_pl));
}

}  // namespace joint_strength_test
