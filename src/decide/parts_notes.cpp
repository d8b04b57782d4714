#include "decide/parts_notes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decide/alter.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::decide {

using bench::Bench;
using quantity::in_si;
using quantity::Length;

namespace {

constexpr const char* not_listed = "not in this list, for their kind goes by the";

/// Which screws and plugs hold depends on the wall: they are told and not listed.
std::string wall_screws(const Bench& bench, const bench::Rail& rail) {
  std::string places;
  int n = 0;
  for (const bench::WallFixing& fixing : bench.wall) {
    if (fixing.rail != rail.name) continue;
    const std::string at = quantity::print(in_si(fixing.at), quantity::Kind::length, bench.units);
    places += (n++ == 0 ? "" : ", ") + at;
  }
  return fmt::format(
      "{} screw{} with plugs through the {} into the wall, {} from its left end: {} wall", n,
      n == 1 ? "" : "s", rail.on_wall ? "ledger" : rail.name, places, not_listed);
}

/// What fixes feet and machines.
void tell_bolts(std::vector<std::string>& notes, const Bench& bench) {
  const auto fixed =
      std::count_if(bench.posts.begin(), bench.posts.end(),
                    [](const bench::Post& post) { return !post.on_wall && post.foot.fixed; });
  if (fixed > 0) {
    notes.push_back(fmt::format("bolts into the floor for {} {}: {} floor", fixed,
                                fixed == 1 ? "foot" : "feet", not_listed));
  }
  std::string machines;
  for (const bench::Machine& machine : bench.machines) {
    if (machine.bolted) machines += (machines.empty() ? "the " : ", the ") + machine.name;
  }
  if (!machines.empty()) {
    notes.push_back(fmt::format("bolts for {}: {} holes in the base", machines, not_listed));
  }
}

/// Between layers, under glued sheets, and in glued joints.
void tell_glue(std::vector<std::string>& notes, const Bench& bench) {
  std::vector<std::string> where;
  for (const bench::Sheet& sheet : bench.sheets) {
    if (sheet.layers > 1 && sheet.between_layers == bench::Bond::glued) {
      where.push_back("between the layers of the " + sheet.name);
    }
    if (sheet.bond == bench::Bond::glued) where.push_back("under the " + sheet.name);
  }
  const bool is_glued =
      std::any_of(bench.rails.begin(), bench.rails.end(), [](const bench::Rail& rail) {
        return rail.start.kind.fastening == reference::Fastening::glue ||
               rail.start.kind.fastening == reference::Fastening::tenon ||
               rail.start.kind.fastening == reference::Fastening::half_lap;
      });
  if (is_glued) where.emplace_back("in the joints of the rails");
  if (where.empty()) return;
  std::string places;
  for (const std::string& one : where) places += (places.empty() ? "" : ", ") + one;
  notes.push_back("wood glue " + places);
}

}  // namespace

std::vector<std::string> notes_on_parts(const Bench& bench, const reference::Tables& tables) {
  std::vector<std::string> notes;
  std::vector<double> told;
  const auto pilot = [&](Length d) {
    const bool is_told = std::any_of(
        told.begin(), told.end(), [&](double other) { return std::abs(other - in_si(d)) < 1e-5; });
    if (is_told || !(d > Length{})) return;
    told.push_back(in_si(d));
    notes.push_back(fmt::format("pilot holes for {} screws: {:.1f} mm", written(d),
                                std::floor(0.7 * 1e4 * in_si(d)) / 10.0));
  };
  for (const bench::Rail& rail : bench.rails) {
    if (rail.start.kind.fastening != reference::Fastening::bolts) {
      pilot(rail.start.kind.fastener_diameter);
    }
  }
  for (const bench::Sheet& sheet : bench.sheets) pilot(sheet.screws.screw.diameter);
  for (const bench::Rail& rail : bench.rails) {
    const bool is_fixed =
        std::any_of(bench.wall.begin(), bench.wall.end(),
                    [&](const bench::WallFixing& fixing) { return fixing.rail == rail.name; });
    if (is_fixed) notes.push_back(wall_screws(bench, rail));
  }
  tell_glue(notes, bench);
  tell_bolts(notes, bench);
  for (const reference::Tolerance& t : tables.tolerances) {
    const bool is_it =
        !bench.rails.empty() &&
        t.key == (in_si(bench.rails[0].depth) > 0.1 ? "T1, over 100 mm" : "T1, up to 100 mm");
    if (is_it) {
      notes.push_back(fmt::format(
          "sawn rails differ by up to {} in depth (EN 336): set their tops level, not their "
          "undersides, or plane them",
          written(t.below + t.above)));
    }
  }
  return notes;
}

}  // namespace standtrue::decide
