#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "model/standing_places.hpp"

namespace standtrue::model {

using quantity::in_si;

namespace {

// Of all sheets. A top of 24 m has more ties than that, which took two minutes and 3.6 GB
// (measured).
constexpr std::size_t most_cells = 40000, most_ties = 900;

/// Own coordinates of a plate are two of the global ones: x and y of a lying sheet, along and z of
/// an upright one.
struct Extent {
  double x0, x1, y0, y1;
};

Extent extent_of(const bench::Sheet& sheet) {
  const double x0 = in_si(sheet.x0), x1 = in_si(sheet.x1);
  const double y0 = in_si(sheet.y0), y1 = in_si(sheet.y1);
  if (lies(sheet)) return {x0, x1, y0, y1};
  if (sheet.place == bench::SheetPlace::back) return {x0, x1, in_si(sheet.z0), in_si(sheet.z1)};
  return {y0, y1, in_si(sheet.z0), in_si(sheet.z1)};
}

struct Stretch {
  double from = 0.0, to = 0.0;
};

/// What of a line along own x (or y) is left when posts that stand in it, and `clear` on both
/// sides of each, are taken out: a sheet screwed across the gap between rail and post would carry
/// what the joint should.
std::vector<Stretch> clear_of_posts(const Idealising& work, const bench::Sheet& sheet,
                                    const Line& line, Stretch whole) {
  double clear = in_si(sheet.screws.clear_of_post);
  clear = std::min(clear, 0.3 * (line.to - line.from));  // a short rail keeps some of its screws
  std::vector<Stretch> left{whole};
  for (const bench::Post& post : work.bench.posts) {
    if (in_si(post.top) < in_si(sheet.underside) - 0.1) continue;
    if (post.on_wall && line.along_x) continue;  // a ledger goes on through its stations
    const double along = in_si(line.along_x ? post.x : post.y);
    const double half = 0.5 * in_si(line.along_x ? post.along_x : post.along_y) + clear;
    const double aside = std::abs(in_si(line.along_x ? post.y : post.x) - line.across);
    if (aside > 0.5 * in_si(line.along_x ? post.along_y : post.along_x) + 0.5 * line.width)
      continue;
    std::vector<Stretch> next;
    for (const Stretch& s : left) {
      if (along - half > s.from) next.push_back({s.from, std::min(s.to, along - half)});
      if (along + half < s.to) next.push_back({std::max(s.from, along + half), s.to});
    }
    left = std::move(next);
  }
  return left;
}

void add_seams_on_line(const Idealising& work, const bench::Sheet& sheet, const Extent& extent,
                       Line& line, PlannedPlate& plate) {
  const double low = line.along_x ? extent.x0 : extent.y0;
  const double high = line.along_x ? extent.x1 : extent.y1;
  const Stretch whole{std::max(line.from, low), std::min(line.to, high)};
  // The sheet may end on the middle of what carries it, or short of it: it is tied at its edge.
  const double at = std::clamp(line.across, line.along_x ? extent.y0 : extent.x0,
                               line.along_x ? extent.y1 : extent.x1);
  for (const Stretch& s : clear_of_posts(work, sheet, line, whole)) {
    if (s.to - s.from < 5e-3) continue;
    plate.seams.push_back({&line, std::nullopt, line.along_x, at, s.from, s.to, {}});
  }
}

/// Upright sheets are screwed all along the rails and posts that they lie on.
void add_upright_seams(Idealising& work, const bench::Sheet& sheet, const Extent& extent,
                       PlannedPlate& plate) {
  for (const std::size_t r : sheet.rails) {
    Line& line = work.rails[r];
    const Stretch s{std::max(line.from, extent.x0), std::min(line.to, extent.x1)};
    if (s.to - s.from > 5e-3)
      plate.seams.push_back({&line, std::nullopt, true, line.height, s.from, s.to, {}});
  }
  const bool back = sheet.place == bench::SheetPlace::back;
  const double plane = 0.5 * in_si(back ? sheet.y0 + sheet.y1 : sheet.x0 + sheet.x1);
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    const bench::Post& post = work.bench.posts[p];
    const double reach = 0.5 * in_si(back ? post.along_y : post.along_x) +
                         in_si(sheet.panel.thickness) * sheet.layers;
    if (std::abs(in_si(back ? post.y : post.x) - plane) > reach) continue;
    const double at = in_si(back ? post.x : post.y);
    if (at < extent.x0 || at > extent.x1) continue;
    const Stretch s{std::max(in_si(post.bottom), extent.y0), std::min(in_si(post.top), extent.y1)};
    if (s.to - s.from > 5e-3) plate.seams.push_back({nullptr, p, false, at, s.from, s.to, {}});
  }
}

/// Of the mesh lines that cross a seam those that carry its ties: its ends, those under loads, and
/// between them as many, evenly, as keep ties about `pitch` apart. In between the sheet only rests.
std::vector<double> tie_lines(const std::vector<double>& lines, double from, double to,
                              const std::vector<double>& loaded, double pitch) {
  constexpr double same = 4e-3;
  std::vector<double> inside;
  for (const double line : lines) {
    if (line > from - same && line < to + same) inside.push_back(line);
  }
  std::vector<std::size_t> fixed;
  for (std::size_t i = 0; i < inside.size(); ++i) {
    const bool is_loaded = std::any_of(loaded.begin(), loaded.end(),
                                       [&](double at) { return std::abs(at - inside[i]) < same; });
    if (i == 0 || i + 1 == inside.size() || is_loaded) fixed.push_back(i);
  }
  std::vector<double> chosen;
  for (std::size_t f = 0; f < fixed.size(); ++f) {
    chosen.push_back(inside[fixed[f]]);
    if (f + 1 == fixed.size()) break;
    const std::size_t cells = fixed[f + 1] - fixed[f];
    const double gap = inside[fixed[f + 1]] - inside[fixed[f]];
    const auto parts = static_cast<std::size_t>(std::ceil(gap / (1.1 * pitch)));
    std::size_t n = std::min(parts, cells);
    // Rounded from both ends alike, and none in the middle where no line is: a mirrored bench has
    // mirrored ties.
    if (n % 2 == 0 && cells % 2 == 1) ++n;
    for (std::size_t p = 1; p < n; ++p) {
      const bool is_near_start = 2 * p <= n;
      const std::size_t from_end = is_near_start ? p : n - p;
      const auto step = static_cast<std::size_t>(
          std::lround(static_cast<double>(from_end * cells) / static_cast<double>(n)));
      chosen.push_back(inside[fixed[f] + (is_near_start ? step : cells - step)]);
    }
  }
  return chosen;
}

double cell_size(const Idealising& work) {
  constexpr double usual = 0.05;  // m: sag and sway within 1 % (docs/method.md)
  const double asked = in_si(work.bench.analysis.mesh);
  return (asked > 0.0 ? asked : usual) * (work.assumptions.coarse_mesh ? 2.0 : 1.0);
}

/// Middles of pads, their edges, and where people stand: a load spread over two cells or more has
/// its moments right to a few per cent, one within a cell has not.
struct LoadedPlaces {
  std::vector<double> middle_x, middle_y, edge_x, edge_y;
};

LoadedPlaces loaded_places(const Idealising& work, const PlannedPlate& plate,
                           const bench::Sheet& sheet) {
  LoadedPlaces places;
  for (const bench::Machine& machine : work.bench.machines) {
    if (machine.sheet != plate.sheet) continue;
    const double half = 0.5 * std::max(in_si(machine.pad), 5e-3);
    for (const Pad& pad : pads_of(machine)) {
      places.middle_x.push_back(pad.x);
      places.middle_y.push_back(pad.y);
      for (const double side : {-half, half}) {
        places.edge_x.push_back(pad.x + side);
        places.edge_y.push_back(pad.y + side);
      }
    }
  }
  if (sheet.place != bench::SheetPlace::top) return places;
  for (const StandingPlace& place : standing_places(work, sheet)) {
    places.edge_x.push_back(place.x);
    places.edge_y.push_back(place.y);
  }
  return places;
}

void mesh(Idealising& work, const bench::Sheet& sheet, const Extent& extent, PlannedPlate& plate) {
  // What comes first wins where two lines would be too near: seams, pads, holes, then the rest.
  std::vector<double> x, y;
  for (const PlannedSeam& seam : plate.seams) (seam.along_x ? y : x).push_back(seam.at);
  const LoadedPlaces loaded = loaded_places(work, plate, sheet);
  x.insert(x.end(), loaded.middle_x.begin(), loaded.middle_x.end());
  y.insert(y.end(), loaded.middle_y.begin(), loaded.middle_y.end());
  for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
    for (const double at : {in_si(cut.x0), in_si(cut.x1)}) x.push_back(at);
    for (const double at : {in_si(cut.y0), in_si(cut.y1)}) y.push_back(at);
  }
  if (sheet.screws.into_posts && lies(sheet)) {
    for (const bench::Post& post : work.bench.posts) {
      if (post.on_wall) continue;
      x.push_back(in_si(post.x));
      y.push_back(in_si(post.y));
    }
  }
  for (const PlannedSeam& seam : plate.seams) {
    for (const double end : {seam.from, seam.to}) (seam.along_x ? x : y).push_back(end);
  }
  x.insert(x.end(), loaded.edge_x.begin(), loaded.edge_x.end());
  y.insert(y.end(), loaded.edge_y.begin(), loaded.edge_y.end());
  plate.x = mesh_lines(extent.x0, extent.x1, x, cell_size(work));
  plate.y = mesh_lines(extent.y0, extent.y1, y, cell_size(work));
  for (PlannedSeam& seam : plate.seams) {
    seam.lines = tie_lines(seam.along_x ? plate.x : plate.y, seam.from, seam.to,
                           seam.along_x ? loaded.edge_x : loaded.edge_y, 2.0 * cell_size(work));
  }
}

/// The frame gets a node wherever a mesh line crosses a seam.
void want_nodes(Idealising& work, const PlannedPlate& plate) {
  for (const PlannedSeam& seam : plate.seams) {
    for (const double line : seam.lines) {
      if (seam.post) {
        work.post_heights[*seam.post].push_back(line);
      } else {
        want_node(*seam.line, line);
      }
    }
  }
}

void refuse_fine_mesh(Idealising& work) {
  std::size_t cells = 0, ties = 0;
  for (const PlannedPlate& plate : work.plates) {
    cells += (plate.x.size() - 1) * (plate.y.size() - 1);
    for (const PlannedSeam& seam : plate.seams) ties += seam.lines.size();
  }
  const auto refuse = [&](std::size_t number, const char* of, std::size_t most, const char* also) {
    if (number <= most) return;
    work.faults.push_back(
        fmt::format("the mesh of the sheets would have {} {}, and {} are the most: give a wider "
                    "'mesh'{}",
                    number, of, most, also));
  };
  refuse(cells, "cells", most_cells, "");
  refuse(ties, "places tied to the frame", most_ties, " or fewer bearers");
}

}  // namespace

bool has_shells(const bench::Bench& bench) {
  return bench.analysis.sheets == bench::Analysis::Sheets::shell;
}

void plan_plates(Idealising& work) {
  work.post_heights.resize(work.bench.posts.size());
  for (std::size_t s = 0; s < work.bench.sheets.size(); ++s) {
    const bench::Sheet& sheet = work.bench.sheets[s];
    const Extent extent = extent_of(sheet);
    PlannedPlate plate{s, {}, {}, {}};
    if (lies(sheet)) {
      for (const std::size_t r : sheet.rails)
        add_seams_on_line(work, sheet, extent, work.rails[r], plate);
      for (const std::size_t b : sheet.bearers)
        add_seams_on_line(work, sheet, extent, work.bearers[b], plate);
    } else {
      add_upright_seams(work, sheet, extent, plate);
    }
    mesh(work, sheet, extent, plate);
    want_nodes(work, plate);
    work.plates.push_back(std::move(plate));
  }
  refuse_fine_mesh(work);
}

}  // namespace standtrue::model
