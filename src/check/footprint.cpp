// All numbers SI (N, m).
#include "check/footprint.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/bench/leaning.hpp"
#include "standtrue/bench/surface.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// Twice the area of the triangle a b c, positive anticlockwise.
double turn(const PlanPoint& a, const PlanPoint& b, const PlanPoint& c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/// Bolts hold a post at its middle.
bool stands_on_its_end(const bench::Post& post) { return post.foot.bare && !post.foot.fixed; }

bool is_given(const bench::Bench& bench, const model::Weight& stored) {
  return std::any_of(bench.sheets.begin(), bench.sheets.end(), [&](const bench::Sheet& sheet) {
    return sheet.name == stored.name && !sheet.stored_assumed;
  });
}

}  // namespace

// Andrew's monotone chain.
std::vector<PlanPoint> convex_outline(std::vector<PlanPoint> points) {
  std::sort(points.begin(), points.end(), [](const PlanPoint& a, const PlanPoint& b) {
    return a.x < b.x || (a.x == b.x && a.y < b.y);
  });
  double reach = 0.0;
  for (const PlanPoint& p : points) {
    reach = std::max({reach, std::abs(p.x - points.front().x), std::abs(p.y - points.front().y)});
  }
  const double in_a_row = 1e-9 * reach * reach;
  std::vector<PlanPoint> outline;
  const auto walk = [&](std::size_t keep, const PlanPoint& p) {
    while (outline.size() >= keep + 2 &&
           turn(outline[outline.size() - 2], outline.back(), p) <= in_a_row) {
      outline.pop_back();
    }
    outline.push_back(p);
  };
  for (const PlanPoint& p : points) walk(0, p);
  const std::size_t lower = outline.size();
  for (std::size_t i = points.size(); i-- > 1;) walk(lower - 1, points[i - 1]);
  if (outline.size() > 1) outline.pop_back();
  return outline;
}

std::string TippingEdge::towards() const {
  if (std::abs(outwards.x) > std::abs(outwards.y)) {
    return outwards.x < 0.0 ? "to the left" : "to the right";
  }
  return outwards.y < 0.0 ? "to the front" : "to the back";
}

std::vector<TippingEdge> edges_round(std::vector<PlanPoint> points) {
  const std::vector<PlanPoint> outline = convex_outline(std::move(points));
  std::vector<TippingEdge> edges;
  if (outline.size() < 3) return edges;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PlanPoint& a = outline[i];
    const PlanPoint& b = outline[(i + 1) % outline.size()];
    const double length = std::hypot(b.x - a.x, b.y - a.y);
    edges.push_back({a, {(b.y - a.y) / length, -(b.x - a.x) / length}});
  }
  return edges;
}

std::vector<TippingEdge> tipping_edges(const model::Parts& parts, BareEnds ends) {
  std::vector<PlanPoint> feet;
  for (const model::FootPlace& foot : parts.feet) {
    const bench::Post& post = parts.bench.posts.at(foot.post);
    const double x = in_si(post.foot_x), y = in_si(post.foot_y);
    if (ends == BareEnds::middles || !stands_on_its_end(post)) {
      feet.push_back({x, y});
      continue;
    }
    const double half_x = 0.5 * in_si(post.along_x), half_y = 0.5 * in_si(post.along_y);
    feet.insert(feet.end(), {{x - half_x, y - half_y},
                             {x + half_x, y - half_y},
                             {x + half_x, y + half_y},
                             {x - half_x, y + half_y}});
  }
  return edges_round(std::move(feet));
}

std::string on_middles(const model::Parts& parts) {
  const bool differs =
      std::any_of(parts.feet.begin(), parts.feet.end(), [&](const model::FootPlace& foot) {
        return stands_on_its_end(parts.bench.posts.at(foot.post));
      });
  return differs ? " (on the middle of its posts' ends)" : "";
}

std::vector<TippingEdge> free_edges(const model::Parts& parts, BareEnds ends) {
  std::vector<TippingEdge> edges;
  if (!parts.bench.wall.empty()) return edges;
  for (const TippingEdge& edge : tipping_edges(parts, ends)) {
    const bool held =
        std::any_of(parts.feet.begin(), parts.feet.end(), [&](const model::FootPlace& foot) {
          const bench::Post& post = parts.bench.posts.at(foot.post);
          return post.foot.fixed && edge.inside(in_si(post.foot_x), in_si(post.foot_y)) > 1e-3;
        });
    if (!held) edges.push_back(edge);
  }
  return edges;
}

bool is_held(const model::Parts& parts) {
  return !parts.bench.wall.empty() ||
         std::any_of(parts.feet.begin(), parts.feet.end(), [&](const model::FootPlace& foot) {
           return parts.bench.posts.at(foot.post).foot.fixed;
         });
}

bool is_planned(const bench::Bench& bench, const model::Weight& weight) {
  switch (weight.of) {
    case model::Weight::Of::machine:
    case model::Weight::Of::added:
      return true;
    case model::Weight::Of::stored:
      return is_given(bench, weight);
    case model::Weight::Of::bench:
      break;
  }
  return false;
}

std::vector<model::Weight> standing_weights(const model::Parts& parts, Laden laden) {
  std::vector<model::Weight> weights;
  for (const model::Weight& weight : parts.weights) {
    const bool is_bench = weight.of == model::Weight::Of::bench;
    if (is_bench || (laden == Laden::as_planned && is_planned(parts.bench, weight))) {
      weights.push_back(weight);
    }
  }
  return weights;
}

PlanPoint leaned(const bench::Bench& bench, const PlanPoint& at, double height) {
  const std::array<double, 2> lean = bench::lean_of(bench);
  return {at.x + lean[0] * height, at.y + lean[1] * height};
}

std::vector<model::Weight> leaning_weights(const model::Parts& parts, Laden laden) {
  std::vector<model::Weight> weights = standing_weights(parts, laden);
  for (model::Weight& weight : weights) {
    const PlanPoint at = leaned(parts.bench, {in_si(weight.x), in_si(weight.y)}, in_si(weight.z));
    weight.x = quantity::metres(at.x);
    weight.y = quantity::metres(at.y);
  }
  return weights;
}

bool is_anything_planned(const model::Parts& parts) {
  return std::any_of(parts.weights.begin(), parts.weights.end(),
                     [&](const model::Weight& weight) { return is_planned(parts.bench, weight); });
}

std::optional<Beyond> beyond_feet(const model::Parts& parts, Laden laden) {
  std::optional<Beyond> worst;
  double W = 0.0, W_x = 0.0, W_y = 0.0;
  for (const model::Weight& weight : leaning_weights(parts, laden)) {
    W += in_si(weight.force);
    W_x += in_si(weight.force) * in_si(weight.x);
    W_y += in_si(weight.force) * in_si(weight.y);
  }
  if (!(W > 0.0)) return worst;
  for (const TippingEdge& edge : free_edges(parts)) {
    const double past = -edge.inside(W_x / W, W_y / W);
    if (past > 0.0 && (!worst || past > worst->distance)) worst = Beyond{edge, past};
  }
  return worst;
}

double surface_height(const bench::Sheet& sheet) { return in_si(bench::surface_of(sheet)); }

double worktop_height(const bench::Bench& bench) {
  double height = 0.0;
  for (const bench::Sheet& sheet : bench.sheets) {
    if (sheet.place == bench::SheetPlace::top) height = std::max(height, surface_height(sheet));
  }
  if (height > 0.0) return height;
  for (const bench::Post& post : bench.posts) height = std::max(height, in_si(post.top));
  return height;
}

}  // namespace standtrue::check
