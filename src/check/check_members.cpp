#include "check/check_members.hpp"

#include <iterator>

#include "standtrue/check/allowable.hpp"
#include "standtrue/check/members.hpp"

namespace standtrue::check {

void add_to(std::vector<Finding>& all, std::vector<Finding> found) {
  all.insert(all.end(), std::make_move_iterator(found.begin()),
             std::make_move_iterator(found.end()));
}

std::vector<Finding> check_members(const Answers& answers, const SectionForces& forces,
                                   const reference::Tables& tables) {
  std::vector<Finding> all;
  const auto add = [&all](std::vector<Finding> found) { add_to(all, std::move(found)); };
  if (answers.model.parts.bench.rules == bench::Rules::allowable_stress) {
    const SectionForces allowed(answers, bench::Rules::allowable_stress);
    add(allowable_bending(answers, allowed, tables));
    add(allowable_shear(answers, allowed, tables));
    add(allowable_torsion(answers, allowed, tables));
    add(allowable_notches(answers, allowed, tables));
    add(allowable_columns(answers, allowed, tables));
    add(allowable_beams(answers, allowed, tables));
    add(allowable_seats(answers, allowed, tables));
    add(allowable_post_ends(answers, allowed, tables));
    return all;
  }
  add(bending(answers, forces, tables));
  add(shear(answers, forces, tables));
  add(torsion(answers, forces, tables));
  add(notches(answers, forces, tables));
  add(column_stability(answers, forces, tables));
  add(lateral_stability(answers, forces, tables));
  add(seat_bearing(answers, forces, tables));
  add(post_end_bearing(answers, forces, tables));
  return all;
}

}  // namespace standtrue::check
