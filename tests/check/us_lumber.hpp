#pragma once

#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "standtrue/check/allowable.hpp"
#include "tests/check/portal.hpp"

/// A portal of US lumber under one combination of allowable stress.
namespace us_lumber {

using namespace standtrue;
using check::Finding;
using check::Judgement;
using portal::Check;
using portal::Portal;
using portal::run;
using quantity::in_si;
using quantity::metres;
using quantity::millimetres;
using reference::Duration;

/// 4x4 posts, a 2x4 rail on edge.
inline Portal us_portal(const char* grade = "SPF No.2") {
  Portal p;
  p.post = 0.0889;
  p.rail_width = 0.0381;
  p.rail_depth = 0.0889;
  p.timber = grade;
  p.bend = 1e-3;
  return p;
}
inline void allow(portal::Built& built) {
  built.model.parts.bench.rules = bench::Rules::allowable_stress;
  built.model.combinations.back().purpose = model::Purpose::allowable;
}
inline portal::Built loaded(const Portal& p, double fx, double fy, double fz,
                            Duration duration = Duration::short_term) {
  portal::Built built = portal::build(p);
  portal::add_force(built.model, fx, fy, fz, model::Leading::stand, duration);
  allow(built);
  return built;
}
inline Finding run(Check check, const portal::Built& built, const std::string& id) {
  return portal::find(run(check, built), id);
}
inline constexpr double L = 1.4 - 0.0889;  ///< clear length of the rail
inline constexpr double psi = 6894.757293168;
inline constexpr double b = 0.0381, d = 0.0889;

}  // namespace us_lumber
