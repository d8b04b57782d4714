// Numbers in SI.
#include "decide/influence.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/model/move_machine.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

/// The bench with the machine loose in the middle of its sheet.
bench::Bench in_the_middle(const bench::Bench& bench, std::size_t machine) {
  bench::Bench even = bench;
  bench::Machine& moved = even.machines.at(machine);
  const bench::Sheet& sheet = even.sheets.at(moved.sheet);
  moved.bolted = false;
  moved.x = (sheet.x0 + sheet.x1) / 2.0;
  moved.y = (sheet.y0 + sheet.y1) / 2.0;
  return even;
}

model::Idealisation idealised(const bench::Bench& bench, const reference::Tables& tables,
                              const Elsewhere& elsewhere, const model::Assumptions& assumptions) {
  bench::Bench even = in_the_middle(bench, elsewhere.machine);
  model::Idealisation made = model::idealise(even, tables, assumptions);
  if (made.model) return made;
  // The middle is cut out: where the file has it there is something to stand on.
  const bench::Machine& own = bench.machines[elsewhere.machine];
  even.machines[elsewhere.machine].x = own.x;
  even.machines[elsewhere.machine].y = own.y;
  return model::idealise(even, tables, assumptions);
}

bool all_touch(const solve::State& state) {
  return std::find(state.touching.begin(), state.touching.end(), false) == state.touching.end();
}

void keep_wanted(std::vector<model::Combination>& combinations, Wanted wanted) {
  combinations.erase(std::remove_if(combinations.begin(), combinations.end(),
                                    [wanted](const model::Combination& c) { return !wanted(c); }),
                     combinations.end());
}

}  // namespace

tl::expected<Influence, std::string> Influence::make(const bench::Bench& bench,
                                                     const reference::Tables& tables,
                                                     const Elsewhere& elsewhere,
                                                     const model::Assumptions& assumptions,
                                                     Wanted wanted, solve::PlateCache& plates) {
  model::Idealisation made = idealised(bench, tables, elsewhere, assumptions);
  if (!made.model) {
    return tl::unexpected(made.faults.empty() ? std::string("there is no frame")
                                              : made.faults.front());
  }
  model::Model& model = *made.model;
  keep_wanted(model.combinations, wanted);
  model::Model loaded = model;
  for (const bench::Machine& place : elsewhere.places) {
    loaded.cases.push_back(model::weight_at(model, place));
  }
  for (const Elsewhere::Patch& patch : elsewhere.patches) {
    loaded.cases.push_back(model::kilogram_at(model, bench.machines[elsewhere.machine].sheet,
                                              patch.x, patch.y, patch.side));
  }
  solve::OrRefusal<solve::Prepared> prepared =
      solve::prepare(loaded, model::SpringSet::gravity, plates);
  if (!prepared) return tl::unexpected(prepared.error().what);
  return Influence(std::move(model), std::move(*prepared), elsewhere, tables);
}

Influence::Influence(model::Model model, solve::Prepared prepared, const Elsewhere& elsewhere,
                     const reference::Tables& tables)
    : model_(std::move(model)),
      prepared_(std::move(prepared)),
      elsewhere_(elsewhere),
      first_place_(model_.cases.size()),
      first_patch_(model_.cases.size() + elsewhere.places.size()),
      Q_(tables.load("stored on shelf").strength) {
  move_plates();
}

/// One sweep for all. A case by itself might tip the bench: it is what comes on top of the first
/// combination.
void Influence::move_plates() {
  const std::size_t n = model_.combinations.size();
  const std::size_t more = elsewhere_.places.size() + elsewhere_.patches.size();
  const model::CaseId own = model_.parts.machine_cases.at(elsewhere_.machine);
  if (model_.plates.empty() || n == 0) return;
  std::vector<solve::Loading> loadings;
  for (std::size_t i = 0; i < n + more; ++i) {
    solve::Loading loading = solve::loading_of(model_.combinations[i < n ? i : 0]);
    loading.terms.erase(std::remove_if(loading.terms.begin(), loading.terms.end(),
                                       [own](const auto& term) { return term.load_case == own; }),
                        loading.terms.end());
    if (i >= n) loading.terms.push_back({first_place_ + i - n, 1.0});
    loadings.push_back(std::move(loading));
  }
  std::vector<solve::OrRefusal<solve::State>> states;
  std::vector<solve::Answered> answered;
  std::vector<Eigen::Index> columns;
  for (std::size_t i = 0; i < loadings.size(); ++i) {
    states.push_back(solve::respond(prepared_, loadings[i]));
    known_.push_back(states.back() && all_touch(*states.back()));
  }
  for (std::size_t i = 0; i < states.size(); ++i) {
    if (!known_[i]) continue;
    answered.push_back({&loadings[i], &*states[i]});
    columns.push_back(static_cast<Eigen::Index>(i));
  }
  if (!known_[0]) known_.assign(known_.size(), false);
  if (!known_[0]) return;
  for (std::size_t p = 0; p < model_.plates.size(); ++p) {
    const solve::PlateMovements found = solve::plate_movements(prepared_, p, answered);
    solve::PlateMovements all =
        solve::PlateMovements::Zero(found.rows(), static_cast<Eigen::Index>(states.size()));
    all(Eigen::all, columns) = found;
    without_.push_back(all.leftCols(static_cast<Eigen::Index>(n)));
    unit_.push_back(all.rightCols(static_cast<Eigen::Index>(more)));
    unit_.back().colwise() -= all.col(0).eval();
  }
}

/// Sums of what is known where all feet are down; found anew where one is not.
check::PlatesMoved Influence::moved(const Placed& placed, const std::vector<Share>& shares) const {
  const std::size_t n = model_.combinations.size(), n_places = elsewhere_.places.size();
  check::PlatesMoved all;
  for (std::size_t p = 0; p < model_.plates.size(); ++p) {
    const auto rows = static_cast<Eigen::Index>(5 * model_.plates[p].lines());
    all.push_back(solve::PlateMovements::Zero(rows, static_cast<Eigen::Index>(shares.size())));
    for (std::size_t c = 0; c < shares.size(); ++c) {
      const Share& share = shares[c];
      const auto& state = placed.response.states[c];
      if (!state) continue;
      auto column = all.back().col(static_cast<Eigen::Index>(c));
      const bool is_sum = known_[share.combination] && known_[n + share.place] &&
                          (!share.patch || known_[n + n_places + *share.patch]) &&
                          all_touch(*state);
      if (!is_sum) {
        const solve::Answered one{&placed.response.loadings[c], &*state};
        column = solve::plate_movements(prepared_, p, {&one, 1}).col(0);
        continue;
      }
      column = without_[p].col(static_cast<Eigen::Index>(share.combination)) +
               share.machine * unit_[p].col(static_cast<Eigen::Index>(share.place));
      if (share.patch) {
        column += share.stored * unit_[p].col(static_cast<Eigen::Index>(n_places + *share.patch));
      }
    }
  }
  return all;
}

/// All of what is stored creeps: more than it does.
double Influence::stored_factor(const model::Combination& combination) const {
  if (combination.leading == model::Leading::permanent) return 0.0;
  return combination.purpose == model::Purpose::strength ? Q_ : 1.0;
}

Placed Influence::at(std::size_t place, std::optional<Stored> stored) const {
  const bench::Machine& there = elsewhere_.places.at(place);
  Placed placed{model_, {}, {}};
  model::move_machine(placed.model, elsewhere_.machine, there);
  placed.response.prepared[static_cast<std::size_t>(model::SpringSet::gravity)] = prepared_;
  const model::CaseId own = model_.parts.machine_cases.at(elsewhere_.machine);
  std::vector<Share> shares;
  for (std::size_t i = 0; i < placed.model.combinations.size(); ++i) {
    model::Combination& c = placed.model.combinations[i];
    Share share{i, place, 0.0, std::nullopt, 0.0};
    for (model::Factored& term : c.terms) {
      if (term.load_case != own) continue;
      term.load_case = first_place_ + place;
      share.machine += term.factor;
    }
    if (stored && stored_factor(c) > 0.0) {
      share.patch = stored->patch;
      share.stored = stored_factor(c) * stored->mass;
      c.terms.push_back({first_patch_ + stored->patch, share.stored});
    }
    shares.push_back(share);
    placed.response.loadings.push_back(solve::loading_of(c));
    placed.response.states.push_back(solve::respond(prepared_, placed.response.loadings.back()));
  }
  placed.moved = moved(placed, shares);
  placed.response.growth.assign(placed.model.combinations.size(), 1.0);
  return placed;
}

}  // namespace standtrue::decide
