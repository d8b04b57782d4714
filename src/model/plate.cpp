#include "standtrue/model/plate.hpp"

#include <algorithm>

namespace standtrue::model {

bool Plate::has_cell(std::size_t i, std::size_t j) const {
  const double xm = 0.5 * (x[i] + x[i + 1]), ym = 0.5 * (y[j] + y[j + 1]);
  return std::none_of(holes.begin(), holes.end(), [&](const Patch& hole) {
    return xm > hole.x0 && xm < hole.x1 && ym > hole.y0 && ym < hole.y1;
  });
}

double Plate::area() const {
  double sum = 0.0;
  for (std::size_t j = 0; j + 1 < y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < x.size(); ++i) {
      if (has_cell(i, j)) sum += (x[i + 1] - x[i]) * (y[j + 1] - y[j]);
    }
  }
  return sum;
}

}  // namespace standtrue::model
