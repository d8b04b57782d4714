#include "decide/ratio_surface.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include "standtrue/contract.hpp"

namespace standtrue::decide {

namespace {

// Points, in deviations.
constexpr int steps = 7;
constexpr double furthest = 3.0;  // of joints: but one bench in four hundred lies nearer
constexpr double aside = 2.0;     // of timber and screws, and of joints where they are moved
constexpr double own_aside = -1.5;
constexpr std::array<double, 3> crossings = {-aside, 0.0, aside};

/// Places of the points.
constexpr std::size_t first_timber = steps, first_screws = first_timber + 6;
constexpr std::size_t both_soft = first_screws + 6, first_own = both_soft + 1;
/// Of the joints' point at `crossings[k]`.
constexpr std::size_t joints_point(std::size_t k) { return 1 + 2 * k; }

double parabola(const std::array<double, 3>& y, double x) {
  const double t = x / aside;
  return y[1] + 0.5 * t * (y[2] - y[0]) + 0.5 * t * t * (y[2] - 2.0 * y[1] + y[0]);
}

double mean_of(const std::vector<double>& all) {
  if (all.empty()) return 0.0;
  return std::accumulate(all.begin(), all.end(), 0.0) / static_cast<double>(all.size());
}

}  // namespace

std::vector<Drawn> points_of_surface(std::size_t pieces) {
  const auto at = [pieces](double timber, double joints, double screws) {
    return Drawn{std::vector<double>(pieces, timber), joints, screws};
  };
  std::vector<Drawn> points;
  for (int k = 0; k < steps; ++k) points.push_back(at(0.0, k - furthest, 0.0));
  for (const double joints : crossings) {
    for (const double way : {-aside, aside}) points.push_back(at(way, joints, 0.0));
  }
  for (const double joints : crossings) {
    for (const double way : {-aside, aside}) points.push_back(at(0.0, joints, way));
  }
  points.push_back(at(-aside, 0.0, -aside));
  for (std::size_t i = 0; i < pieces; ++i) {
    points.push_back(at(0.0, 0.0, 0.0));
    points.back().pieces[i] = own_aside;
  }
  return points;
}

RatioSurface::RatioSurface(const std::vector<double>& y, std::size_t pieces)
    : joints_({-3.0, -2.0, -1.0, 0.0, 1.0, 2.0, 3.0}, {y.begin(), y.begin() + steps}) {
  expects(y.size() == first_own + pieces, "RatioSurface: a value for every point");
  const auto slopes = [&](std::size_t first, Parabola& linear, Parabola& square) {
    for (std::size_t k = 0; k < crossings.size(); ++k) {
      const double low = y[first + 2 * k], high = y[first + 2 * k + 1], mid = y[joints_point(k)];
      linear[k] = (high - low) / (2.0 * aside);
      square[k] = (high - 2.0 * mid + low) / (2.0 * aside * aside);
    }
  };
  slopes(first_timber, timber_, timber_2_);
  slopes(first_screws, screws_, screws_2_);
  const double middle = y[joints_point(1)];
  both_ = (y[both_soft] - y[first_timber + 2] - y[first_screws + 2] + middle) / (aside * aside);
  for (std::size_t i = 0; i < pieces; ++i) own_.push_back((y[first_own + i] - middle) / own_aside);
}

double RatioSurface::log_at(const Drawn& drawn) const {
  const double x = std::clamp(drawn.joints, -furthest, furthest);
  const double t = mean_of(drawn.pieces), s = drawn.screws;
  double y = joints_(x);
  y += parabola(timber_, x) * t + parabola(timber_2_, x) * t * t;
  y += parabola(screws_, x) * s + parabola(screws_2_, x) * s * s;
  y += both_ * t * s;
  for (std::size_t i = 0; i < own_.size(); ++i) y += own_[i] * (drawn.pieces[i] - t);
  return y;
}

}  // namespace standtrue::decide
