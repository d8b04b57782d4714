#pragma once

#include <cstddef>
#include <optional>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "standtrue/solve/plate_response.hpp"
#include "tests/solve/plate_models.hpp"

/// Plates on frames, for tests. SI.
namespace standtrue::tests {

using namespace standtrue::quantity;

inline model::Node node(const std::string& name, double x, double y, double z) {
  return {name, {metres(x), metres(y), metres(z)}};
}

inline model::Member member(std::size_t start, std::size_t end, double width_mm, double depth_mm) {
  model::Member m;
  m.name = std::to_string(start) + "-" + std::to_string(end);
  m.start = start;
  m.end = end;
  m.elastic = {pascals(11e9), pascals(0.69e9), from_si<Density>(0.0)};
  m.section = model::rectangle(millimetres(width_mm), millimetres(depth_mm));
  return m;
}

inline void hold_node(model::Model& m, std::size_t at, const std::vector<int>& freedoms) {
  for (const int f : freedoms) {
    model::Support support;
    support.name = m.nodes[at].name;
    support.node = at;
    support.rotation = f > 2;
    support.along = {f % 3 == 0 ? 1.0 : 0.0, f % 3 == 1 ? 1.0 : 0.0, f % 3 == 2 ? 1.0 : 0.0};
    m.supports.push_back(support);
  }
}

/// Prepared, one loading of case 0 answered.
struct Response {
  std::optional<solve::Prepared> prepared;
  solve::Loading loading;
  solve::State state;

  [[nodiscard]] solve::PlateMovements movements(std::size_t plate = 0) const {
    const solve::Answered one{&loading, &state};
    return solve::plate_movements(*prepared, plate, {&one, 1});
  }
};
inline Response answer(const model::Model& m, std::vector<model::NodeLoad> node_loads = {},
                       solve::PlateCache cache = {},
                       model::SpringSet springs = model::SpringSet::gravity) {
  Response response;
  const auto prepared = solve::prepare(m, springs, cache);
  if (!prepared) throw std::runtime_error(prepared.error().what);
  response.prepared = *prepared;
  response.loading = {{{0, 1.0}}, std::move(node_loads)};
  const auto state = solve::respond(*prepared, response.loading);
  if (!state) throw std::runtime_error(state.error().what);
  response.state = *state;
  return response;
}

/// A plate on four posts at the corners of A x B, its corner at the origin; each with its tie gives
/// `k` under a push. The posts stand so that the plate overhangs them by half its cells' rest.
struct OnPosts {
  double A = 0.6, B = 0.4, EA_L = 3e5, tie = 2e5;
  [[nodiscard]] double k() const { return 1.0 / (1.0 / EA_L + 1.0 / tie); }
  [[nodiscard]] model::Model model(const model::PlateStiffness& stiffness) const {
    model::Model m;
    m.plates.push_back(plate(0.8, 0.6, 8, 6, stiffness));
    model::Plate& p = m.plates[0];
    for (const auto& [i, j] : {std::pair{1u, 1u}, {7u, 1u}, {7u, 5u}, {1u, 5u}}) {
      const std::size_t n = m.nodes.size();
      m.nodes.push_back(node("foot", p.x[i], p.y[j], -0.5));
      m.nodes.push_back(node("head", p.x[i], p.y[j], 0.0));
      m.members.push_back(member(n, n + 1, 50.0, 50.0));
      m.members.back().elastic.E = pascals(EA_L * 0.5 / (0.05 * 0.05));
      hold_node(m, n, {0, 1, 2, 3, 4, 5});
      p.ties.push_back({i, j, n + 1, {1e6, 1e6, tie}});
    }
    m.cases.resize(1);
    return m;
  }
};

}  // namespace standtrue::tests
