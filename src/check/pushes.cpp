// All numbers SI (N, m).
#include "standtrue/check/pushes.hpp"

#include <algorithm>
#include <cmath>

#include "check/footprint.hpp"
#include "standtrue/bench/friction.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/solve/growing.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Without any push: nothing where the bench tips or slides by itself, else not known.
double by_itself(const solve::Refusal& refusal) {
  const bool goes =
      refusal.why == solve::Refusal::Why::tips || refusal.why == solve::Refusal::Why::slides;
  return goes ? 0.0 : std::numeric_limits<double>::quiet_NaN();
}

constexpr double beyond_hands = 5000.0;  // N: several times what a person pushes with

/// Weights alone; which stored loads the file gives is told by the weights, which stand in the
/// order of their cases.
solve::Loading standing_loads(const model::Parts& parts, Laden laden) {
  solve::Loading loading;
  if (parts.self_case) loading.terms.push_back({*parts.self_case, 1.0});
  if (laden == Laden::empty) return loading;
  for (const std::size_t c : parts.machine_cases) loading.terms.push_back({c, 1.0});
  for (const std::size_t c : parts.added_cases) loading.terms.push_back({c, 1.0});
  std::size_t stored = 0;
  for (const model::Weight& weight : parts.weights) {
    if (weight.of != model::Weight::Of::stored || stored >= parts.stored_cases.size()) continue;
    if (is_planned(parts.bench, weight)) loading.terms.push_back({parts.stored_cases[stored], 1.0});
    ++stored;
  }
  return loading;
}

/// The rigid body; its edges that bolts or a wall hold are left out.
double tips_at(const std::vector<TippingEdge>& edges, const std::vector<model::Weight>& weights,
               PlanPoint way, double height) {
  double least = std::numeric_limits<double>::infinity();
  for (const TippingEdge& edge : edges) {
    const double towards = edge.outwards.x * way.x + edge.outwards.y * way.y;
    double holds = 0.0;
    for (const model::Weight& weight : weights) {
      holds += in_si(weight.force) * edge.inside(in_si(weight.x), in_si(weight.y));
    }
    if (holds < 0.0) return 0.0;  // it tips without a push
    if (towards > 1e-9) least = std::min(least, holds / (towards * height));
  }
  return least;
}

PlanPoint plan_way(const Push& push) {
  const bool along = push.way == model::ShoveWay::along;
  return {along ? push.sense : 0.0, along ? 0.0 : push.sense};
}

/// No push over this can be held by friction.
double most_grip(const model::Parts& parts, const std::vector<model::Weight>& weights) {
  double W = 0.0, best = 0.0;
  for (const model::Weight& weight : weights) W += in_si(weight.force);
  for (const model::FootPlace& foot : parts.feet) {
    best = std::max(
        best,
        bench::friction(parts.bench.floor, parts.bench.posts.at(foot.post).foot).value_or(0.0));
  }
  return best * W;
}

/// Pushes on the bench in one state of loading.
class Pushing {
 public:
  Pushing(const Answers& answers, Laden laden)
      : parts_(answers.model.parts),
        laden_(laden),
        rest_(standing_loads(parts_, laden)),
        weights_(leaning_weights(parts_, laden)),
        upright_(standing_weights(parts_, laden)),
        edges_(free_edges(parts_)),
        frame_edges_(free_edges(parts_, BareEnds::middles)),
        frame_(answers.response.prepared[static_cast<std::size_t>(model::SpringSet::sway)]) {}

  [[nodiscard]] Push push(const model::ShovePlace& place, double sense) const {
    Push p;
    p.as_planned = laden_ == Laden::as_planned;
    p.way = place.way;
    p.sense = sense;
    p.where = place.name;
    p.at_corner = place.name.find("spread") == std::string::npos;
    p.tips_at = tips_at(edges_, weights_, plan_way(p), worktop_height(parts_.bench));
    return p;
  }
  /// Where the rigid body tips, the frame does too, but for what its model weighs elsewhere: over
  /// the edges that the model has, and upright on every floor.
  void tip(Push& p, model::CaseId load_case) const {
    if (!frame_ || bench::leans(parts_.bench)) return;
    const double near = frame_tips_at(p);
    const double most = std::isinf(near) ? beyond_hands : 1.2 * near + 1.0;
    const auto at =
        solve::lets_go(*frame_, rest_, {load_case, p.sense, most, true, false, near, {}});
    p.tips_at_frame = at ? at->tips : by_itself(at.error());
  }
  void slide(Push& p, model::CaseId load_case) const {
    if (!frame_ || is_held(parts_)) return;
    const double grip = most_grip(parts_, weights_);
    const double tips = std::min(p.tips_at, frame_tips_at(p));
    const double most = std::min(1.02 * grip, (1.0 - 4e-3) * tips);
    const bool model_alone_tips = p.tips_at > 0.0 && !(tips > 0.0);
    if ((bench::leans(parts_.bench) || model_alone_tips) && !(most > 0.0)) return;  // by itself
    const auto at =
        solve::lets_go(*frame_, rest_, {load_case, p.sense, most, false, true, {}, grip});
    p.first_slips_at = at ? at->first_slips : by_itself(at.error());
    p.slides_at = at ? at->slides : by_itself(at.error());
  }

 private:
  [[nodiscard]] double frame_tips_at(const Push& p) const {
    return tips_at(frame_edges_, upright_, plan_way(p), worktop_height(parts_.bench));
  }

  const model::Parts& parts_;
  Laden laden_;
  solve::Loading rest_;
  std::vector<model::Weight> weights_, upright_;
  std::vector<TippingEdge> edges_, frame_edges_;
  const std::optional<solve::Prepared>& frame_;
};

}  // namespace

std::string Push::towards() const { return model::towards(way, sense); }

std::vector<Push> pushes(const Answers& answers, PushesBy by) {
  const model::Parts& parts = answers.model.parts;
  std::vector<Push> all;
  for (const Laden laden : {Laden::as_planned, Laden::empty}) {
    if (laden == Laden::as_planned && !is_anything_planned(parts)) continue;
    const Pushing pushing(answers, laden);
    for (const model::ShovePlace& place : parts.shoves) {
      for (const double sense : {1.0, -1.0}) {
        Push p = pushing.push(place, sense);
        if (by != PushesBy::sliding && !p.at_corner) pushing.tip(p, place.case_of(sense));
        if (by != PushesBy::tipping) pushing.slide(p, place.case_of(sense));
        if (by != PushesBy::tipping || !p.at_corner) all.push_back(std::move(p));
      }
    }
  }
  return all;
}

}  // namespace standtrue::check
