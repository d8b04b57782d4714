#include <fmt/format.h>

#include <cmath>
#include <set>

#include "report/drawing.hpp"

namespace standtrue::report {

namespace {

/// Two edges one behind the other are one dashed line: their dashes would fill each other's gaps.
class Once {
 public:
  bool is_new(const Flat& a, const Flat& b) {
    const auto tenths = [](double v) { return std::lround(10.0 * v); };
    std::array<long, 4> key = {tenths(a[0]), tenths(a[1]), tenths(b[0]), tenths(b[1])};
    if (key[0] > key[2] || (key[0] == key[2] && key[1] > key[3])) {
      key = {key[2], key[3], key[0], key[1]};
    }
    return key[0] != key[2] || key[1] != key[3] ? drawn_.insert(key).second : false;
  }

 private:
  std::set<std::array<long, 4>> drawn_;
};

}  // namespace

std::string as_times(double times) {
  if (!(times > 0.0) || !std::isfinite(times)) return "0";
  const double unit = std::pow(10.0, std::floor(std::log10(times)) - 1.0);
  const double rounded = std::round(times / unit) * unit;
  return rounded < 10.0 ? fmt::format("{:.2g}", rounded) : fmt::format("{:.0f}", rounded);
}

void draw_solids(Svg& svg, const std::vector<Solid>& solids, const View& view, bool hidden_too) {
  const std::vector<Edge> edges = edges_of(solids, view);
  for (const bool hidden : {true, false}) {
    if (hidden && !hidden_too) continue;
    Once once;
    for (const Edge& edge : edges) {
      const Flat a = view.at(edge.from), b = view.at(edge.to);
      if (edge.hidden == hidden && once.is_new(a, b)) svg.line(a, b, hidden ? "hidden" : "seen");
    }
  }
}

}  // namespace standtrue::report
