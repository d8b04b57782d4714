// All numbers SI (m, kg).
#include "solve/plate_mass.hpp"

#include <array>

namespace standtrue::solve {

PlateMass::PlateMass(const model::Plate& plate)
    : shares_(static_cast<Eigen::Index>(plate.lines()), static_cast<Eigen::Index>(plate.lines())),
      m_(plate.mass_per_area + plate.carries),
      i_(plate.mass_per_area * plate.thickness * plate.thickness / 12.0) {
  if (m_ == 0.0) return;
  // Corners in turn round the cell: itself, a neighbour, across, a neighbour.
  constexpr std::array<double, 4> ninths{4.0, 2.0, 1.0, 2.0};
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(16 * plate.lines());
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (!plate.has_cell(i, j)) continue;
      const double area = (plate.x[i + 1] - plate.x[i]) * (plate.y[j + 1] - plate.y[j]);
      const std::array<std::size_t, 4> corners{plate.node(i, j), plate.node(i + 1, j),
                                               plate.node(i + 1, j + 1), plate.node(i, j + 1)};
      for (std::size_t r = 0; r < 4; ++r) {
        for (std::size_t c = 0; c < 4; ++c) {
          entries.emplace_back(static_cast<int>(corners[r]), static_cast<int>(corners[c]),
                               area / 36.0 * ninths[(4 + r - c) % 4]);
        }
      }
    }
  }
  shares_.setFromTriplets(entries.begin(), entries.end());
}

Panel PlateMass::times(const Panel& movements) const {
  if (m_ == 0.0) return Panel::Zero(movements.rows(), movements.cols());
  // Rows of one mesh node lie behind each other: side by side they are five times as many columns.
  const Eigen::Index columns = movements.cols();
  Panel forces(movements.rows(), columns);
  Eigen::Map<Panel> wide(forces.data(), shares_.rows(), 5 * columns);
  wide.noalias() = shares_ * Eigen::Map<const Panel>(movements.data(), shares_.rows(), 5 * columns);
  wide.leftCols(3 * columns) *= m_;
  wide.rightCols(2 * columns) *= i_;
  return forces;
}

}  // namespace standtrue::solve
