#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "standtrue/contract.hpp"
#include "standtrue/model/scatter.hpp"

namespace standtrue::model {

using quantity::in_si;

namespace {

constexpr double one_node = 1e-3;  // m; nearer places share theirs

}  // namespace

std::string slug(const std::string& name) {
  std::string result = name;
  std::replace(result.begin(), result.end(), ' ', '-');
  result.erase(std::remove(result.begin(), result.end(), ','), result.end());
  return result;
}

Line& Carrier::line_at(double across) const {
  expects(!lines.empty(), "Carrier::line_at: no line");
  const auto distance = [across](const Line* line) {
    return std::max({line->from - across, across - line->to, 0.0});
  };
  return **std::min_element(lines.begin(), lines.end(), [&](const Line* a, const Line* b) {
    return distance(a) < distance(b);
  });
}

double want_node(Line& line, double coordinate) {
  const double keep_off = std::min(2e-3, 0.25 * (line.to - line.from));
  const double at = std::clamp(coordinate, line.from + keep_off, line.to - keep_off);
  for (const auto& [place, node] : line.nodes) {
    if (std::abs(place - at) < one_node) return place;
  }
  line.nodes.emplace_back(at, NodeId{0});
  std::sort(line.nodes.begin(), line.nodes.end());
  return at;
}

double station_place(const Idealising& work, std::size_t post) {
  for (std::size_t r = 0; r < work.bench.rails.size(); ++r) {
    const bench::Rail& rail = work.bench.rails[r];
    if (!rail.along_x && rail.to == post) return work.rails[r].across;
  }
  return in_si(work.bench.posts[post].x);
}

NodeId node_at(const Line& line, double coordinate) {
  expects(!line.nodes.empty(), "node_at: a line without nodes");
  return std::min_element(line.nodes.begin(), line.nodes.end(),
                          [coordinate](const auto& a, const auto& b) {
                            return std::abs(a.first - coordinate) < std::abs(b.first - coordinate);
                          })
      ->second;
}

double Idealising::k_def(reference::Material material) const {
  const auto air = static_cast<std::size_t>(bench.air.service_class);
  const std::optional<double> k = tables.material(material).k_def[air];
  const double damp = bench.bought_damp ? tables.constant("k_def damp").value : 0.0;
  // A material that does not belong in this air has no k_def; the checks do not judge it.
  return k.value_or(0.0) + damp;
}

double Idealising::creep_divisor(reference::Material material) const {
  return assumptions.after_creep ? 1.0 + k_def(material) : 1.0;
}

namespace {

/// The 5 % fractile of a modulus over its mean. G is as low as E: the worst that they can do
/// together.
double low_share(const bench::Stock& stock, const reference::Tables& tables) {
  const double s = log_deviation(scatter_of_E(stock, tables));
  constexpr double one_in_twenty = 1.644854;  // of the normal distribution
  return std::exp(-one_in_twenty * s - 0.5 * s * s);
}

}  // namespace

Elastic Idealising::elastic(const bench::Stock& stock, const std::string& piece) const {
  const reference::Timber& timber = stock.timber;
  const double unknown = assumptions.low_timber ? low_share(stock, tables) : 1.0;
  double share = assumptions.scales.timber.value_or(unknown);
  const auto own = assumptions.scales.pieces.find(piece);
  if (own != assumptions.scales.pieces.end()) share *= own->second;
  const double by = creep_divisor(timber.material) / share;
  return {timber.E_0_mean / by, timber.G_mean / by, timber.rho_mean};
}

JointStiffness Idealising::stiffness_of(const bench::Joint& joint,
                                        const RailEndGeometry& geometry) const {
  const std::optional<double>& known = assumptions.scales.joints;
  const JointStiffness k = known ? joint_stiffness(joint, geometry, tables, Bound::mean, *known)
                                 : joint_stiffness(joint, geometry, tables, assumptions.bound);
  if (!assumptions.after_creep) return k;
  return model::after_creep(
      k, tables.constant("k_def joint timber").value * k_def(geometry.rail.material));
}

double Idealising::screw_scale() const {
  if (assumptions.scales.screws) return *assumptions.scales.screws;
  const double band = tables.constant("joint band").value;
  if (assumptions.bound == Bound::soft) return 1.0 / band;
  return assumptions.bound == Bound::stiff ? band : 1.0;
}

NodeId Idealising::add_node(std::string name, double x, double y, double z) {
  using quantity::metres;
  model.nodes.push_back({std::move(name), {metres(x), metres(y), metres(z)}});
  return model.nodes.size() - 1;
}

}  // namespace standtrue::model
