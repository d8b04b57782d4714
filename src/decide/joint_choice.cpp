#include "decide/joint_choice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "decide/settle.hpp"

namespace standtrue::decide {

namespace {

using check::Finding;
using check::Judgement;

/// The ratio at joints `x` times the mean; less than any where it is not known.
double ratio_at(const Finding& f, double band, double x) {
  const bool is_soft_missing = x < 1.0 && !std::isfinite(f.ratio_soft);
  if (is_soft_missing) return 0.0;
  const double soft = std::isfinite(f.ratio_soft) ? f.ratio_soft : f.ratio;
  return height(band, soft, f.ratio, f.ratio_stiff, x);
}

bool hangs_on_joints(const Finding& f) {
  return f.kind == check::Kind::safety && f.judgement == Judgement::depends && f.turns_at &&
         f.ratio > 0.0 && f.ratio_stiff > 0.0 && std::isfinite(f.ratio + f.ratio_stiff) &&
         !(f.ratio_soft <= 0.0);
}

/// What is worst at some joints.
struct WorstAt {
  double ratio = 0.0;
  const Finding* finding = nullptr;
};

WorstAt worst_at(const std::vector<const Finding*>& all, double band, double x) {
  WorstAt worst;
  for (const Finding* f : all) {
    const double ratio = ratio_at(*f, band, x);
    if (!worst.finding || ratio > worst.ratio) worst = {ratio, f};
  }
  return worst;
}

}  // namespace

std::optional<Finding> joint_choice(const std::vector<Finding>& findings, double band) {
  std::vector<const Finding*> all;
  for (const Finding& f : findings) {
    if (hangs_on_joints(f)) all.push_back(&f);
  }
  if (all.size() < 2) return std::nullopt;
  constexpr int steps = 200;  // of the band, either way: a hundredth of a stiffness
  const auto at = [&](int i) { return std::pow(band, static_cast<double>(i) / steps); };
  int best = -steps;
  for (int i = -steps; i <= steps; ++i) {
    if (worst_at(all, band, at(i)).ratio < worst_at(all, band, at(best)).ratio) best = i;
  }
  const WorstAt least = worst_at(all, band, at(best));
  const WorstAt softer = worst_at(all, band, at(std::max(best - 1, -steps)));
  const WorstAt stiffer = worst_at(all, band, at(std::min(best + 1, steps)));
  if (!(least.ratio > 1.0) || softer.finding == stiffer.finding) return std::nullopt;
  Finding f;
  f.id = "joint-choice";
  f.group = check::Group::joints;
  f.kind = check::Kind::safety;
  f.place = fmt::format("{} against {}", softer.finding->place, stiffer.finding->place);
  f.rule = "no joints of the band keep everything safe; ours";
  f.source = {"", "on straight lines between soft, mean and stiff joints, as where it turns",
              reference::Status::ours};
  f.limit = 1.0;
  f.demand = f.ratio = f.demand_soft = f.demand_stiff = f.demand_poor = least.ratio;
  f.ratio_soft = f.ratio_stiff = f.ratio_poor = least.ratio;
  f.judgement = Judgement::exceeded;
  f.sentence = fmt::format("Joints soft enough for {} are too soft for {}.", stiffer.finding->place,
                           softer.finding->place);
  f.working = {
      fmt::format("at {:.2f} of the mean joints both would be at {:.2f} of what is allowed",
                  at(best), least.ratio)};
  f.advice = softer.finding->advice.empty() ? stiffer.finding->advice : softer.finding->advice;
  return f;
}

}  // namespace standtrue::decide
