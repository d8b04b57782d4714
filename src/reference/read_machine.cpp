#include "reference/readers.hpp"

namespace standtrue::reference {
namespace {

using quantity::Force;
using quantity::Frequency;
using quantity::Kind;
using quantity::LinearStiffness;
using quantity::Mass;
using quantity::RotationalStiffness;
using quantity::Stress;

Mass mass(const Record& r, std::string_view column) { return r.read<Mass>(column, Kind::mass); }

Frequency speed(const Record& r, std::string_view column) {
  return r.read<Frequency>(column, Kind::speed);
}

}  // namespace

void read_machine(const Record& r, Tables& out) {
  constexpr std::pair<std::string_view, Drive> drives[] = {
      {"hand", Drive::hand}, {"motor", Drive::motor}, {"reciprocating", Drive::reciprocating}};
  constexpr std::pair<std::string_view, Spindle> spindles[] = {
      {"along", Spindle::along}, {"across", Spindle::across}, {"upright", Spindle::upright}};
  Machine m;
  m.key = r.key();
  m.names = r.names();
  m.mass_min = mass(r, "mass_min");
  m.mass = mass(r, "mass");
  m.mass_max = mass(r, "mass_max");
  m.pads_length = length(r, "pads_length");
  m.pads_depth = length(r, "pads_depth");
  m.pads = r.count("pads");
  m.pad = length(r, "pad");
  m.cg_height = length(r, "cg_height");
  m.height = length(r, "height");
  m.drive = r.one_of("drive", drives);
  m.spindle = r.one_of("spindle", spindles);
  m.speed_min = speed(r, "speed_min");
  m.speed_max = speed(r, "speed_max");
  m.rotating = mass(r, "rotating");
  m.eccentricity = length(r, "eccentricity");
  m.unbalanced_to = speed(r, "unbalanced_to");
  m.bed_twist = r.band<RotationalStiffness>("bed_twist", Kind::rotational_stiffness);
  m.precise_bed = r.yes("precise_bed");
  m.tends_to_tip = r.yes("tends_to_tip");
  m.holds_work = r.yes("holds_work");
  m.advice = r.text("advice");
  m.source = r.sources();
  out.machines.push_back(std::move(m));
}

void read_duty(const Record& r, Tables& out) {
  out.duties.push_back({.key = r.key(),
                        .names = r.names(),
                        .sway = r.read<LinearStiffness>("sway", Kind::linear_stiffness),
                        .source = r.source("sway")});
}

void read_load(const Record& r, Tables& out) {
  constexpr std::pair<std::string_view, Duration> durations[] = {
      {"permanent", Duration::permanent},
      {"long term", Duration::long_term},
      {"medium term", Duration::medium_term},
      {"short term", Duration::short_term},
      {"instantaneous", Duration::instantaneous}};
  Load l;
  l.key = r.key();
  l.down = r.read<Force>("down", Kind::force);
  l.sideways = r.read<Force>("sideways", Kind::force);
  l.spread = r.read<Stress>("spread", Kind::area_load);
  l.share = r.number("share");
  l.patch = length(r, "patch");
  l.edge = length(r, "edge");
  l.strength = r.number("strength");
  l.favourable = r.number("favourable");
  l.tipping = r.number("tipping");
  l.tipping_favourable = r.number("tipping_favourable");
  l.duration = r.one_of("duration", durations);
  l.combination = r.text("combination");
  l.source = r.sources();
  out.loads.push_back(std::move(l));
}

}  // namespace standtrue::reference
