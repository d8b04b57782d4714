// All numbers SI (m).
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>

#include "check/answered.hpp"
#include "check/printer.hpp"
#include "standtrue/check/feet.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

struct Pad {
  double x = 0.0, y = 0.0, half = 0.0;
};

Pad pad_of(const bench::Post& post) {
  const double half = post.foot.bare ? 0.5 * std::max(in_si(post.along_x), in_si(post.along_y))
                                     : 0.5 * in_si(post.foot.pad);
  return {in_si(post.foot_x), in_si(post.foot_y), half};
}

/// From a point to a rectangle; zero inside it.
double distance(const Pad& pad, const bench::KeepOff& strip) {
  const double dx = std::max({0.0, in_si(strip.x0) - pad.x, pad.x - in_si(strip.x1)});
  const double dy = std::max({0.0, in_si(strip.y0) - pad.y, pad.y - in_si(strip.y1)});
  return std::hypot(dx, dy);
}

struct Nearest {
  std::size_t foot = 0;
  double gap = 0.0;  ///< edge of the pad to the strip; negative: on it
  double half = 0.0;
};

std::optional<Nearest> nearest_strip(const model::Parts& parts) {
  std::optional<Nearest> found;
  for (std::size_t i = 0; i < parts.feet.size(); ++i) {
    const Pad pad = pad_of(parts.bench.posts.at(parts.feet[i].post));
    for (const bench::KeepOff& strip : parts.bench.floor.keep_off) {
      const double gap = distance(pad, strip) - pad.half;
      if (!found || gap < found->gap) found = Nearest{i, gap, pad.half};
    }
  }
  return found;
}

}  // namespace

std::vector<Finding> keep_off(const Answers& answers, const reference::Tables&) {
  const model::Parts& parts = answers.model.parts;
  const std::optional<Nearest> found = nearest_strip(parts);
  if (!found) return {};
  const Printer print(parts.bench);
  const double wanted = in_si(parts.bench.floor.edge_distance);
  Finding f;
  f.id = "foot/keep-off";
  f.group = Group::feet;
  f.kind = Kind::safety;
  f.unit = quantity::Kind::length;
  f.limit_is_least = true;
  f.rule = "distance of a pad to a strip of floor that feet keep off";
  f.source = {"", "the wish of the bench's file", reference::Status::ours};
  f.place = parts.feet[found->foot].name;
  // From the middle of the pad, so that the ratio has a meaning on the strip too.
  constexpr double on_the_strip = 1e-3;  // m
  judge_against(f, std::max(on_the_strip, found->gap + found->half), wanted + found->half);
  f.sentence = found->gap >= 0.0
                   ? fmt::format("The {} stands {} clear of a strip to keep off; {} wanted.",
                                 f.place, print.length(found->gap), print.length(wanted))
                   : fmt::format("The {} stands on a strip to keep off.", f.place);
  f.working.push_back(
      fmt::format("distances from the middle of the pad, {} in radius", print.length(found->half)));
  if (f.judgement == Judgement::exceeded) f.advice = "move that post, or splay it";
  return {f};
}

}  // namespace standtrue::check
