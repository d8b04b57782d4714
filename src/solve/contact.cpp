// All numbers SI (m, N, Pa, rad).
#include "solve/contact.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include "solve/tips_over.hpp"

namespace standtrue::solve {

namespace {

/// Deciding supports that do not touch; and that touch but do not grip.
struct Guess {
  std::vector<bool> open, slipping;

  bool operator<(const Guess& other) const {
    return std::tie(open, slipping) < std::tie(other.open, other.slipping);
  }
};

std::vector<Eigen::Index> released(const ContactProblem& problem, const Guess& guess) {
  std::vector<Eigen::Index> set;
  for (std::size_t i = 0; i < guess.open.size(); ++i) {
    const std::size_t foot = problem.rides_on[i];
    if (problem.press_only[i] ? guess.open[i] : guess.open[foot] || guess.slipping[foot]) {
      set.push_back(static_cast<Eigen::Index>(i));
    }
  }
  return set;
}

/// What holds the released grounds back, and their forces, each scaled by the stiffness of its own.
struct Scaled {
  Eigen::MatrixXd stiffness;
  Eigen::VectorXd force, scale;
};

Scaled scaled_of(const ContactProblem& problem, const std::vector<Eigen::Index>& set) {
  const auto n = static_cast<Eigen::Index>(set.size());
  Scaled part{Eigen::MatrixXd(n, n), Eigen::VectorXd(n), Eigen::VectorXd(n)};
  for (Eigen::Index i = 0; i < n; ++i) {
    const Eigen::Index I = set[static_cast<std::size_t>(i)];
    part.scale(i) = 1.0 / std::sqrt(problem.stiffness(I));
    part.force(i) = part.scale(i) * problem.force(I);
    for (Eigen::Index j = 0; j < n; ++j) {
      part.stiffness(i, j) = problem.change(I, set[static_cast<std::size_t>(j)]);
    }
  }
  const Eigen::MatrixXd scaled = part.scale.asDiagonal() * part.stiffness * part.scale.asDiagonal();
  part.stiffness = 0.5 * (scaled + scaled.transpose());
  return part;
}

/// `moved`: as scaled, of the set.
Eigen::VectorXd ground_of(const ContactProblem& problem, const std::vector<Eigen::Index>& set,
                          const Scaled& part, const Eigen::VectorXd& moved) {
  Eigen::VectorXd ground = Eigen::VectorXd::Zero(problem.force.size());
  for (std::size_t i = 0; i < set.size(); ++i) {
    const auto at = static_cast<Eigen::Index>(i);
    ground(set[i]) = part.scale(at) * moved(at);
  }
  return ground;
}

/// Ground movements of the released set that make its forces vanish; nothing if what is left can
/// not hold the frame (then some movement of the released grounds carries the frame along without
/// force: the scaled stiffness is singular).
std::optional<Eigen::VectorXd> follow(const ContactProblem& problem,
                                      const std::vector<Eigen::Index>& set) {
  if (set.empty()) return Eigen::VectorXd::Zero(problem.force.size());
  const Scaled part = scaled_of(problem, set);
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen(part.stiffness);
  if (eigen.eigenvalues().cwiseAbs().minCoeff() < problem.rounding) return std::nullopt;
  return ground_of(problem, set, part,
                   -(eigen.eigenvectors() * eigen.eigenvalues().cwiseInverse().asDiagonal() *
                     eigen.eigenvectors().transpose() * part.force));
}

/// How wrong each deciding support is with that set: pull where closed, sinking where open; in
/// newtons, zero where right.
std::vector<double> violations(const ContactProblem& problem, const std::vector<bool>& open,
                               const Eigen::VectorXd& ground, double share = 1e-10) {
  const double tolerance = share * problem.force.cwiseAbs().maxCoeff();
  const Eigen::VectorXd force = problem.force + problem.change * ground;
  std::vector<double> result(open.size(), 0.0);
  for (std::size_t i = 0; i < open.size(); ++i) {
    if (!problem.press_only[i]) continue;
    const auto at = static_cast<Eigen::Index>(i);
    const double amount = open[i] ? -ground(at) * problem.stiffness(at) : -force(at);
    if (amount > tolerance) result[i] = amount;
  }
  return result;
}

bool none(const std::vector<double>& wrong) {
  return std::all_of(wrong.begin(), wrong.end(), [](double w) { return w == 0.0; });
}

/// Quick to find, so that most sets need no more. A set that `follow` takes is known here to 1e-7
/// of its largest movement, rounding over its least eigenvalue; where nothing holds the numbers may
/// be any, or none.
bool surely_wrong(const ContactProblem& problem, const std::vector<bool>& open,
                  const std::vector<Eigen::Index>& set) {
  const Scaled part = scaled_of(problem, set);
  if (set.empty()) return false;
  const Eigen::VectorXd moved = -part.stiffness.ldlt().solve(part.force);
  const double times = moved.cwiseAbs().maxCoeff() / part.force.cwiseAbs().maxCoeff();
  const double share = 1e-5 * std::max(1.0, times);
  return !none(violations(problem, open, ground_of(problem, set, part, moved), share));
}

Refusal tips() {
  return {Refusal::Why::tips, "the frame tips: what still touches the ground can not hold it",
          "spread the supports, move the load inwards, or fix it", std::nullopt};
}

/// Whether a frame at rest hangs on supports that touch it without force: with as little it rocks
/// to another set, so that neither is its answer. Without any load there is nothing to rock.
bool rocks(const ContactProblem& problem, Guess guess, const Eigen::VectorXd& ground) {
  const double tolerance = 1e-10 * problem.force.cwiseAbs().maxCoeff();
  if (tolerance == 0.0) return false;
  const Eigen::VectorXd force = problem.force + problem.change * ground;
  bool any = false;
  for (std::size_t i = 0; i < guess.open.size(); ++i) {
    if (!problem.press_only[i] || guess.open[i]) continue;
    if (std::abs(force(static_cast<Eigen::Index>(i))) > tolerance) continue;
    guess.open[i] = true;
    any = true;
  }
  return any && !follow(problem, released(problem, guess));
}

Refusal rocking() {
  return {Refusal::Why::tips, "the frame rocks: it stands on too few supports to stay as it is",
          "pack the short feet, or move the load off the line of those that touch", std::nullopt};
}

OrRefusal<ContactSolution> settled(const ContactProblem& problem, const Guess& guess,
                                   const Eigen::VectorXd& ground) {
  if (rocks(problem, guess, ground)) return tl::unexpected(rocking());
  return ContactSolution{ground, guess.open, guess.slipping};
}

std::vector<std::size_t> pressing(const ContactProblem& problem) {
  std::vector<std::size_t> which;
  for (std::size_t i = 0; i < problem.press_only.size(); ++i) {
    if (problem.press_only[i]) which.push_back(i);
  }
  return which;
}

bool surely_tips(const ContactProblem& problem) {
  return tips_over(problem.lifts, problem.force(pressing(problem)));
}

/// The set that satisfies every support, among those in which `slipping` (one of `deciding`)
/// touches without grip; nothing slips without it.
std::optional<OrRefusal<ContactSolution>> among_sets(const ContactProblem& problem,
                                                     const std::vector<std::size_t>& deciding,
                                                     std::optional<std::size_t> slipping) {
  for (std::size_t set = 0; set < (std::size_t{1} << deciding.size()); ++set) {
    Guess guess{std::vector<bool>(problem.press_only.size(), false),
                std::vector<bool>(problem.press_only.size(), false)};
    for (std::size_t i = 0; i < deciding.size(); ++i) {
      guess.open[deciding[i]] = ((set >> i) & 1U) != 0;
    }
    if (slipping) {
      if (guess.open[*slipping]) continue;
      guess.slipping[*slipping] = true;
    }
    const std::vector<Eigen::Index> off = released(problem, guess);
    if (surely_wrong(problem, guess.open, off)) continue;
    const std::optional<Eigen::VectorXd> ground = follow(problem, off);
    if (ground && none(violations(problem, guess.open, *ground))) {
      return settled(problem, guess, *ground);
    }
  }
  return std::nullopt;
}

/// The set that satisfies every support, whatever way leads to it.
OrRefusal<ContactSolution> try_every_set(const ContactProblem& problem) {
  if (surely_tips(problem)) return tl::unexpected(tips());
  const std::vector<std::size_t> deciding = pressing(problem);
  constexpr std::size_t most = 12;
  if (deciding.size() > most) {
    return tl::unexpected(Refusal{Refusal::Why::contact_unsettled,
                                  "which supports touch does not settle",
                                  "check their gaps and stiffness, or use fewer", std::nullopt});
  }
  if (const auto found = among_sets(problem, deciding, std::nullopt)) return *found;
  for (const std::size_t slipping : deciding) {
    if (const auto found = among_sets(problem, deciding, slipping)) return *found;
  }
  return tl::unexpected(tips());
}

}  // namespace

OrRefusal<ContactSolution> solve_contact(const ContactProblem& problem) {
  const std::vector<bool> none_of_them(problem.press_only.size(), false);
  Guess guess{none_of_them, none_of_them};
  std::set<Guess> seen;
  std::size_t last = 0;
  bool worst_first = true;
  constexpr int most = 400;
  for (int round = 0; round < most; ++round) {
    const std::optional<Eigen::VectorXd> ground = follow(problem, released(problem, guess));
    if (!ground) {
      if (!guess.open[last] || surely_tips(problem)) break;
      guess.open[last] = false;
      guess.slipping[last] = true;
      if (!seen.insert(guess).second) break;
      continue;
    }
    const std::vector<double> wrong = violations(problem, guess.open, *ground);
    if (none(wrong)) return settled(problem, guess, *ground);
    const auto chosen =
        worst_first ? std::max_element(wrong.begin(), wrong.end())
                    : std::find_if(wrong.begin(), wrong.end(), [](double w) { return w > 0.0; });
    last = static_cast<std::size_t>(chosen - wrong.begin());
    guess.open[last] = !guess.open[last];
    guess.slipping[last] = false;
    if (seen.insert(guess).second) continue;
    // In a circle. What grips rides on what presses, so that there may be no answer where a foot
    // hardly touches: with its grip it would be pulled, let go it would sink into the ground.
    if (worst_first) {
      worst_first = false;
      seen.clear();
    } else if (guess.open[last]) {
      guess.open[last] = false;
      guess.slipping[last] = true;
      seen.clear();
    }
  }
  return try_every_set(problem);
}

}  // namespace standtrue::solve
