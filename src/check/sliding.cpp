// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "check/answered.hpp"
#include "check/footprint.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/bench/friction.hpp"
#include "standtrue/check/pushes.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Of the foot that grips least, less the fall of the floor.
double least_friction(const model::Parts& parts) {
  double least = std::numeric_limits<double>::infinity();
  for (const model::FootPlace& place : parts.feet) {
    const bench::Foot& foot = parts.bench.posts.at(place.post).foot;
    least = std::min(least, bench::friction(parts.bench.floor, foot).value_or(0.0));
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

Finding does_not_slide(const reference::Tables& tables) {
  Finding f;
  f.id = "sliding/held";
  f.group = Group::slide;
  f.place = "the feet on the floor";
  f.rule = "friction against the push of use, with a margin";
  f.source = tables.limits.sliding.source;
  f.sentence = "What fixes it to the wall or the floor keeps it from sliding.";
  tell(f, "told, not judged: how those hold is not looked at");
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
  const double grip = mu * W;
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
  f.sentence =
      fmt::format("{} it slides at a push of {} ({}); {} is asked for.",
                  empty ? "Empty," : "As planned and loaded",
                  beside(print.force(margin * H), print.force(grip), f.judgement, "just under"),
                  print.as_mass(grip), print.force(margin * H));
  f.working.push_back(fmt::format("(mu - fall) W = ({:.3g} - {:.3f}) {} = {}", mu + fall, fall,
                                  print.force(W), print.force(grip)));
  if (empty) f.why = "told, not judged: machines may be taken away and shelves emptied";
  if (f.judgement == Judgement::exceeded) {
    f.advice = "rubber under the feet, more weight low down, or a fixing to the floor";
  }
  return f;
}

/// "the first foot slips at 210 N, all slide at 231 N"
std::string how(const Push& push, const Printer& print) {
  if (std::isnan(push.slides_at)) return "no answer";
  const double first = std::min(push.first_slips_at, push.slides_at);
  if (std::isinf(first)) return "it tips before a foot slips";
  const std::string slips = fmt::format("the first foot slips at {}", print.force(first));
  if (std::isinf(push.slides_at)) return slips + ", it tips before all slide";
  return slips + fmt::format(", all slide at {}", print.force(push.slides_at));
}

/// What the frame on feet with friction says of the same pushes; of those that turn it the worst.
void tell_sliding_pushes(Finding& f, const std::vector<Push>& pushes, bool as_planned,
                         const model::Parts& parts) {
  const Printer print(parts.bench);
  const std::string frame = "frame model" + on_middles(parts);
  const Push* worst = nullptr;
  for (const Push& push : pushes) {
    if (push.as_planned != as_planned) continue;
    if (push.at_corner) {
      if (!worst || push.slides_at < worst->slides_at) worst = &push;
      continue;
    }
    f.working.push_back(fmt::format("{}, push {}: {}", frame, push.towards(), how(push, print)));
  }
  if (!worst) return;
  f.working.push_back(fmt::format("{}, push {} ({}), which also turns it: {}", frame,
                                  worst->towards(), worst->where, how(*worst, print)));
}

}  // namespace

std::vector<Finding> sliding(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  if (on_castors(parts.bench)) return {rolls()};
  if (parts.feet.empty()) return {};
  if (is_held(parts)) return {does_not_slide(tables)};
  // Told once, at mean joints.
  const std::vector<Push> at =
      answers.at_mean ? pushes(answers, PushesBy::sliding) : std::vector<Push>();
  std::vector<Finding> findings;
  if (is_anything_planned(parts)) {
    findings.push_back(slide(parts, tables, Laden::as_planned));
    tell_sliding_pushes(findings.back(), at, true, parts);
  }
  findings.push_back(slide(parts, tables, Laden::empty));
  tell_sliding_pushes(findings.back(), at, false, parts);
  return findings;
}

}  // namespace standtrue::check
