#include "decide/bounded.hpp"

#include <algorithm>
#include <limits>

#include "standtrue/check/joints.hpp"

namespace standtrue::decide {

namespace {

/// Of a crept frame, what is looked at; what lasts with the springs by which it sways.
template <class Wanted>
void keep_after_creep(model::Model& model, Wanted wanted) {
  std::vector<model::Combination>& all = model.combinations;
  all.erase(std::remove_if(all.begin(), all.end(), [&](const auto& c) { return !wanted(c); }),
            all.end());
  for (model::Combination& c : all) {
    if (check::lasts_on_the_frame(c)) c.springs = model::SpringSet::sway;
  }
}

/// Under some of the largest loads, or under all, such a frame has no balance.
bool gives_way(const Bounded& at) {
  const solve::Response& response = *at.response;
  if (response.stability && response.stability->factor <= 1.0) return true;
  const std::vector<model::Combination>& all = at.idealisation.model->combinations;
  for (std::size_t c = 0; c < all.size(); ++c) {
    const auto& state = response.states.at(c);
    if (all[c].purpose == model::Purpose::strength && !state &&
        state.error().why == solve::Refusal::Why::buckles) {
      return true;
    }
  }
  return false;
}

/// The frame's own finding tells that it gives way. What that leaves of its parts is neither good
/// nor a number.
void leave_open(std::vector<check::Finding>& findings) {
  using check::Group;
  for (check::Finding& f : findings) {
    const bool is_of_parts =
        f.group == Group::carry || f.group == Group::joints || f.group == Group::sheet;
    if (!is_of_parts || f.kind != check::Kind::safety || f.id.rfind("frame/", 0) == 0) continue;
    if (f.judgement != check::Judgement::satisfied) continue;
    f.judgement = check::Judgement::outside_this_tool;
    f.ratio = f.demand = std::numeric_limits<double>::quiet_NaN();
  }
}

}  // namespace

Bounded solved(const bench::Bench& bench, const reference::Tables& tables,
               const model::Assumptions& assumptions, solve::PlateCache& plates,
               const Bounded* as_mean) {
  Bounded at;
  at.bound = assumptions.bound;
  at.idealisation = model::idealise(bench, tables, assumptions);
  if (!at.idealisation.model) return at;
  if (assumptions.after_creep) {
    keep_after_creep(*at.idealisation.model, check::is_looked_at_after_creep);
  }
  double below = tables.limits.buckling.value;
  if (as_mean && as_mean->response) {
    below = as_mean->response->second_order ? std::numeric_limits<double>::infinity() : 0.0;
  }
  solve::OrRefusal<solve::Response> response =
      solve::static_response(*at.idealisation.model, plates, below);
  if (response) {
    at.response = std::move(*response);
  } else {
    at.refusal = response.error();
  }
  return at;
}

Bounded crept_frame(const bench::Bench& bench, const reference::Tables& tables,
                    const model::Assumptions& assumptions, const Bounded& at_once,
                    solve::PlateCache& plates) {
  Bounded at;
  at.bound = assumptions.bound;
  const auto& stability =
      at_once.response ? at_once.response->stability : std::optional<solve::Stability>();
  // In the dampest air creep makes timber softer by 3 and its joints by 5 (EN 1995-1-1, Table 3.2
  // and 2.3.2.2): from where second order does not count it stays above the limit.
  if (!stability || !(stability->factor < tables.limits.buckling.value)) return at;
  model::Assumptions crept = assumptions;
  crept.after_creep = true;
  at.idealisation = model::idealise(bench, tables, crept);
  if (!at.idealisation.model) return at;
  keep_after_creep(*at.idealisation.model, check::lasts_on_the_frame);
  solve::OrRefusal<solve::Response> response =
      solve::static_response(*at.idealisation.model, plates, 0.0);
  if (response) at.response = std::move(*response);
  return at;
}

std::set<std::string> let_go(const bench::Bench& bench, const reference::Tables& tables,
                             const model::Scales& scales, Bounded& mean,
                             solve::PlateCache& plates) {
  constexpr int most_rounds = 5;
  std::set<std::string> released;
  for (int round = 0; round < most_rounds && mean.response; ++round) {
    std::set<std::string> wanted = released;
    for (std::string& name :
         check::overloaded_ductile_joints({*mean.idealisation.model, *mean.response}, tables)) {
      wanted.insert(std::move(name));
    }
    if (wanted == released) break;
    model::Assumptions assumptions{model::Bound::mean, false, wanted};
    assumptions.scales = scales;
    Bounded next = solved(bench, tables, assumptions, plates);
    if (!next.response) break;
    mean = std::move(next);
    released = std::move(wanted);
  }
  return released;
}

std::vector<check::Finding> judged(const Bounded& at, const Bounded& after_creep, bool at_mean,
                                   const reference::Tables& tables, bool swings) {
  if (!at.response) return {};
  check::Answers answers{*at.idealisation.model, *at.response};
  answers.at_mean = at_mean;
  answers.swings = swings;
  if (after_creep.response) {
    answers.creep_model = &*after_creep.idealisation.model;
    answers.creep_response = &*after_creep.response;
  }
  return check::check_all(answers, tables);
}

std::vector<check::Finding> judged_at_bound(const Bounded& at, const Bounded& crept_frame,
                                            const reference::Tables& tables) {
  if (!at.response) return {};
  check::Answers answers{*at.idealisation.model, *at.response};
  answers.at_mean = false;
  if (crept_frame.response) {
    answers.crept_model = &*crept_frame.idealisation.model;
    answers.crept_response = &*crept_frame.response;
  }
  std::vector<check::Finding> findings = check::check_all(answers, tables);
  if (gives_way(at)) leave_open(findings);
  return findings;
}

}  // namespace standtrue::decide
