#pragma once

#include <array>
#include <boost/math/interpolators/makima.hpp>
#include <vector>

#include "decide/population.hpp"

/// How a ratio goes with the stiffness of timber, joints and screws: a surface through benches that
/// were solved.
namespace standtrue::decide {

/// The benches to solve, in deviations. First joints alone from -3 to 3 in seven steps, then all
/// timber, then all screws, each two either way at three of those, then both soft together, then
/// each piece of timber soft by itself.
[[nodiscard]] std::vector<Drawn> points_of_surface(std::size_t pieces);

/// With x of joints, t and s those of timber (mean of its pieces u) and of screws:
///     ln r = A(x) + B(x) t + C(x) t² + D(x) s + E(x) s² + F t s + sum b_i (u_i - t)
/// A: cubics between the points with Akima's slopes, which do not overshoot where another load
/// begins to govern; B to E: parabolas; past the outermost points x stays there.
/// Source (ours): told with its error against benches solved in full.
class RatioSurface {
 public:
  /// `logs`: ln of the ratio at `points_of_surface`.
  RatioSurface(const std::vector<double>& logs, std::size_t pieces);
  [[nodiscard]] double log_at(const Drawn& drawn) const;

 private:
  using Parabola = std::array<double, 3>;  ///< at -2, 0 and 2
  boost::math::interpolators::makima<std::vector<double>> joints_;
  Parabola timber_{}, timber_2_{}, screws_{}, screws_2_{};
  double both_ = 0.0;
  std::vector<double> own_;
};

}  // namespace standtrue::decide
