#pragma once

#include <functional>
#include <string>

#include "report/svg.hpp"

namespace standtrue::report {

/// The frame of a chart: both axes by ratio (logarithmic), with round numbers at their lines.
class Axes {
 public:
  struct Range {
    double from = 1.0, to = 10.0;
  };
  using Figure = std::function<std::string(double)>;

  /// The corner is the lower left one. Contract: 0 < from < to on both.
  Axes(Flat corner, double width, double height, Range x, Range y);

  [[nodiscard]] double x(double value) const;
  [[nodiscard]] double y(double value) const;
  [[nodiscard]] Flat at(double x_value, double y_value) const { return {x(x_value), y(y_value)}; }
  [[nodiscard]] double left() const { return corner_[0]; }
  [[nodiscard]] double right() const { return corner_[0] + width_; }
  [[nodiscard]] double bottom() const { return corner_[1]; }
  [[nodiscard]] double top() const { return corner_[1] - height_; }

  /// Lines at 1, 2 and 5 times the powers of ten, with their figures, and what they are of.
  void draw_x(Svg& svg, const Figure& figure, const std::string& of) const;
  void draw_y(Svg& svg, const Figure& figure, const std::string& of) const;

 private:
  Flat corner_;
  double width_, height_;
  Range x_, y_;
};

}  // namespace standtrue::report
