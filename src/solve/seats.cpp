// All numbers SI (m, N).
#include "solve/seats.hpp"

#include <utility>

namespace standtrue::solve {

namespace {

/// The gap of one axis of a tie, over own freedoms.
void add_gap(Triplets& triplets, int column, Eigen::Index point, model::NodeId node,
             const Eigen::Matrix<double, 1, 6>& of_node) {
  triplets.emplace_back(static_cast<int>(point), column, 1.0);
  for (Eigen::Index i = 0; i < 6; ++i) {
    if (of_node(i) == 0.0) continue;
    triplets.emplace_back(static_cast<int>(6 * node) + static_cast<int>(i), column, -of_node(i));
  }
}

}  // namespace

Seats::Springs Seats::springs(const model::Model& model, const Freedoms& freedoms,
                              const std::vector<PreparedPlate>& plates) {
  Triplets triplets;
  std::vector<double> stiffness;
  Springs springs;
  for (std::size_t p = 0; p < plates.size(); ++p) {
    const model::Plate& plate = model.plates[p];
    springs.first.push_back(static_cast<Eigen::Index>(stiffness.size()));
    for (const model::PlateTie& tie : plate.ties) {
      if (!tie.gravity_only) continue;
      const Eigen::Matrix<double, 3, 6> of_node =
          tie_of_node(model, plate, tie) * freedoms.basis[tie.node];
      const Eigen::Index point = plates[p].freedom_of(plate.node(tie.i, tie.j));
      for (Eigen::Index axis = 0; axis < 3; ++axis) {
        const double k = tie.stiffness[static_cast<std::size_t>(axis)];
        if (k == 0.0) continue;
        add_gap(triplets, static_cast<int>(stiffness.size()), point + axis, tie.node,
                of_node.row(axis));
        stiffness.push_back(k);
      }
    }
  }
  const auto n = static_cast<Eigen::Index>(stiffness.size());
  springs.stiffness = Eigen::Map<const Eigen::VectorXd>(stiffness.data(), n);
  springs.gaps.resize(freedoms.size(), n);
  springs.gaps.setFromTriplets(triplets.begin(), triplets.end());
  return springs;
}

Seats::Seats(Springs springs, Eigen::MatrixXd solved)
    : springs_(std::move(springs)), solved_(std::move(solved)) {
  Eigen::MatrixXd compliance = springs_.gaps.transpose() * solved_;
  compliance.diagonal() += springs_.stiffness.cwiseInverse();
  compliance_.compute(compliance);
}

Eigen::VectorXd Seats::forces(const Eigen::VectorXd& own_load) const {
  return compliance_.solve(solved_.transpose() * own_load);
}

Eigen::VectorXd Seats::own_load(const Eigen::VectorXd& forces) const {
  return -(springs_.gaps * forces);
}

}  // namespace standtrue::solve
