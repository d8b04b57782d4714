#include "decide/place_directly.hpp"

#include <algorithm>
#include <optional>

#include "decide/placing.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/check/placed.hpp"

namespace standtrue::decide {

namespace {

using Released = std::set<std::string>;

struct Solved {
  model::Idealisation made;
  std::optional<solve::Response> response;
  std::string why;
};

Solved solved_directly(const bench::Bench& bench, const reference::Tables& tables,
                       const model::Assumptions& assumptions, solve::PlateCache& plates) {
  Solved s;
  s.made = model::idealise(bench, tables, assumptions);
  if (!s.made.model) {
    s.why = s.made.faults.empty() ? "there is no frame" : s.made.faults.front();
    return s;
  }
  const auto wanted = assumptions.after_creep ? is_wanted_after_creep : is_wanted_at_once;
  std::vector<model::Combination>& all = s.made.model->combinations;
  all.erase(std::remove_if(all.begin(), all.end(), [&](const auto& c) { return !wanted(c); }),
            all.end());
  solve::OrRefusal<solve::Response> response = solve::static_response(*s.made.model, plates);
  if (response) {
    s.response = std::move(*response);
  } else {
    s.why = response.error().what;
  }
  return s;
}

/// As `assess` lets go: until no more are overloaded, or the frame would move.
Released let_go_directly(const bench::Bench& bench, const reference::Tables& tables, Solved& mean,
                         solve::PlateCache& plates) {
  constexpr int most_rounds = 5;
  Released released;
  for (int round = 0; round < most_rounds && mean.response; ++round) {
    Released wanted = released;
    for (std::string& name :
         check::overloaded_ductile_joints({*mean.made.model, *mean.response}, tables)) {
      wanted.insert(std::move(name));
    }
    if (wanted == released) break;
    Solved next = solved_directly(bench, tables, {model::Bound::mean, false, wanted}, plates);
    if (!next.response) break;
    mean = std::move(next);
    released = std::move(wanted);
  }
  return released;
}

std::vector<check::Finding> judged_solved(const Solved& at, const Solved* crept,
                                          const reference::Tables& tables) {
  if (!at.response) return {};
  check::Answers answers{*at.made.model, *at.response};
  answers.at_mean = false;
  if (crept && crept->response) {
    answers.creep_model = &*crept->made.model;
    answers.creep_response = &*crept->response;
  }
  return check::check_placed(answers, tables, crept != nullptr);
}

}  // namespace

bool is_wanted_at_once(const model::Combination& combination) {
  return check::knows_the_place(combination) && combination.name != "final";
}

bool is_wanted_after_creep(const model::Combination& combination) {
  return combination.name == "final";
}

std::set<std::string> let_go_under_gravity(const bench::Bench& bench,
                                           const reference::Tables& tables) {
  solve::PlateCache plates;
  Solved mean = solved_directly(bench, tables, {}, plates);
  return let_go_directly(bench, tables, mean, plates);
}

AtBounds judged_directly(const bench::Bench& bench, const reference::Tables& tables,
                         bool all_bounds) {
  AtBounds found;
  solve::PlateCache plates;
  Solved mean = solved_directly(bench, tables, {}, plates);
  const Released released = let_go_directly(bench, tables, mean, plates);
  found.why = mean.why;
  if (!mean.response) return found;
  const Solved crept = solved_directly(bench, tables, {model::Bound::mean, true, released}, plates);
  found.mean = judged_solved(mean, &crept, tables);
  // What is exceeded at mean joints is so at any others.
  if (!all_bounds || safety_ratio(found.mean) > 1.0) return found;
  model::Assumptions other{model::Bound::soft, false, released};
  found.soft = judged_solved(solved_directly(bench, tables, other, plates), nullptr, tables);
  other.low_timber = true;
  found.poor = judged_solved(solved_directly(bench, tables, other, plates), nullptr, tables);
  other = {model::Bound::stiff, false, released};
  found.stiff = judged_solved(solved_directly(bench, tables, other, plates), nullptr, tables);
  return found;
}

}  // namespace standtrue::decide
