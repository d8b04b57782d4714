#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/idealising.hpp"
#include "model/slip.hpp"
#include "standtrue/contract.hpp"

// Stiffness in SI.
namespace standtrue::model {

using quantity::in_si;
using quantity::metres;

namespace {

/// Springs of a seam per metre of it (N/m²): along it, across it in the plane, and square to it.
struct SeamStiffness {
  double along = 0.0, across = 0.0, normal = 0.0;
};

constexpr double glue = 1e9;  // N/m²: gives less than what it joins (ours)

double screw_slip(const Idealising& work, const bench::Sheet& sheet,
                  const reference::Timber& timber) {
  double K = 0.0;
  if (sheet.screws.slip) {
    K = in_si(*sheet.screws.slip);
  } else {
    K = lateral_slip(work.tables, mean_of(timber.rho_mean, sheet.panel.rho_mean),
                     sheet.screws.screw.diameter, false) *
        work.screw_scale();
  }
  if (work.assumptions.after_creep) {
    // Two materials: twice the root of the product of their k_def. EN 1995-1-1, 2.3.2.2(4).
    K /= 1.0 + work.tables.constant("k_def joint timber").value *
                   std::sqrt(work.k_def(timber.material) * work.k_def(sheet.family.material));
  }
  return K;
}

/// Timber pressed across its grain, a block as deep as it is wide: E_90 per width (ours).
double seat_stiffness(const Idealising& work, const reference::Timber& timber) {
  return in_si(timber.E_90_mean) / work.creep_divisor(timber.material);
}

SeamStiffness seam_stiffness(const Idealising& work, const bench::Sheet& sheet,
                             const reference::Timber& timber) {
  const double normal = seat_stiffness(work, timber);
  switch (sheet.bond) {
    case bench::Bond::loose:
      return {0.0, 0.0, normal};
    case bench::Bond::glued:
      return {glue, glue, normal};
    case bench::Bond::screwed:
      break;
  }
  const double K = screw_slip(work, sheet, timber) / in_si(sheet.screws.every);
  return {K, K, normal};
}

/// Where the plate stands in space: its own coordinates are two of the global ones.
void place(Plate& plate, const bench::Sheet& sheet) {
  const double t = in_si(sheet.panel.thickness);
  const double to_middle =
      sheet.between_layers == bench::Bond::glued ? 0.5 * t * sheet.layers : 0.5 * t;
  if (lies(sheet)) {
    plate.origin = {0.0, 0.0, in_si(sheet.underside) + to_middle};
    plate.tie_level = -to_middle;
    return;
  }
  plate.y_axis = {0.0, 0.0, 1.0};
  if (sheet.place == bench::SheetPlace::back) {
    // The normal looks to the front, where the posts are.
    plate.origin = {0.0, in_si(sheet.y0) + to_middle, 0.0};
    plate.tie_level = to_middle;
    return;
  }
  plate.x_axis = {0.0, 1.0, 0.0};  // the normal looks to the right
  const bool left = in_si(sheet.x1) < 1e-3;
  plate.origin = {left ? in_si(sheet.x1) - to_middle : in_si(sheet.x0) + to_middle, 0.0, 0.0};
  plate.tie_level = left ? to_middle : -to_middle;
}

std::size_t line_place(const std::vector<double>& lines, double at) {
  const auto nearest = std::min_element(lines.begin(), lines.end(), [at](double a, double b) {
    return std::abs(a - at) < std::abs(b - at);
  });
  return static_cast<std::size_t>(nearest - lines.begin());
}

/// Both edges of holes lie on mesh lines, or on the line that was there before them.
void cut_holes(Plate& plate, const bench::Sheet& sheet) {
  for (const bench::Sheet::CutOut& cut : sheet.cut_outs) {
    const Patch hole{
        plate.x[line_place(plate.x, in_si(cut.x0))], plate.x[line_place(plate.x, in_si(cut.x1))],
        plate.y[line_place(plate.y, in_si(cut.y0))], plate.y[line_place(plate.y, in_si(cut.y1))]};
    if (hole.x1 > hole.x0 && hole.y1 > hole.y0) plate.holes.push_back(hole);
  }
}

bool is_there(const Plate& plate, std::size_t i, std::size_t j) {
  for (std::size_t cj = j == 0 ? 0 : j - 1; cj < std::min(j + 1, plate.y.size() - 1); ++cj) {
    for (std::size_t ci = i == 0 ? 0 : i - 1; ci < std::min(i + 1, plate.x.size() - 1); ++ci) {
      if (plate.has_cell(ci, cj)) return true;
    }
  }
  return false;
}

/// A loose sheet that spans from front to back lies on the end rails too, but a sway that tilts
/// those against the others is not held by it: it would lift.
bool runs_along_span(const Idealising& work, const Seam& seam) {
  return std::any_of(work.lying.begin(), work.lying.end(), [&](const Lying& lying) {
    return lying.sheet == seam.sheet && lying.along_x == seam.along_x;
  });
}

void tie(Idealising& work, std::size_t plate_place, Plate& plate, const PlannedSeam& planned,
         const bench::Sheet& sheet) {
  const std::vector<double>& mesh = planned.along_x ? plate.x : plate.y;
  const std::vector<double>& lines = planned.lines;
  const std::size_t row = line_place(planned.along_x ? plate.y : plate.x, planned.at);
  const PartId part = planned.post ? work.posts[*planned.post].part : planned.line->part;
  const SeamStiffness k = seam_stiffness(work, sheet, work.model.parts.parts[part].timber);
  Seam seam{plate_place,
            work.model.parts.plate_sheets[plate_place],
            part,
            fmt::format("{} on the {}", sheet.name, work.model.parts.parts[part].name),
            planned.along_x,
            plate.ties.size(),
            0,
            {}};
  const bool leaves = sheet.bond == bench::Bond::loose && runs_along_span(work, seam);
  const std::vector<double> share = tributary(lines, planned.from, planned.to);
  for (std::size_t l = 0; l < lines.size(); ++l) {
    const std::size_t along_seam = line_place(mesh, lines[l]);
    const std::size_t i = planned.along_x ? along_seam : row;
    const std::size_t j = planned.along_x ? row : along_seam;
    if (share[l] <= 0.0 || !is_there(plate, i, j)) continue;
    const NodeId node = planned.post ? node_at(work.posts[*planned.post], lines[l])
                                     : node_at(*planned.line, lines[l]);
    const double along = share[l] * k.along, across = share[l] * k.across;
    plate.ties.push_back(
        {i,
         j,
         node,
         {planned.along_x ? along : across, planned.along_x ? across : along, share[l] * k.normal},
         leaves});
    seam.lengths.push_back(metres(share[l]));
  }
  seam.last = plate.ties.size();
  if (seam.last > seam.first) work.model.parts.seams.push_back(std::move(seam));
}

/// Keeps a loose sheet in its place by three springs, as friction would: along and across its
/// longest seam at one end, across at the other; not of those that hold by weight alone, for a push
/// knows nothing of these. Three can not stiffen what they are fixed to.
void keep_in_place(const Idealising& work, std::size_t plate_place, Plate& plate) {
  const Seam* longest = nullptr;
  for (const Seam& seam : work.model.parts.seams) {
    if (seam.plate != plate_place || plate.ties[seam.first].gravity_only) continue;
    const bool is_longer =
        longest == nullptr || seam.last - seam.first > longest->last - longest->first;
    if (is_longer) longest = &seam;
  }
  if (longest == nullptr) return;
  constexpr double friction = 1e5;  // N/m (ours): any will do
  PlateTie& first = plate.ties[longest->first];
  PlateTie& last = plate.ties[longest->last - 1];
  first.stiffness[0] = first.stiffness[1] = friction;
  last.stiffness[longest->along_x ? 1 : 0] = friction;
}

/// A screw down into the top of a post that the sheet lies on.
void tie_to_posts(Idealising& work, std::size_t plate_place, Plate& plate,
                  const bench::Sheet& sheet) {
  if (!sheet.screws.into_posts || !lies(sheet) || sheet.bond == bench::Bond::loose) return;
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    const bench::Post& post = work.bench.posts[p];
    if (post.on_wall || std::abs(in_si(post.top - sheet.underside)) > 1e-3) continue;
    const std::size_t i = line_place(plate.x, in_si(post.x));
    const std::size_t j = line_place(plate.y, in_si(post.y));
    if (std::abs(plate.x[i] - in_si(post.x)) > 0.02 ||
        std::abs(plate.y[j] - in_si(post.y)) > 0.02 || !is_there(plate, i, j)) {
      continue;
    }
    const Line& line = work.posts[p];
    const double K = screw_slip(work, sheet, post.stock.timber);
    const double side = in_si(post.along_x);
    Seam seam{plate_place, work.model.parts.plate_sheets[plate_place],
              line.part,   fmt::format("{} on the {}", sheet.name, post.name),
              true,        plate.ties.size(),
              0,           {post.along_x}};
    plate.ties.push_back(
        {i, j, line.nodes.back().second, {K, K, side * seat_stiffness(work, post.stock.timber)}});
    seam.last = plate.ties.size();
    work.model.parts.seams.push_back(std::move(seam));
  }
}

/// Where a top lies on the end of a post it presses on it under its weights; a sway is not helped
/// by that, for the post would push up on one side only. The ties share the post's area by the hat
/// functions of the mesh; those with next to nothing are left out.
void rest_on_posts(Idealising& work, Plate& plate, const bench::Sheet& sheet) {
  if (sheet.screws.into_posts || !lies(sheet)) return;
  for (std::size_t p = 0; p < work.bench.posts.size(); ++p) {
    const bench::Post& post = work.bench.posts[p];
    if (post.on_wall || std::abs(in_si(post.top - sheet.underside)) > 1e-3) continue;
    const double hx = 0.5 * in_si(post.along_x), hy = 0.5 * in_si(post.along_y);
    const double x = in_si(post.x), y = in_si(post.y);
    const std::vector<double> on_x = tributary(plate.x, x - hx, x + hx);
    const std::vector<double> on_y = tributary(plate.y, y - hy, y + hy);
    double most = 0.0, kept = 0.0;
    for (const double b : on_y) {
      for (const double a : on_x) most = std::max(most, a * b);
    }
    constexpr double least = 0.15;
    std::vector<PlateTie> ties;
    for (std::size_t j = 0; j < plate.y.size(); ++j) {
      for (std::size_t i = 0; i < plate.x.size(); ++i) {
        const double share = on_x[i] * on_y[j];
        if (share < least * most || share <= 0.0 || !is_there(plate, i, j)) continue;
        ties.push_back({i, j, work.posts[p].nodes.back().second, {0.0, 0.0, share}, true});
        kept += share;
      }
    }
    // Timber along its grain is hard: what gives is the sheet, a block as deep as the post is wide.
    const double stiffness = seat_stiffness(work, post.stock.timber) * 2.0 * std::max(hx, hy);
    for (PlateTie& tie : ties) {
      tie.stiffness[2] *= stiffness / kept;
      plate.ties.push_back(tie);
    }
  }
}

Patch square(double x, double y, double side) {
  return {x - 0.5 * side, x + 0.5 * side, y - 0.5 * side, y + 0.5 * side};
}

/// What of a patch's area lies on the plate.
double share_there(const Plate& plate, const Patch& patch) {
  double area = 0.0;
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    const double b = std::min(plate.y[j + 1], patch.y1) - std::max(plate.y[j], patch.y0);
    for (std::size_t i = 0; i + 1 < plate.x.size() && b > 0.0; ++i) {
      const double a = std::min(plate.x[i + 1], patch.x1) - std::max(plate.x[i], patch.x0);
      if (a > 0.0 && plate.has_cell(i, j)) area += a * b;
    }
  }
  return area / ((patch.x1 - patch.x0) * (patch.y1 - patch.y0));
}

/// Pads of the machines on a plate. Bolted down on four of them the bed resists their warping: with
/// the torque T = k q/b on ends b wide, the pattern on the pads is T/b.
void stand_machines(Idealising& work, std::size_t plate_place, Plate& plate, std::size_t sheet) {
  for (std::size_t m = 0; m < work.bench.machines.size(); ++m) {
    const bench::Machine& machine = work.bench.machines[m];
    if (machine.sheet != sheet) continue;
    std::vector<Patch> pads;
    for (const Pad& pad : pads_of(machine)) {
      pads.push_back(square(pad.x, pad.y, std::max(in_si(machine.pad), 5e-3)));
      if (!touches(plate, pads.back())) {
        work.faults.push_back(fmt::format("the {} has a pad over a hole in the {}", machine.name,
                                          work.bench.sheets[sheet].name));
        return;
      }
      work.model.parts.pads.push_back({m, plate_place, pads.back()});
    }
    const double b = std::min(in_si(machine.pads_x), in_si(machine.pads_y));
    if (!machine.bolted || pads.size() != 4 || b <= 0.0) continue;
    // Pads that are cut would twist the bed and turn it: their middles no longer form a rectangle.
    const bool is_whole = std::all_of(pads.begin(), pads.end(), [&](const Patch& pad) {
      return std::abs(share_there(plate, pad) - 1.0) < 1e-9;
    });
    if (!is_whole) continue;
    const double k = bed_twist_of(work, machine);
    if (k <= 0.0) continue;
    plate.bodies.push_back({machine.name, {pads[0], pads[1], pads[2], pads[3]}, k / (b * b)});
  }
}

}  // namespace

double bed_twist_of(const Idealising& work, const bench::Machine& machine) {
  if (machine.bed_twist) return in_si(*machine.bed_twist);
  switch (work.assumptions.bound) {
    case Bound::soft:
      return in_si(machine.kind.bed_twist.soft);
    case Bound::mean:
      return in_si(machine.kind.bed_twist.mean);
    case Bound::stiff:
      return in_si(machine.kind.bed_twist.stiff);
  }
  return in_si(machine.kind.bed_twist.mean);
}

bool touches(const Plate& plate, const Patch& patch) {
  // A patch without width is a line or a point: it touches both cells beside it.
  const auto apart = [](double low, double high, double from, double to) {
    constexpr double nothing = 1e-9;
    const double overlap = std::min(high, to) - std::max(low, from);
    return to - from > nothing ? overlap <= nothing : overlap < -nothing;
  };
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    if (apart(plate.y[j], plate.y[j + 1], patch.y0, patch.y1)) continue;
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      if (apart(plate.x[i], plate.x[i + 1], patch.x0, patch.x1)) continue;
      if (plate.has_cell(i, j)) return true;
    }
  }
  return false;
}

std::optional<std::size_t> plate_of(const Model& model, std::size_t sheet) {
  for (std::size_t p = 0; p < model.parts.plate_sheets.size(); ++p) {
    if (model.parts.plate_sheets[p] == sheet) return p;
  }
  return std::nullopt;
}

void build_plates(Idealising& work) {
  for (const PlannedPlate& planned : work.plates) {
    const bench::Sheet& sheet = work.bench.sheets[planned.sheet];
    const std::size_t plate_place = work.model.plates.size();
    Plate plate;
    plate.name = sheet.name;
    plate.x = planned.x;
    plate.y = planned.y;
    // Upright, level grain is along own x whichever way the sheet faces.
    plate.stiffness = plate_stiffness(sheet, sheet.grain_along_x);
    plate.creep = work.creep_divisor(sheet.family.material);
    plate.thickness = in_si(sheet.panel.thickness) * sheet.layers;
    plate.mass_per_area = in_si(sheet.panel.rho_mean) * plate.thickness;
    if (sheet.stored && !sheet.stored_assumed) {
      plate.carries = in_si(*sheet.stored) / in_si(quantity::standard_gravity());
    }
    place(plate, sheet);
    cut_holes(plate, sheet);
    work.model.parts.plate_sheets.push_back(planned.sheet);
    for (const PlannedSeam& seam : planned.seams) tie(work, plate_place, plate, seam, sheet);
    if (sheet.bond == bench::Bond::loose) keep_in_place(work, plate_place, plate);
    tie_to_posts(work, plate_place, plate, sheet);
    rest_on_posts(work, plate, sheet);
    if (plate.ties.empty())
      work.faults.push_back(fmt::format("nothing carries the {}", sheet.name));
    if (lies(sheet)) stand_machines(work, plate_place, plate, planned.sheet);
    work.model.plates.push_back(std::move(plate));
  }
}

}  // namespace standtrue::model
