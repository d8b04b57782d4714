#pragma once

#include <vector>

#include "solve/friction.hpp"
#include "solve/prepared.hpp"

/// The contact problem of a prepared frame. All numbers SI.
namespace standtrue::solve {

/// Of the supports that can let go, in the order of Inside::contact_fields, nothing changed;
/// `support_forces` are those of all supports while every one of them holds.
[[nodiscard]] ContactProblem contact_problem(const Prepared::Inside& in,
                                             const std::vector<double>& support_forces);

/// Which of them hold by friction, as places in the contact problem.
[[nodiscard]] std::vector<Grip> grips_of(const Prepared::Inside& in, const ContactProblem& problem);

}  // namespace standtrue::solve
