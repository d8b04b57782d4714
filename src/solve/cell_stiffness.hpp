#pragma once

#include <deque>

#include "solve/shell_element.hpp"
#include "standtrue/model/plate.hpp"

/// Element matrices of the cells of a plate's mesh, before creep. All numbers SI.
namespace standtrue::solve {

struct CellStiffness {
  double a = 0.0, b = 0.0;
  PlateMatrix bending;
  Matrix8 in_plane;
};

/// A mesh has few sizes of cell: each is made once.
class CellStiffnesses {
 public:
  explicit CellStiffnesses(const model::PlateStiffness& stiffness) : stiffness_(stiffness) {}
  /// Of a cell a by b; stays good while this lives.
  [[nodiscard]] const CellStiffness& of(double a, double b);

 private:
  model::PlateStiffness stiffness_;
  std::deque<CellStiffness> known_;
};

}  // namespace standtrue::solve
