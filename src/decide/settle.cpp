#include "decide/settle.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "decide/proving.hpp"
#include "decide/words.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Judgement;
using quantity::in_si;

double weight_of(double mass) { return mass * in_si(quantity::standard_gravity()); }

/// Where a line through two points, both axes logarithmic, has the height `y`.
double across(double x0, double y0, double x1, double y1, double y) {
  const double t = std::log(y / y0) / std::log(y1 / y0);
  return x0 * std::pow(x1 / x0, t);
}

bool crosses_limit(double a, double b) {
  return std::isfinite(a) && std::isfinite(b) && a > 0.0 && b > 0.0 && (a > 1.0) != (b > 1.0);
}

/// At the softest joints at which there is a number.
double softest_known(const Finding& f) {
  return std::isfinite(f.ratio_soft) ? f.ratio_soft : f.ratio;
}

/// The sway that tells most of the joints; none where braces or sheets hold the bench both ways.
const Finding* telling_sway(const std::vector<Finding>& findings) {
  constexpr double clear = 1.5;  // from soft to stiff: less can not be told from other errors
  const Finding* best = nullptr;
  double most = clear;
  for (const Finding& f : findings) {
    if (f.id.rfind("sway/", 0) != 0 || !(f.demand_soft > 0.0)) continue;
    const double range = f.demand_stiff / f.demand_soft;
    if (!(range > most)) continue;
    most = range;
    best = &f;
  }
  return best;
}

/// A pull on the finished bench, or a weight on the arm of one joint.
std::string measure_joints(const Finding& f, const Assessment& assessment, double band) {
  const char* good = softest_known(f) > f.ratio_stiff ? "or less is good" : "or more is good";
  const double at = f.turns_at.value_or(1.0);
  if (const Finding* sway = telling_sway(assessment.findings)) {
    const double k = height(band, sway->demand_soft, sway->demand, sway->demand_stiff, at);
    const double pull = weight_of(10.0);
    return fmt::format("pull with {} at {}, and read how far it moves: {} {}",
                       say(10.0, quantity::Kind::mass, assessment.bench), sway->place,
                       say(pull / k, quantity::Kind::length, assessment.bench), good);
  }
  const auto& model = assessment.mean.idealisation.model;
  if (!model) return {};
  const auto& ends = model->parts.rail_ends;
  const auto softest = std::min_element(ends.begin(), ends.end(), [](const auto& a, const auto& b) {
    return a.stiffness.bend_sway < b.stiffness.bend_sway;
  });
  if (softest == ends.end() || !(softest->stiffness.bend_sway > 0.0)) return {};
  constexpr double arm = 0.5, weight = 5.0;
  const double droop = weight_of(weight) * arm * arm / (at * softest->stiffness.bend_sway);
  return fmt::format(
      "join an offcut to a post as the {} is, hang {} on it {} out, and read how far it droops: {} "
      "{}",
      softest->name, say(weight, quantity::Kind::mass, assessment.bench),
      say(arm, quantity::Kind::length, assessment.bench),
      say(droop, quantity::Kind::length, assessment.bench), good);
}

/// The longest rail, loose on two blocks.
std::string measure_timber(const Finding& f, const Assessment& assessment,
                           const model::Model& poor) {
  const auto& mean = assessment.mean.idealisation.model;
  if (!mean) return {};
  const quantity::UnitSystem units = assessment.bench.units;
  const std::optional<LooseRail> rail = loose_rail(*mean, units);
  if (!rail) return {};
  // Low timber is as much softer in every rail.
  const auto E_of = [&](const model::Model& model) {
    const auto& parts = model.parts.parts;
    const auto part = std::find_if(parts.begin(), parts.end(), [&](const model::Part& p) {
      return p.role == model::Role::rail && p.name == rail->name;
    });
    return in_si(model.members[part->members.front()].elastic.E);
  };
  const double low = E_of(poor) / E_of(*mean);
  const double share = across(low, f.ratio_poor, 1.0, f.ratio_soft, 1.0);
  constexpr double weight = 20.0;
  return fmt::format(
      "lay the {} loose and {} on two blocks {} apart, put {} in its middle, and read the sag: {} "
      "or less is good",
      rail->name, rail->flat ? "on its wide face" : "on edge",
      say(rail->span, quantity::Kind::length, assessment.bench),
      say(weight, quantity::Kind::mass, assessment.bench),
      say(rail->sag(weight_of(weight), share), quantity::Kind::length, assessment.bench));
}

}  // namespace

double height(double band, double soft, double mean, double stiff, double x) {
  const double t = std::log(x) / std::log(band);
  return t < 0.0 ? mean * std::pow(soft / mean, -t) : mean * std::pow(stiff / mean, t);
}

std::optional<double> turning_point(const Finding& f, double band) {
  if (crosses_limit(f.ratio_soft, f.ratio))
    return across(1.0 / band, f.ratio_soft, 1.0, f.ratio, 1.0);
  if (crosses_limit(f.ratio, f.ratio_stiff)) return across(1.0, f.ratio, band, f.ratio_stiff, 1.0);
  return std::nullopt;
}

void tell_what_settles(std::vector<Finding>& findings, const Assessment& assessment,
                       const reference::Tables& tables) {
  const double band = tables.constant("joint band").value;
  for (Finding& f : findings) {
    if (f.judgement != Judgement::depends) continue;
    // What looks at one bound alone brings a range of something else.
    if (std::isnan(f.ratio_poor) || std::isnan(f.ratio)) continue;
    f.turns_at = turning_point(f, band);
    const auto& poor = assessment.poor.idealisation.model;
    if (f.turns_at) {
      f.measure = measure_joints(f, assessment, band);
    } else if (poor && crosses_limit(f.ratio_soft, f.ratio_poor)) {
      f.measure = measure_timber(f, assessment, *poor);
    }
  }
}

}  // namespace standtrue::decide
