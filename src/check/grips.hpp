#pragma once

#include <Eigen/Core>
#include <vector>

/// What feet hold sideways. All numbers SI (N).
namespace standtrue::check {

/// A foot under a loading.
struct FootForce {
  double N = 0.0;                               ///< presses
  Eigen::Vector2d H = Eigen::Vector2d::Zero();  ///< holds sideways, x and y
  double mu = 0.0;                              ///< holds no more than mu N; infinite where bolted
};

/// What would slip holds mu N; what it can not hold the others take by what they press, until
/// nothing slips or all do.
void share_what_slips(std::vector<FootForce>& feet);

}  // namespace standtrue::check
