#include "check/check_members.hpp"
#include "check/plate_answers.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/check/placed.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

namespace {

bool judges_either(const model::Combination& c) { return judges_strength(c) || judges_sag(c); }

std::vector<Finding> all_of(const Answers& answers, const PlateAnswers& plates,
                            const PlateAnswers* crept, const reference::Tables& tables,
                            bool service) {
  const SectionForces forces(answers);
  std::vector<Finding> all = check_members(answers, forces, tables);
  const auto add = [&all](std::vector<Finding> found) { add_to(all, std::move(found)); };
  add(joints_under_gravity(answers, forces, tables));
  add(brace_ends(answers, forces, tables));
  add(plate_strength(answers, plates, tables));
  add(plate_screws(answers, tables));
  add(plate_glue(answers, tables));
  if (service) add(sag(answers, tables));
  if (service) add(sag_of_plates(answers, plates, crept, tables));
  add(tipping(answers, tables));
  add(tipping_of_sheets(answers, tables));
  add(foot_load(answers, tables));
  add(unanswered(answers, tables));
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

bool reads_plate_forces(const model::Combination& c) { return judges_strength(c); }

bool reads_plate_movements(const model::Combination& c) { return judges_sag(c) || is_final(c); }

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
                                  bool service, const Known& known) {
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
