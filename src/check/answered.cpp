#include "check/answered.hpp"

#include <algorithm>
#include <limits>

#include "standtrue/contract.hpp"

namespace standtrue::check {

std::string id_of(std::string_view check, const std::string& thing) {
  std::string id = std::string(check) + "/";
  for (const char c : thing) {
    if (c == ' ') {
      id += '-';
    } else if (c != ',') {
      id += c;
    }
  }
  return id;
}

void judge_against(Finding& finding, double demand, double limit) {
  expects(limit > 0.0, "judge_against: the limit must be positive");
  finding.demand = demand;
  finding.limit = limit;
  finding.ratio = finding.limit_is_least ? limit / demand : demand / limit;
  finding.judgement = judge(finding.ratio);
}

void leave_unjudged(Finding& finding, std::string why) {
  finding.ratio = std::numeric_limits<double>::quiet_NaN();
  finding.judgement = Judgement::not_judged;
  finding.why = std::move(why);
}

void tell(Finding& finding, std::string why) {
  finding.kind = Kind::told;
  finding.judgement = Judgement::satisfied;
  finding.ratio = std::numeric_limits<double>::quiet_NaN();
  finding.why = std::move(why);
  finding.advice.clear();
}

const solve::State* state_of(const solve::Response& response, std::size_t combination) {
  const solve::OrRefusal<solve::State>& state = response.states.at(combination);
  return state ? &*state : nullptr;
}

std::string refusal_of(const solve::Response& response, std::size_t combination) {
  const solve::OrRefusal<solve::State>& state = response.states.at(combination);
  return state ? std::string() : state.error().what;
}

std::string why_none(const model::Model& model, const solve::Response& response,
                     bool (*wanted)(const model::Combination&)) {
  const auto& all = model.combinations;
  const auto first = std::find_if(all.begin(), all.end(), wanted);
  return refusal_of(response, static_cast<std::size_t>(first - all.begin()));
}

bool is_shove(const model::Combination& combination) {
  return combination.leading == model::Leading::shove ||
         combination.leading == model::Leading::strong_shove;
}

}  // namespace standtrue::check
