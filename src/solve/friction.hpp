#pragma once

#include <optional>
#include <vector>

#include "solve/contact.hpp"

/// Supports that hold by friction. All numbers SI.
namespace standtrue::solve {

/// What rides on one foot and holds sideways by friction: places in the ContactProblem.
struct Grip {
  std::size_t presses = 0;
  std::vector<std::size_t> riders;
  double friction = 0.0;
};

/// Of all supports that can let go: how far each ground has moved under the frame (a gap that has
/// opened, or a slip), which press-only ones are open, and which followers slide.
struct FrictionSolution {
  Eigen::VectorXd ground;
  std::vector<bool> open;
  std::vector<bool> sliding;
};

/// The contact problem with Coulomb friction. A foot that presses with N either holds,
/// |t| <= mu N, or slides: t = mu N against its slip. With p = N - k g and q = t - k g (g the
/// grounds, k their scale) that is one equation per support,
///     g = 0 where p >= 0, else N = 0;    g = 0 where |q| <= mu p, else t = mu N q/|q|,
/// which `settle` solves from a start by Newton's method; nothing where it does not settle.
/// Source (from memory): Alart & Curnier, Comput. Methods Appl. Mech. Eng. 92 (1991).
[[nodiscard]] std::optional<FrictionSolution> settle(const ContactProblem& problem,
                                                     const std::vector<Grip>& grips,
                                                     Eigen::VectorXd start);

/// As `settle`, from the state in which nothing slides; where that is too far away, by way of
/// rougher feet, their friction falling to what it is. The answer does not know how the load came
/// on: of several states that are possible one is found. Refused with `tips` where even feet that
/// grip always can not hold the frame, with `slides` where friction can not (of the limit itself no
/// more than a hundredth is missed).
[[nodiscard]] OrRefusal<FrictionSolution> solve_friction(const ContactProblem& problem,
                                                         const std::vector<Grip>& grips);

}  // namespace standtrue::solve
