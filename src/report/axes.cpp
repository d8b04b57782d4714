#include "report/axes.hpp"

#include <cmath>
#include <vector>

#include "standtrue/contract.hpp"

namespace standtrue::report {

namespace {

double share_of(double value, const Axes::Range& range) {
  return std::log(value / range.from) / std::log(range.to / range.from);
}

std::vector<double> round_numbers(const Axes::Range& range) {
  std::vector<double> all;
  const int first = static_cast<int>(std::floor(std::log10(range.from)));
  const int last = static_cast<int>(std::ceil(std::log10(range.to)));
  constexpr double hair = 1e-9;
  for (int power = first; power <= last; ++power) {
    for (const double times : {1.0, 2.0, 5.0}) {
      const double value = times * std::pow(10.0, power);
      if (value >= range.from * (1.0 - hair) && value <= range.to * (1.0 + hair)) {
        all.push_back(value);
      }
    }
  }
  return all;
}

}  // namespace

Axes::Axes(Flat corner, double width, double height, Range x, Range y)
    : corner_(corner), width_(width), height_(height), x_(x), y_(y) {
  expects(x.from > 0.0 && x.to > x.from && y.from > 0.0 && y.to > y.from,
          "Axes: ranges must rise from above zero");
}

double Axes::x(double value) const { return corner_[0] + width_ * share_of(value, x_); }
double Axes::y(double value) const { return corner_[1] - height_ * share_of(value, y_); }

void Axes::draw_x(Svg& svg, const Figure& figure, const std::string& of) const {
  for (const double value : round_numbers(x_)) {
    svg.line({x(value), bottom()}, {x(value), top()}, "rest");
    svg.text({x(value), bottom() + 3.2}, figure(value), "small", Anchor::middle);
  }
  svg.line({left(), bottom()}, {right(), bottom()}, "thin");
  svg.text({0.5 * (left() + right()), bottom() + 6.6}, of, "small", Anchor::middle);
}

void Axes::draw_y(Svg& svg, const Figure& figure, const std::string& of) const {
  for (const double value : round_numbers(y_)) {
    svg.line({left(), y(value)}, {right(), y(value)}, "rest");
    svg.text({left() - 1.2, y(value) + 0.8}, figure(value), "small", Anchor::end);
  }
  svg.line({left(), bottom()}, {left(), top()}, "thin");
  svg.text({left(), top() - 1.8}, of, "small");
}

}  // namespace standtrue::report
