#include "standtrue/solve/diagram.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

namespace {

using Coefficients = std::array<double, Diagram::terms>;

double value_of(const Coefficients& c, double t) {
  double value = 0.0;
  for (std::size_t i = c.size(); i-- > 0;) value = value * t + c[i];
  return value;
}

Coefficients derivative(const Coefficients& c) {
  Coefficients d{};
  for (std::size_t i = 1; i < c.size(); ++i) d[i - 1] = static_cast<double>(i) * c[i];
  return d;
}

/// Size of the polynomial's terms over [0, length]: what counts as zero beside them.
double scale_of(const Coefficients& c, double length) {
  double scale = 0.0;
  double power = 1.0;
  for (const double ci : c) {
    scale = std::max(scale, std::abs(ci) * power);
    power *= length;
  }
  return scale;
}

/// The root between a and b, where c changes sign. Bisection to the last bit: 60 steps, no traps.
double bracketed_root(const Coefficients& c, double a, double b) {
  const bool rising = value_of(c, b) > 0.0;
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (a + b);
    if ((value_of(c, middle) > 0.0) == rising) {
      b = middle;
    } else {
      a = middle;
    }
  }
  return 0.5 * (a + b);
}

}  // namespace

std::vector<double> roots_within(const Coefficients& c, double length) {
  const double zero = 1e-14 * scale_of(c, length);
  std::size_t degree = 0;
  double power = 1.0;
  for (std::size_t i = 0; i < c.size(); ++i) {
    if (i > 0 && std::abs(c[i]) * power > zero) degree = i;
    power *= length;
  }
  if (degree == 0) return {};
  // Between neighbouring roots of the derivative the polynomial is monotone.
  std::vector<double> stops{0.0};
  for (const double stop : roots_within(derivative(c), length)) stops.push_back(stop);
  stops.push_back(length);
  std::vector<double> roots;
  for (std::size_t i = 0; i + 1 < stops.size(); ++i) {
    const double at_left = value_of(c, stops[i]);
    const double at_right = value_of(c, stops[i + 1]);
    if ((at_left < 0.0) != (at_right < 0.0)) {
      roots.push_back(degree == 1 ? std::clamp(-c[0] / c[1], 0.0, length)
                                  : bracketed_root(c, stops[i], stops[i + 1]));
    } else if (std::abs(at_right) <= zero) {
      roots.push_back(stops[i + 1]);  // touches zero without crossing
    }
  }
  return roots;
}

double Diagram::Piece::at(double from_start) const { return value_of(c, from_start); }

const Diagram::Place& Diagram::Extremes::largest_magnitude() const {
  return std::abs(least.value) > std::abs(greatest.value) ? least : greatest;
}

double Diagram::at(double x, bool from_left) const {
  expects(!pieces_.empty(), "Diagram::at: empty diagram");
  const Piece* found = &pieces_.front();
  for (const Piece& piece : pieces_) {
    const bool reached = from_left ? piece.from < x : piece.from <= x;
    if (reached) found = &piece;
  }
  return value_of(found->c, x - found->from);
}

Diagram::Extremes Diagram::extremes() const {
  expects(!pieces_.empty(), "Diagram::extremes: empty diagram");
  Extremes found;
  bool first = true;
  const auto consider = [&](const Piece& piece, double t) {
    const Place place{piece.from + t, value_of(piece.c, t)};
    if (first || place.value < found.least.value) found.least = place;
    if (first || place.value > found.greatest.value) found.greatest = place;
    first = false;
  };
  for (const Piece& piece : pieces_) {
    const double length = piece.to - piece.from;
    consider(piece, 0.0);
    for (const double t : roots_within(derivative(piece.c), length)) consider(piece, t);
    consider(piece, length);
  }
  return found;
}

Diagram Diagram::integral(double start_value) const {
  Diagram result;
  double value = start_value;
  for (const Piece& piece : pieces_) {
    expects(piece.c.back() == 0.0, "Diagram::integral: degree too high");
    Piece next{piece.from, piece.to, {}};
    next.c[0] = value;
    for (std::size_t i = 1; i < terms; ++i) next.c[i] = piece.c[i - 1] / static_cast<double>(i);
    value = value_of(next.c, piece.to - piece.from);
    result.add(next);
  }
  return result;
}

Diagram Diagram::plus(const Diagram& other, double factor) const {
  expects(pieces_.size() == other.pieces_.size(), "Diagram::plus: pieces differ");
  Diagram result = *this;
  for (std::size_t p = 0; p < pieces_.size(); ++p) {
    for (std::size_t i = 0; i < terms; ++i) {
      result.pieces_[p].c[i] += factor * other.pieces_[p].c[i];
    }
  }
  return result;
}

Diagram Diagram::times(double factor) const {
  Diagram result = *this;
  for (Piece& piece : result.pieces_) {
    for (double& c : piece.c) c *= factor;
  }
  return result;
}

}  // namespace standtrue::solve
