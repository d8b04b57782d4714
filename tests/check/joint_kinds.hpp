#pragma once

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "check/joint_strength.hpp"
#include "tests/check/portal.hpp"

/// Joints without steel plates, at the left end of a portal's rail of 45 x 95 mm.
namespace joint_kinds {

using namespace standtrue;

template <class Change>
check::JointStrength strength(const portal::Portal& p, Change change) {
  portal::Built built = portal::build(p);
  change(built);
  return check::joint_strength(built.model, built.model.parts.rail_ends[0], portal::tables());
}
inline check::JointStrength strength(const portal::Portal& p) {
  return strength(p, [](portal::Built&) {});
}

inline double R_k(const check::JointStrength& joint, check::Component c, const std::string& name) {
  for (const check::SimpleMode& mode : joint.modes) {
    if (mode.name == name) return mode.R_k / mode.demand[c];
  }
  FAIL("no mode " << name);
  return 0.0;
}

inline portal::Portal portal_of(const char* joint) {
  portal::Portal p;
  p.joint = joint;
  p.rail_width = 0.045;
  p.rail_depth = 0.095;
  return p;
}

}  // namespace joint_kinds
