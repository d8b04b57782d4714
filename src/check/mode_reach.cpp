// All numbers SI (m, kg, Hz).
#include "check/mode_reach.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace standtrue::check {

using quantity::in_si;

namespace {

double moved_to(double f, const ModeReach& reach, double by) {
  return by < 0.0 ? f / std::pow(reach.down, -by) : f * std::pow(reach.up, by);
}

/// How far all modes move where this one meets a speed; beyond -1 and 1 it does not.
double meets(double f, const ModeReach& reach, double speed) {
  return speed < f ? std::log(speed / f) / std::log(reach.down)
                   : std::log(speed / f) / std::log(reach.up);
}

/// Evenly spread, and wherever a mode meets the slowest or the fastest speed.
std::vector<double> ways_to_move(const std::vector<double>& frequencies,
                                 const std::vector<ModeReach>& reaches, const Speeds& speeds) {
  constexpr int steps = 20;
  std::vector<double> all;
  for (int i = -steps; i <= steps; ++i) all.push_back(1.0 * i / steps);
  for (std::size_t i = 0; i < frequencies.size(); ++i) {
    for (const double speed : {speeds.from, speeds.to}) {
      const double by = meets(frequencies[i], reaches[i], speed);
      if (std::abs(by) < 1.0) all.push_back(by);
    }
  }
  return all;
}

/// It shakes most where a mode is met, or at an end.
double shaken_most(const Shaker& shaker, const std::vector<double>& frequencies,
                   const Speeds& speeds, double damping) {
  double worst = std::max(shaker.at(speeds.from, damping, frequencies).velocity(),
                          shaker.at(speeds.to, damping, frequencies).velocity());
  for (const double f : frequencies) {
    if (f <= speeds.from || f >= speeds.to) continue;
    worst = std::max(worst, shaker.at(f, damping, frequencies).velocity());
  }
  return worst;
}

}  // namespace

double both_together(double a, double b) { return std::exp(std::hypot(std::log(a), std::log(b))); }

double farthest_down(const reference::Tables& tables) {
  return both_together(std::sqrt(tables.constant("joint band").value), beside_joints);
}

ModeReach reach_of(const solve::Mode& mode, const model::Model& model,
                   const reference::Tables& tables) {
  const double joints = mode.in_springs.ends + mode.in_springs.slip;
  const bench::Floor& floor = model.parts.bench.floor;
  const double feet = floor.down ? 0.0 : mode.in_springs.supports;
  const double band = tables.constant("joint band").value;
  const auto& contact = floor.surface.contact;
  const double soft = in_si(contact.mean) / in_si(contact.soft);
  const double stiff = in_si(contact.stiff) / in_si(contact.mean);
  const double rest = 1.0 - joints - feet;
  return {both_together(std::sqrt(rest + joints * band + feet * soft), beside_joints),
          both_together(1.0 / std::sqrt(rest + joints / band + feet / stiff), beside_joints)};
}

Shaken shaken(const Shaker& shaker, const std::vector<ModeReach>& reaches, const Speeds& speeds,
              const Dampings& dampings) {
  const std::vector<double> computed = shaker.frequencies();
  Shaken found{0.0, std::numeric_limits<double>::infinity()};
  for (const double by : ways_to_move(computed, reaches, speeds)) {
    std::vector<double> moved = computed;
    for (std::size_t i = 0; i < moved.size(); ++i) moved[i] = moved_to(moved[i], reaches[i], by);
    found.liveliest = std::max(found.liveliest, shaken_most(shaker, moved, speeds, dampings.low));
    found.calmest = std::min(found.calmest, shaken_most(shaker, moved, speeds, dampings.high));
  }
  return found;
}

}  // namespace standtrue::check
