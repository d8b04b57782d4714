#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::model {

std::vector<double> mesh_lines(double low, double high, const std::vector<double>& wanted,
                               double cell) {
  expects(high > low && cell > 0.0, "mesh_lines: nothing to divide");
  constexpr double same = 4e-3;  // m: thinner cells help nobody
  std::vector<double> fixed{low, high};
  for (const double place : wanted) {
    if (place < low || place > high) continue;
    const bool is_new = std::none_of(fixed.begin(), fixed.end(), [place](double other) {
      return std::abs(other - place) < same;
    });
    if (is_new) fixed.push_back(place);
  }
  std::sort(fixed.begin(), fixed.end());
  std::vector<double> lines{fixed.front()};
  for (std::size_t i = 0; i + 1 < fixed.size(); ++i) {
    const double gap = fixed[i + 1] - fixed[i];
    constexpr double spare = 0.3;  // a cell may be that much wider before it is halved
    const int cells = std::max(1, static_cast<int>(std::ceil(gap / cell - spare)));
    for (int c = 1; c < cells; ++c) lines.push_back(fixed[i] + gap * c / cells);
    lines.push_back(fixed[i + 1]);
  }
  return lines;
}

std::vector<double> tributary(const std::vector<double>& lines, double from, double to) {
  std::vector<double> share(lines.size(), 0.0);
  for (std::size_t c = 0; c + 1 < lines.size(); ++c) {
    const double l = lines[c + 1] - lines[c];
    const double s0 = std::clamp((from - lines[c]) / l, 0.0, 1.0);
    const double s1 = std::clamp((to - lines[c]) / l, 0.0, 1.0);
    if (s1 <= s0) continue;
    const double upper = 0.5 * (s1 * s1 - s0 * s0) * l;
    share[c] += (s1 - s0) * l - upper;
    share[c + 1] += upper;
  }
  return share;
}

}  // namespace standtrue::model
