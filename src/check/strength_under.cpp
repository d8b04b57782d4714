#include "check/strength_under.hpp"

#include <iterator>

#include "check/answered.hpp"
#include "check/plate_use.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/check/members.hpp"

namespace standtrue::check {

namespace {

std::vector<Finding> all_under(const Answers& answers, const SectionForces& forces,
                               const PlateAnswers& plates,
                               bool (*wanted)(const model::Combination&),
                               const reference::Tables& tables) {
  std::vector<Finding> all;
  const auto add = [&all](std::vector<Finding> found) {
    all.insert(all.end(), std::make_move_iterator(found.begin()),
               std::make_move_iterator(found.end()));
  };
  add(bending(answers, forces, tables));
  add(shear(answers, forces, tables));
  add(torsion(answers, forces, tables));
  add(notches(answers, forces, tables));
  add(column_stability(answers, forces, tables));
  add(lateral_stability(answers, forces, tables));
  add(seat_bearing(answers, forces, tables));
  add(joints_under_gravity(answers, forces, tables));
  add(joints_under_shove(answers, forces, tables));
  add(brace_ends(answers, forces, tables));
  add(plate_strength_under(answers, plates, wanted, tables));
  return all;
}

bool is_pushed(const Answers& answers, const SectionForces& forces) {
  for (const std::size_t c : forces.combinations()) {
    if (answers.model.combinations[c].leading == model::Leading::shove) return true;
  }
  return false;
}

}  // namespace

StrengthUnder strength_under(const Answers& answers, const PlateAnswers& plates,
                             bool (*wanted)(const model::Combination&),
                             const reference::Tables& tables) {
  StrengthUnder under;
  const SectionForces forces(answers, wanted);
  under.answered = forces.combinations().size();
  for (const std::size_t c : forces.refused()) {
    if (under.refused.empty()) under.refused = refusal_of(answers.response, c);
    const bool tips = answers.response.states[c].error().why == solve::Refusal::Why::tips;
    if (tips && !under.tips) under.tips = c;
  }
  if (under.answered == 0) return under;
  const model::Parts& parts = answers.model.parts;
  if (answers.model.plates.empty() && !parts.bench.sheets.empty()) {
    under.unjudged.emplace_back("sheets, which this model does not hold as plates");
  }
  const bool pushed = is_pushed(answers, forces);
  for (Finding& f : all_under(answers, forces, plates, wanted, tables)) {
    // What no push leads has no sum of joints.
    if (!pushed && f.id.rfind("joint-sum/", 0) == 0) continue;
    if (f.judgement == Judgement::not_judged) {
      under.unjudged.push_back(f.id);
      continue;
    }
    if (!is_worse(f.ratio, under.ratio) && !under.sentence.empty()) continue;
    under.ratio = f.ratio;
    under.sentence = std::move(f.sentence);
    under.place = std::move(f.place);
    under.combination = std::move(f.combination);
    under.advice = std::move(f.advice);
    under.working = std::move(f.working);
  }
  return under;
}

}  // namespace standtrue::check
