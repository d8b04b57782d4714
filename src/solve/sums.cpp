// What adds up.
#include "standtrue/solve/plate_response.hpp"

namespace standtrue::solve {

void add(State& sum, const State& more, double factor) {
  sum.displacement += factor * more.displacement;
  sum.tied_points += factor * more.tied_points;
  for (std::size_t m = 0; m < sum.end_forces.size(); ++m) {
    for (std::size_t i = 0; i < 12; ++i) sum.end_forces[m][i] += factor * more.end_forces[m][i];
  }
  if (sum.seat_forces.size() > 0) sum.seat_forces += factor * more.seat_forces;
  for (std::size_t s = 0; s < sum.support_forces.size(); ++s) {
    sum.support_forces[s] += factor * more.support_forces[s];
  }
}

PlateField plus(const PlateField& a, const PlateField& more, double factor) {
  return {a.at_nodes + factor * more.at_nodes, a.in_cells + factor * more.in_cells};
}

PlateMovements plus(const PlateMovements& a, const PlateMovements& more, double factor) {
  return a + factor * more;
}

}  // namespace standtrue::solve
