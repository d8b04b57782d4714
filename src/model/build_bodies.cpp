// Machines as bodies that swing, and as beds that the sheet would twist. Numbers in SI.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/direction.hpp"
#include "model/idealising.hpp"

namespace standtrue::model {

using quantity::from_si;
using quantity::in_si;
using quantity::metres;
using quantity::newtons;

namespace {

/// A force and moment at the middle of the pads, shared by them as statics of a rigid body would.
/// A moment about a line that all pads lie on finds no arm and is left out.
std::vector<Direction> on_pads(const std::vector<Pad>& pads, const Direction& middle,
                               const Direction& force, const Direction& moment) {
  const double n = static_cast<double>(pads.size());
  double xx = 0.0, yy = 0.0;
  for (const Pad& pad : pads) {
    xx += std::pow(pad.x - middle.x, 2);
    yy += std::pow(pad.y - middle.y, 2);
  }
  const auto by = [](double sum) { return sum > 1e-9 ? 1.0 / sum : 0.0; };
  std::vector<Direction> shares;
  for (const Pad& pad : pads) {
    const double x = pad.x - middle.x, y = pad.y - middle.y;
    shares.push_back({force.x / n - moment.z * y * by(xx + yy),
                      force.y / n + moment.z * x * by(xx + yy),
                      force.z / n + moment.x * y * by(yy) - moment.y * x * by(xx)});
  }
  return shares;
}

void push(Idealising& work, LoadCase& load_case, const bench::Machine& machine, const Pad& pad,
          const Direction& force) {
  const bench::Sheet& sheet = work.bench.sheets.at(machine.sheet);
  if (const std::optional<std::size_t> plate = plate_of(work.model, machine.sheet)) {
    load_case.patch_loads.push_back(
        {*plate,
         patch_at(sheet, pad.x, pad.y, std::max(in_si(machine.pad), 5e-3)),
         {force.x, force.y, force.z}});
    return;
  }
  for (const Lying& lying : work.lying) {
    if (lying.sheet == machine.sheet) press(work, load_case, lying, pad.x, pad.y, 0.0, -force.z);
  }
  if (force.x != 0.0 || force.y != 0.0) {
    push_top_posts(work, load_case, newtons(force.x), newtons(force.y));
  }
}

/// The six unit cases of a machine's centre of mass.
void swing(Idealising& work, const bench::Machine& machine) {
  const std::vector<Pad> pads = pads_of(machine);
  const bench::Sheet& sheet = work.bench.sheets.at(machine.sheet);
  Direction middle;
  for (const Pad& pad : pads) {
    middle.x += pad.x / static_cast<double>(pads.size());
    middle.y += pad.y / static_cast<double>(pads.size());
  }
  // Forces in its plane act on the sheet at mid-thickness.
  const double height =
      in_si(machine.cg_height) + 0.5 * sheet.layers * in_si(sheet.panel.thickness);
  const Direction arm{in_si(machine.x + machine.cg_x) - middle.x,
                      in_si(machine.y + machine.cg_y) - middle.y, height};
  Body body;
  body.name = machine.name;
  body.mass = machine.mass;
  // As a block as long and deep as its pads stand and twice as high as its centre (ours).
  const double m = in_si(machine.mass) / 12.0;
  const double a = in_si(machine.pads_x), b = in_si(machine.pads_y),
               c = 2.0 * in_si(machine.cg_height);
  body.inertia = {from_si<MassMoment>(m * (b * b + c * c)),
                  from_si<MassMoment>(m * (a * a + c * c)),
                  from_si<MassMoment>(m * (a * a + b * b))};
  constexpr std::array<const char*, 6> words = {"x", "y", "z", "rx", "ry", "rz"};
  for (std::size_t i = 0; i < 6; ++i) {
    const std::array<double, 3> unit{i % 3 == 0 ? 1.0 : 0.0, i % 3 == 1 ? 1.0 : 0.0,
                                     i % 3 == 2 ? 1.0 : 0.0};
    const Direction one{unit[0], unit[1], unit[2]};
    const Direction force = i < 3 ? one : Direction{};
    const Direction moment = i < 3 ? cross(arm, one) : one;
    LoadCase& load_case =
        add_case(work, fmt::format("unit-{}-{}", slug(machine.name), words[i]),
                 fmt::format("1 {} {} {} at the middle of the {}", i < 3 ? "N" : "N m",
                             i < 3 ? "along" : "about", words[i % 3], machine.name),
                 Duration::instantaneous);
    body.unit[i] = work.model.cases.size() - 1;
    const std::vector<Direction> shares = on_pads(pads, middle, force, moment);
    for (std::size_t p = 0; p < pads.size(); ++p) {
      if (std::abs(shares[p].x) + std::abs(shares[p].y) + std::abs(shares[p].z) < 1e-12) continue;
      push(work, load_case, machine, pads[p], shares[p]);
    }
  }
  work.model.bodies.push_back(body);
}

void lay_bed(Idealising& work, std::size_t m) {
  const bench::Machine& machine = work.bench.machines[m];
  const std::optional<std::size_t> plate = plate_of(work.model, machine.sheet);
  const double a = in_si(machine.pads_x), b = in_si(machine.pads_y);
  const std::vector<Pad> pads = pads_of(machine);
  if (!plate || pads.size() != 4 || a <= 0.0 || b <= 0.0) return;
  BedPlace bed;
  bed.machine = m;
  bed.plate = *plate;
  bed.along_x = a >= b;
  bed.length = std::max(a, b);
  bed.breadth = std::min(a, b);
  bed.stiffness = bed_twist_of(work, machine);
  const auto& bodies = work.model.plates[*plate].bodies;
  bed.in_model = std::any_of(bodies.begin(), bodies.end(),
                             [&](const PlateBody& body) { return body.name == machine.name; });
  LoadCase& load_case = add_case(work, "warp-" + slug(machine.name),
                                 fmt::format("1 N up and down on the pads of the {}", machine.name),
                                 Duration::instantaneous);
  bed.load_case = work.model.cases.size() - 1;
  for (std::size_t p = 0; p < 4; ++p) {
    bed.pads[p] = patch_at(work.bench.sheets.at(machine.sheet), pads[p].x, pads[p].y,
                           std::max(in_si(machine.pad), 5e-3));
    load_case.patch_loads.push_back({*plate, bed.pads[p], {0.0, 0.0, p % 2 == 0 ? 1.0 : -1.0}});
  }
  work.model.parts.beds.push_back(bed);
}

}  // namespace

void build_bodies(Idealising& work) {
  for (std::size_t m = 0; m < work.bench.machines.size(); ++m) {
    swing(work, work.bench.machines[m]);
    lay_bed(work, m);
  }
}

}  // namespace standtrue::model
