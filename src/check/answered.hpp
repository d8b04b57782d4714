#pragma once

#include <string>
#include <string_view>

#include "standtrue/check/check_all.hpp"

/// What every check does with its number, and with a combination that has no answer.
namespace standtrue::check {

/// "sag", "front top rail, left end" to "sag/front-top-rail-left-end".
[[nodiscard]] std::string id_of(std::string_view check, const std::string& thing);

/// Sets demand, limit, ratio and judgement. Contract: limit > 0.
void judge_against(Finding& finding, double demand, double limit);

/// Not judged, for that reason.
void leave_unjudged(Finding& finding, std::string why);

/// A number worth knowing, and why it judges nothing: there is no line that it could cross.
void tell(Finding& finding, std::string why);

/// The answer to a combination, or null where the solver refused it.
[[nodiscard]] const solve::State* state_of(const solve::Response& response,
                                           std::size_t combination);

/// Why a combination has no answer, for people; empty where it has one.
[[nodiscard]] std::string refusal_of(const solve::Response& response, std::size_t combination);
/// Why none of the wanted combinations has one. Contract: there is such a combination.
[[nodiscard]] std::string why_none(const model::Model& model, const solve::Response& response,
                                   bool (*wanted)(const model::Combination&));

/// Led by a shove, of people or a strong one.
[[nodiscard]] bool is_shove(const model::Combination& combination);

}  // namespace standtrue::check
