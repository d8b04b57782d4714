#pragma once

#include <cstddef>
#include <vector>

namespace standtrue::decide {

/// The moves h with the least sum of squares that meet linear conditions, taken one by one: each
/// condition, less what those before it say already, is a direction of its own (Gram-Schmidt), and
/// the moves are the sum of what it asks for along these.
class LeastTurning {
 public:
  explicit LeastTurning(std::size_t feet) : moves_(feet, 0.0) {}

  /// row · h = wanted. False, and nothing changes, where the conditions so far leave no say in it.
  bool hold(const std::vector<double>& row, double wanted);
  [[nodiscard]] const std::vector<double>& moves() const { return moves_; }

 private:
  std::vector<std::vector<double>> directions_;  ///< of unit length, square to each other
  std::vector<double> moves_;
};

[[nodiscard]] double dot(const std::vector<double>& a, const std::vector<double>& b);

}  // namespace standtrue::decide
