// All numbers SI (m, N).
#include "solve/friction.hpp"

#include <algorithm>
#include <cmath>

#include "solve/friction_equations.hpp"

namespace standtrue::solve {

namespace {

Refusal slides() {
  return {Refusal::Why::slides, "the frame slides: friction can not hold it",
          "feet that grip better, more weight on them, or a fixing", std::nullopt};
}

/// By how much each grip would have to be rougher for the state in which nothing slides.
std::vector<double> wanting(const ContactProblem& problem, const std::vector<Grip>& grips,
                            const ContactSolution& held) {
  const Eigen::VectorXd force = problem.force + problem.change * held.ground;
  const double nothing = 1e-9 * problem.force.cwiseAbs().maxCoeff();
  constexpr double rough = 2.0;  // nothing grips better, and feet that hardly press need no more
  std::vector<double> more;
  for (const Grip& grip : grips) {
    double square = 0.0;
    for (const std::size_t r : grip.riders) square += force(at(r)) * force(at(r));
    const double N = std::max(nothing, force(at(grip.presses)));
    const bool slides = !held.open[grip.presses] && square > 0.0;
    const double enough = std::min(rough, std::sqrt(square) / N);
    more.push_back(slides ? std::max(0.0, enough - grip.friction) : 0.0);
  }
  return more;
}

}  // namespace

std::optional<FrictionSolution> settle(const ContactProblem& problem,
                                       const std::vector<Grip>& grips, Eigen::VectorXd start) {
  FrictionEquations equations(problem, grips);
  Eigen::VectorXd ground = std::move(start);
  constexpr int rounds = 12;
  for (int round = 0; round < rounds; ++round) {
    equations.look(ground);
    if (!equations.is_near()) break;
    if (equations.are_met()) return equations.now();
    ground += equations.step();
  }
  return std::nullopt;
}

OrRefusal<FrictionSolution> solve_friction(const ContactProblem& problem,
                                           const std::vector<Grip>& grips) {
  const OrRefusal<ContactSolution> held = solve_contact(problem);
  if (!held) return tl::unexpected(held.error());
  if (auto found = settle(problem, grips, held->ground)) return *found;
  const std::vector<double> more = wanting(problem, grips, *held);
  Eigen::VectorXd ground = held->ground;
  double share = 1.0, step = 0.25;  // of what would be wanting
  constexpr double least = 2e-4;
  while (step >= least) {
    const double tried = std::max(0.0, share - step);
    std::vector<Grip> rougher = grips;
    for (std::size_t i = 0; i < grips.size(); ++i) rougher[i].friction += tried * more[i];
    if (auto found = settle(problem, rougher, ground)) {
      if (tried == 0.0) return *found;
      share = tried;
      ground = std::move(found->ground);
      step *= 1.5;
    } else {
      step *= 0.5;
    }
  }
  return tl::unexpected(slides());
}

}  // namespace standtrue::solve
