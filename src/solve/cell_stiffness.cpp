// All numbers SI (m, N, rad).
#include "solve/cell_stiffness.hpp"

#include <cmath>

namespace standtrue::solve {

namespace {

Eigen::Matrix3d membrane_of(const model::PlateStiffness& s) {
  Eigen::Matrix3d A;
  A << s.A_11, s.A_12, 0.0, s.A_12, s.A_22, 0.0, 0.0, 0.0, s.A_66;
  return A;
}

Eigen::Matrix3d bending_of(const model::PlateStiffness& s) {
  Eigen::Matrix3d D;
  D << s.D_11, s.D_12, 0.0, s.D_12, s.D_22, 0.0, 0.0, 0.0, s.D_66;
  return D;
}

}  // namespace

const CellStiffness& CellStiffnesses::of(double a, double b) {
  for (const CellStiffness& cell : known_) {
    if (std::abs(cell.a - a) < 1e-12 && std::abs(cell.b - b) < 1e-12) return cell;
  }
  Corners corners;
  corners << 0.0, 0.0, a, 0.0, a, b, 0.0, b;
  known_.push_back(
      {a, b, plate_stiffness(corners, bending_of(stiffness_), {stiffness_.S_x, stiffness_.S_y}),
       membrane_stiffness(corners, membrane_of(stiffness_))});
  return known_.back();
}

}  // namespace standtrue::solve
