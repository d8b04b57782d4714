#include "standtrue/contract.hpp"
#include "standtrue/solve/solve.hpp"

namespace standtrue::solve {

OrRefusal<Response> static_response(const model::Model& model) {
  Response response;
  for (const model::Combination& combination : model.combinations) {
    std::optional<Prepared>& prepared =
        response.prepared[static_cast<std::size_t>(combination.springs)];
    if (!prepared) {
      OrRefusal<Prepared> made = prepare(model, combination.springs);
      if (!made) return tl::unexpected(made.error());
      prepared = *made;
    }
    response.states.push_back(respond(*prepared, {combination.terms, {}}));
  }
  return response;
}

MemberDiagrams diagrams(const Response& response, std::size_t combination, model::MemberId member) {
  const OrRefusal<State>& state = response.states.at(combination);
  expects(state.has_value(), "diagrams: that combination has no answer");
  for (const std::optional<Prepared>& prepared : response.prepared) {
    if (!prepared) continue;
    const model::Combination& asked = prepared->model().combinations.at(combination);
    if (&prepared == &response.prepared[static_cast<std::size_t>(asked.springs)]) {
      return diagrams(*prepared, member, {asked.terms, {}}, *state);
    }
  }
  throw std::logic_error("diagrams: no prepared model for that combination");
}

}  // namespace standtrue::solve
