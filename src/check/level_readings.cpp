// All numbers SI (m, N, rad).
#include "standtrue/check/level_readings.hpp"

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "check/bed.hpp"

namespace standtrue::check {

namespace {

using Readings = tl::expected<std::vector<LevelReading>, std::string>;

/// Presses every foot down so hard that none lifts whatever is asked of it. The force goes straight
/// into the floor: with all feet down the bench sinks as a whole and nothing in it changes.
std::vector<model::NodeLoad> weights_on_feet(const model::Model& model, const FeetSet& set) {
  std::vector<model::NodeLoad> weights;
  if (!set.held) return weights;
  double reach = 0.01;  // m: springs let go no further than feet are set apart, and some
  for (const model::FootPlace& foot : model.parts.feet) {
    reach += std::abs(model.supports[foot.down].gap);
  }
  for (const double up : set.up) reach += std::abs(up);
  for (const model::FootPlace& foot : model.parts.feet) {
    const model::Support& down = model.supports[foot.down];
    model::NodeLoad load;
    load.node = down.node;
    load.force.z = quantity::newtons(-reach * down.stiffness.value_or(1e7));
    weights.push_back(load);
  }
  return weights;
}

/// A bed in the model pushes its pads with k (q - s)/b²: shims add the pattern k s/b².
solve::Loading loading_of(const model::Model& model, solve::Loading rest, const FeetSet& set,
                          const model::BedPlace* bed) {
  if (bed && bed->in_model && set.shims != 0.0) {
    rest.terms.push_back(
        {bed->load_case, bed->stiffness / (bed->breadth * bed->breadth) * set.shims});
  }
  for (std::size_t f = 0; f < set.up.size(); ++f) {
    if (set.up[f] != 0.0) rest.grounds.push_back({model.parts.feet[f].down, set.up[f]});
  }
  for (const model::NodeLoad& load : weights_on_feet(model, set)) rest.node_loads.push_back(load);
  return rest;
}

std::vector<solve::StiffnessChange> wall_let_go(const model::Model& model) {
  std::vector<solve::StiffnessChange> changes;
  for (const model::WallPlace& place : model.parts.wall) {
    for (const std::size_t s : {place.x, place.y, place.z}) {
      const model::Support& held = model.supports[s];
      if (!held.stiffness) continue;
      changes.push_back({held.node, std::nullopt, held.rotation, held.along, -*held.stiffness});
    }
  }
  return changes;
}

void read_feet(const model::Model& model, const FeetSet& set, const solve::State& state,
               LevelReading& reading) {
  const std::vector<model::NodeLoad> weights = weights_on_feet(model, set);
  for (std::size_t f = 0; f < model.parts.feet.size(); ++f) {
    const std::size_t down = model.parts.feet[f].down;
    const double added = set.held ? quantity::in_si(weights[f].force.z) : 0.0;
    reading.presses.push_back(state.support_forces.at(down) + added);
    reading.touches.push_back(state.touching.at(down));
  }
}

Slope slope_of_posts(const model::Model& model, const solve::State& state) {
  std::vector<MovedPoint> tops;
  for (const std::size_t node : model.parts.top_corners) {
    const model::Point& at = model.nodes[node].at;
    tops.push_back(
        {quantity::in_si(at.x), quantity::in_si(at.y), state.at(node, model::Freedom::z)});
  }
  return slope_of(tops);
}

/// What is read on a bed: its share of the bare top's warp as in level.hpp.
struct BedReader {
  const model::Model& model;
  const model::BedPlace& bed;
  double share = 1.0;

  void read(const solve::PlateMovements& movements, Eigen::Index column, double shims,
            LevelReading& reading) const {
    const model::Plate& plate = model.plates[bed.plate];
    const double q = warp_of(bed, plate, movements, column);
    const Slope slope = *slope_of(model.parts, bed.machine, {plate, movements, column, 0});
    reading.x = slope.x;
    reading.y = slope.y;
    reading.warp = bed.in_model ? shims + (q - shims) / share : q;
    reading.twist = (reading.warp - shims) * share / bed.breadth;
  }
};

Readings read_all(const Answers& answers, const solve::Prepared& prepared,
                  const std::optional<BedReader>& bed, std::span<const FeetSet> settings,
                  const std::vector<solve::Loading>& loadings,
                  const std::vector<solve::State>& states) {
  std::vector<LevelReading> readings(settings.size());
  std::vector<solve::Answered> answered;
  for (std::size_t i = 0; i < settings.size(); ++i) {
    answered.push_back({&loadings[i], &states[i]});
    read_feet(answers.model, settings[i], states[i], readings[i]);
  }
  if (!bed) {
    for (std::size_t i = 0; i < settings.size(); ++i) {
      const Slope slope = slope_of_posts(answers.model, states[i]);
      readings[i].x = slope.x;
      readings[i].y = slope.y;
    }
    return readings;
  }
  const solve::PlateMovements movements =
      solve::plate_movements(prepared, bed->bed.plate, answered);
  for (std::size_t i = 0; i < settings.size(); ++i) {
    bed->read(movements, static_cast<Eigen::Index>(i), settings[i].shims, readings[i]);
  }
  return readings;
}

}  // namespace

std::optional<std::size_t> bed_to_level(const model::Parts& parts) {
  std::optional<std::size_t> best;
  const auto rank = [&](std::size_t b) {
    const bench::Machine& machine = parts.bench.machines[parts.beds[b].machine];
    return std::make_pair(machine.kind.precise_bed, quantity::in_si(machine.mass));
  };
  for (std::size_t b = 0; b < parts.beds.size(); ++b) {
    if (!best || rank(b) > rank(*best)) best = b;
  }
  return best;
}

Readings level_readings(const Answers& answers, std::optional<std::size_t> bed,
                        std::span<const FeetSet> settings) {
  const model::Model& model = answers.model;
  const std::optional<std::size_t> rest = place_at_rest(answers);
  if (!rest) {
    for (std::size_t c = 0; c < model.combinations.size(); ++c) {
      if (!is_at_rest(model.combinations[c])) continue;
      return tl::unexpected(refusal_of(answers.response, c));
    }
    return tl::unexpected(std::string("the bench at rest is no loading of this model"));
  }
  std::optional<BedReader> reader;
  if (bed) {
    const Trials trials = trials_at_rest(answers, {*bed});
    if (trials.shares.empty()) {
      return tl::unexpected(std::string("a twist of the machine's pads has no answer"));
    }
    reader.emplace(BedReader{model, model.parts.beds[*bed], trials.shares.front().share});
  }
  const auto springs = static_cast<std::size_t>(model.combinations[*rest].springs);
  const solve::Prepared& prepared = answers.response.prepared[springs].value();
  const std::vector<solve::StiffnessChange> changes = wall_let_go(model);
  std::vector<solve::Loading> loadings;
  std::vector<solve::State> states;
  for (const FeetSet& set : settings) {
    loadings.push_back(loading_of(model, answers.response.loadings[*rest], set,
                                  bed ? &model.parts.beds[*bed] : nullptr));
    solve::OrRefusal<solve::State> state = solve::respond(prepared, loadings.back(), changes);
    if (!state) return tl::unexpected(state.error().what);
    states.push_back(std::move(*state));
  }
  return read_all(answers, prepared, reader, settings, loadings, states);
}

}  // namespace standtrue::check
