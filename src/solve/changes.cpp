// All numbers SI (m, N, rad).
#include "solve/changes.hpp"

#include <fmt/format.h>

#include <cmath>

#include "standtrue/contract.hpp"

namespace standtrue::solve {

OrRefusal<Changes> Changes::make(const Prepared::Inside& in,
                                 std::span<const StiffnessChange> changes) {
  Changes result;
  const auto n = static_cast<Eigen::Index>(changes.size());
  result.a_ = Eigen::MatrixXd::Zero(in.freedoms.size(), n);
  result.Z_ = Eigen::MatrixXd::Zero(in.freedoms.size(), n);
  result.k_ = Eigen::VectorXd::Zero(n);
  for (Eigen::Index j = 0; j < n; ++j) {
    const StiffnessChange& change = changes[static_cast<std::size_t>(j)];
    expects(std::isfinite(change.stiffness) && change.stiffness != 0.0,
            "respond: a stiffness change must be finite and not zero");
    const Eigen::Matrix<double, 6, 1> d = direction(change.rotation, change.along);
    const auto place = [&](model::NodeId node, double sign) {
      result.a_.col(j).segment<6>(static_cast<Eigen::Index>(6 * node)) +=
          sign * (in.freedoms.basis[node].transpose() * d);
    };
    place(change.a, change.b ? -1.0 : 1.0);
    if (change.b) place(*change.b, 1.0);
    result.k_(j) = change.stiffness;
    result.Z_.col(j) = in.solve(result.a_.col(j));
  }
  if (n == 0) return result;
  const Eigen::MatrixXd capacitance =
      Eigen::MatrixXd(result.k_.cwiseInverse().asDiagonal()) + result.a_.transpose() * result.Z_;
  const Eigen::VectorXd scale = result.k_.cwiseAbs().cwiseSqrt();
  result.scale_ = scale;
  result.lu_.compute(scale.asDiagonal() * capacitance * scale.asDiagonal());
  result.lu_.setThreshold(1e-10);
  if (!result.lu_.isInvertible()) {
    const StiffnessChange& first = changes.front();
    return tl::unexpected(Refusal{
        Refusal::Why::mechanism,
        fmt::format("without that stiffness node {} can move freely", in.model.nodes[first.a].name),
        "keep some of it", first.a});
  }
  return result;
}

Eigen::VectorXd Changes::correct(const Eigen::VectorXd& movement) const {
  if (none()) return movement;
  const Eigen::VectorXd e = scale_.asDiagonal() * (a_.transpose() * movement);
  return movement - Z_ * (scale_.asDiagonal() * Eigen::VectorXd(lu_.solve(e)));
}

Eigen::VectorXd Changes::pull(const Eigen::VectorXd& movement) const {
  if (none()) return Eigen::VectorXd::Zero(movement.size());
  return a_ * (k_.asDiagonal() * (a_.transpose() * movement));
}

}  // namespace standtrue::solve
