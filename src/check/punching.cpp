// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <optional>

#include "check/answered.hpp"
#include "check/board.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/sheets.hpp"

namespace standtrue::check {

using quantity::in_si;
using reference::Duration;

namespace {

/// Share of a machine's weight on its heaviest pad, by statics of a rigid body on pads that give
/// alike: 1/n + c_x x/Σx² + c_y y/Σy².
double heaviest_share(const bench::Machine& machine) {
  const double x = 0.5 * in_si(machine.pads_x), y = 0.5 * in_si(machine.pads_y);
  std::vector<std::array<double, 2>> pads;
  switch (machine.kind.pads) {
    case 1:
      pads = {{0, 0}};
      break;
    case 2:
      pads = {{-x, 0}, {x, 0}};
      break;
    case 3:
      pads = {{-x, -y}, {x, -y}, {0, y}};
      break;
    default:
      pads = {{-x, -y}, {x, -y}, {x, y}, {-x, y}};
      break;
  }
  const double n = static_cast<double>(pads.size());
  double middle = 0.0, xx = 0.0, yy = 0.0;
  for (const auto& pad : pads) middle += pad[1] / n;
  for (const auto& pad : pads) {
    xx += pad[0] * pad[0];
    yy += (pad[1] - middle) * (pad[1] - middle);
  }
  double most = 0.0;
  for (const auto& pad : pads) {
    double share = 1.0 / n;
    if (xx > 0.0) share += in_si(machine.cg_x) * pad[0] / xx;
    if (yy > 0.0) share += (in_si(machine.cg_y) - middle) * (pad[1] - middle) / yy;
    most = std::max(most, share);
  }
  return most;
}

struct PunchingLoads {
  const char* name;
  double factor = 1.0;  ///< on the weight
  Duration duration = Duration::permanent;
};

std::vector<PunchingLoads> loads_of(const bench::Machine& machine,
                                    const reference::Tables& tables) {
  const double G = tables.load("machine").strength;
  std::vector<PunchingLoads> all{{"standing", G, Duration::permanent}};
  if (machine.kind.drive == reference::Drive::hand) return all;
  const reference::Load& running =
      tables.load(machine.kind.drive == reference::Drive::motor ? "machine running, motor"
                                                                : "machine running, reciprocating");
  all.push_back({"running", G + running.strength * running.share, running.duration});
  return all;
}

struct WorstPunching {
  PunchingLoads loads;
  double force = 0.0, stress = 0.0, strength = 0.0;
};

OrWhy<WorstPunching> worst_under_machine(const bench::Bench& bench, const bench::Machine& machine,
                                         double area, const reference::Tables& tables) {
  const bench::Sheet& sheet = bench.sheets.at(machine.sheet);
  const double weight = in_si(machine.mass) * in_si(quantity::standard_gravity());
  std::optional<WorstPunching> worst;
  for (const PunchingLoads& loads : loads_of(machine, tables)) {
    double strength = 0.0;
    for (const bool along : {true, false}) {
      const OrWhy<BoardStrength> f = board_strength(bench, sheet, along, loads.duration, tables);
      if (!f) return tl::unexpected(f.error());
      if (!(f->f_r > 0.0)) return tl::unexpected(unknown_strength(sheet, "rolling shear", along));
      strength = along ? f->f_r : std::min(strength, f->f_r);
    }
    const double force = loads.factor * weight * heaviest_share(machine);
    const double stress = force / area;
    if (!worst || is_worse(stress / strength, worst->stress / worst->strength)) {
      worst = WorstPunching{loads, force, stress, strength};
    }
  }
  return *worst;
}

Finding check_pad(const bench::Bench& bench, const bench::Machine& machine,
                  const reference::Tables& tables) {
  const bench::Sheet& sheet = bench.sheets.at(machine.sheet);
  const double t = board_section(sheet).thickness;
  const double perimeter = 4.0 * (in_si(machine.pad) + t);
  Finding f;
  f.id = id_of("punching", machine.name);
  f.group = Group::sheet;
  f.unit = quantity::Kind::stress;
  f.rule = "shear on the perimeter of pad and thickness against the rolling strength; ours";
  f.source = sheet.panel.source.of("f_r_90_k");
  f.place = fmt::format("{}, under the {}", sheet.name, machine.name);
  const OrWhy<WorstPunching> worst = worst_under_machine(bench, machine, perimeter * t, tables);
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence =
        fmt::format("Whether the {} punches into the {} is not judged.", machine.name, sheet.name);
    return f;
  }
  const Printer print(bench);
  judge_against(f, worst->stress, worst->strength);
  f.sentence =
      fmt::format("Under the heaviest pad of the {} the {} takes {} its strength against punching.",
                  machine.name, sheet.name, share_of(f.ratio));
  f.working.push_back(fmt::format("F/(u t), {}: F = {}, u = {}, t = {}: {} against {}",
                                  worst->loads.name, print.force(worst->force),
                                  print.length(perimeter), print.length(t),
                                  print.stress(worst->stress), print.stress(worst->strength)));
  if (f.judgement == Judgement::exceeded) f.advice = "a board or a steel plate under its pads";
  return f;
}

}  // namespace

std::vector<Finding> punching(const Answers& answers, const reference::Tables& tables) {
  const bench::Bench& bench = answers.model.parts.bench;
  std::vector<Finding> findings;
  for (const bench::Machine& machine : bench.machines) {
    findings.push_back(check_pad(bench, machine, tables));
  }
  return findings;
}

}  // namespace standtrue::check
