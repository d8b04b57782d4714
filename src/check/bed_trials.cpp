// All numbers SI (m, N, rad).
#include <map>

#include "check/answered.hpp"
#include "check/bed.hpp"

namespace standtrue::check {

namespace {

/// A loading with its answer.
struct Trial {
  solve::Loading loading;
  solve::State state;
};

/// Trials by what differs from the bench at rest, which is the first.
class AtRest {
 public:
  AtRest(const solve::Prepared& prepared, Trial rest) : prepared_(prepared) {
    tried_.push_back(std::move(rest));
  }

  /// Which column answers it, if it has an answer.
  std::optional<Eigen::Index> with_case(std::size_t load_case) {
    solve::Loading loading = tried_.front().loading;
    loading.terms.push_back({load_case, 1.0});
    return keep(std::move(loading));
  }
  std::optional<Eigen::Index> with_ground(std::size_t support, double by) {
    solve::Loading loading = tried_.front().loading;
    loading.grounds.push_back({support, by});
    return keep(std::move(loading));
  }
  [[nodiscard]] bool presses(std::size_t support) const {
    return tried_.front().state.touching[support];
  }
  [[nodiscard]] bool presses_alike(Eigen::Index column) const {
    return tried_[static_cast<std::size_t>(column)].state.touching == tried_.front().state.touching;
  }
  /// Of all trials on one plate, to be asked for when all are made.
  [[nodiscard]] solve::PlateMovements movements(std::size_t plate) const {
    std::vector<solve::Answered> answered;
    for (const Trial& trial : tried_) answered.push_back({&trial.loading, &trial.state});
    return solve::plate_movements(prepared_, plate, answered);
  }

 private:
  std::optional<Eigen::Index> keep(solve::Loading loading) {
    solve::OrRefusal<solve::State> state = solve::respond(prepared_, loading);
    if (!state) return std::nullopt;
    tried_.push_back({std::move(loading), std::move(*state)});
    return static_cast<Eigen::Index>(tried_.size()) - 1;
  }

  const solve::Prepared& prepared_;
  std::vector<Trial> tried_;
};

/// A foot set up by a little; less where more would change which feet press.
struct Turned {
  FootTurn turn;
  double by = 0.0;
  std::optional<Eigen::Index> column;
};

Turned turned(AtRest& bench, const model::FootPlace& place, std::size_t foot) {
  constexpr double a_little = 1e-4, less = 1e-6;
  Turned made;
  made.turn.foot = foot;
  made.turn.presses = bench.presses(place.down);
  if (!made.turn.presses) return made;
  made.by = a_little;
  made.column = bench.with_ground(place.down, made.by);
  if (made.column && bench.presses_alike(*made.column)) return made;
  made.turn.lifts_another = true;
  made.by = less;
  made.column = bench.with_ground(place.down, made.by);
  return made;
}

/// q of a bed, and of what carries it, in all trials by column.
struct Warps {
  std::vector<double> q;
  std::vector<std::optional<double>> carried;

  /// By what a trial differs from the bench at rest.
  [[nodiscard]] double moved(Eigen::Index column) const {
    return q[static_cast<std::size_t>(column)] - q.front();
  }
  [[nodiscard]] std::optional<double> carriers_moved(Eigen::Index column) const {
    const std::optional<double>& then = carried[static_cast<std::size_t>(column)];
    if (!then) return std::nullopt;  // its pads lie beyond the carriers, at rest too
    return *then - *carried.front();
  }
};

/// Beds on one plate share its movements.
Warps warps_of(const AtRest& bench, const model::Model& model, const model::BedPlace& bed,
               std::map<std::size_t, solve::PlateMovements>& known) {
  if (known.count(bed.plate) == 0) known.emplace(bed.plate, bench.movements(bed.plate));
  const solve::PlateMovements& movements = known.at(bed.plate);
  const model::Plate& plate = model.plates[bed.plate];
  const Carriers carriers(model, bed.plate);
  Warps warps;
  for (Eigen::Index c = 0; c < movements.cols(); ++c) {
    warps.q.push_back(warp_of(bed, plate, movements, c));
    warps.carried.push_back(carried_warp_of(bed, carriers, {plate, movements, c, 0}));
  }
  return warps;
}

/// Where the model holds the bed, its body has taken from the unit pattern all but the share s that
/// the bare top felt: Γ_b = s Γ, s = 1 - k Γ_b/b².
BedShare bed_share(const model::BedPlace& bed, std::size_t place, const Warps& warps,
                   Eigen::Index pattern) {
  const double kappa = bed.stiffness / (bed.breadth * bed.breadth);
  const double felt = bed.in_model ? 1.0 - kappa * warps.moved(pattern) : 1.0;
  BedShare share;
  share.bed = place;
  share.compliance = warps.moved(pattern) / felt;
  share.share = 1.0 / (1.0 + kappa * share.compliance);
  if (const auto carried = warps.carriers_moved(pattern)) share.of_carriers = *carried / felt;
  return share;
}

}  // namespace

std::optional<std::size_t> place_at_rest(const Answers& answers) {
  const auto& combinations = answers.model.combinations;
  for (std::size_t c = 0; c < combinations.size(); ++c) {
    if (is_at_rest(combinations[c]) && state_of(answers.response, c)) return c;
  }
  return std::nullopt;
}

Trials trials_at_rest(const Answers& answers, const std::vector<std::size_t>& beds) {
  Trials trials;
  const model::Model& model = answers.model;
  const std::optional<std::size_t> rest = place_at_rest(answers);
  if (!rest || beds.empty()) return trials;
  const auto springs = static_cast<std::size_t>(model.combinations[*rest].springs);
  AtRest bench(answers.response.prepared[springs].value(),
               {answers.response.loadings[*rest], *answers.response.states[*rest]});
  std::vector<std::optional<Eigen::Index>> patterns;
  for (const std::size_t b : beds) {
    patterns.push_back(bench.with_case(model.parts.beds[b].load_case));
  }
  std::vector<Turned> feet;
  for (std::size_t f = 0; f < model.parts.feet.size(); ++f) {
    feet.push_back(turned(bench, model.parts.feet[f], f));
  }
  std::map<std::size_t, solve::PlateMovements> known;
  for (std::size_t i = 0; i < beds.size(); ++i) {
    if (!patterns[i]) continue;
    const model::BedPlace& bed = model.parts.beds[beds[i]];
    const Warps warps = warps_of(bench, model, bed, known);
    trials.shares.push_back(bed_share(bed, beds[i], warps, *patterns[i]));
    const double follows = bed.in_model ? 1.0 : trials.shares.back().share;
    for (const Turned& foot : feet) {
      if (foot.turn.presses && !foot.column) continue;
      FootTurn turn = foot.turn;
      turn.machine = bed.machine;
      if (foot.column)
        turn.per_metre = follows * warps.moved(*foot.column) / (bed.breadth * foot.by);
      trials.feet.push_back(turn);
    }
  }
  return trials;
}

std::vector<FootTurn> twist_per_foot(const Answers& answers) {
  std::vector<std::size_t> beds(answers.model.parts.beds.size());
  for (std::size_t b = 0; b < beds.size(); ++b) beds[b] = b;
  return trials_at_rest(answers, beds).feet;
}

}  // namespace standtrue::check
