#pragma once

#include <Eigen/Core>
#include <span>
#include <vector>

#include "standtrue/solve/solve.hpp"

/// What a plate does under loadings that the frame has answered. Doubles in SI; own axes of the
/// plate; forces per width.
namespace standtrue::solve {

/// Movements of the mesh nodes, five rows each (u v w rx ry), one column per loading. Zero where
/// the plate is missing.
using PlateMovements = Eigen::Matrix<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

/// A loading and its answer, both by the same Prepared.
struct Answered {
  const Loading* loading = nullptr;
  const State* state = nullptr;
};

/// All loadings at once: one sweep over the factor serves 32 of them. Loads of a Loading on nodes
/// of the frame have moved the tied points already, by which the plate feels them.
[[nodiscard]] PlateMovements plate_movements(const Prepared& prepared, std::size_t plate,
                                             std::span<const Answered> answered);

/// Forces per width at one place: N in the plane (N/m, tension positive), M (N m/m, positive with
/// tension on the side of the normal), Q across (N/m).
struct PlateForces {
  double N_x = 0.0, N_y = 0.0, N_xy = 0.0;
  double M_x = 0.0, M_y = 0.0, M_xy = 0.0;
  double Q_x = 0.0, Q_y = 0.0;
};

/// At every mesh node, in the order of Plate::node; the mean of what the cells round it say, zero
/// where there is none. In a cell a moment starts from its value at the middle, where the element
/// is most accurate, and runs to the node by equilibrium:
///     M_x,x = Q_x - M_xy,y        M_y,y = Q_y - M_xy,x
/// so that the peak over a line of ties and the moment of a clamped edge converge as h².
[[nodiscard]] std::vector<PlateForces> plate_forces(const model::Plate& plate,
                                                    const PlateMovements& movements,
                                                    Eigen::Index column);
/// At any place of the plate, bilinear between the nodes of its cell.
[[nodiscard]] PlateForces plate_forces_at(const model::Plate& plate,
                                          const PlateMovements& movements, double x, double y,
                                          Eigen::Index column);

/// In the middle of the cell between x[i], x[i+1], y[j] and y[j+1], where Q is most accurate.
/// Contract: the cell is there.
[[nodiscard]] PlateForces plate_forces_in_cell(const model::Plate& plate,
                                               const PlateMovements& movements, std::size_t i,
                                               std::size_t j, Eigen::Index column);

/// What the strength of a plate is judged by under one loading. Linear in the movements: fields of
/// two loadings add up to that of their sum.
struct PlateField {
  Eigen::Matrix<double, 6, Eigen::Dynamic>
      at_nodes;  ///< N_x N_y N_xy M_x M_y M_xy, a column per node, as `plate_forces` has them
  Eigen::Matrix<double, 2, Eigen::Dynamic>
      in_cells;  ///< Q_x Q_y in the middle of each cell, row by row; zero where there is none
};
[[nodiscard]] PlateField plate_field(const model::Plate& plate, const PlateMovements& movements,
                                     Eigen::Index column);
/// a + factor * more
[[nodiscard]] PlateField plus(const PlateField& a, const PlateField& more, double factor);
[[nodiscard]] PlateMovements plus(const PlateMovements& a, const PlateMovements& more,
                                  double factor);

/// w at any place of the plate, from the element's own shape; the mesh node's value on lines.
[[nodiscard]] double plate_w(const model::Plate& plate, const PlateMovements& movements, double x,
                             double y, Eigen::Index column);

/// What each tie pulls the frame with, along the plate's x, y and normal (N); + normal lifts the
/// frame towards the plate's normal.
[[nodiscard]] std::vector<std::array<double, 3>> tie_forces(const Prepared& prepared,
                                                            std::size_t plate, const State& state);

}  // namespace standtrue::solve
