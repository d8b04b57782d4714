// All numbers SI (m, kg, Hz).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "check/answered.hpp"
#include "standtrue/check/vibration.hpp"

namespace standtrue::check {

using quantity::in_si;
using std::numbers::pi;

namespace {

/// Between ends that turn freely, and between ends that do not turn at all.
struct OwnSwing {
  std::string brace;
  double loose = 0.0, fast = 0.0;  ///< Hz
};

std::vector<OwnSwing> own_swings(const model::Model& model) {
  constexpr double clamped = 4.7300407;  // the first root of cos λ cosh λ = 1
  std::vector<OwnSwing> found;
  for (const model::BraceEnd& end : model.parts.brace_ends) {
    if (end.at_end) continue;  // each brace once
    const model::Member& member = model.members[end.member];
    const double L = in_si(model::member_frame(model, member).length);
    const double EI =
        in_si(member.elastic.E) * std::min(in_si(member.section.I_y), in_si(member.section.I_z));
    const double m = in_si(member.elastic.density) * in_si(member.section.A);
    const double slow = std::sqrt(EI / m) / (2.0 * pi * L * L);
    found.push_back({model.parts.parts[end.brace].name, pi * pi * slow, clamped * clamped * slow});
  }
  std::stable_sort(found.begin(), found.end(),
                   [](const OwnSwing& a, const OwnSwing& b) { return a.loose < b.loose; });
  return found;
}

std::string rpm_between(const OwnSwing& swing) {
  return fmt::format("{:.0f} to {:.0f} rpm", 60.0 * swing.loose, 60.0 * swing.fast);
}

/// Machines that run, or run through on starting, at such a speed.
std::string met_by(const bench::Bench& bench, const OwnSwing& swing) {
  std::string names;
  for (const bench::Machine& machine : bench.machines) {
    if (in_si(machine.speed_max) < swing.loose) continue;
    names += (names.empty() ? "the " : " and the ") + machine.name;
  }
  return names;
}

}  // namespace

std::vector<Finding> brace_swings(const Answers& answers) {
  if (!answers.at_mean || answers.model.parts.brace_ends.empty()) return {};
  const std::vector<OwnSwing> swings = own_swings(answers.model);
  const OwnSwing& slowest = swings.front();
  Finding f;
  f.id = "hum/braces";
  f.group = Group::hum;
  tell(f, "told, not judged: a brace that rattles carries no less");
  f.place = slowest.brace;
  f.rule = "f = λ²/(2π L²) √(EI/m), λ = π with loose ends, 4.730 with ends that do not turn";
  f.source = {"", "Clough & Penzien, Dynamics of Structures: bars of even mass",
              reference::Status::from_memory};
  f.unit = quantity::Kind::speed;
  f.demand = slowest.loose;
  f.sentence = fmt::format("By itself the {} swings between its ends at {:.0f} to {:.0f} Hz ({}).",
                           slowest.brace, slowest.loose, slowest.fast, rpm_between(slowest));
  const std::string machines = met_by(answers.model.parts.bench, slowest);
  if (!machines.empty()) {
    f.sentence += fmt::format(
        " Where it rattles with {}, a screw into what it crosses or a block helps.", machines);
  }
  for (const OwnSwing& swing : swings) {
    f.working.push_back(fmt::format("{}: {:.1f} to {:.1f} Hz, {}", swing.brace, swing.loose,
                                    swing.fast, rpm_between(swing)));
  }
  return {f};
}

}  // namespace standtrue::check
