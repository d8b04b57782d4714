// All numbers SI (N, m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include "check/answered.hpp"
#include "check/grips.hpp"
#include "check/printer.hpp"
#include "check/stem.hpp"
#include "standtrue/bench/friction.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/check/feet.hpp"
#include "standtrue/check/is_worse.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

bool is_shove_in_use(const model::Combination& c) {
  return (c.purpose == model::Purpose::strength || c.purpose == model::Purpose::service) &&
         is_shove(c);
}

/// A castor has none that could bend (ours).
bool has_stem(const bench::Foot& foot) { return !foot.bare && !foot.castor; }

/// The stem held in the post, pushed at the pad.
struct Stem {
  double N = 0.0, H = 0.0;  ///< N
  double e = 0.0;           ///< m, bare
  double sigma = 0.0;       ///< Pa
  double f_d = 0.0;
  double of = 0.0;  ///< N, what it would hold if nothing slipped
  std::size_t foot = 0, combination = 0;
  [[nodiscard]] double ratio() const { return sigma / f_d; }
};

Stem stem_of(const bench::Bench& bench, const bench::Post& post, const FootForce& force,
             double gamma_M0) {
  Stem stem;
  stem.N = force.N;
  stem.H = force.H();
  stem.e = in_si(bench::free_stem(bench, post));
  stem.sigma = stem_stress(post.foot, stem.e, stem.N, stem.H);
  stem.f_d = in_si(post.foot.thread.f_y) / gamma_M0;
  return stem;
}

/// A shove is shared by feet that hold whatever comes. On a floor none grips with more than its
/// weight (ours), unless the file gives more friction.
std::vector<FootForce> forces_on_feet(const model::Parts& parts, const solve::State& state) {
  std::vector<FootForce> all;
  for (const model::FootPlace& place : parts.feet) {
    const bench::Foot& foot = parts.bench.posts.at(place.post).foot;
    constexpr double firmest = 1.0;
    const double mu = std::max(firmest, bench::friction(parts.bench.floor, foot).value_or(0.0));
    all.push_back({state.support_forces.at(place.down), state.support_forces.at(place.grip_x),
                   state.support_forces.at(place.grip_y),
                   foot.fixed ? std::numeric_limits<double>::infinity() : mu});
  }
  return all;
}

std::optional<Stem> worst_stem(const Answers& answers, double gamma_M0) {
  const model::Model& model = answers.model;
  std::optional<Stem> worst;
  for (std::size_t c = 0; c < model.combinations.size(); ++c) {
    const solve::State* state =
        is_shove_in_use(model.combinations[c]) ? state_of(answers.response, c) : nullptr;
    if (!state) continue;
    const std::vector<FootForce> stuck = forces_on_feet(model.parts, *state);
    std::vector<FootForce> feet = stuck;
    share_what_slips(feet);
    for (std::size_t i = 0; i < model.parts.feet.size(); ++i) {
      const model::FootPlace& place = model.parts.feet[i];
      const bench::Post& post = model.parts.bench.posts.at(place.post);
      if (!has_stem(post.foot)) continue;
      Stem stem = stem_of(model.parts.bench, post, feet[i], gamma_M0);
      stem.of = stuck[i].H();
      stem.foot = i;
      stem.combination = c;
      if (!worst || is_worse(stem.ratio(), worst->ratio())) worst = stem;
    }
  }
  return worst;
}

bool is_asked(const Answers& answers) {
  const model::Model& model = answers.model;
  bool shoved = false, on_stems = false;
  for (const model::Combination& c : model.combinations) shoved = shoved || is_shove_in_use(c);
  for (const model::FootPlace& place : model.parts.feet) {
    on_stems = on_stems || has_stem(model.parts.bench.posts.at(place.post).foot);
  }
  return shoved && on_stems;
}

}  // namespace

double stem_stress(const bench::Foot& foot, double e, double N, double H) {
  const double d = in_si(foot.thread.root);
  const double W_pl = d * d * d / 6.0;
  const double A = in_si(foot.thread.stress_area);
  return std::abs(N) / A + H * e / W_pl;
}

std::vector<Finding> stem_bending(const Answers& answers, const reference::Tables& tables) {
  if (!is_asked(answers)) return {};
  const model::Parts& parts = answers.model.parts;
  const Printer print(parts.bench);
  const reference::Constant& gamma_M0 = tables.constant("gamma_M0 steel");
  Finding f;
  f.id = "foot/stem";
  f.group = Group::feet;
  f.kind = Kind::safety;
  f.unit = quantity::Kind::stress;
  f.rule = "EN 1993-1-1, 6.2.1(7) and 6.2.5(2)";
  f.source = gamma_M0.source;
  f.place = "the stems of the feet";
  const std::optional<Stem> worst = worst_stem(answers, gamma_M0.value);
  if (!worst) {
    leave_unjudged(f, why_none(answers.model, answers.response, is_shove_in_use));
    f.sentence = "The stems of the feet are not judged under a shove.";
    return {f};
  }
  const model::FootPlace& place = parts.feet[worst->foot];
  const bench::Foot& foot = parts.bench.posts.at(place.post).foot;
  judge_against(f, worst->sigma, worst->f_d);
  f.place = place.name;
  f.combination = answers.model.combinations[worst->combination].name;
  f.sentence = fmt::format("The bare stem of the {} {} under a shove.", place.name,
                           f.judgement == Judgement::exceeded ? "bends for good" : "does not bend");
  f.working.push_back(fmt::format(
      "N/A + H e/W_pl: N = {}, H = {}, e = {}, {} root {}; {} against {}", print.force(worst->N),
      print.force(worst->H), print.length(worst->e), foot.thread.key,
      print.length(in_si(foot.thread.root)), print.stress(worst->sigma), print.stress(worst->f_d)));
  f.working.emplace_back(
      "W_pl of a round bar, 1.7 times the elastic W: its outermost fibres yield before that");
  if (std::abs(worst->of - worst->H) > 1e-3 * worst->H) {
    f.working.push_back(
        fmt::format("if no foot slipped it would hold H = {}; none grips with more "
                    "than it is pressed with",
                    print.force(worst->of)));
  }
  const double advised = in_si(tables.limits.free_stem.value);
  if (worst->e > advised) {
    const bool for_fall = worst->e > in_si(foot.extension);
    f.advice = fmt::format("{} until no more than {} of stem is bare, or take a thicker thread",
                           for_fall ? "pack the feet up where the floor is low, and turn them in,"
                                    : "turn the feet in",
                           print.length(advised));
  } else if (f.judgement == Judgement::exceeded) {
    f.advice = "turn the feet further in, or take a thicker thread";
  }
  return {f};
}

}  // namespace standtrue::check
