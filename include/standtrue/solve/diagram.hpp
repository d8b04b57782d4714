#pragma once

#include <array>
#include <vector>

namespace standtrue::solve {

/// A piecewise polynomial along a member: on each piece, sum of c[i] (x - from)^i.
/// Pieces meet; values may jump between them.
class Diagram {
 public:
  static constexpr std::size_t terms = 6;
  struct Piece {
    double from = 0.0, to = 0.0;
    std::array<double, terms> c{};
    [[nodiscard]] double at(double from_start) const;
  };
  struct Place {
    double x = 0.0;
    double value = 0.0;
  };
  struct Extremes {
    Place least, greatest;
    [[nodiscard]] const Place& largest_magnitude() const;
  };

  void add(const Piece& piece) { pieces_.push_back(piece); }
  [[nodiscard]] const std::vector<Piece>& pieces() const { return pieces_; }

  /// The value at x; where two pieces meet, of the right one (`from_left`: the left one).
  [[nodiscard]] double at(double x, bool from_left = false) const;
  /// Least and greatest, found where the derivative vanishes and at piece ends: not sampled.
  [[nodiscard]] Extremes extremes() const;
  /// The antiderivative, continuous, with the given start value.
  [[nodiscard]] Diagram integral(double start_value) const;
  /// This + factor * other; both must have the same pieces.
  [[nodiscard]] Diagram plus(const Diagram& other, double factor) const;
  [[nodiscard]] Diagram times(double factor) const;

 private:
  std::vector<Piece> pieces_;
};

/// Real roots of sum c[i] t^i in [0, length], in order; exact to rounding by bracketing between the
/// roots of the derivative.
[[nodiscard]] std::vector<double> roots_within(const std::array<double, Diagram::terms>& c,
                                               double length);

}  // namespace standtrue::solve
