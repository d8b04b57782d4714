#pragma once

#include <stdexcept>
#include <string>

#include "standtrue/solve/modes.hpp"
#include "tests/solve/plate_models.hpp"
#include "tests/solve/whole_mass.hpp"

/// Models that swing, for tests. SI.
namespace standtrue::tests {

using namespace quantity;

inline model::Node swinging_node(const std::string& name, double x, double y, double z) {
  return {name, {metres(x), metres(y), metres(z)}};
}

inline model::Member swinging_member(std::size_t start, std::size_t end, double width_mm,
                                     double depth_mm, double density = 450.0) {
  model::Member m;
  m.name = std::to_string(start) + "-" + std::to_string(end);
  m.start = start;
  m.end = end;
  m.elastic = {pascals(11.2e9), pascals(0.7e9), from_si<Density>(density)};
  m.section = model::rectangle(millimetres(width_mm), millimetres(depth_mm));
  return m;
}

inline void support(model::Model& m, std::size_t at, const std::vector<int>& freedoms,
                    std::optional<double> stiffness = {}) {
  for (const int f : freedoms) {
    model::Support s;
    s.name = m.nodes[at].name;
    s.node = at;
    s.rotation = f > 2;
    s.along = {f % 3 == 0 ? 1.0 : 0.0, f % 3 == 1 ? 1.0 : 0.0, f % 3 == 2 ? 1.0 : 0.0};
    s.stiffness = stiffness;
    m.supports.push_back(s);
  }
}
inline const std::vector<int> all_six{0, 1, 2, 3, 4, 5};

inline model::PointMass point_mass(std::size_t at, double kg, std::array<double, 3> offset = {},
                                   std::array<double, 3> inertia = {}) {
  return {"mass",
          at,
          kilograms(kg),
          {metres(offset[0]), metres(offset[1]), metres(offset[2])},
          {from_si<MassMoment>(inertia[0]), from_si<MassMoment>(inertia[1]),
           from_si<MassMoment>(inertia[2])}};
}

inline solve::Prepared prepared(const model::Model& m,
                                model::SpringSet springs = model::SpringSet::gravity) {
  const auto made = solve::prepare(m, springs);
  if (!made) throw std::runtime_error(made.error().what);
  return *made;
}

inline std::vector<solve::Mode> modes_of(const model::Model& m,
                                         const solve::ModesWanted& wanted = {},
                                         model::SpringSet springs = model::SpringSet::gravity) {
  const auto found = solve::modes(prepared(m, springs), wanted);
  if (!found) throw std::runtime_error(found.error().what);
  return *found;
}

inline double square(double x) { return x * x; }

/// A body whose four pads stand at ±a, ±b round (x, y) of a plate in the global x-y plane, its
/// centre h above the mid-plane: six unit cases by the statics of a rigid body.
inline void stand_on(model::Model& m, std::size_t plate, double x, double y, double a, double b,
                     double h, double half_pad, double kg, std::array<double, 3> inertia) {
  model::Body body;
  body.name = "machine";
  body.mass = kilograms(kg);
  body.inertia = {from_si<MassMoment>(inertia[0]), from_si<MassMoment>(inertia[1]),
                  from_si<MassMoment>(inertia[2])};
  for (std::size_t i = 0; i < 6; ++i) {
    Eigen::Vector3d F = Eigen::Vector3d::Zero(), M = Eigen::Vector3d::Zero();
    if (i < 3) F(static_cast<Eigen::Index>(i)) = 1.0;
    if (i >= 3) M(static_cast<Eigen::Index>(i) - 3) = 1.0;
    M += Eigen::Vector3d(0.0, 0.0, h).cross(F);
    model::LoadCase load;
    load.name = "unit" + std::to_string(i);
    for (const auto& [dx, dy] : {std::pair{-a, -b}, {a, -b}, {a, b}, {-a, b}}) {
      const double r2 = 4.0 * (a * a + b * b);
      load.patch_loads.push_back(
          {plate,
           {x + dx - half_pad, x + dx + half_pad, y + dy - half_pad, y + dy + half_pad},
           {F(0) / 4.0 - M(2) * dy / r2, F(1) / 4.0 + M(2) * dx / r2,
            F(2) / 4.0 + M(0) * dy / (4.0 * b * b) - M(1) * dx / (4.0 * a * a)}});
    }
    body.unit[i] = m.cases.size();
    m.cases.push_back(load);
  }
  m.bodies.push_back(body);
}

/// A plate on four posts that stand askew on springs, rails with joints that give, a mass beside a
/// node, a bed that resists twist and a body over it: a little of all.
inline model::Model table() {
  model::Model m;
  const std::array<std::array<double, 2>, 4> corners{{{0, 0}, {0.8, 0}, {0.8, 0.5}, {0, 0.5}}};
  for (const auto& [x, y] : corners) m.nodes.push_back(swinging_node("foot", x, y, 0.0));
  for (const auto& [x, y] : corners) m.nodes.push_back(swinging_node("head", x, y, 0.7));
  for (std::size_t i = 0; i < 4; ++i) m.members.push_back(swinging_member(i, i + 4, 45.0, 70.0));
  for (std::size_t i = 0; i < 4; ++i) {
    model::Member rail = swinging_member(4 + i, 4 + (i + 1) % 4, 38.0, 95.0);
    const double dx = 0.02 * (corners[(i + 1) % 4][0] - corners[i][0]);
    rail.start_offset = {metres(dx), metres(0.01), metres(-0.05)};
    rail.end_offset = {metres(-dx), metres(0.01), metres(-0.05)};
    rail.start_springs[4] = model::EndSpring::elastic(2e3, 1e3);
    rail.end_springs[5] = model::EndSpring::elastic(5e3);
    rail.end_springs[3] = model::EndSpring::free_end();
    m.members.push_back(rail);
  }
  for (std::size_t i = 0; i < 4; ++i) {
    support(m, i, {0, 1, 2});
    support(m, i, {4}, 4e3);
  }
  m.masses.push_back(point_mass(5, 3.0, {0.1, -0.05, 0.2}, {0.02, 0.03, 0.01}));
  model::Plate p = plate(0.8, 0.5, 8, 5, orthotropic(9e9, 4e9, 0.06, 0.6e9, 0.2e9, 0.08e9, 0.018));
  p.origin = {0.0, 0.0, 0.709};
  p.holes = {{0.1, 0.2, 0.1, 0.2}};
  p.thickness = 0.018;
  p.mass_per_area = 9.0;
  p.creep = 1.4;
  p.tie_level = -0.009;
  p.ties = {{0, 0, 4, {1e6, 2e6, 5e6}},
            {8, 0, 5, {1e6, 2e6, 5e6}},
            {8, 5, 6, {1e6, 2e6, 5e6}},
            {0, 5, 7, {1e6, 2e6, 5e6}}};
  p.bodies = {
      {"bed",
       {{{0.3, 0.4, 0.1, 0.2}, {0.6, 0.7, 0.1, 0.2}, {0.6, 0.7, 0.3, 0.4}, {0.3, 0.4, 0.3, 0.4}}},
       8e4}};
  m.plates.push_back(p);
  m.cases.resize(1);
  stand_on(m, 0, 0.5, 0.25, 0.15, 0.1, 0.3, 0.05, 25.0, {0.7, 0.9, 0.4});
  return m;
}

}  // namespace standtrue::tests
