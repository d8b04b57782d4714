// All numbers SI (N, m).
#include "check/overturning.hpp"

namespace standtrue::check {

using quantity::in_si;

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

}  // namespace standtrue::check
