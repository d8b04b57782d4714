#pragma once

#include <vector>

#include "report/svg.hpp"

namespace standtrue::report {

/// Values at the nodes of a grid of straight lines; node i, j is i + j * x.size(). Cells that are
/// not there (holes) have no contours.
struct Grid {
  const std::vector<double>& x;
  const std::vector<double>& y;
  const std::vector<double>& value;
  const std::vector<bool>& has_cell;
};

/// The lines on which the value is `level`: each cell is cut from its middle (the mean of its
/// corners) into four triangles, in which the value runs straight, so that no cell is ambiguous.
/// A closed line ends where it began.
[[nodiscard]] std::vector<std::vector<Flat>> contour(const Grid& grid, double level);

/// Round levels (1, 2, 2.5 or 5 times a power of ten apart), some `about` of them between the ends,
/// without zero.
[[nodiscard]] std::vector<double> round_levels(double least, double greatest, int about);

}  // namespace standtrue::report
