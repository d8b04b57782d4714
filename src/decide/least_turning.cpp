#include "decide/least_turning.hpp"

#include <cmath>

namespace standtrue::decide {

double dot(const std::vector<double>& a, const std::vector<double>& b) {
  double sum = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
  return sum;
}

bool LeastTurning::hold(const std::vector<double>& row, double wanted) {
  constexpr double no_say = 1e-5;  // of the row's length: answers have six figures
  std::vector<double> left = row;
  for (int twice = 0; twice < 2; ++twice) {  // the second time takes off the rounding of the first
    for (const std::vector<double>& direction : directions_) {
      const double part = dot(left, direction);
      for (std::size_t i = 0; i < left.size(); ++i) left[i] -= part * direction[i];
    }
  }
  const double size = std::sqrt(dot(left, left));
  if (!(size > no_say * std::sqrt(dot(row, row)))) return false;
  for (double& part : left) part /= size;
  const double missing = (wanted - dot(row, moves_)) / size;
  for (std::size_t i = 0; i < left.size(); ++i) moves_[i] += missing * left[i];
  directions_.push_back(std::move(left));
  return true;
}

}  // namespace standtrue::decide
