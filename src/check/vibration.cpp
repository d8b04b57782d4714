// All numbers SI (m, kg, Hz).
#include "standtrue/check/vibration.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include "check/answered.hpp"
#include "check/mode_reach.hpp"

namespace standtrue::check {

using quantity::in_si;
using std::numbers::pi;

namespace {

/// What a hand on the bench feels (ours).
constexpr double felt = 0.1e-3;
/// A mode more than triples the shaking between these shares of its own speed:
/// r²/|1 - r²| = 3.
const double band_from = std::sqrt(3.0 / 4.0), band_to = std::sqrt(3.0 / 2.0);

std::string rpm(double frequency) { return fmt::format("{:.0f} rpm", 60.0 * frequency); }

/// "480 to 680 rpm": what a dial can be set to.
std::string rpm_band(double from, double to) {
  const auto round = [](double f) { return 10.0 * std::round(6.0 * f); };
  return fmt::format("{:.0f} to {:.0f} rpm", round(from), round(to));
}

/// Velocities and amplitudes in the bench's units.
struct VibrationWords {
  bool imperial = false;
  [[nodiscard]] std::string velocity(double v) const {
    return imperial ? fmt::format("{:.2g} in/s", v / 0.0254) : fmt::format("{:.2g} mm/s", 1e3 * v);
  }
  [[nodiscard]] std::string amplitude(double a) const {
    return imperial ? fmt::format("{:.1g} in", a / 0.0254) : fmt::format("{:.2g} mm", 1e3 * a);
  }
};

VibrationWords words_for(const bench::Bench& bench) {
  return {bench.units == quantity::UnitSystem::imperial};
}

/// Everything that the findings of one machine are made of.
struct Running {
  const Answers& answers;
  const reference::Tables& tables;
  const std::vector<solve::Mode>& modes;
  const std::vector<ModeWords>& words;
  std::size_t machine = 0;

  [[nodiscard]] const bench::Machine& it() const {
    return answers.model.parts.bench.machines[machine];
  }
  [[nodiscard]] double low() const { return tables.limits.damping_low.value; }
  [[nodiscard]] double high() const { return tables.limits.damping_high.value; }
  [[nodiscard]] double middle() const { return std::sqrt(low() * high()); }
};

/// As rotors are balanced: what turns is out by no more than that at its fastest.
double true_eccentricity(const Running& running) {
  return running.tables.constant("balance of round work").value /
         (2.0 * pi * in_si(running.it().speed_max));
}

/// A fresh blank, a wheel that is not dressed: out of balance until the builder makes it round.
/// What goes to and fro always is.
bool starts_untrue(const Running& running) {
  const reference::Machine& kind = running.it().kind;
  return kind.drive == reference::Drive::motor &&
         in_si(kind.eccentricity) > 3.0 * true_eccentricity(running);
}

Unbalance running_true(const Running& running) {
  const bench::Machine& machine = running.it();
  Unbalance unbalance{in_si(machine.kind.rotating), in_si(machine.kind.eccentricity),
                      in_si(machine.speed_min), in_si(machine.speed_max)};
  if (machine.kind.drive == reference::Drive::motor) {
    unbalance.eccentricity = std::min(unbalance.eccentricity, true_eccentricity(running));
  }
  return unbalance;
}

/// Its speed can be chosen, so that no mode need be met: the fastest half as much again as the
/// slowest (ours).
bool has_dial(const bench::Machine& machine) {
  return in_si(machine.speed_max) >= 1.5 * in_si(machine.speed_min);
}

/// A stretch of speeds; where one mode makes it, that mode.
struct Band {
  double from = 0.0, to = 0.0;  ///< Hz
  std::size_t mode = 0;
  [[nodiscard]] std::string text() const { return rpm_band(from, to); }
};

/// Where a mode triples the shaking, of those whose own shaking at resonance is wanted, clipped to
/// the speeds that are run.
template <class Wanted>
std::vector<Band> bands(const Running& running, const Shaker& shaker, double from, double to,
                        Wanted wanted) {
  std::vector<Band> found;
  for (std::size_t i = 0; i < running.modes.size(); ++i) {
    const double f = running.modes[i].frequency;
    const Band band{std::max(from, f * band_from), std::min(to, f * band_to), i};
    if (band.from > band.to) continue;
    const Shaking alone{f, shaker.at_resonance(i, running.middle()), {}};
    if (wanted(alone)) found.push_back(band);
  }
  return found;
}

/// The shaking at every speed worth looking at.
std::vector<Shaking> sweep(const Shaker& shaker, double from, double to, double damping) {
  std::vector<Shaking> all;
  for (const double speed : shaker.speeds(from, to)) all.push_back(shaker.at(speed, damping));
  return all;
}

bool shakes_less(const Shaking& a, const Shaking& b) { return a.velocity() < b.velocity(); }

Shaking worst_shaking(const std::vector<Shaking>& all) {
  return *std::max_element(all.begin(), all.end(), shakes_less);
}

/// What half of the speeds stay below.
double half_stay_below(std::vector<Shaking> all) {
  const auto middle = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
  std::nth_element(all.begin(), middle, all.end(), shakes_less);
  return middle->velocity();
}

/// Stretches of speeds that shake more than the limit.
std::vector<Band> over_limit(const std::vector<Shaking>& all, double limit) {
  std::vector<Band> found;
  bool before = false;
  for (const Shaking& shaking : all) {
    const bool is_over = shaking.velocity() > limit;
    if (is_over && !before) found.push_back({shaking.speed, shaking.speed, 0});
    if (is_over) found.back().to = shaking.speed;
    before = is_over;
  }
  return found;
}

/// One speed, which a mode may lie on or miss: nobody knows where it is.
Shaken at_one_speed(const Running& running, const Shaker& shaker, const Speeds& speeds) {
  std::vector<ModeReach> reaches;
  for (const solve::Mode& mode : running.modes) {
    reaches.push_back(reach_of(mode, running.answers.model, running.tables));
  }
  return shaken(shaker, reaches, speeds, {running.low(), running.high()});
}

Finding start_hum(const Running& running, const char* suffix) {
  Finding f;
  f.id = id_of("hum", running.it().name) + suffix;
  f.group = Group::hum;
  f.kind = Kind::service;
  f.unit = quantity::Kind::ratio;
  f.place = running.it().name;
  f.rule = "rms velocity at its feet and the edge of the bench, against the zones for machines";
  f.source = running.tables.limits.vibration.source;
  return f;
}

/// Those that overlap as one.
std::string list_of(std::vector<Band> bands) {
  std::sort(bands.begin(), bands.end(),
            [](const Band& a, const Band& b) { return a.from < b.from; });
  std::string text;
  for (std::size_t i = 0; i < bands.size();) {
    Band whole = bands[i];
    while (++i < bands.size() && bands[i].from <= whole.to) {
      whole.to = std::max(whole.to, bands[i].to);
    }
    text += (text.empty() ? "" : " and ") + whole.text();
  }
  return text;
}

Finding shaking_when_true(const Running& running) {
  const reference::Limits& limits = running.tables.limits;
  const VibrationWords say = words_for(running.answers.model.parts.bench);
  Finding f = start_hum(running, "");
  const Unbalance unbalance = running_true(running);
  if (unbalance.mass <= 0.0) {
    leave_unjudged(f, "what turns in it is not known");
    f.sentence = fmt::format("How the {} shakes the bench is not judged.", f.place);
    return f;
  }
  const Shaker shaker(running.answers.model, running.machine, running.modes, unbalance);
  const double from = std::max(unbalance.from, in_si(limits.vibration_slowest.value));
  const double to = unbalance.to;
  if (running.it().kind.drive == reference::Drive::reciprocating) {
    tell(f, "told, not judged: the zones are for what turns");
    const Shaking worst = worst_shaking(sweep(shaker, unbalance.from, to, running.middle()));
    f.sentence = fmt::format("What goes to and fro in the {} shakes {} by up to {} ({}), at {}.",
                             f.place, worst.where, say.amplitude(worst.amplitude),
                             say.velocity(worst.velocity()), rpm(worst.speed));
    return f;
  }
  if (from > to) {
    tell(f, "told, not judged: the zones begin at 600 rpm");
    f.sentence = fmt::format("The {} turns slower than the zones for machines reach.", f.place);
    return f;
  }
  const std::vector<Shaking> all = sweep(shaker, from, to, running.middle());
  const Shaking worst = worst_shaking(all);
  double judged = worst.velocity(), lively = 0.0, dull = 0.0;
  if (has_dial(running.it())) {
    judged = half_stay_below(all);
    lively = half_stay_below(sweep(shaker, from, to, running.low()));
    dull = half_stay_below(sweep(shaker, from, to, running.high()));
  } else {
    const Shaken range = at_one_speed(running, shaker, {from, to});
    lively = range.liveliest;
    dull = range.calmest;
  }
  judge_against(f, judged / limits.vibration.value, 1.0);
  f.sentence =
      has_dial(running.it())
          ? fmt::format(
                "Running true, the {} shakes the bench by less than {} at half of its speeds",
                f.place, say.velocity(judged))
          : fmt::format("Running true, the {} shakes {} by {} at {}", f.place, worst.where,
                        say.velocity(judged), rpm(worst.speed));
  f.sentence += fmt::format("; {} is acceptable.", say.velocity(limits.vibration.value));
  const std::vector<Band> over = over_limit(all, limits.vibration.value);
  if (has_dial(running.it()) && !over.empty()) {
    f.working.push_back(fmt::format("more than that at {}: {} by up to {}, at {}", list_of(over),
                                    worst.where, say.velocity(worst.velocity()), rpm(worst.speed)));
  }
  f.ratio_soft = f.demand_soft = lively / limits.vibration.value;
  f.ratio_stiff = f.demand_stiff = dull / limits.vibration.value;
  f.working.push_back(fmt::format(
      "m e = {:.3g} kg x {:.3g} mm, {} to {}; damping {:.1f} %; at {:.0f} % up to {}, at "
      "{:.0f} % from {}: the range; mean joints{}",
      unbalance.mass, 1e3 * unbalance.eccentricity, rpm(from), rpm(to), 100.0 * running.middle(),
      100.0 * running.low(), say.velocity(lively), 100.0 * running.high(), say.velocity(dull),
      has_dial(running.it())
          ? ""
          : ", its modes moved by soft and stiff joints and floor and by a fifth"));
  f.working.push_back(fmt::format(
      "zones: good {}, acceptable {}, stop {}", say.velocity(limits.vibration_good.value),
      say.velocity(limits.vibration.value), say.velocity(limits.vibration_stop.value)));
  if (std::max(f.ratio, f.ratio_soft) > 1.0) {
    f.advice =
        fmt::format("rubber under the feet of the {}{}", f.place,
                    has_dial(running.it()) ? ", or keep to the speeds that do not shake" : "");
  }
  return f;
}

/// Told with its speeds: what is not yet round is turned slowly, or dressed.
Finding shaking_when_untrue(const Running& running) {
  const bench::Machine& machine = running.it();
  const bench::Bench& bench = running.answers.model.parts.bench;
  const VibrationWords say = words_for(bench);
  // Never slower than it can turn.
  const double slowest = in_si(machine.speed_min);
  const Unbalance unbalance{
      in_si(machine.kind.rotating), in_si(machine.kind.eccentricity), slowest,
      std::max(slowest, std::min(in_si(machine.speed_max), in_si(machine.kind.unbalanced_to)))};
  const Shaker shaker(running.answers.model, running.machine, running.modes, unbalance);
  Finding f = start_hum(running, "-untrue");
  tell(f, "told, not judged: how far it is off is in the builder's hands");
  f.rule = "steady shaking by what is not yet round";
  const std::vector<Band> met = bands(running, shaker, unbalance.from, unbalance.to,
                                      [](const Shaking& alone) { return alone.amplitude >= felt; });
  for (const Band& band : met) {
    f.working.push_back(
        fmt::format("{}: {}, {:.2f} Hz; {} at resonance", band.text(),
                    running.words[band.mode].shape, running.modes[band.mode].frequency,
                    say.amplitude(shaker.at_resonance(band.mode, running.middle()))));
  }
  const Shaking fastest = shaker.at(unbalance.to, running.middle());
  f.working.push_back(fmt::format("at {}: {} ({})", rpm(fastest.speed),
                                  say.amplitude(fastest.amplitude),
                                  say.velocity(fastest.velocity())));
  const std::string out =
      quantity::print(unbalance.eccentricity, quantity::Kind::length, bench.units);
  if (in_si(machine.kind.eccentricity) < 1e-3) {
    f.sentence = fmt::format(
        "A wheel or blade of the {} that runs {} out shakes the bench by {} at {}: dress it.",
        machine.name, out, say.amplitude(fastest.amplitude), rpm(fastest.speed));
    return f;
  }
  const std::string blank = fmt::format(
      "a fresh blank ({}, {} off) on the {}",
      quantity::print(unbalance.mass, quantity::Kind::mass, bench.units), out, machine.name);
  if (met.empty()) {
    f.sentence = fmt::format("No speed of {} meets a swing of the bench.", blank);
    return f;
  }
  f.kind = Kind::caution;
  f.sentence =
      fmt::format("Keep off {} until it is round: there {} swings the bench.", list_of(met), blank);
  return f;
}

Finding modes_in_words(const std::vector<ModeWords>& words) {
  Finding f;
  f.id = "hum/modes";
  f.group = Group::hum;
  tell(f, "");
  f.place = "the bench";
  f.rule =
      "natural frequencies, all feet on the floor, with what the file stores; named by 60 % of the "
      "kinetic energy";
  f.source = {"", "a mode is named by most of its energy", reference::Status::ours};
  f.unit = quantity::Kind::speed;
  f.demand = words.front().frequency;
  std::string first;
  for (std::size_t i = 0; i < std::min<std::size_t>(3, words.size()); ++i) {
    first +=
        fmt::format("{}{:.1f} Hz ({})", i == 0 ? "" : ", ", words[i].frequency, words[i].shape);
  }
  f.sentence = fmt::format("It swings first at {}.", first);
  for (const ModeWords& mode : words) {
    const std::string share =
        mode.shape == "mixed" ? "" : fmt::format(" ({:.0f} %)", 100.0 * mode.share);
    f.working.push_back(
        fmt::format("{:.2f} Hz, {}: {}{}", mode.frequency, rpm(mode.frequency), mode.shape, share));
  }
  return f;
}

Finding no_modes(const std::string& why) {
  Finding f;
  f.id = "hum/modes";
  f.group = Group::hum;
  f.kind = Kind::service;
  f.place = "the bench";
  f.rule = "natural frequencies";
  f.source = {"", "a mode is named by most of its energy", reference::Status::ours};
  f.sentence = "How the bench swings is not judged.";
  leave_unjudged(f, why);
  return f;
}

}  // namespace

solve::ModesWanted modes_met(const bench::Bench& bench, const reference::Tables& tables) {
  solve::ModesWanted wanted;
  for (const bench::Machine& machine : bench.machines) {
    const double beyond = has_dial(machine) ? beside_joints : farthest_down(tables);
    wanted.up_to = std::max(wanted.up_to, beyond * in_si(machine.speed_max));
  }
  return wanted;
}

std::vector<Finding> vibration(const Answers& answers, const reference::Tables& tables) {
  const auto& prepared =
      answers.response.prepared[static_cast<std::size_t>(model::SpringSet::sway)];
  if (!prepared || !answers.at_mean || !answers.swings) return {};
  const solve::OrRefusal<std::vector<solve::Mode>> modes =
      solve::modes(*prepared, modes_met(answers.model.parts.bench, tables));
  if (!modes) return {no_modes(modes.error().what)};
  if (modes->empty()) return {no_modes("nothing with mass can swing")};
  std::vector<ModeWords> words;
  for (const solve::Mode& mode : *modes) words.push_back(words_of(answers.model, mode));
  std::vector<Finding> findings{modes_in_words(words)};
  const std::vector<bench::Machine>& machines = answers.model.parts.bench.machines;
  for (std::size_t m = 0; m < machines.size(); ++m) {
    if (in_si(machines[m].speed_max) <= 0.0) continue;
    const Running running{answers, tables, *modes, words, m};
    findings.push_back(shaking_when_true(running));
    if (starts_untrue(running)) findings.push_back(shaking_when_untrue(running));
  }
  return findings;
}

}  // namespace standtrue::check
