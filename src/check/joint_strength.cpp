#include "check/joint_strength.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "check/words.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

double Shares::times(const Shares& other) const {
  double sum = 0.0;
  for (std::size_t i = 0; i < component_count; ++i) sum += at_[i] * other.at_[i];
  return sum;
}

Shares end_forces(const model::RailEnd& end, const solve::State& state) {
  const std::array<double, 12>& f = state.end_forces.at(end.member);
  // What the joint pushes this end of the rail with; outward means out of the rail.
  const std::size_t at = end.at_end ? 6 : 0;
  const double outward = end.at_end ? 1.0 : -1.0;
  const double N = outward * f[at], up_on_rail = f[at + 2];
  const double M_y = outward * f[at + 4];  // the internal moment: > 0 has the top in tension
  Shares forces;
  forces[Component::pull] = std::max(N, 0.0);
  forces[Component::push] = std::max(-N, 0.0);
  forces[Component::sideways] = std::abs(f[at + 1]);
  forces[Component::down] = std::max(up_on_rail, 0.0);
  forces[Component::up] = std::max(-up_on_rail, 0.0);
  forces[Component::twist] = std::abs(f[at + 3]);
  forces[Component::top] = std::max(M_y, 0.0);
  forces[Component::bottom] = std::max(-M_y, 0.0);
  forces[Component::flat] = std::abs(f[at + 5]);
  return forces;
}

JointFactors joint_factors(const reference::Tables& tables) {
  return {tables.constant("gamma_M connections").value, tables.constant("gamma_M0 steel").value,
          tables.constant("gamma_M2 steel").value};
}

OrWhy<double> joint_k_mod(const JointStrength& joint, reference::ServiceClass air,
                          reference::Duration duration, const reference::Tables& tables) {
  const OrWhy<double> rail = k_mod(joint.rail, air, duration, tables);
  if (!rail) return rail;
  const OrWhy<double> other = k_mod(joint.other, air, duration, tables);
  if (!other) return other;
  return std::sqrt(*rail * *other);
}

namespace {

ModeRatio group_ratio(const FastenerGroup& group, const Shares& forces, double k_mod,
                      const JointFactors& factors) {
  const double lateral = std::hypot(group.first.times(forces), group.second.times(forces)) +
                         group.turning.times(forces);
  const double axial = group.axial.times(forces);
  double v = 0.0, ax = 0.0;
  if (lateral != 0.0) {  // also where it is not a number
    v = lateral / in_si(design_value(group.F_v_k, k_mod, factors.gamma_M));
  }
  if (axial != 0.0) {
    double F_ax_d = in_si(design_value(group.F_ax_k, k_mod, factors.gamma_M));
    if (group.F_tens_k > Force{}) {
      F_ax_d = std::min(F_ax_d, in_si(group.F_tens_k) / factors.gamma_M2);
    }
    ax = axial / F_ax_d;
  }
  return {combined_ratio(ax, v), group.ductile && v > ax, group.name};
}

}  // namespace

ModeRatio worst_mode(const JointStrength& joint, const Shares& forces, double k_mod,
                     const JointFactors& factors) {
  expects(joint.why.empty(), "worst_mode: this joint is not judged");
  ModeRatio worst;
  const auto take = [&worst](const ModeRatio& mode) {
    if (std::isnan(worst.ratio) || mode.ratio <= worst.ratio) return;
    worst = mode;
  };
  for (const FastenerGroup& group : joint.groups) {
    take(group_ratio(group, forces, k_mod, factors));
  }
  for (const SimpleMode& mode : joint.modes) {
    const double R_d =
        mode.steel ? mode.R_k / factors.gamma_M0 : design_value(mode.R_k, k_mod, factors.gamma_M);
    const double demand = mode.demand.times(forces);
    // A mode that nothing loads says nothing, whatever its resistance.
    if (demand != 0.0) take({demand / R_d, mode.ductile, mode.name});
  }
  return worst;
}

Resistance bending_resistance(const JointStrength& joint, Component sense, double k_mod,
                              const JointFactors& factors) {
  expects(sense == Component::top || sense == Component::bottom,
          "bending_resistance: in the upright plane");
  Shares unit;
  unit[sense] = 1.0;
  const ModeRatio worst = worst_mode(joint, unit, k_mod, factors);
  const double moment = worst.ratio > 0.0 ? 1.0 / worst.ratio : 0.0;
  return {moment, worst.ductile, worst.name};
}

namespace {

/// Takes these forces away from all modes: something else carries them.
void forget(JointStrength& strength, std::initializer_list<Component> components) {
  for (const Component c : components) {
    for (FastenerGroup& group : strength.groups) {
      group.first[c] = group.second[c] = group.turning[c] = group.axial[c] = 0.0;
    }
    for (SimpleMode& mode : strength.modes) mode.demand[c] = 0.0;
    strength.pulls[c] = 0.0;
  }
}

void take_given_moment(JointStrength& strength, Moment M_k) {
  using enum Component;
  forget(strength, {top, bottom, flat, twist});
  strength.why_bending.clear();
  for (const Component c : {top, bottom, flat}) {
    SimpleMode mode{"the bending resistance given by the file", {}, in_si(M_k), false, false};
    mode.demand[c] = 1.0;
    strength.modes.push_back(std::move(mode));
  }
  strength.working.push_back(fmt::format("given by the file: M_Rk = {}", shown(M_k)));
}

void take_given_shear(JointStrength& strength, Force V_k) {
  using enum Component;
  forget(strength, {pull, push, sideways, down, up});
  FastenerGroup given;
  given.name = "the shear resistance given by the file";
  given.first[down] = given.first[up] = given.second[sideways] = 1.0;
  given.turning[pull] = 1.0;  // added to the shear: cautious
  given.F_v_k = V_k;
  strength.groups.push_back(std::move(given));
  strength.working.push_back(fmt::format("given by the file: V_Rk = {}", shown(V_k)));
}

JointStrength of_its_kind(const model::Model& model, const model::RailEnd& end,
                          const reference::Tables& tables) {
  JointStrength none;
  switch (end.joint.kind.fastening) {
    case reference::Fastening::bracket:
      return bracket_strength(model, end, tables);
    case reference::Fastening::bolts:
      return bolts_strength(model, end, tables);
    case reference::Fastening::gusset:
      return gusset_strength(model, end, tables);
    case reference::Fastening::end_grain_screws:
      return end_grain_strength(model, end, tables);
    case reference::Fastening::glue:
      none.why = "no published strength of such a glued joint is used here";
      none.advice = "write its moment and shear resistance from a test";
      return none;
    case reference::Fastening::lap_screws:
      return lap_screws_strength(model, end, tables);
    case reference::Fastening::pocket_screws:
      return pocket_screws_strength(model, end, tables);
    case reference::Fastening::half_lap:
      return half_lap_strength(model, end, tables);
    case reference::Fastening::tenon:
      return tenon_strength(model, end, tables);
    case reference::Fastening::none:
      break;
  }
  none.why = "the file says that it is a pin and not what holds it";
  none.advice = "name the fasteners, or write its shear resistance";
  return none;
}

/// Values given by the file stand in the place of the computed ones. A joint that has no strength
/// here is judged again for what is given.
void take_given(JointStrength& strength, const bench::Joint& joint) {
  const bool is_pin = joint.kind.fastening == reference::Fastening::none;
  if (joint.shear_resistance && !strength.why.empty()) {
    if (!is_pin) strength.why_bending = strength.why;  // a pin bends freely
    strength.why.clear();
  }
  if (joint.moment_resistance) take_given_moment(strength, *joint.moment_resistance);
  if (joint.shear_resistance) take_given_shear(strength, *joint.shear_resistance);
}

}  // namespace

JointStrength joint_strength(const model::Model& model, const model::RailEnd& end,
                             const reference::Tables& tables) {
  const model::Part& rail = model.parts.parts.at(end.rail);
  JointStrength strength = of_its_kind(model, end, tables);
  strength.rail = rail.timber.material;
  if (end.joint.kind.fastening != reference::Fastening::gusset) {
    strength.other = model.parts.parts.at(end.onto).timber.material;
  }
  take_given(strength, end.joint);
  if (rail.bearing > Length{}) {
    forget(strength, {Component::down});
    strength.working.push_back("what presses down goes to the seat");
  }
  return strength;
}

}  // namespace standtrue::check
