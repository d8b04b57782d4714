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

void keep(std::vector<model::Combination>& combinations, Wanted wanted) {
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
  keep(model.combinations, wanted);
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
      Q_(tables.load("stored on shelf").strength) {}

std::vector<bool> Influence::near(double x, double y) const {
  constexpr std::size_t most = 2;
  std::vector<std::pair<double, std::size_t>> far;
  for (std::size_t p = 0; p < model_.parts.persons.size(); ++p) {
    const model::PersonPlace& person = model_.parts.persons[p];
    far.push_back({std::hypot(in_si(person.x) - x, in_si(person.y) - y), p});
  }
  // Alike far apart are alike near: an even bench stays even.
  std::sort(far.begin(), far.end());
  std::vector<bool> near(far.size(), false);
  for (std::size_t i = 0; i < far.size(); ++i) {
    near[far[i].second] = i < most || far[i].first < far[most - 1].first + 1e-6;
  }
  return near;
}

/// All of what is stored creeps: more than it does.
double Influence::stored_factor(const model::Combination& combination) const {
  if (combination.leading == model::Leading::permanent) return 0.0;
  return combination.purpose == model::Purpose::strength ? Q_ : 1.0;
}

Placed Influence::at(std::size_t place, std::optional<Stored> stored) const {
  const bench::Machine& there = elsewhere_.places.at(place);
  Placed placed{model_, {}};
  model::move_machine(placed.model, elsewhere_.machine, there);
  const std::vector<bool> is_near = stored ? near(in_si(elsewhere_.patches.at(stored->patch).x),
                                                  in_si(elsewhere_.patches.at(stored->patch).y))
                                           : near(in_si(there.x), in_si(there.y));
  placed.response.prepared[static_cast<std::size_t>(model::SpringSet::gravity)] = prepared_;
  const model::CaseId own = model_.parts.machine_cases.at(elsewhere_.machine);
  std::vector<model::Combination> kept;
  for (model::Combination& c : placed.model.combinations) {
    if (c.leading == model::Leading::stand && c.place && !is_near[*c.place]) continue;
    for (model::Factored& term : c.terms) {
      if (term.load_case == own) term.load_case = first_place_ + place;
    }
    if (stored && stored_factor(c) > 0.0) {
      c.terms.push_back({first_patch_ + stored->patch, stored_factor(c) * stored->mass});
    }
    placed.response.loadings.push_back(solve::loading_of(c));
    placed.response.states.push_back(solve::respond(prepared_, placed.response.loadings.back()));
    kept.push_back(std::move(c));
  }
  placed.model.combinations = std::move(kept);
  placed.response.growth.assign(placed.model.combinations.size(), 1.0);
  return placed;
}

}  // namespace standtrue::decide
