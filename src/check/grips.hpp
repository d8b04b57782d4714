#pragma once

#include <cmath>
#include <vector>

/// What feet hold sideways. All numbers SI (N).
namespace standtrue::check {

/// A foot under a loading.
struct FootForce {
  double N = 0.0;           ///< presses
  double x = 0.0, y = 0.0;  ///< holds sideways
  double mu = 0.0;          ///< holds no more than mu N; infinite where bolted
  [[nodiscard]] double H() const { return std::hypot(x, y); }
};

/// What would slip holds mu N; what it can not hold the others take by what they press, until
/// nothing slips or all do.
void share_what_slips(std::vector<FootForce>& feet);

}  // namespace standtrue::check
