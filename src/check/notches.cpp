#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/each_part.hpp"
#include "check/notches.hpp"
#include "check/worst.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/members.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;
using reference::Material;

namespace {

double k_n(Material material, const reference::Tables& tables) {
  if (material == Material::lvl) return tables.constant("k_n LVL").value;
  if (material == Material::glulam) return tables.constant("k_n glulam").value;
  return tables.constant("k_n solid timber").value;
}

}  // namespace

double notch_factor(const Notch& notch, Material material, const reference::Tables& tables) {
  expects(notch.notch > Length{} && notch.notch < notch.depth && notch.slope >= 0.0,
          "notch_factor: a notch must leave some of the piece");
  // The formula counts in mm.
  const double h = 1e3 * in_si(notch.depth), x = 1e3 * in_si(notch.x), i = notch.slope;
  const double alpha = 1.0 - in_si(notch.notch) / in_si(notch.depth);
  const double above = k_n(material, tables) *
                       (1.0 + tables.constant("k_v slope").value * std::pow(i, 1.5) / std::sqrt(h));
  const double below = std::sqrt(h) * (std::sqrt(alpha * (1.0 - alpha)) +
                                       tables.constant("k_v shear").value * x / h *
                                           std::sqrt(1.0 / alpha - alpha * alpha));
  return std::min(1.0, above / below);
}

Length notch_of(const model::Parts& parts, const model::Part& part) {
  return part.role == model::Role::rail ? parts.bench.rails.at(part.source).notch : Length{};
}

namespace {

/// The worst end of a piece: where what is left is sheared most.
struct ShearedEnd {
  double ratio = -1.0;
  std::size_t combination = 0;
  const model::RailEnd* end = nullptr;
  Force V;
  Strengths f;
};

OrWhy<ShearedEnd> worst_sheared_end(const Answers& answers, const SectionForces& forces,
                                    model::PartId id, Force per_strength,
                                    const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  StrengthsOf strengths(parts.parts[id], answers, tables);
  ShearedEnd worst;
  for (const model::RailEnd& end : parts.rail_ends) {
    if (end.rail != id) continue;
    for (const std::size_t c : forces.combinations()) {
      const OrWhy<Strengths>& f = strengths.under(answers.model.combinations[c].duration);
      if (!f) return tl::unexpected(f.error());
      // What lifts the piece off its seat closes the cut and does not split it.
      const double up = answers.response.states[c]->end_forces[end.member][end.at_end ? 8 : 2];
      const Force V = quantity::newtons(std::max(up, 0.0));
      const double ratio = V / (in_si(f->f_v) * per_strength);
      if (!is_worse(ratio, worst.ratio)) continue;
      worst = {ratio, c, &end, V, *f};
      if (!(ratio >= 0.0)) return worst;
    }
  }
  return worst;
}

Finding notch_finding(const Answers& answers, const SectionForces& forces, model::PartId id,
                      const reference::Tables& tables) {
  const model::Part& part = answers.model.parts.parts[id];
  Finding finding =
      about(part, "notch", "EN 1995-1-1, 6.5.2, eq. (6.60) to (6.63)", source_of(part, "f_v_k"));
  finding.sentence = fmt::format("Whether the {} splits at its notch is not judged.", part.name);
  const Length cut = notch_of(answers.model.parts, part), left = part.depth - cut;
  const Notch notch{part.depth, cut, part.bearing / 2.0, 0.0};
  const double k_v = notch_factor(notch, part.timber.material, tables);
  const double k_cr = tables.material(part.timber.material).k_cr.value;
  // V that makes 1.5 V/(k_cr b h_ef) one pascal, times k_v.
  const Force per_pascal = quantity::newtons(k_v * k_cr * in_si(part.width) * in_si(left) /
                                             tables.constant("shear rectangle").value);
  const OrWhy<ShearedEnd> worst = worst_sheared_end(answers, forces, id, per_pascal, tables);
  if (!worst || worst->end == nullptr) {
    leave_unjudged(finding, worst ? "no combination of loads was answered" : worst.error());
    return finding;
  }
  const model::Combination& combination = answers.model.combinations[worst->combination];
  finding.ratio = worst->ratio;
  finding.judgement = judge(worst->ratio);
  finding.place = worst->end->name;
  finding.combination = combination.name;
  finding.unit = quantity::Kind::stress;
  finding.limit = k_v * in_si(worst->f.f_v);
  finding.demand = worst->ratio * finding.limit;
  finding.working = {
      fmt::format("{}; {} loads: k_mod = {}, gamma_M = {}", combination.title,
                  reference::to_text(combination.duration), worst->f.k_mod, worst->f.gamma_M),
      fmt::format("V = {}, h_ef = {} - {} = {}: tau = 1.5 V/(k_cr b h_ef) = {}", shown(worst->V),
                  shown(part.depth), shown(cut), shown(left),
                  shown(quantity::pascals(finding.demand))),
      fmt::format("k_v = {:.3f} (alpha = {:.2f}, x = {}, square cut); k_v f_v,d = {:.3f} x {} = {}",
                  k_v, in_si(left) / in_si(part.depth), shown(notch.x), k_v, shown(worst->f.f_v),
                  shown(quantity::pascals(finding.limit)))};
  if (finding.judgement == Judgement::not_judged) {
    leave_unjudged(finding, "the forces are not numbers");
    return finding;
  }
  finding.sentence = fmt::format("The {} is sheared at its notch to {} what splits it.", part.name,
                                 share_of(finding.ratio));
  if (finding.judgement == Judgement::exceeded) {
    finding.advice = "a shallower notch, or a deeper piece";
  }
  return finding;
}

}  // namespace

std::vector<Finding> notches(const Answers& answers, const SectionForces& forces,
                             const reference::Tables& tables) {
  const auto is_cut = [&](const model::Part& part) {
    return notch_of(answers.model.parts, part) > Length{};
  };
  return each_part(answers, is_cut, [&](const model::Part&, model::PartId id) {
    return notch_finding(answers, forces, id, tables);
  });
}

}  // namespace standtrue::check
