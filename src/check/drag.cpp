// All numbers SI (N, m, N m, Pa).
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>

#include "check/answered.hpp"
#include "check/footprint.hpp"
#include "check/held.hpp"
#include "check/printer.hpp"
#include "check/stem.hpp"
#include "check/table_test.hpp"
#include "check/words.hpp"
#include "standtrue/bench/leaning.hpp"
#include "standtrue/check/is_worse.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/check/table_tests.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Whether a brace lies more along the bench than across it.
bool lies_along(const bench::Bench& bench, const bench::Brace& brace) {
  if (brace.to_rail) return bench.rails.at(*brace.to_rail).along_x;
  const bench::Post& a = bench.posts.at(brace.post);
  const bench::Post& b = bench.posts.at(brace.to_post.value());
  return std::abs(in_si(b.x - a.x)) > std::abs(in_si(b.y - a.y));
}

/// Height of the lowest rail or brace that holds a post in one plane; its top where none does.
double lowest_hold(const bench::Bench& bench, std::size_t post, bool along) {
  double lowest = std::numeric_limits<double>::infinity();
  const auto holds = [&lowest](quantity::Length height) {
    lowest = std::min(lowest, in_si(height));
  };
  for (const bench::Rail& rail : bench.rails) {
    if (rail.along_x == along && (rail.from == post || rail.to == post)) holds(rail.height);
  }
  for (const bench::Brace& brace : bench.braces) {
    if (lies_along(bench, brace) != along) continue;
    if (brace.post == post) holds(brace.post_height);
    if (brace.to_post == post) holds(brace.to_at);
  }
  return std::isfinite(lowest) ? lowest : in_si(bench.posts.at(post).top);
}

/// What a foot presses with at rest.
double share_of_weight(const Answers& answers, const model::FootPlace& foot) {
  const std::vector<model::Combination>& all = answers.model.combinations;
  for (std::size_t c = 0; c < all.size(); ++c) {
    const bool rests =
        all[c].purpose == model::Purpose::service && all[c].leading == model::Leading::permanent;
    if (!rests) continue;
    if (const solve::State* state = state_of(answers.response, c)) {
      return std::max(0.0, state->support_forces.at(foot.down));
    }
  }
  return 0.0;
}

/// One foot dragged one way.
struct Drag {
  std::size_t foot = 0;
  bool along = true;
  double arm = 0.0, N = 0.0, M = 0.0;
  double bent = 0.0, sheared = 0.0, stem = 0.0;  ///< ratios

  [[nodiscard]] double ratio() const { return std::max({bent, sheared, stem}); }
};

const model::Part* post_part(const model::Parts& parts, std::size_t post) {
  const auto found =
      std::find_if(parts.parts.begin(), parts.parts.end(), [post](const model::Part& part) {
        return part.role == model::Role::post && part.source == post;
      });
  return found == parts.parts.end() ? nullptr : &*found;
}

/// The share of the weight presses a cantilever that is bent: more of it is worse, so none of it
/// is not looked at.
void judge_post(Drag& d, double H, const model::Model& model, const model::Part& part,
                const Strengths& f, const reference::Tables& tables) {
  const bool over_depth = bends_along_x(model, part) == d.along;
  const Moment M = quantity::newton_metres(d.M);
  const AboutAxes<Moment> moments =
      over_depth ? AboutAxes<Moment>{M, Moment{}} : AboutAxes<Moment>{Moment{}, M};
  d.bent = bending_compression_ratio(bending_stress(moments, part.width, part.depth),
                                     quantity::newtons(d.N) / (part.width * part.depth), f);
  d.sheared =
      shear_stress({Force{}, quantity::newtons(H)}, part.width, part.depth, f.k_cr, tables) / f.f_v;
}

OrWhy<std::optional<Drag>> worst_drag(const Answers& answers, double H,
                                      const reference::Tables& tables) {
  const model::Model& model = answers.model;
  const bench::Bench& bench = model.parts.bench;
  const double gamma_M0 = tables.constant("gamma_M0 steel").value;
  std::optional<Drag> worst;
  for (std::size_t i = 0; i < model.parts.feet.size(); ++i) {
    const model::FootPlace& place = model.parts.feet[i];
    const bench::Foot& foot = bench.posts.at(place.post).foot;
    const model::Part* part = post_part(model.parts, place.post);
    if (part == nullptr || foot.castor) continue;
    const OrWhy<Strengths> f =
        strengths(*part, bench.air.service_class, reference::Duration::instantaneous, tables);
    if (!f) return tl::unexpected(f.error());
    for (const bool along : {true, false}) {
      Drag d{i, along, lowest_hold(bench, place.post, along), share_of_weight(answers, place)};
      d.M = H * d.arm;
      judge_post(d, H, model, *part, *f, tables);
      if (!foot.bare) {
        const double e = in_si(bench::free_stem(bench, bench.posts.at(place.post)));
        d.stem = stem_stress(foot, e, d.N, H) * gamma_M0 / in_si(foot.thread.f_y);
      }
      if (!worst || is_worse(d.ratio(), worst->ratio())) worst = d;
    }
  }
  return worst;
}

void tell_drag(Finding& f, const Drag& d, double H, const std::string& foot, const Printer& print) {
  const bool by_stem = d.stem >= std::max(d.bent, d.sheared);
  const char* what = by_stem               ? "its stem"
                     : d.bent >= d.sheared ? "its post in bending"
                                           : "its post in shear";
  judge_against(f, d.ratio(), 1.0);
  settle_test(f);
  if (f.kind == Kind::caution) {
    f.sentence =
        fmt::format("Lift the bench, do not drag it: {} at the {} loads {} to {} its strength.",
                    print.force(H), foot, what, share_of(d.ratio()));
    f.advice = by_stem
                   ? "lift it with two people, and turn the feet in before it is moved"
                   : "lift it with two people; a lower rail nearer to the floor holds the posts";
  } else {
    f.sentence = fmt::format("Dragged by one foot with {} it loads {} ({}) to {} its strength.",
                             print.force(H), what, foot, share_of(d.ratio()));
  }
  f.place = foot;
  f.working.push_back(fmt::format(
      "{}, {}: z = {} up to the lowest rail or brace, M = H z = {}, N = {} of the weight at rest",
      foot, d.along ? "along" : "across", print.length(d.arm), print.moment(d.M),
      print.force(d.N)));
  f.working.push_back(
      fmt::format("post bent {:.3f}, sheared {:.3f}, stem {:.3f}", d.bent, d.sheared, d.stem));
  f.working.emplace_back(
      "joints above: the hard shove in that plane, twice this force, puts as much into each of its "
      "two feet");
}

}  // namespace

std::vector<Finding> drag(const Answers& answers, const reference::Tables& tables) {
  const model::Parts& parts = answers.model.parts;
  if (!answers.at_mean || parts.feet.empty() || is_held(parts)) return {};
  const reference::Load& load = tables.load("drag at a foot");
  const double H = in_si(load.sideways);
  const OrWhy<std::optional<Drag>> worst = worst_drag(answers, H, tables);
  if (worst && !*worst) return {};
  Finding f;
  f.id = "drag/feet";
  f.group = Group::feet;
  f.kind = Kind::told;
  f.unit = quantity::Kind::ratio;
  f.place = "the feet";
  f.rule = "statics below the lowest rail: M = H z";
  f.source = load.source.of("sideways");
  f.why = "told, not judged: a bench need not be dragged";
  if (!worst) {
    leave_unjudged(f, worst.error());
    f.sentence = "Whether it may be dragged by one foot is not known.";
    return {f};
  }
  const std::string& foot = parts.feet[(*worst)->foot].name;
  f.id = id_of("drag", foot);
  tell_drag(f, **worst, H, foot, Printer(parts.bench));
  return {f};
}

}  // namespace standtrue::check
