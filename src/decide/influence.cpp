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
  if (elsewhere.stays) return model::idealise(bench, tables, assumptions);
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

/// What presses by more than rounding stays down, so that a sum of answers with all feet down is
/// the answer to the sum of their loads.
bool all_press(const model::Model& model, const solve::State& state) {
  double most = 0.0;
  for (const double force : state.support_forces) most = std::max(most, std::abs(force));
  constexpr double rounding = 1e-9;
  for (std::size_t s = 0; s < model.supports.size(); ++s) {
    if (model.supports[s].press_only && !(state.support_forces[s] > rounding * most)) return false;
  }
  return true;
}

/// What is read of a plate under a combination.
struct Read {
  bool movements = false, forces = false;
};

Read read_of(const model::Combination& combination) {
  return {check::reads_plate_movements(combination), check::reads_plate_forces(combination)};
}

check::KnownPlate as_read(const model::Plate& plate, solve::PlateMovements movements, Read read) {
  check::KnownPlate known;
  if (read.forces) known.field = solve::plate_field(plate, movements, 0);
  if (read.movements) known.movements = std::move(movements);
  return known;
}

/// What is read of `a`, and what `more` adds to it.
check::KnownPlate plus(const check::KnownPlate& a, const check::KnownPlate& more, double factor) {
  check::KnownPlate sum;
  if (a.movements.size() > 0) sum.movements = solve::plus(a.movements, more.movements, factor);
  if (a.field.at_nodes.size() > 0) sum.field = solve::plus(a.field, more.field, factor);
  return sum;
}

void keep_wanted(std::vector<model::Combination>& combinations, Wanted wanted) {
  combinations.erase(std::remove_if(combinations.begin(), combinations.end(),
                                    [wanted](const model::Combination& c) { return !wanted(c); }),
                     combinations.end());
}

/// The model with a case for each place and each patch behind its own.
model::Model with_cases(const model::Model& model, const Elsewhere& elsewhere) {
  model::Model loaded = model;
  for (const bench::Machine& place : elsewhere.places) {
    loaded.cases.push_back(model::weight_at(model, place));
  }
  const std::size_t sheet = model.parts.bench.machines[elsewhere.machine].sheet;
  for (const Elsewhere::Patch& patch : elsewhere.patches) {
    loaded.cases.push_back(model::kilogram_at(model, sheet, patch.x, patch.y, patch.side));
  }
  return loaded;
}

}  // namespace

void Influence::condense(const bench::Bench& bench, const reference::Tables& tables,
                         const Elsewhere& elsewhere, solve::PlateCache& plates) {
  const model::Idealisation made = idealised(bench, tables, elsewhere, {});
  if (made.model) solve::condense_plates(with_cases(*made.model, elsewhere), plates);
}

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
  solve::OrRefusal<solve::Prepared> prepared = solve::prepare(
      with_cases(model, elsewhere), model::SpringSet::gravity, plates, solve::Together::all);
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
  answer_units();
}

/// A case by itself might tip the bench: it is what comes on top of the first combination.
void Influence::answer_units() {
  const std::size_t n = model_.combinations.size();
  const std::size_t more = elsewhere_.places.size() + elsewhere_.patches.size();
  const model::CaseId own = model_.parts.machine_cases.at(elsewhere_.machine);
  without_.resize(n);
  unit_.resize(more);
  std::vector<solve::Loading> loadings;
  for (std::size_t i = 0; n > 0 && i < n + more; ++i) {
    solve::Loading loading = solve::loading_of(model_.combinations[i < n ? i : 0]);
    loading.terms.erase(std::remove_if(loading.terms.begin(), loading.terms.end(),
                                       [own](const auto& term) { return term.load_case == own; }),
                        loading.terms.end());
    if (i >= n) loading.terms.push_back({first_place_ + i - n, 1.0});
    loadings.push_back(std::move(loading));
  }
  for (std::size_t i = 0; i < loadings.size(); ++i) {
    if (loadings[i].slides || loadings[i].second_order) continue;
    auto state = solve::respond(prepared_, loadings[i]);
    if (state && all_touch(*state)) known(i) = Known{std::move(*state), {}};
  }
  if (n == 0 || !without_[0]) {
    unit_.assign(more, std::nullopt);
    return;
  }
  for (std::size_t i = n; i < loadings.size(); ++i) {
    if (!unit_[i - n]) continue;
    solve::add(unit_[i - n]->state, without_[0]->state, -1.0);
    loadings[i].terms = {loadings[i].terms.back()};
  }
  know_plates(loadings);
}

/// One sweep for all.
void Influence::know_plates(const std::vector<solve::Loading>& loadings) {
  const std::size_t n = without_.size();
  std::vector<solve::Answered> answered;
  std::vector<std::size_t> which;
  for (std::size_t i = 0; i < loadings.size(); ++i) {
    const std::optional<Known>& one = known(i);
    if (!one) continue;
    answered.push_back({&loadings[i], &one->state});
    which.push_back(i);
  }
  const auto& all = model_.combinations;
  const Read by_any{std::any_of(all.begin(), all.end(), check::reads_plate_movements),
                    std::any_of(all.begin(), all.end(), check::reads_plate_forces)};
  for (std::size_t p = 0; p < model_.plates.size(); ++p) {
    const solve::PlateMovements found = solve::plate_movements(prepared_, p, answered);
    for (std::size_t k = 0; k < which.size(); ++k) {
      const Read read = which[k] < n ? read_of(all[which[k]]) : by_any;
      known(which[k])->plates.push_back(
          as_read(model_.plates[p], found.col(static_cast<Eigen::Index>(k)), read));
    }
  }
}

/// Nothing where a foot lets go: then an answer is no sum.
std::optional<Influence::Known> Influence::sum_of(const Share& share) const {
  const std::optional<Known>& without = without_[share.combination];
  const std::optional<Known>& machine = unit_[share.place];
  if (!without || !machine) return std::nullopt;
  const Known* stored = nullptr;
  if (share.patch) {
    const std::optional<Known>& patch = unit_[elsewhere_.places.size() + *share.patch];
    if (!patch) return std::nullopt;
    stored = &*patch;
  }
  Known sum{without->state, {}};
  solve::add(sum.state, machine->state, share.machine);
  if (stored) solve::add(sum.state, stored->state, share.stored);
  if (!all_press(model_, sum.state)) return std::nullopt;
  for (std::size_t p = 0; p < without->plates.size(); ++p) {
    sum.plates.push_back(plus(without->plates[p], machine->plates[p], share.machine));
    if (stored) sum.plates.back() = plus(sum.plates.back(), stored->plates[p], share.stored);
  }
  return sum;
}

Influence::Known Influence::anew(const solve::Loading& loading, solve::State state,
                                 const model::Combination& combination) const {
  Known found{std::move(state), {}};
  const solve::Answered one{&loading, &found.state};
  for (std::size_t p = 0; p < model_.plates.size(); ++p) {
    found.plates.push_back(as_read(
        model_.plates[p], solve::plate_movements(prepared_, p, {&one, 1}), read_of(combination)));
  }
  return found;
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
  placed.response.growth.assign(placed.model.combinations.size(), 1.0);
  placed.plates.resize(model_.plates.size());
  const model::CaseId own = model_.parts.machine_cases.at(elsewhere_.machine);
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
      c.terms.push_back({first_patch_ + stored->patch, share.stored, stored->mass});
    }
    placed.response.loadings.push_back(solve::loading_of(c));
    add_answer(placed, share);
  }
  return placed;
}

void Influence::add_answer(Placed& placed, const Share& share) const {
  const solve::Loading& loading = placed.response.loadings.back();
  std::optional<Known> found = sum_of(share);
  if (!found) {
    solve::OrRefusal<solve::State> state = solve::respond(prepared_, loading);
    if (!state) {
      placed.response.states.push_back(std::move(state));
      for (auto& plate : placed.plates) plate.emplace_back();
      return;
    }
    found = anew(loading, std::move(*state), model_.combinations[share.combination]);
  }
  placed.response.states.push_back(std::move(found->state));
  for (std::size_t p = 0; p < placed.plates.size(); ++p) {
    placed.plates[p].push_back(std::move(found->plates[p]));
  }
}

}  // namespace standtrue::decide
