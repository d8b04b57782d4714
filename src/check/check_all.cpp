#include "standtrue/check/check_all.hpp"

#include "check/check_members.hpp"
#include "check/plate_answers.hpp"
#include "check/section_forces.hpp"
#include "standtrue/check/cautions.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/joints.hpp"
#include "standtrue/check/level.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/plates.hpp"
#include "standtrue/check/service.hpp"
#include "standtrue/check/sheets.hpp"
#include "standtrue/check/stability.hpp"
#include "standtrue/check/table_tests.hpp"
#include "standtrue/check/vibration.hpp"

namespace standtrue::check {

bool is_looked_at_after_creep(const model::Combination& combination) {
  return is_final(combination) || lasts_on_the_frame(combination);
}

bool lasts_on_the_frame(const model::Combination& combination) {
  return combination.name == "strength-stored";
}

// By hand and in this order: what is not listed here is not checked.
std::vector<Finding> check_all(const Answers& answers, const reference::Tables& tables) {
  const SectionForces forces(answers);
  const PlateAnswers plates(answers.model, answers.response, [](const auto& c) {
    return judges_strength(c) || judges_sag(c) || judges_test(c);
  });
  const bool is_plated = !answers.model.plates.empty();
  std::vector<Finding> all;
  const auto add = [&all](std::vector<Finding> found) { add_to(all, std::move(found)); };
  add(check_members(answers, forces,
                    tables));  // joints, sheets and the rest stay with limit states
  add(frame_stability(answers, tables));

  add(joints_under_gravity(answers, forces, tables));
  add(joints_under_shove(answers, forces, tables));
  add(joint_fasteners(answers, forces, tables));
  add(brace_ends(answers, forces, tables));

  add(strip_bending(answers, forces, tables));
  add(strip_shear(answers, forces, tables));
  add(plate_strength(answers, plates, tables));
  add(plate_screws(answers, tables));
  add(plate_glue(answers, tables));
  // Beside plates these are hand checks.
  if (!is_plated) add(board_between_carriers(answers, tables));
  if (!is_plated) add(board_edge(answers, tables));
  add(punching(answers, tables));

  add(sag(answers, tables));
  add(sag_of_plates(answers, plates, tables));
  add(sag_of_plate_edges(answers, plates, tables));
  if (!is_plated) add(sag_of_boards(answers, tables));
  if (!is_plated) add(sag_of_overhangs(answers, tables));
  add(sway(answers, tables));
  add(bed_twist(answers, plates, tables));

  add(vibration(answers, tables));
  add(brace_swings(answers));

  add(tipping(answers, tables));
  add(tipping_of_sheets(answers, tables));
  add(sliding(answers, tables));
  add(spreading(answers, tables));

  add(foot_load(answers, tables));
  add(lifting_feet(answers, tables));
  add(fixings(answers, tables));
  add(stem_bending(answers, tables));
  add(keep_off(answers, tables));

  add(table_tests(answers, plates, tables));
  add(drop(answers, plates, tables));
  add(drag(answers, tables));

  add(under_added_loads(answers, tables));
  add(unanswered(answers, tables));
  add(outside_this_tool(answers, tables));
  return all;
}

}  // namespace standtrue::check
