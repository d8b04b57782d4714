// All numbers SI (m, N).
#include "standtrue/solve/growing.hpp"

#include <algorithm>
#include <cmath>

#include "solve/contact_problem.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

/// The largest factor up to `most` that `holds`, as fine as that; infinite if `most` does.
template <class Holds>
double last_held(double most, std::optional<double> near, double fine, Holds holds) {
  double held = 0.0, lost = most;
  if (near && *near > 0.0 && (1.0 + fine) * *near < most) {
    if (!holds((1.0 - fine) * *near)) {
      lost = (1.0 - fine) * *near;
    } else if (!holds((1.0 + fine) * *near)) {
      return *near;
    } else {
      held = (1.0 + fine) * *near;
    }
  }
  if (lost == most && holds(most)) return std::numeric_limits<double>::infinity();
  while (lost - held > 2.0 * fine * lost && lost > 1e-9 * most) {
    const double tried = 0.5 * (held + lost);
    (holds(tried) ? held : lost) = tried;
  }
  return 0.5 * (held + lost);
}

/// Forces of all supports under some cases while every support holds.
std::vector<double> all_held(const Prepared::Inside& in, const std::vector<model::Factored>& terms,
                             const Eigen::VectorXd& ground, const Field& start) {
  Eigen::VectorXd movement = start.movement, held = start.held_forces;
  for (const model::Factored& term : terms) {
    const Field& field = in.case_field(term.load_case);
    movement += term.factor * field.movement;
    held += term.factor * field.held_forces;
  }
  return in.support_forces(movement, ground, held);
}

/// The feet under a push of any size.
class Feet {
 public:
  Feet(const Prepared::Inside& in, const Loading& rest, const Growing& growing)
      : problem_(contact_problem(in, all_held(in, rest.terms, in.ground, in.ground_field))),
        grips_(grips_of(in, problem_)),
        rest_(problem_.force) {
    const Field none{Eigen::VectorXd::Zero(in.ground_field.movement.size()), 0.0,
                     Eigen::VectorXd::Zero(in.ground_field.held_forces.size())};
    const Eigen::VectorXd still = Eigen::VectorXd::Zero(in.ground.size());
    push_ = contact_problem(in, all_held(in, {{growing.push, growing.sense}}, still, none)).force;
  }

  /// Contact alone, every foot that presses gripping.
  [[nodiscard]] OrRefusal<ContactSolution> stand(double push) {
    problem_.force = rest_ + push * push_;
    return solve_contact(problem_);
  }
  [[nodiscard]] bool grips_all(double push) {
    const OrRefusal<ContactSolution> held = stand(push);
    if (!held) return false;
    const Eigen::VectorXd force = problem_.force + problem_.change * held->ground;
    const double rounding = 1e-9 * force.cwiseAbs().maxCoeff();
    return std::all_of(grips_.begin(), grips_.end(), [&](const Grip& grip) {
      double square = 0.0;
      for (const std::size_t r : grip.riders) {
        square += std::pow(force(static_cast<Eigen::Index>(r)), 2);
      }
      return held->open[grip.presses] ||
             std::sqrt(square) <=
                 grip.friction * force(static_cast<Eigen::Index>(grip.presses)) + rounding;
    });
  }
  [[nodiscard]] bool holds(double push) {
    problem_.force = rest_ + push * push_;
    return solve_friction(problem_, grips_).has_value();
  }
  [[nodiscard]] bool can_slide() const { return !grips_.empty(); }

 private:
  ContactProblem problem_;
  std::vector<Grip> grips_;
  Eigen::VectorXd rest_, push_;
};

}  // namespace

OrRefusal<LetsGo> lets_go(const Prepared& prepared, const Loading& rest, const Growing& growing) {
  expects(rest.node_loads.empty() && rest.grounds.empty() && !rest.second_order,
          "lets_go: cases alone, first order");
  const Prepared::Inside& in = prepared.inside();
  for (const model::Factored& term : rest.terms) {
    if (in.cases.at(term.load_case).refusal) {
      return tl::unexpected(*in.cases[term.load_case].refusal);
    }
  }
  if (in.cases.at(growing.push).refusal) return tl::unexpected(*in.cases[growing.push].refusal);
  LetsGo at;
  if (in.contact_fields.empty()) return at;
  constexpr double to_a_thousandth = 1e-3, to_a_hundredth = 1e-2;
  Feet feet(in, rest, growing);
  if (const auto still = feet.stand(0.0); !still) return tl::unexpected(still.error());
  if (growing.tips) {
    at.tips = last_held(growing.most, growing.tips_near, to_a_thousandth,
                        [&](double push) { return feet.stand(push).has_value(); });
  }
  if (!growing.slides || !feet.can_slide()) return at;
  // What tips it is not held by friction either: just below that.
  const double most = std::min(growing.most, (1.0 - 2e-3) * at.tips);
  at.first_slips = last_held(most, std::nullopt, to_a_thousandth,
                             [&](double push) { return feet.grips_all(push); });
  if (std::isinf(at.first_slips)) return at;
  at.slides = last_held(most, growing.slides_near, to_a_hundredth,
                        [&](double push) { return feet.holds(push); });
  return at;
}

}  // namespace standtrue::solve
