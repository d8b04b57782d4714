// The raw answers of one bound: movements in m and rad, forces in N and N m.
#include <array>
#include <cmath>

#include "report/end_forces.hpp"
#include "report/json_parts.hpp"
#include "report/words.hpp"
#include "standtrue/model/frame_case.hpp"

namespace standtrue::report {

namespace {

using model::Freedom;
using model::Model;

Json corners_json(const Model& model, const solve::State& state) {
  Json corners = Json::object();
  for (const model::NodeId node : model.parts.top_corners) {
    corners[key_of(model.nodes.at(node).name)] = {{"x", number(state.at(node, Freedom::x))},
                                                  {"y", number(state.at(node, Freedom::y))},
                                                  {"z", number(state.at(node, Freedom::z))}};
  }
  return corners;
}

Json rail_ends_json(const Model& model, const solve::State& state) {
  Json ends = Json::object();
  for (const model::RailEnd& end : model.parts.rail_ends) {
    const EndForces f = internal_forces(state, end.member, end.at_end);
    ends[key_of(end.name)] = {{"N", number(f.N)}, {"V_y", number(f.V_y)}, {"V_z", number(f.V_z)},
                              {"T", number(f.T)}, {"M_y", number(f.M_y)}, {"M_z", number(f.M_z)}};
  }
  return ends;
}

Json feet_json(const Model& model, const solve::State& state) {
  Json feet = Json::object();
  for (const model::FootPlace& foot : model.parts.feet) {
    feet[key_of(foot.name)] = {{"down", number(state.support_forces.at(foot.down))},
                               {"x", number(state.support_forces.at(foot.grip_x))},
                               {"y", number(state.support_forces.at(foot.grip_y))},
                               {"touching", bool(state.touching.at(foot.down))}};
  }
  return feet;
}

Json refusal_json(const solve::Refusal& refusal) {
  return {{"why", model::refusal_words().at(static_cast<std::size_t>(refusal.why))},
          {"what", refusal.what},
          {"instead", refusal.instead}};
}

Json combination_json(const Model& model, const model::Combination& combination,
                      const solve::Loading& loading, const solve::OrRefusal<solve::State>& state) {
  Json terms = Json::object();
  for (const model::Factored& term : loading.terms) {
    terms[model.cases.at(term.load_case).name] = number(term.factor);
  }
  Json json = {{"title", combination.title},
               {"purpose", purpose_key(combination.purpose)},
               {"duration", std::string(reference::to_text(combination.duration))},
               {"springs", springs_key(combination.springs)},
               {"terms", std::move(terms)},
               {"refusal", nullptr}};
  if (!state) {
    json["refusal"] = refusal_json(state.error());
    return json;
  }
  json["audit"] = {{"residual", number(state->audit.residual)},
                   {"equilibrium", number(state->audit.equilibrium)}};
  json["corners"] = corners_json(model, *state);
  json["rail_ends"] = rail_ends_json(model, *state);
  json["feet"] = feet_json(model, *state);
  return json;
}

}  // namespace

EndForces internal_forces(const solve::State& state, model::MemberId member, bool at_end) {
  const std::array<double, 12>& pushed = state.end_forces.at(member);
  // The face at the start looks along -x: what it is pushed with is minus the internal force.
  const double sign = at_end ? 1.0 : -1.0;
  const std::size_t from = at_end ? 6 : 0;
  return {sign * pushed[from],     sign * pushed[from + 1], sign * pushed[from + 2],
          sign * pushed[from + 3], sign * pushed[from + 4], sign * pushed[from + 5]};
}

Json number(double value) { return std::isfinite(value) ? Json(value) : Json(nullptr); }

Json bounded_json(const decide::Bounded& bounded) {
  Json json = {{"joints", bound_key(bounded.bound)},
               {"faults", bounded.idealisation.faults},
               {"refusal", nullptr},
               {"combinations", Json::object()}};
  if (bounded.refusal) json["refusal"] = refusal_json(*bounded.refusal);
  if (!bounded.idealisation.model || !bounded.response) return json;
  const Model& model = *bounded.idealisation.model;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    json["combinations"][model.combinations[c].name] =
        combination_json(model, model.combinations[c], bounded.response->loadings.at(c),
                         bounded.response->states.at(c));
  }
  return json;
}

}  // namespace standtrue::report
