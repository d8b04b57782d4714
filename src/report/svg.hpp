#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

/// A drawing as SVG text. Lengths are millimetres on the printed sheet, y downwards. What a line or
/// a text looks like is a class of the ink (ink.hpp), never written at the place.
namespace standtrue::report {

/// A point on the sheet.
using Flat = std::array<double, 2>;

enum class Anchor { start, middle, end };

class Svg {
 public:
  /// `title` and `words` say to who can not see it what it shows.
  Svg(double width, double height, std::string_view title, std::string_view words);

  void line(Flat from, Flat to, std::string_view ink);
  void path(const std::vector<Flat>& points, std::string_view ink, bool closed = false);
  void rect(Flat corner, double width, double height, std::string_view ink);
  void circle(Flat middle, double radius, std::string_view ink);
  /// `turned` by degrees about its place, counterclockwise.
  void text(Flat at, std::string_view words, std::string_view ink, Anchor anchor = Anchor::start,
            double turned = 0.0);

  /// A dimension line between two points, its figure above (or, upright, to its left), ending in
  /// slashes as in building drawings. Level or upright.
  void dimension(Flat from, Flat to, std::string_view figure);
  /// A ring with a number, and a line to what it speaks of.
  void balloon(Flat at, Flat points_to, int number);

  [[nodiscard]] double width() const { return width_; }
  [[nodiscard]] double height() const { return height_; }
  [[nodiscard]] std::string text() const;

 private:
  double width_, height_;
  std::string head_, body_;
};

/// About how wide a text is, set in this size: what drawings need to keep labels apart.
[[nodiscard]] double text_width(std::string_view words, double size);

}  // namespace standtrue::report
