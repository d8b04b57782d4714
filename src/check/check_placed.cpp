#include <iterator>

#include "check/plate_answers.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/allowable.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

namespace {

using Found = std::vector<Finding>;

void add(Found& all, Found found) {
  all.insert(all.end(), std::make_move_iterator(found.begin()),
             std::make_move_iterator(found.end()));
}

void members(Found& all, const Answers& answers, const SectionForces& forces,
             const reference::Tables& tables) {
  if (answers.model.parts.bench.rules == bench::Rules::allowable_stress) {
    const SectionForces allowed(answers, bench::Rules::allowable_stress);
    add(all, allowable_bending(answers, allowed, tables));
    add(all, allowable_shear(answers, allowed, tables));
    add(all, allowable_torsion(answers, allowed, tables));
    add(all, allowable_notches(answers, allowed, tables));
    add(all, allowable_columns(answers, allowed, tables));
    add(all, allowable_beams(answers, allowed, tables));
    add(all, allowable_seats(answers, allowed, tables));
    add(all, allowable_post_ends(answers, allowed, tables));
    return;
  }
  add(all, bending(answers, forces, tables));
  add(all, shear(answers, forces, tables));
  add(all, torsion(answers, forces, tables));
  add(all, notches(answers, forces, tables));
  add(all, column_stability(answers, forces, tables));
  add(all, lateral_stability(answers, forces, tables));
  add(all, seat_bearing(answers, forces, tables));
  add(all, post_end_bearing(answers, forces, tables));
}

bool judges_either(const model::Combination& c) { return judges_strength(c) || judges_sag(c); }
bool is_final(const model::Combination& c) { return c.name == "final"; }

Found all_of(const Answers& answers, const PlateAnswers& plates, const PlateAnswers* crept,
             const reference::Tables& tables, bool service) {
  const SectionForces forces(answers);
  Found all;
  members(all, answers, forces, tables);
  add(all, joints_under_gravity(answers, forces, tables));
  add(all, brace_ends(answers, forces, tables));
  add(all, plate_strength(answers, plates, tables));
  if (service) add(all, sag(answers, tables));
  if (service) add(all, sag_of_plates(answers, plates, crept, tables));
  add(all, tipping(answers, tables));
  add(all, foot_load(answers, tables));
  add(all, unanswered(answers, tables));
  return all;
}

}  // namespace

bool knows_the_place(const model::Combination& combination) {
  using model::Leading;
  using model::Purpose;
  if (combination.second_order || combination.springs != model::SpringSet::gravity) return false;
  const bool lasts =
      combination.leading == Leading::permanent || combination.leading == Leading::stored;
  switch (combination.purpose) {
    case Purpose::strength:
    case Purpose::as_given:
    case Purpose::allowable:
      return lasts || combination.leading == Leading::stand;
    case Purpose::service:
      return lasts;
    case Purpose::sway:
    case Purpose::test:
      break;
  }
  return false;
}

std::vector<Finding> check_placed(const Answers& answers, const reference::Tables& tables,
                                  bool service) {
  const PlateAnswers plates(answers.model, answers.response,
                            service ? judges_either : judges_strength);
  if (!service || !answers.creep_model || !answers.creep_response) {
    return all_of(answers, plates, nullptr, tables, service);
  }
  const PlateAnswers crept(*answers.creep_model, *answers.creep_response, is_final);
  return all_of(answers, plates, &crept, tables, service);
}

std::vector<Finding> check_placed(const Answers& answers, const reference::Tables& tables,
                                  bool service, const KnownMovements& known) {
  const PlateAnswers plates(answers.model, answers.response,
                            service ? judges_either : judges_strength, known.at_once);
  if (!service || !answers.creep_model || !known.after_creep) {
    return all_of(answers, plates, nullptr, tables, service);
  }
  const PlateAnswers crept(*answers.creep_model, *answers.creep_response, is_final,
                           *known.after_creep);
  return all_of(answers, plates, &crept, tables, service);
}

}  // namespace standtrue::check
