#include <fmt/format.h>

#include <algorithm>

#include "model/idealising.hpp"
#include "standtrue/bench/ledger.hpp"
#include "standtrue/contract.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::model {

using quantity::in_si;

namespace {

std::size_t rail_of(const bench::Bench& bench, const bench::WallFixing& fixing) {
  const auto found = std::find_if(bench.rails.begin(), bench.rails.end(),
                                  [&](const bench::Rail& r) { return r.name == fixing.rail; });
  expects(found != bench.rails.end(), "build_fixings: a fixing on no rail");
  return static_cast<std::size_t>(found - bench.rails.begin());
}

/// Along the rail's line.
double place_of(const bench::Bench& bench, const bench::Rail& rail,
                const bench::WallFixing& fixing) {
  return in_si(bench::fixings_start(bench, rail)) + in_si(fixing.at);
}

/// A screw before or past the rail's own length goes through its post.
NodeId node_of(const Idealising& work, std::size_t r, double place) {
  const bench::Rail& rail = work.bench.rails[r];
  const Line& line = work.rails[r];
  if (rail.on_wall) return node_at(line, place);
  if (place < line.from) return node_at(work.posts[rail.from], line.height);
  if (place > line.to) return node_at(work.posts[rail.to], line.height);
  return node_at(line, place);
}

/// A ledger wants nodes where rails end on it, and behind posts that no rail joins to it.
void plan_stations(Idealising& work, std::size_t r) {
  Line& line = work.rails[r];
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    if (work.bench.posts[p].on_wall) want_node(line, station_place(work, p));
  }
}

/// N/m at this bound; timber round the screw creeps as in other joints.
double wall_stiffness(const Idealising& work, const bench::Rail& rail) {
  double k = work.tables.constant("wall fixing").value;
  const double band = work.tables.constant("joint band").value;
  if (work.assumptions.bound == Bound::soft) k /= band;
  if (work.assumptions.bound == Bound::stiff) k *= band;
  if (!work.assumptions.after_creep) return k;
  return k / (1.0 + work.tables.constant("k_def joint timber").value *
                        work.k_def(rail.stock.timber.material));
}

}  // namespace

void plan_fixings(Idealising& work) {
  for (const bench::WallFixing& fixing : work.bench.wall) {
    const std::size_t r = rail_of(work.bench, fixing);
    Line& line = work.rails[r];
    const double place = place_of(work.bench, work.bench.rails[r], fixing);
    if (place >= line.from && place <= line.to) want_node(line, place);
  }
  for (std::size_t r = 0; r < work.rails.size(); ++r) {
    if (work.bench.rails[r].on_wall) plan_stations(work, r);
  }
}

void build_fixings(Idealising& work) {
  for (const bench::WallFixing& fixing : work.bench.wall) {
    const std::size_t r = rail_of(work.bench, fixing);
    const bench::Rail& rail = work.bench.rails[r];
    const NodeId node = node_of(work, r, place_of(work.bench, rail, fixing));
    WallPlace wall;
    wall.name = fmt::format(
        "{}, {} from {}", rail.name,
        quantity::print(in_si(fixing.at), quantity::Kind::length, work.bench.units),
        rail.on_wall ? "its left end" : "the middle of the " + work.bench.posts[rail.from].name);
    const auto hold = [&](const char* axis, Direction along) {
      Support support;
      support.name = fmt::format("wall-{}-{}", work.model.parts.wall.size() + 1, axis);
      support.node = node;
      support.along = along;
      support.stiffness = wall_stiffness(work, rail);
      work.model.supports.push_back(support);
      return work.model.supports.size() - 1;
    };
    wall.x = hold("x", {1.0, 0.0, 0.0});
    wall.y = hold("y", {0.0, 1.0, 0.0});
    wall.z = hold("z", {0.0, 0.0, 1.0});
    if (rail.on_wall) {
      wall.roll = hold("roll", {1.0, 0.0, 0.0});
      Support& roll = work.model.supports[*wall.roll];
      roll.rotation = true;
      roll.stiffness = wall_stiffness(work, rail) * in_si(rail.depth) * in_si(rail.depth) / 4.0;
    }
    work.model.parts.wall.push_back(std::move(wall));
  }
}

}  // namespace standtrue::model
