#include <vector>

#include "model/idealising.hpp"

namespace standtrue::model {

using quantity::in_si;

std::vector<Pad> pads_of(const bench::Machine& machine) {
  const double hx = 0.5 * in_si(machine.pads_x);
  const double hy = 0.5 * in_si(machine.pads_y);
  std::vector<Pad> pads;
  switch (machine.kind.pads) {
    case 1:
      pads = {{0, 0, 0}};
      break;
    case 2:
      pads = {{-hx, 0, 0}, {hx, 0, 0}};
      break;
    case 3:
      pads = {{-hx, -hy, 0}, {hx, -hy, 0}, {0, hy, 0}};
      break;
    default:
      pads = {{-hx, -hy, 0}, {hx, -hy, 0}, {hx, hy, 0}, {-hx, hy, 0}};
      break;
  }
  const double n = static_cast<double>(pads.size());
  double mean_y = 0.0;
  for (const Pad& pad : pads) mean_y += pad.y / n;
  double xx = 0.0, yy = 0.0;
  for (const Pad& pad : pads) {
    xx += pad.x * pad.x;
    yy += (pad.y - mean_y) * (pad.y - mean_y);
  }
  for (Pad& pad : pads) {
    pad.share = 1.0 / n;
    if (xx > 0.0) pad.share += in_si(machine.cg_x) * pad.x / xx;
    if (yy > 0.0) pad.share += (in_si(machine.cg_y) - mean_y) * (pad.y - mean_y) / yy;
    pad.x += in_si(machine.x);
    pad.y += in_si(machine.y);
  }
  return pads;
}

}  // namespace standtrue::model
