// Joints and feet: what was put into the model, and what came to the floor.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "report/pages.hpp"
#include "report/words.hpp"

namespace standtrue::report {

namespace {

using decide::Assessment;
using decide::Bounded;
using quantity::Kind;

std::array<const Bounded*, 3> bounds(const Assessment& assessment) {
  return {&assessment.soft, &assessment.mean, &assessment.stiff};
}

/// The rail end in the model of another bound: by its place, for all bounds are made alike.
const model::RailEnd* rail_end(const Bounded& bounded, std::size_t place) {
  const auto& model = bounded.idealisation.model;
  if (!model || place >= model->parts.rail_ends.size()) return nullptr;
  return &model->parts.rail_ends[place];
}

Page joints_page(const Assessment& assessment) {
  Page page;
  const auto& model = assessment.mean.idealisation.model;
  if (!model || model->parts.rail_ends.empty()) return page;
  const quantity::UnitSystem units = assessment.bench.units;
  Table table({"rail end", "joint", "sense", "soft", "mean", "stiff"}, 3);
  for (std::size_t i = 0; i < model->parts.rail_ends.size(); ++i) {
    const model::RailEnd& end = model->parts.rail_ends[i];
    for (const bool is_sway : {false, true}) {
      std::vector<std::string> row = {is_sway ? "" : end.name, is_sway ? "" : end.joint.kind.key,
                                      is_sway ? "sway" : "sag"};
      for (const Bounded* bounded : bounds(assessment)) {
        const model::RailEnd* of_bound = rail_end(*bounded, i);
        const bool is_free = of_bound && of_bound->released;
        row.push_back(!of_bound ? "-"
                      : is_free ? "let go"
                                : quantity::print(is_sway ? of_bound->stiffness.bend_sway
                                                          : of_bound->stiffness.bend_gravity,
                                                  Kind::rotational_stiffness, units));
      }
      table.add(std::move(row));
    }
  }
  page.heading("Joints: bending stiffness used");
  page.table(std::move(table));
  return page;
}

/// The plainest service loading: bench, machines and what is stored.
std::optional<std::size_t> everyday(const model::Model& model) {
  std::optional<std::size_t> found;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const model::Combination& combination = model.combinations[c];
    if (combination.purpose != model::Purpose::service) continue;
    if (combination.leading == model::Leading::stored) return c;
    if (combination.leading == model::Leading::permanent && !found) found = c;
  }
  return found;
}

const solve::State* state_of(const Bounded& bounded, std::size_t combination) {
  if (!bounded.response || combination >= bounded.response->states.size()) return nullptr;
  const auto& state = bounded.response->states[combination];
  return state ? &*state : nullptr;
}

std::string as_mass(double newtons, quantity::UnitSystem units) {
  const double mass = newtons / quantity::in_si(quantity::standard_gravity());
  return quantity::print(mass, Kind::mass, units);
}

std::string greatest_in_service(const Bounded& bounded, std::size_t support,
                                quantity::UnitSystem units) {
  const model::Model& model = *bounded.idealisation.model;
  std::optional<double> greatest;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const solve::State* state = state_of(bounded, c);
    if (!state || model.combinations[c].purpose != model::Purpose::service) continue;
    const double force = state->support_forces.at(support);
    greatest = greatest ? std::max(*greatest, force) : force;
  }
  return greatest ? as_mass(*greatest, units) : "-";
}

Page feet_page(const Assessment& assessment) {
  Page page;
  const auto& model = assessment.mean.idealisation.model;
  if (!model || !assessment.mean.response || model->parts.feet.empty()) return page;
  const std::optional<std::size_t> combination = everyday(*model);
  if (!combination) return page;
  const quantity::UnitSystem units = assessment.bench.units;
  Table table({"foot", "soft", "mean", "stiff", "most in use"});
  for (const model::FootPlace& foot : model->parts.feet) {
    std::vector<std::string> row = {foot.name};
    for (const Bounded* bounded : bounds(assessment)) {
      const solve::State* state = state_of(*bounded, *combination);
      row.push_back(state ? as_mass(state->support_forces.at(foot.down), units) : "-");
    }
    row.push_back(greatest_in_service(assessment.mean, foot.down, units));
    table.add(std::move(row));
  }
  page.heading("Feet: what each carries");
  page.line("  ", "Under " + model->combinations[*combination].name +
                      "; the most in use at mean joints.");
  page.table(std::move(table));
  return page;
}

}  // namespace

Page joints_and_feet_page(const Assessment& assessment) {
  Page page = joints_page(assessment);
  for (const std::string& released : assessment.released) {
    page.line("  Let go: ", sentence(released));
  }
  page.add(feet_page(assessment));
  return page;
}

}  // namespace standtrue::report
