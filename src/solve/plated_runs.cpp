// All numbers SI (m, N).
#include "solve/plated_runs.hpp"

#include <algorithm>
#include <optional>

#include "solve/member_kernel.hpp"
#include "solve/second_order.hpp"

namespace standtrue::solve {

namespace {

bool is_built_in(const model::EndSprings& springs) {
  return std::all_of(springs.begin(), springs.end(), [](const model::EndSpring& spring) {
    return spring.kind == model::EndSpring::Kind::rigid;
  });
}

Eigen::Vector3d axis_of(const model::Model& model, model::MemberId member) {
  return vector_of(model::member_frame(model, model.members[member]).axes[0]);
}

/// The member that goes on straight where this one ends.
std::optional<model::MemberId> next_of(const model::Model& model,
                                       const std::vector<std::vector<model::MemberId>>& starting,
                                       model::MemberId member) {
  constexpr double straight = 1e-6;
  const model::Member& from = model.members[member];
  if (!is_built_in(from.end_springs)) return std::nullopt;
  const Eigen::Vector3d axis = axis_of(model, member);
  for (const model::MemberId m : starting[from.end]) {
    if (!is_built_in(model.members[m].start_springs)) continue;
    if ((axis_of(model, m) - axis).norm() < straight) return m;
  }
  return std::nullopt;
}

/// The ties of all plates along a run.
std::vector<PlatedRun::Tied> ties_along(const model::Model& model,
                                        const std::vector<PreparedPlate>& plates,
                                        const std::vector<model::MemberId>& run) {
  std::vector<std::optional<std::size_t>> before(model.nodes.size());
  for (std::size_t i = 0; i < run.size(); ++i) before[model.members[run[i]].start] = i;
  before[model.members[run.back()].end] = run.size();
  const Eigen::Vector3d axis = axis_of(model, run.front());
  std::vector<PlatedRun::Tied> ties;
  for (std::size_t p = 0; p < model.plates.size(); ++p) {
    const model::Plate& plate = model.plates[p];
    // In the plane of the plate alone: what presses on it is a load of the run.
    Eigen::Vector3d along = axes_of(plate) * axis;
    along(2) = 0.0;
    if (along.norm() < 1e-6) continue;
    for (const model::PlateTie& tie : plate.ties) {
      const Eigen::Vector3d k(tie.stiffness[0], tie.stiffness[1], 0.0);
      if (!before[tie.node] || k.isZero(0.0)) continue;
      const Eigen::Matrix<double, 1, 3> pull = along.transpose() * k.asDiagonal();
      ties.push_back({p, plates[p].freedom_of(plate.node(tie.i, tie.j)) - plates[p].first, tie.node,
                      -pull * tie_of_node(model, plate, tie), pull, *before[tie.node]});
    }
  }
  return ties;
}

}  // namespace

std::vector<PlatedRun> plated_runs(const model::Model& model,
                                   const std::vector<PreparedPlate>& plates) {
  std::vector<PlatedRun> runs;
  if (plates.empty()) return runs;
  std::vector<std::vector<model::MemberId>> starting(model.nodes.size());
  for (model::MemberId m = 0; m < model.members.size(); ++m) {
    starting[model.members[m].start].push_back(m);
  }
  std::vector<bool> goes_on(model.members.size(), false);
  std::vector<std::optional<model::MemberId>> next(model.members.size());
  for (model::MemberId m = 0; m < model.members.size(); ++m) {
    const auto more = next_of(model, starting, m);
    if (!more || goes_on[*more]) continue;  // one run has it
    next[m] = more;
    goes_on[*more] = true;
  }
  for (model::MemberId m = 0; m < model.members.size(); ++m) {
    if (goes_on[m]) continue;
    PlatedRun run{{m}, {}};
    while (const auto more = next[run.members.back()]) run.members.push_back(*more);
    run.ties = ties_along(model, plates, run.members);
    if (!run.ties.empty()) runs.push_back(std::move(run));
  }
  return runs;
}

std::vector<double> tension_with_plates(const std::vector<PlatedRun>& runs,
                                        const std::vector<PreparedPlate>& plates,
                                        const State& state) {
  std::vector<double> N(state.end_forces.size());
  for (model::MemberId m = 0; m < N.size(); ++m) N[m] = axial_force(state, m);
  for (const PlatedRun& run : runs) {
    std::vector<double> pull(run.members.size() + 1, 0.0);  // before each member, and at the end
    double all = 0.0;
    for (const PlatedRun::Tied& tie : run.ties) {
      const Eigen::Index point = plates[tie.plate].first - plates.front().first + tie.point;
      const double t =
          tie.by_node.dot(state.displacement.segment<6>(static_cast<Eigen::Index>(6 * tie.node))) +
          tie.by_point.dot(state.tied_points.segment<3>(point));
      pull[tie.before] += t;
      all += t;
    }
    double with_plate = -0.5 * all;
    for (std::size_t i = 0; i < run.members.size(); ++i) {
      with_plate += pull[i];
      N[run.members[i]] += with_plate;
    }
  }
  return N;
}

}  // namespace standtrue::solve
