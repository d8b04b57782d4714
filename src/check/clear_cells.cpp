#include "check/clear_cells.hpp"

#include <algorithm>
#include <cmath>

#include "standtrue/bench/surface.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

bool is_over(const model::Patch& patch, double x, double y) {
  return x > patch.x0 && x < patch.x1 && y > patch.y0 && y < patch.y1;
}

/// The ends of posts that a lying sheet rests on.
void add_posts(const model::Parts& parts, std::size_t place, std::vector<model::Patch>& patches) {
  const bench::Sheet& sheet = parts.bench.sheets.at(parts.plate_sheets.at(place));
  if (!bench::lies(sheet)) return;
  for (const bench::Post& post : parts.bench.posts) {
    if (post.on_wall || std::abs(in_si(post.top - sheet.underside)) > 1e-3) continue;
    const double x = in_si(post.x), y = in_si(post.y);
    const double hx = 0.5 * in_si(post.along_x), hy = 0.5 * in_si(post.along_y);
    patches.push_back({x - hx, x + hx, y - hy, y + hy});
  }
}

/// Pads, carriers and posts, where it is not.
std::vector<model::Patch> covered(const model::Parts& parts, std::size_t place,
                                  const model::Plate& plate) {
  std::vector<model::Patch> patches;
  const double t = plate.thickness;
  for (const model::PadPlace& pad : parts.pads) {
    if (pad.plate != place) continue;
    patches.push_back({pad.where.x0 - t, pad.where.x1 + t, pad.where.y0 - t, pad.where.y1 + t});
  }
  for (const model::Seam& seam : parts.seams) {
    if (seam.plate != place) continue;
    const model::PlateTie& first = plate.ties[seam.first];
    const model::PlateTie& last = plate.ties[seam.last - 1];
    const double half = 0.5 * in_si(parts.parts[seam.part].width);
    const double x0 = plate.x[first.i], x1 = plate.x[last.i];
    const double y0 = plate.y[first.j], y1 = plate.y[last.j];
    patches.push_back(seam.along_x ? model::Patch{x0 - half, x1 + half, y0 - half, y0 + half}
                                   : model::Patch{x0 - half, x0 + half, y0 - half, y1 + half});
  }
  add_posts(parts, place, patches);
  return patches;
}

}  // namespace

std::vector<bool> clear_cells(const model::Parts& parts, std::size_t place,
                              const model::Plate& plate) {
  const std::vector<model::Patch> patches = covered(parts, place, plate);
  std::vector<bool> clear;
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      const double x = 0.5 * (plate.x[i] + plate.x[i + 1]);
      const double y = 0.5 * (plate.y[j] + plate.y[j + 1]);
      clear.push_back(plate.has_cell(i, j) &&
                      std::none_of(patches.begin(), patches.end(), [&](const model::Patch& patch) {
                        return is_over(patch, x, y);
                      }));
    }
  }
  return clear;
}

}  // namespace standtrue::check
