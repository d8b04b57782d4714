#include "decide/sway_curve.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/check/service.hpp"

namespace standtrue::decide {

namespace {

bool is_of_sway(const model::Combination& c) {
  return c.purpose == model::Purpose::sway ||
         (c.purpose == model::Purpose::service && c.leading == model::Leading::shove);
}

std::optional<SwayPoint> at_stiffness(double joints, const Assessment& assessment,
                                      const reference::Tables& tables, solve::PlateCache& plates) {
  model::Assumptions assumptions;
  assumptions.released = {assessment.released.begin(), assessment.released.end()};
  assumptions.scales.joints = joints;
  model::Idealisation made = model::idealise(assessment.bench, tables, assumptions);
  if (!made.model) return std::nullopt;
  auto& combinations = made.model->combinations;
  combinations.erase(std::remove_if(combinations.begin(), combinations.end(),
                                    [](const auto& c) { return !is_of_sway(c); }),
                     combinations.end());
  // As in the assessment: second order in all of its answers or in none.
  const bool second = assessment.mean.response && assessment.mean.response->second_order;
  for (model::Combination& c : combinations) c.second_order = second;
  const auto response = solve::static_response(*made.model, plates);
  if (!response) return std::nullopt;
  SwayPoint point{joints, 0.0, 0.0};
  for (const check::Finding& f : check::sway({*made.model, *response}, tables)) {
    if (f.id == "sway/along") point.along = f.demand;
    if (f.id == "sway/across") point.across = f.demand;
  }
  return point;
}

}  // namespace

std::vector<SwayPoint> sway_curve(const Assessment& assessment, const reference::Tables& tables) {
  constexpr int points = 9;
  std::vector<SwayPoint> curve;
  solve::PlateCache plates;
  for (int i = 0; i < points; ++i) {
    const double joints = std::pow(10.0, -1.0 + 2.0 * i / (points - 1));
    if (auto point = at_stiffness(joints, assessment, tables, plates)) curve.push_back(*point);
  }
  return curve;
}

}  // namespace standtrue::decide
