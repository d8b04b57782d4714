// All numbers SI (m, N).
#include "solve/contact_problem.hpp"

#include <algorithm>

namespace standtrue::solve {

namespace {

double spring_or_frame_stiffness(const Prepared::Inside& in, const model::Support& support) {
  if (support.stiffness) return *support.stiffness;
  const Eigen::Matrix<double, 6, 1> n = in.own_direction(support);
  const auto at = static_cast<Eigen::Index>(6 * support.node);
  double k = 0.0;
  for (Eigen::Index i = 0; i < 6; ++i) k += n(i) * n(i) * in.K.coeff(at + i, at + i);
  return k;
}

}  // namespace

ContactProblem contact_problem(const Prepared::Inside& in,
                               const std::vector<double>& support_forces) {
  const std::size_t n = in.contact_fields.size();
  const auto size = static_cast<Eigen::Index>(n);
  ContactProblem problem{Eigen::VectorXd(size),          in.contact_change,
                         Eigen::VectorXd(size),          std::vector<bool>(n),
                         std::vector<std::size_t>(n, 0), in.lifts};
  // A frame of stiff and soft parts is known less well: of the reference cases that nothing holds,
  // what should be zero came out as up to a fifth of this.
  constexpr double last_bit = 2.2e-16;
  problem.rounding = std::max(problem.rounding, last_bit / in.factor->reciprocal_condition());
  for (std::size_t j = 0; j < n; ++j) {
    const std::size_t s = in.contact_fields[j].support;
    const model::Support& support = in.model.supports[s];
    const auto J = static_cast<Eigen::Index>(j);
    problem.force(J) = support_forces[s];
    problem.stiffness(J) = spring_or_frame_stiffness(in, support);
    problem.press_only[j] = support.press_only;
    for (std::size_t i = 0; i < n; ++i) {
      if (support.rides_on == in.contact_fields[i].support) problem.rides_on[j] = i;
    }
  }
  return problem;
}

std::vector<Grip> grips_of(const Prepared::Inside& in, const ContactProblem& problem) {
  std::vector<Grip> grips;
  for (std::size_t j = 0; j < in.contact_fields.size(); ++j) {
    const model::Support& support = in.model.supports[in.contact_fields[j].support];
    if (!support.friction) continue;
    const auto same = std::find_if(grips.begin(), grips.end(), [&](const Grip& grip) {
      return grip.presses == problem.rides_on[j];
    });
    if (same == grips.end()) {
      grips.push_back({problem.rides_on[j], {j}, *support.friction});
    } else {
      same->riders.push_back(j);
      same->friction = std::min(same->friction, *support.friction);
    }
  }
  return grips;
}

}  // namespace standtrue::solve
