#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "check/each_part.hpp"
#include "check/laps.hpp"
#include "check/worst.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;
using std::numbers::pi;

Stress torsion_stress(Moment T, SecondMoment J, Length width, Length depth) {
  const double b = std::min(in_si(width), in_si(depth));
  const double h = std::max(in_si(width), in_si(depth));
  expects(b > 0.0 && in_si(J) > 0.0, "torsion_stress: sides and J must be positive");
  // The terms fall faster than exp(-nπ/2): ten odd ones leave less than 1e-13.
  double sum = 0.0;
  for (int n = 19; n >= 1; n -= 2) {
    sum += 1.0 / (n * n * std::cosh(n * pi * h / (2.0 * b)));
  }
  const double G_theta = std::abs(in_si(T)) / in_si(J);
  return quantity::pascals(G_theta * b * (1.0 - 8.0 / (pi * pi) * sum));
}

double k_shape(Length width, Length depth, const reference::Tables& tables) {
  const Length b = std::min(width, depth), h = std::max(width, depth);
  expects(b > Length{}, "k_shape: sides must be positive");
  return std::min(1.0 + tables.constant("k_shape slope").value * static_cast<double>(h / b),
                  tables.constant("k_shape max").value);
}

namespace {

/// What a twisted rectangle stands and how it is stressed, both with the sides that it has.
struct Twisted {
  SecondMoment J;
  double shape = 1.0;
  Stress per_newton_metre;
};
Twisted twisted(const model::Part& part, const reference::Tables& tables) {
  const SecondMoment J = model::rectangle(part.width, part.depth).J;
  return {J, k_shape(part.width, part.depth, tables),
          torsion_stress(quantity::newton_metres(1.0), J, part.width, part.depth)};
}

void tell_twist(Finding& finding, const model::Part& part, const Twisted& t, Stress tau,
                const Strengths& f) {
  finding.working.push_back(
      fmt::format("tau_tor = (T/J) b [1 - 8/pi^2 sum 1/(n^2 cosh(n pi h/2b))], J = {}: {}",
                  quantity::print(in_si(t.J), quantity::Kind::second_moment), shown(tau)));
  finding.working.push_back(fmt::format("k_shape f_v,d = {:.3f} x {} x {} / {} = {}", t.shape,
                                        f.k_mod, shown(part.timber.f_v_k), f.gamma_M,
                                        shown(t.shape * f.f_v)));
}

Finding torsion_of(const Answers& answers, const SectionForces& forces, const model::Part& part,
                   const reference::Tables& tables) {
  Finding finding =
      about(part, "torsion", "EN 1995-1-1, 6.1.8, eq. (6.14) and (6.15)", source_of(part, "f_v_k"));
  finding.sentence = fmt::format("Whether the {} stands its twist is not judged.", part.name);
  const Laps laps(answers.model, part);
  const Twisted whole = twisted(part, tables);
  const auto there = [&](const model::Member& member, const Station& s) {
    return laps.none() ? whole : twisted(laps.left(member, s), tables);
  };
  const OrWhy<std::optional<Worst>> worst =
      worst_of(answers, forces, part, tables,
               [&](const model::Member& member, const Station& s, const Strengths& f) -> double {
                 const Twisted t = there(member, s);
                 return std::abs(in_si(s.T)) * t.per_newton_metre / (t.shape * f.f_v);
               });
  if (!tell_worst(finding, answers, part, worst)) return finding;
  const Strengths& f = (*worst)->f;
  const model::Member& member = answers.model.members.at((*worst)->member);
  const Twisted t = there(member, (*worst)->station);
  const Stress tau = std::abs(in_si((*worst)->station.T)) * t.per_newton_metre;
  finding.unit = quantity::Kind::stress;
  finding.demand = in_si(tau);
  finding.limit = in_si(t.shape * f.f_v);
  tell_twist(finding, part, t, tau, f);
  const bool is_cut = tell_left(finding, part, laps.left(member, (*worst)->station));
  if (finding.judgement == Judgement::not_judged) return finding;
  finding.sentence =
      fmt::format("The {} is twisted to {} its strength.", part.name, share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice =
        is_cut ? cure_of_laps(part)
               : fmt::format("load the {} over its middle line, or a squarer section", part.name);
  }
  return finding;
}

}  // namespace

std::vector<Finding> torsion(const Answers& answers, const SectionForces& forces,
                             const reference::Tables& tables) {
  return each_part(answers, is_timber_member, [&](const model::Part& part, model::PartId) {
    return torsion_of(answers, forces, part, tables);
  });
}

}  // namespace standtrue::check
