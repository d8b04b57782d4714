// All numbers SI (N, m).
#include "check/overturning.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// The four sides of the rectangle round its pads, and what its weight holds about each.
std::vector<Topples> sides_of(const bench::Machine& machine) {
  const double W = in_si(machine.mass * quantity::standard_gravity());
  const double half_x = 0.5 * in_si(machine.pads_x + machine.pad);
  const double half_y = 0.5 * in_si(machine.pads_y + machine.pad);
  std::vector<Topples> sides;
  for (const double sense : {-1.0, 1.0}) {
    const double in_x = half_x - sense * in_si(machine.cg_x);
    const double in_y = half_y - sense * in_si(machine.cg_y);
    sides.push_back({{sense, 0.0}, W * std::max(0.0, in_x)});
    sides.push_back({{0.0, sense}, W * std::max(0.0, in_y)});
  }
  return sides;
}

}  // namespace

double Action::acts_at(const PlanPoint& way) const {
  double at_height = height;
  for (const Topples& side : sides) {
    const double towards = side.outwards.x * way.x + side.outwards.y * way.y;
    if (towards < 1e-9) continue;
    at_height = std::min(at_height, stands_at + side.moment / (towards * sideways));
  }
  return at_height;
}

std::vector<Action> on_corners(const bench::Bench& bench, const reference::Load& load) {
  std::vector<Action> actions;
  for (const bench::Sheet& sheet : bench.sheets) {
    if (sheet.place != bench::SheetPlace::top) continue;
    const double x0 = in_si(sheet.x0), x1 = in_si(sheet.x1);
    const double y0 = in_si(sheet.y0), y1 = in_si(sheet.y1);
    const double in_x = std::min(in_si(load.edge), 0.5 * (x1 - x0));
    const double in_y = std::min(in_si(load.edge), 0.5 * (y1 - y0));
    for (const PlanPoint at : {PlanPoint{x0 + in_x, y0 + in_y}, PlanPoint{x1 - in_x, y0 + in_y},
                               PlanPoint{x1 - in_x, y1 - in_y}, PlanPoint{x0 + in_x, y1 - in_y}}) {
      actions.push_back({in_si(load.sideways), surface_height(sheet), in_si(load.down), at,
                         load.tipping, sheet.name});
    }
  }
  return actions;
}

std::vector<Action> leaned(const bench::Bench& bench, std::vector<Action> actions, double above) {
  for (Action& action : actions) action.at = leaned(bench, action.at, action.height - above);
  return actions;
}

std::vector<Action> shoves_at_machines(const bench::Bench& bench, const reference::Load& shove) {
  std::vector<Action> actions;
  for (const bench::Machine& machine : bench.machines) {
    const double surface = surface_height(bench.sheets.at(machine.sheet));
    Action action;
    action.sideways = in_si(shove.sideways);
    action.height = surface + in_si(machine.kind.height);
    action.factor = shove.tipping;
    action.by = machine.name;
    action.stands_at = surface;
    if (!machine.bolted) action.sides = sides_of(machine);
    actions.push_back(std::move(action));
  }
  return actions;
}

}  // namespace standtrue::check
