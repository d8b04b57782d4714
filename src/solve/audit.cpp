#include "solve/audit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace standtrue::solve {

namespace {

/// Largest residual and loss of equilibrium, relative to the loads, that an answer may have:
/// rounding (1e-16) times the condition of a frame with members a million times stiffer than others
/// (1e9), with a factor of ten to spare. Six figures are then right.
constexpr double audit_limit = 1e-6;

}  // namespace

double lost_equilibrium(const Prepared::Inside& in, const Resultant& loads,
                        std::span<const StiffnessChange> changes, const State& state) {
  Resultant all = loads;
  std::vector<Eigen::Vector3d> places;
  for (const model::Node& node : in.model.nodes) places.push_back(vector_of(node.at));
  for (const model::Plate& plate : in.model.plates) {
    places.push_back(position_of(plate, plate.x.front(), plate.y.front(), 0.0));
    places.push_back(position_of(plate, plate.x.back(), plate.y.back(), 0.0));
  }
  Eigen::Vector3d middle = Eigen::Vector3d::Zero();
  for (const Eigen::Vector3d& place : places) middle += place;
  middle /= static_cast<double>(places.size());
  double reach = 0.0;
  for (const Eigen::Vector3d& place : places) reach = std::max(reach, (place - middle).norm());
  const auto push = [&](model::NodeId node, bool rotation, const model::Direction& along,
                        double force) {
    const Eigen::Vector3d d = force * vector_of(along).normalized();
    const Eigen::Vector3d none = Eigen::Vector3d::Zero();
    all.add(vector_of(in.model.nodes[node].at), rotation ? none : d, rotation ? d : none);
  };
  for (std::size_t s = 0; s < in.model.supports.size(); ++s) {
    const model::Support& support = in.model.supports[s];
    push(support.node, support.rotation, support.along, state.support_forces[s]);
  }
  for (const StiffnessChange& change : changes) {
    if (change.b) continue;
    const Eigen::Matrix<double, 6, 1> d = direction(change.rotation, change.along);
    const auto at = static_cast<Eigen::Index>(6 * change.a);
    push(change.a, change.rotation, change.along,
         -change.stiffness * d.dot(state.displacement.segment<6>(at)));
  }
  const double arm = std::max(reach, 1e-3);
  const double scale = all.size + all.couples / arm;
  if (scale == 0.0) return 0.0;
  const Eigen::Vector3d moment = all.moment - middle.cross(all.force);
  return std::max(all.force.norm(), moment.norm() / arm) / scale;
}

std::optional<Refusal> audit_refusal(const Audit& audit) {
  if (audit.residual <= audit_limit && audit.equilibrium <= audit_limit) return std::nullopt;
  return Refusal{Refusal::Why::audit_failed,
                 fmt::format("the answer does not balance: residual {:.1e}, equilibrium {:.1e}",
                             audit.residual, audit.equilibrium),
                 "stiff and soft parts differ too much; make extremes rigid or free", std::nullopt};
}

}  // namespace standtrue::solve
