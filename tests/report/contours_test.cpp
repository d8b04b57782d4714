#include "report/contours.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

namespace contours_test {

using namespace standtrue;
using doctest::Approx;
using report::Flat;

namespace {

/// A square of n cells each way from -1 to 1.
struct Square {
  std::vector<double> x, value;
  std::vector<bool> has_cell;

  template <class F>
  Square(int n, F f) {
    for (int i = 0; i <= n; ++i) x.push_back(-1.0 + 2.0 * i / n);
    for (const double y : x) {
      for (const double at : x) value.push_back(f(at, y));
    }
    has_cell.assign(static_cast<std::size_t>(n * n), true);
  }
  [[nodiscard]] report::Grid grid() const { return {x, x, value, has_cell}; }
};

double length_of(const std::vector<Flat>& line) {
  double sum = 0.0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    sum += std::hypot(line[i][0] - line[i - 1][0], line[i][1] - line[i - 1][1]);
  }
  return sum;
}

}  // namespace

TEST_CASE("report/contours: x² + y² at 1/4 is one closed circle of length π (geometry)") {
  constexpr int n = 41;
  const Square square(n, [](double x, double y) { return x * x + y * y; });
  const auto lines = report::contour(square.grid(), 0.25);
  REQUIRE(lines.size() == 1);
  CHECK(std::hypot(lines[0].front()[0] - lines[0].back()[0],
                   lines[0].front()[1] - lines[0].back()[1]) < 1e-7);
  // A chord of length h loses h²/24 r² of its arc; the value runs straight within a triangle, which
  // shifts the line by at most h²/8 of a second derivative of 2 over a slope of 1: h²/4.
  const double h = 2.0 / n;
  CHECK(length_of(lines[0]) == Approx(std::numbers::pi).epsilon(h * h));
}

TEST_CASE("report/contours: of a slope they are straight, from edge to edge (geometry)") {
  const Square square(8, [](double x, double y) { return x + 0.5 * y; });
  const auto lines = report::contour(square.grid(), 0.1);
  REQUIRE(lines.size() == 1);
  for (const Flat& p : lines[0]) CHECK(p[0] + 0.5 * p[1] == Approx(0.1));
  CHECK(length_of(lines[0]) == Approx(std::sqrt(5.0)));  // 2 high and 1 wide
}

TEST_CASE("report/contours: a missing cell has none") {
  Square square(2, [](double x, double) { return x; });
  square.has_cell = {true, true, false, false};
  const auto lines = report::contour(square.grid(), 0.5);
  REQUIRE(lines.size() == 1);
  CHECK(length_of(lines[0]) == Approx(1.0));
}

TEST_CASE("report/contours: a saddle is drawn without a crossing twice over") {
  const Square square(1, [](double x, double y) { return x * y; });
  double sum = 0.0;
  for (const auto& line : report::contour(square.grid(), 0.5)) sum += length_of(line);
  CHECK(sum > 0.0);
  for (const auto& line : report::contour(square.grid(), 0.5)) {
    for (const Flat& p : line) CHECK(p[0] * p[1] >= -1e-12);  // in the two corners that are above
  }
}

TEST_CASE("report/contours: levels are round, within the ends, and leave out nought") {
  for (const auto& [least, greatest] :
       {std::pair{-73.0, 12.0}, {0.002, 0.0173}, {-5.0, -1.0}, {1e6, 9e6}}) {
    const auto levels = report::round_levels(least, greatest, 7);
    CHECK(levels.size() >= 3);
    CHECK(levels.size() <= 9);
    for (const double level : levels) {
      CHECK(level >= least);
      CHECK(level <= greatest);
      CHECK(level != 0.0);
    }
  }
  CHECK(report::round_levels(1.0, 1.0, 7).empty());
  CHECK(report::round_levels(0.0, std::nan(""), 7).empty());
}

}  // namespace contours_test
