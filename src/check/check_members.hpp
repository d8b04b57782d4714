#pragma once

#include <vector>

#include "check/section_forces.hpp"

namespace standtrue::check {

/// Every limit state of posts, rails, bearers and braces, by the bench's rules; an explicit list.
/// `forces` are those of limit states.
[[nodiscard]] std::vector<Finding> check_members(const Answers& answers,
                                                 const SectionForces& forces,
                                                 const reference::Tables& tables);

/// All of them in one list.
void add_to(std::vector<Finding>& all, std::vector<Finding> found);

}  // namespace standtrue::check
