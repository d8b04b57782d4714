// All numbers SI (m, kg, Hz).
#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "check/held.hpp"
#include "standtrue/check/vibration.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// A mass at a place, and how it moves.
struct Lump {
  double mass = 0.0;
  std::array<double, 3> at{}, moves{};
  std::optional<std::size_t> sheet;

  [[nodiscard]] double energy(std::size_t axis) const { return mass * moves[axis] * moves[axis]; }
};

void add_members(const model::Model& model, const solve::Mode& mode, std::vector<Lump>& lumps) {
  for (const model::Member& member : model.members) {
    const double per_length = in_si(member.elastic.density) * in_si(member.section.A) +
                              in_si(member.carries) / in_si(quantity::standard_gravity());
    const double mass = per_length * in_si(model::member_frame(model, member).length);
    for (const model::NodeId node : {member.start, member.end}) {
      const model::Point& at = model.nodes[node].at;
      Lump lump{0.5 * mass, {in_si(at.x), in_si(at.y), in_si(at.z)}, {}, std::nullopt};
      for (Eigen::Index i = 0; i < 3; ++i) {
        lump.moves[static_cast<std::size_t>(i)] =
            mode.displacement(static_cast<Eigen::Index>(6 * node) + i);
      }
      lumps.push_back(lump);
    }
  }
}

/// A quarter of each cell at each of its corners.
void add_plate(const model::Model& model, std::size_t place, const solve::Mode& mode,
               std::vector<Lump>& lumps) {
  const model::Plate& plate = model.plates[place];
  std::vector<double> area(plate.lines(), 0.0);
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (!plate.has_cell(i, j)) continue;
      const double quarter = 0.25 * (plate.x[i + 1] - plate.x[i]) * (plate.y[j + 1] - plate.y[j]);
      for (const std::size_t n : {plate.node(i, j), plate.node(i + 1, j), plate.node(i, j + 1),
                                  plate.node(i + 1, j + 1)}) {
        area[n] += quarter;
      }
    }
  }
  const std::array<double, 3>& a = plate.x_axis;
  const std::array<double, 3>& b = plate.y_axis;
  const std::array<double, 3> normal = plate.normal();
  for (std::size_t n = 0; n < area.size(); ++n) {
    if (area[n] == 0.0) continue;
    Lump lump;
    lump.mass = (plate.mass_per_area + plate.carries) * area[n];
    lump.sheet = model.parts.plate_sheets.at(place);
    const double x = plate.x[n % plate.x.size()], y = plate.y[n / plate.x.size()];
    const auto row = static_cast<Eigen::Index>(5 * n);
    const solve::PlateMovements& moves = mode.plates.at(place);
    for (std::size_t i = 0; i < 3; ++i) {
      lump.at[i] = plate.origin[i] + x * a[i] + y * b[i];
      lump.moves[i] =
          moves(row, 0) * a[i] + moves(row + 1, 0) * b[i] + moves(row + 2, 0) * normal[i];
    }
    lumps.push_back(lump);
  }
}

/// The kinetic energy of one shape.
struct Part {
  std::string words;
  double energy = 0.0;
};

/// Splits a body's energy: what rocks, and a lump that is carried along.
Part add_body(const model::Model& model, std::size_t place, const solve::Mode& mode,
              std::vector<Lump>& lumps) {
  const model::Body& body = model.bodies[place];
  const bench::Machine& machine = model.parts.bench.machines.at(place);
  const std::array<double, 6>& u = mode.bodies.at(place);
  const double m = in_si(body.mass), h = in_si(machine.cg_height);
  const double I_x = in_si(body.inertia.x), I_y = in_si(body.inertia.y),
               I_z = in_si(body.inertia.z);
  const double whole = m * (u[0] * u[0] + u[1] * u[1] + u[2] * u[2]) + I_x * u[3] * u[3] +
                       I_y * u[4] * u[4] + I_z * u[5] * u[5];
  // Tilting about its pads moves its middle by ry h along x and -rx h along y.
  const double tilt =
      m * h * h * (u[3] * u[3] + u[4] * u[4]) + I_x * u[3] * u[3] + I_y * u[4] * u[4];
  const double foot_x = u[0] - u[4] * h, foot_y = u[1] + u[3] * h;
  const double carried = m * (foot_x * foot_x + foot_y * foot_y + u[2] * u[2]) + I_z * u[5] * u[5];
  const double rocks = tilt + carried > 0.0 ? tilt / (tilt + carried) : 0.0;
  const bench::Sheet& sheet = model.parts.bench.sheets.at(machine.sheet);
  Lump lump;
  lump.mass = m * (1.0 - rocks);
  lump.at = {in_si(machine.x + machine.cg_x), in_si(machine.y + machine.cg_y),
             in_si(sheet.underside) + h};
  lump.moves = {u[0], u[1], u[2]};
  lump.sheet = machine.sheet;
  lumps.push_back(lump);
  const bool along = std::abs(u[4]) > std::abs(u[3]);
  return {"the " + machine.name + (along ? " rocks along" : " rocks across"), rocks * whole};
}

/// How the plan of the upper half moves: shares of sway along, sway across and twist.
std::array<double, 3> plan_shares(const std::vector<Lump>& lumps) {
  double top = 0.0;
  for (const Lump& lump : lumps) top = std::max(top, lump.at[2]);
  double mass = 0.0, x = 0.0, y = 0.0, u = 0.0, v = 0.0;
  const auto upper = [&](const Lump& lump) { return lump.at[2] > 0.5 * top; };
  for (const Lump& lump : lumps) {
    if (!upper(lump)) continue;
    mass += lump.mass;
    x += lump.mass * lump.at[0];
    y += lump.mass * lump.at[1];
    u += lump.mass * lump.moves[0];
    v += lump.mass * lump.moves[1];
  }
  if (mass <= 0.0) return {};
  x /= mass;
  y /= mass;
  u /= mass;
  v /= mass;
  double inertia = 0.0, spin = 0.0, all = 0.0;
  for (const Lump& lump : lumps) {
    if (!upper(lump)) continue;
    const double rx = lump.at[0] - x, ry = lump.at[1] - y;
    inertia += lump.mass * (rx * rx + ry * ry);
    spin += lump.mass * (rx * (lump.moves[1] - v) - ry * (lump.moves[0] - u));
    all += lump.energy(0) + lump.energy(1);
  }
  if (all <= 0.0) return {};
  const double turn = inertia > 0.0 ? spin * spin / inertia : 0.0;
  return {mass * u * u / all, mass * v * v / all, turn / all};
}

/// Upright movement: of the whole bench on its feet, or of one sheet.
Part upright(const model::Model& model, const std::vector<Lump>& lumps) {
  double mass = 0.0, sum = 0.0, energy = 0.0;
  std::vector<double> of_sheet(model.parts.bench.sheets.size(), 0.0);
  for (const Lump& lump : lumps) {
    mass += lump.mass;
    sum += lump.mass * lump.moves[2];
    energy += lump.energy(2);
    if (lump.sheet) of_sheet[*lump.sheet] += lump.energy(2);
  }
  constexpr double together = 0.8;  // of the energy, if it all moved alike (ours)
  if (mass > 0.0 && sum * sum / mass > together * energy) {
    return {"the bench goes up and down on its feet", energy};
  }
  if (of_sheet.empty()) return {"up and down", energy};
  const auto most = std::max_element(of_sheet.begin(), of_sheet.end());
  const auto place = static_cast<std::size_t>(most - of_sheet.begin());
  return {"the " + model.parts.bench.sheets[place].name + " goes up and down", energy};
}

}  // namespace

ModeWords words_of(const model::Model& model, const solve::Mode& mode) {
  std::vector<Lump> lumps;
  add_members(model, mode, lumps);
  for (std::size_t p = 0; p < model.plates.size(); ++p) add_plate(model, p, mode, lumps);
  std::vector<Part> parts;
  for (std::size_t b = 0; b < model.bodies.size(); ++b) {
    parts.push_back(add_body(model, b, mode, lumps));
  }
  const std::array<double, 3> plan = plan_shares(lumps);
  double sideways = 0.0;
  for (const Lump& lump : lumps) sideways += lump.energy(0) + lump.energy(1);
  parts.push_back({"sways along", plan[0] * sideways});
  parts.push_back({"sways across", plan[1] * sideways});
  parts.push_back({"twists", plan[2] * sideways});
  parts.push_back(upright(model, lumps));
  double all = sideways * (1.0 - plan[0] - plan[1] - plan[2]);
  for (const Part& part : parts) all += part.energy;
  const auto most = std::max_element(
      parts.begin(), parts.end(), [](const Part& a, const Part& b) { return a.energy < b.energy; });
  constexpr double named = 0.6;
  const double share = all > 0.0 ? most->energy / all : 0.0;
  return {mode.frequency, share >= named ? most->words : "mixed", share};
}

}  // namespace standtrue::check
