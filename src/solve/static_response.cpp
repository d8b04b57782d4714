#include <fmt/format.h>

#include "standtrue/contract.hpp"
#include "standtrue/solve/solve.hpp"

namespace standtrue::solve {

namespace {

bool tips(const OrRefusal<State>& state) {
  return !state && state.error().why == Refusal::Why::tips;
}

/// The largest share of one term under which the frame still stands, by halving: 14 times leaves a
/// six-thousandth of it unknown. A frame that tips without that term stays refused.
OrRefusal<State> respond_up_to_tipping(const Prepared& prepared, Loading& loading,
                                       std::size_t limited) {
  const double full = loading.terms.at(limited).factor;
  OrRefusal<State> state = respond(prepared, loading);
  if (!tips(state)) return state;
  double stands = 0.0, falls = full;
  loading.terms[limited].factor = stands;
  state = respond(prepared, loading);
  for (int i = 0; i < 14 && state; ++i) {
    loading.terms[limited].factor = 0.5 * (stands + falls);
    OrRefusal<State> tried = respond(prepared, loading);
    if (tried) {
      stands = loading.terms[limited].factor;
      state = std::move(tried);
    } else {
      falls = loading.terms[limited].factor;
    }
  }
  loading.terms[limited].factor = state ? stands : full;
  return state;
}

}  // namespace

OrRefusal<Response> static_response(const model::Model& model) {
  PlateCache plates;
  return static_response(model, plates);
}

OrRefusal<Response> static_response(const model::Model& model, PlateCache& plates) {
  Response response;
  for (const model::Combination& combination : model.combinations) {
    std::optional<Prepared>& prepared =
        response.prepared[static_cast<std::size_t>(combination.springs)];
    if (!prepared) {
      OrRefusal<Prepared> made = prepare(model, combination.springs, plates);
      if (!made) return tl::unexpected(made.error());
      prepared = *made;
    }
    Loading loading{combination.terms, {}};
    response.states.push_back(combination.limited
                                  ? respond_up_to_tipping(*prepared, loading, *combination.limited)
                                  : respond(*prepared, loading));
    response.loadings.push_back(std::move(loading));
  }
  return response;
}

namespace {

const Prepared& prepared_for(const Response& response, std::size_t combination) {
  expects(response.states.at(combination).has_value(), "diagrams: that combination has no answer");
  const Prepared& any = response.prepared[0] ? *response.prepared[0] : response.prepared[1].value();
  const model::SpringSet springs = any.model().combinations.at(combination).springs;
  return response.prepared[static_cast<std::size_t>(springs)].value();
}

}  // namespace

MemberDiagrams diagrams(const Response& response, std::size_t combination, model::MemberId member) {
  return diagrams(prepared_for(response, combination), member, response.loadings.at(combination),
                  *response.states[combination]);
}

MemberDiagrams force_diagrams(const Response& response, std::size_t combination,
                              model::MemberId member) {
  return force_diagrams(prepared_for(response, combination), member,
                        response.loadings.at(combination), *response.states[combination]);
}

}  // namespace standtrue::solve
