#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "check/joint_legs.hpp"
#include "check/joint_strength.hpp"
#include "standtrue/check/joints.hpp"
#include "tests/check/portal.hpp"

/// The left joint of a portal, changed at will, and what it bears.
namespace joint_cases {

using namespace standtrue;
using check::Component;
using check::Finding;
using check::JointRatio;
using check::JointStrength;
using check::Judgement;
using check::ModeRatio;
using check::Resistance;
using check::Shares;
using portal::Check;
using portal::find;
using portal::Portal;
using portal::run;
using quantity::in_si;
using quantity::metres;
using quantity::millimetres;
using quantity::newtons;
using reference::Duration;

inline const reference::Tables& tables() { return portal::tables(); }

/// The left joint of a portal, as it is before or after `change`.
template <class Change>
JointStrength strength(const Portal& p, Change change) {
  portal::Built built = portal::build(p);
  change(built);
  return check::joint_strength(built.model, built.model.parts.rail_ends[0], tables());
}
inline JointStrength strength(const Portal& p) {
  return strength(p, [](portal::Built&) {});
}

inline Resistance bends(const JointStrength& joint, Component sense, double k_mod = 0.9) {
  return check::bending_resistance(joint, sense, k_mod, check::joint_factors(tables()));
}
inline ModeRatio under(const JointStrength& joint, Component component, double size,
                       double k_mod = 0.9) {
  Shares forces;
  forces[component] = size;
  return check::worst_mode(joint, forces, k_mod, check::joint_factors(tables()));
}

inline bool says(const std::vector<std::string>& lines, const std::string& words) {
  return std::any_of(lines.begin(), lines.end(), [&](const std::string& line) {
    return line.find(words) != std::string::npos;
  });
}

inline constexpr double M_pl = 250e6 * 0.06 * 2.5e-3 * 2.5e-3 / 4.0;  ///< 23.4 N m

}  // namespace joint_cases
