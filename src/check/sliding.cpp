// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "check/answered.hpp"
#include "check/footprint.hpp"
#include "check/printer.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// The friction of the foot that grips least; a bare post touches the floor with timber.
double least_friction(const model::Parts& parts) {
  const bench::Floor& floor = parts.bench.floor;
  if (floor.friction) return *floor.friction;
  double least = 1.0;
  for (const model::FootPlace& place : parts.feet) {
    const bench::Foot& foot = parts.bench.posts.at(place.post).foot;
    const reference::FootMaterial touches =
        foot.bare ? reference::FootMaterial::timber : foot.material;
    least = std::min(least, floor.surface.friction(touches));
  }
  return least;
}

bool on_castors(const bench::Bench& bench) {
  return std::any_of(bench.posts.begin(), bench.posts.end(),
                     [](const bench::Post& post) { return post.foot.castor.has_value(); });
}

/// A castor has no friction to speak of unless it is locked, and its lock no value that is known.
Finding rolls() {
  Finding f;
  f.id = "sliding/castors";
  f.group = Group::slide;
  f.kind = Kind::safety;
  f.place = "the castors";
  f.rule = "friction against the push of use, with a margin";
  f.source = {"", "no value is known for the lock of a castor", reference::Status::ours};
  f.unit = quantity::Kind::force;
  f.sentence =
      "It rolls at a touch unless its castors are locked; how well they hold is not known.";
  leave_unjudged(f, "it stands on castors");
  f.advice = "feet that take the weight off the castors while you work";
  return f;
}

Finding slide(const model::Parts& parts, const reference::Tables& tables, Laden laden) {
  const Printer print(parts.bench);
  const bool empty = laden == Laden::empty;
  double W = 0.0;
  for (const model::Weight& weight : standing_weights(parts, laden)) W += in_si(weight.force);
  const double mu = least_friction(parts);
  const double fall = std::hypot(parts.bench.floor.fall_x, parts.bench.floor.fall_y);
  const double H = in_si(tables.load("shove in use").sideways);
  const double margin = tables.limits.sliding.value;
  const double grip = std::max(0.0, (mu - fall) * W);
  Finding f;
  f.id = empty ? "sliding/empty" : "sliding/push";
  f.group = Group::slide;
  f.kind = empty ? Kind::caution : Kind::safety;
  f.unit = quantity::Kind::force;
  f.place = "the feet on the floor";
  f.rule = "friction against the push of use, with a margin";
  f.source = tables.limits.sliding.source;
  constexpr double nothing = 1e-3;  // N: a floor too steep to stand on
  judge_against(f, H, std::max(nothing, grip / margin));
  f.sentence = fmt::format("{} it slides at a push of {} ({}); {} is asked for.",
                           empty ? "Empty," : "As planned and loaded", print.force(grip),
                           print.as_mass(grip), print.force(margin * H));
  f.working.push_back(fmt::format("(mu - fall) W = ({} - {:.3f}) {} = {}", mu, fall, print.force(W),
                                  print.force(grip)));
  if (empty) f.why = "told, not judged: machines may be taken away and shelves emptied";
  if (f.judgement == Judgement::exceeded) {
    f.advice = "rubber under the feet, more weight low down, or a fixing to the floor";
  }
  return f;
}

}  // namespace

std::vector<Finding> sliding(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  if (on_castors(parts.bench)) return {rolls()};
  if (!parts.bench.wall.empty() || parts.feet.empty()) return {};
  std::vector<Finding> findings;
  if (is_anything_planned(parts)) findings.push_back(slide(parts, tables, Laden::as_planned));
  findings.push_back(slide(parts, tables, Laden::empty));
  return findings;
}

}  // namespace standtrue::check
