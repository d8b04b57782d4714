// All numbers SI (N).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "check/words.hpp"
#include "standtrue/bench/friction.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/stability.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

bool lasts(const model::Combination& c) {
  return c.purpose == model::Purpose::service &&
         (c.leading == model::Leading::permanent || c.leading == model::Leading::stored);
}

/// One that slips if friction does not hold it; of a castor nothing is known (`sliding/castors`).
bool rakes_loose(const bench::Post& post) {
  if (post.on_wall || post.foot.fixed || post.foot.castor) return false;
  return std::hypot(in_si(post.foot_x - post.x), in_si(post.foot_y - post.y)) > 1e-3;
}

struct Spread {
  std::size_t foot = 0, combination = 0;
  double H = 0.0, N = 0.0, mu = 0.0;
  /// By friction.
  [[nodiscard]] double held() const {
    constexpr double nothing = 1e-3;  // N: on ice, or a foot that hardly presses
    return std::max(nothing, mu * N);
  }
};

std::optional<Spread> worst_spread(const Answers& answers) {
  const model::Parts& parts = answers.model.parts;
  std::optional<Spread> worst;
  for (std::size_t c = 0; c < answers.model.combinations.size(); ++c) {
    const solve::State* state =
        lasts(answers.model.combinations[c]) ? state_of(answers.response, c) : nullptr;
    if (!state) continue;
    for (std::size_t i = 0; i < parts.feet.size(); ++i) {
      const model::FootPlace& place = parts.feet[i];
      const bench::Post& post = parts.bench.posts.at(place.post);
      if (!rakes_loose(post)) continue;
      const Spread spread{i, c,
                          std::hypot(state->support_forces.at(place.grip_x),
                                     state->support_forces.at(place.grip_y)),
                          std::max(0.0, state->support_forces.at(place.down)),
                          bench::friction(parts.bench.floor, post.foot).value_or(0.0)};
      if (!worst || is_worse(spread.H / spread.held(), worst->H / worst->held())) worst = spread;
    }
  }
  return worst;
}

}  // namespace

std::vector<Finding> spreading(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  if (std::none_of(parts.feet.begin(), parts.feet.end(), [&](const model::FootPlace& place) {
        return rakes_loose(parts.bench.posts.at(place.post));
      })) {
    return {};
  }
  Finding f;
  f.id = "sliding/spread";
  f.group = Group::slide;
  f.kind = Kind::safety;
  f.unit = quantity::Kind::force;
  f.place = "the feet of the raking legs";
  f.rule = "friction against what the legs push apart with at rest, with a margin";
  f.source = tables.limits.sliding.source;
  const std::optional<Spread> worst = worst_spread(answers);
  if (!worst) {
    f.sentence = "Whether its legs slide apart is not judged.";
    leave_unjudged(f, "what lasts has no answer");
    return {f};
  }
  const Printer print(parts.bench);
  const double margin = tables.limits.sliding.value;
  const double held = worst->held();
  judge_against(f, worst->H, held / margin);
  f.place = parts.feet[worst->foot].name;
  f.combination = answers.model.combinations[worst->combination].name;
  f.sentence = fmt::format(
      "At rest the {} is pushed sideways with {} ({}); friction holds {}, and with a margin {} is "
      "allowed.",
      f.place, beside(print.force(held / margin), print.force(worst->H), f.judgement),
      print.as_mass(worst->H), print.force(held), print.force(held / margin));
  f.working.push_back(fmt::format("H = {}, mu N = {:.3g} {} = {}, margin {:.3g}",
                                  print.force(worst->H), worst->mu, print.force(worst->N),
                                  print.force(held), margin));
  if (f.judgement == Judgement::exceeded) {
    f.why = "all that is judged of its strength takes its feet to hold";
    f.advice = "tie the legs together low down, or set their feet in rubber or on a rougher floor";
  }
  return {f};
}

}  // namespace standtrue::check
