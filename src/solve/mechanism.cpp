#include <fmt/format.h>

#include <cmath>
#include <numeric>

#include "solve/prepared.hpp"

namespace standtrue::solve {

namespace {

constexpr std::array<const char*, 3> axis_names{"x", "y", "z"};

std::string axis_words(const Eigen::Vector3d& d) {
  Eigen::Index most = 0;
  const double size = d.cwiseAbs().maxCoeff(&most);
  if (size > 0.95 * d.norm()) return axis_names[static_cast<std::size_t>(most)];
  const Eigen::Vector3d unit = d.normalized();
  return fmt::format("({:.2f}, {:.2f}, {:.2f})", unit.x(), unit.y(), unit.z());
}

std::size_t root_of(std::vector<std::size_t>& parent, std::size_t i) {
  while (parent[i] != i) i = parent[i] = parent[parent[i]];
  return i;
}

}  // namespace

Refusal name_mechanism(const Prepared::Inside& in, const Eigen::VectorXd& global) {
  const model::Model& model = in.model;
  model::NodeId slides = 0, turns = 0;
  double slide = 0.0, turn = 0.0;
  for (model::NodeId node = 0; node < model.nodes.size(); ++node) {
    const auto at = static_cast<Eigen::Index>(6 * node);
    // The last bit must not choose among equals: a later node has to be clearly larger.
    if (global.segment<3>(at).norm() > 1.000001 * slide) {
      slide = global.segment<3>(at).norm();
      slides = node;
    }
    if (global.segment<3>(at + 3).norm() > 1.000001 * turn) {
      turn = global.segment<3>(at + 3).norm();
      turns = node;
    }
  }
  for (std::size_t p = 0; p < in.plates.size(); ++p) {
    for (Eigen::Index i = 0; i < in.plates[p].size(); i += 3) {
      const Eigen::Vector3d own = global.segment<3>(in.plates[p].first + i);
      if (own.norm() <= 1.000001 * slide) continue;
      const std::string axis = axis_words(axes_of(model.plates[p]).transpose() * own);
      return {
          Refusal::Why::mechanism,
          fmt::format("the {} can slide along {}: nothing resists it", model.plates[p].name, axis),
          fmt::format("screw or glue the {} to what carries it", model.plates[p].name),
          std::nullopt};
    }
  }
  constexpr double arm = 0.01;  // m: a turn that moves nothing 10 mm away by more than the slide
  if (slide >= arm * turn) {
    const std::string axis = axis_words(global.segment<3>(static_cast<Eigen::Index>(6 * slides)));
    return {Refusal::Why::mechanism,
            fmt::format("node {} can slide along {}: nothing resists it", model.nodes[slides].name,
                        axis),
            fmt::format("a brace, a joint that resists turning, or a support along {} at {}", axis,
                        model.nodes[slides].name),
            slides};
  }
  const std::string axis = axis_words(global.segment<3>(static_cast<Eigen::Index>(6 * turns + 3)));
  return {
      Refusal::Why::mechanism,
      fmt::format("node {} can turn about {}: nothing resists it", model.nodes[turns].name, axis),
      fmt::format("a member or support at {} that resists turning about {}",
                  model.nodes[turns].name, axis),
      turns};
}

std::optional<Refusal> find_loose_part(const model::Model& model) {
  const std::size_t n = model.nodes.size();
  std::vector<std::size_t> parent(n);
  std::iota(parent.begin(), parent.end(), std::size_t{0});
  std::vector<bool> used(n, false);
  const auto join = [&](model::NodeId a, model::NodeId b) {
    used[a] = used[b] = true;
    parent[root_of(parent, a)] = root_of(parent, b);
  };
  for (const model::Member& member : model.members) join(member.start, member.end);
  for (const model::Tie& tie : model.ties) join(tie.a, tie.b);
  for (const model::Plate& plate : model.plates) {
    for (const model::PlateTie& tie : plate.ties) join(plate.ties.front().node, tie.node);
  }
  std::vector<bool> held(n, false);
  for (const model::Support& support : model.supports) held[root_of(parent, support.node)] = true;
  for (const model::Plate& plate : model.plates) {
    if (!plate.holds.empty() && !plate.ties.empty()) {
      held[root_of(parent, plate.ties.front().node)] = true;
    }
  }
  for (model::NodeId node = 0; node < n; ++node) {
    if (!used[node]) {
      return Refusal{Refusal::Why::loose_part,
                     fmt::format("node {} belongs to no member", model.nodes[node].name),
                     "join a member to it, or leave it out", node};
    }
    if (!held[root_of(parent, node)]) {
      return Refusal{
          Refusal::Why::loose_part,
          fmt::format("the part with node {} is joined to no support", model.nodes[node].name),
          "join it to the rest of the frame, or support it", node};
    }
  }
  return std::nullopt;
}

}  // namespace standtrue::solve
