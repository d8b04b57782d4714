// Doubles in SI (m).
#include "check/unheld.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;
using quantity::Length;

namespace {

const bench::Sheet& sheet_of(const model::Model& model, const model::Seam& seam) {
  return model.parts.bench.sheets.at(seam.sheet);
}

/// From the flexible start of a level piece, along it.
double along_part(const model::Model& model, const model::Part& part, double x, double y) {
  const model::Member& first = model.members.at(part.members.front());
  const model::Point& node = model.nodes.at(first.start).at;
  const model::Direction axis = model::member_frame(model, first).axes[0];
  return axis.x * (x - in_si(node.x + first.start_offset.x)) +
         axis.y * (y - in_si(node.y + first.start_offset.y));
}

bool keeps_from_turning(reference::Fastening fastening) {
  // What pulls at screws in end grain is not counted on anywhere.
  return fastening != reference::Fastening::none &&
         fastening != reference::Fastening::end_grain_screws;
}

/// Whether the sheet of that seam lies on the upper edge of the piece and can hold it.
bool holds_edge(const model::Model& model, const model::Seam& seam) {
  const bench::Sheet& sheet = sheet_of(model, seam);
  const bool lies =
      sheet.place == bench::SheetPlace::top || sheet.place == bench::SheetPlace::shelf;
  const model::Part& part = model.parts.parts.at(seam.part);
  if (!lies || sheet.bond == bench::Bond::loose || part.role == model::Role::post) return false;
  const model::Member& first = model.members.at(part.members.front());
  const Length upper = model.nodes.at(first.start).at.z + first.start_offset.z + part.depth / 2.0;
  if (std::abs(in_si(upper - sheet.underside)) > 1e-3) return false;
  return std::any_of(model.parts.seams.begin(), model.parts.seams.end(),
                     [&](const model::Seam& other) {
                       return other.plate == seam.plate && other.part != seam.part &&
                              model.parts.parts.at(other.part).role != model::Role::post;
                     });
}

/// Where the screws of a seam are, evenly from its first to its last, or the glue; from the start
/// of the piece. None in a cut-out.
std::vector<double> held_along(const model::Model& model, const model::Seam& seam) {
  const bench::Sheet& sheet = sheet_of(model, seam);
  const model::Plate& plate = model.plates.at(seam.plate);
  const auto place = [&](std::size_t tie) {
    return seam.along_x ? plate.x[plate.ties[tie].i] : plate.y[plate.ties[tie].j];
  };
  std::vector<double> places;
  const double from = place(seam.first), to = place(seam.last - 1);
  if (sheet.bond == bench::Bond::glued) {
    for (std::size_t tie = seam.first; tie < seam.last; ++tie) places.push_back(place(tie));
  } else {
    const int gaps =
        std::max(1, static_cast<int>(std::ceil((to - from) / in_si(sheet.screws.every) - 1e-9)));
    for (int i = 0; i <= gaps; ++i) places.push_back(from + (to - from) * i / gaps);
  }
  const model::PlateTie& tie = plate.ties[seam.first];
  const double across = seam.along_x ? plate.y[tie.j] : plate.x[tie.i];
  std::vector<double> held;
  for (const double at : places) {
    const double x = seam.along_x ? at : across, y = seam.along_x ? across : at;
    const bool is_cut = std::any_of(sheet.cut_outs.begin(), sheet.cut_outs.end(),
                                    [&](const bench::Sheet::CutOut& hole) {
                                      return x > in_si(hole.x0) && x < in_si(hole.x1) &&
                                             y > in_si(hole.y0) && y < in_si(hole.y1);
                                    });
    if (!is_cut) held.push_back(along_part(model, model.parts.parts.at(seam.part), x, y));
  }
  return held;
}

/// Places from the start of the piece.
struct Holds {
  std::vector<double> turning;  ///< kept from turning by what is joined there
  std::vector<double> whole;    ///< and from moving, by a sheet on that
  std::vector<double> edge;     ///< the upper edge, by a sheet
  std::vector<std::string> sheets;
};

Holds holds_of(const model::Model& model, model::PartId id) {
  Holds holds;
  const auto has_sheet = [&](model::PartId piece) {
    return std::any_of(
        model.parts.seams.begin(), model.parts.seams.end(),
        [&](const model::Seam& seam) { return seam.part == piece && holds_edge(model, seam); });
  };
  const model::Part& part = model.parts.parts.at(id);
  for (const model::RailEnd& end : model.parts.rail_ends) {
    if (end.onto != id || !keeps_from_turning(end.joint.kind.fastening)) continue;
    const model::Member& member = model.members.at(end.member);
    const model::Point& p = model.nodes.at(end.at_end ? member.end : member.start).at;
    holds.turning.push_back(along_part(model, part, in_si(p.x), in_si(p.y)));
    if (has_sheet(end.rail)) holds.whole.push_back(holds.turning.back());
  }
  for (const model::Seam& seam : model.parts.seams) {
    if (seam.part != id || !holds_edge(model, seam)) continue;
    const std::vector<double> held = held_along(model, seam);
    holds.edge.insert(holds.edge.end(), held.begin(), held.end());
    const std::string& name = sheet_of(model, seam).name;
    const bool is_new =
        std::find(holds.sheets.begin(), holds.sheets.end(), name) == holds.sheets.end();
    if (is_new) holds.sheets.push_back(name);
  }
  return holds;
}

/// With the ends of the piece, 0 and L.
double widest_gap(std::vector<double> held, const std::vector<double>& more, double L) {
  held.insert(held.end(), more.begin(), more.end());
  held.insert(held.end(), {0.0, L});
  for (double& at : held) at = std::clamp(at, 0.0, L);
  std::sort(held.begin(), held.end());
  double widest = 0.0;
  for (std::size_t i = 1; i < held.size(); ++i) widest = std::max(widest, held[i] - held[i - 1]);
  return widest;
}

std::string held_said(std::size_t pieces, const std::vector<std::string>& sheets) {
  if (pieces == 0 && sheets.empty()) return "held at its ends only";
  std::string said = "held by its ends";
  if (pieces > 0) said += fmt::format(", {} {}", pieces, pieces == 1 ? "bearer" : "bearers");
  for (const std::string& sheet : sheets) said += ", the " + sheet;
  return said;
}

bool is_on_wall(const model::Model& model, const model::Part& part) {
  return part.role == model::Role::rail && part.source < model.parts.bench.rails.size() &&
         model.parts.bench.rails[part.source].on_wall;
}

}  // namespace

Unheld unheld_of(const model::Model& model, model::PartId id) {
  const model::Part& part = model.parts.parts.at(id);
  Unheld free{part.span, part.span, part.span, part.span, 0, false, held_said(0, {}), {}};
  free.lower_said = free.upper_said;
  // A ledger's span is that between its screws.
  if (!(part.span > Length{}) || is_on_wall(model, part)) return free;
  const Holds holds = holds_of(model, id);
  const double L = in_si(part.span);
  free.upper = quantity::metres(widest_gap(holds.turning, holds.edge, L));
  free.lower = quantity::metres(widest_gap(holds.turning, {}, L));
  const bool has_sheet = !holds.edge.empty();
  const std::vector<double>& whole = has_sheet ? holds.turning : holds.whole;
  free.whole = quantity::metres(widest_gap(whole, {}, L));
  free.edge = quantity::metres(widest_gap(whole, holds.edge, L));
  free.pieces = holds.turning.size();
  free.by_sheet = has_sheet;
  free.upper_said = held_said(free.pieces, holds.sheets);
  free.lower_said = held_said(free.pieces, {});
  return free;
}

double slenderness_about_edge(const model::Part& part, const reference::Tables& tables) {
  expects(part.width > Length{} && part.depth > Length{} && in_si(part.timber.E_0_05) > 0.0,
          "slenderness_about_edge: sides and E must be positive");
  const double b = in_si(part.width), h = in_si(part.depth);
  const double G_0_05 = in_si(part.timber.E_0_05) / tables.constant("G divisor").value;
  const double J = in_si(model::rectangle(part.width, part.depth).J);
  const double r_2 = (b * b + h * h) / 12.0 + h * h / 4.0;
  return std::sqrt(in_si(part.timber.f_c_0_k) * b * h * r_2 / (G_0_05 * J));
}

std::string sideways_cure(const model::Part& part, const Unheld& unheld, bool hogs,
                          bool gives_way) {
  if (!gives_way) return fmt::format("a deeper {}, a shorter span, or less on it", part.name);
  const std::string wider = "a wider " + part.name;
  if (!hogs) {
    return wider + (unheld.by_sheet ? ", or its screws nearer to each other"
                                    : ", or a sheet screwed along it");
  }
  if (part.role == model::Role::bearer) return wider;
  return wider + (unheld.pieces > 0 ? ", or bracketed bearers nearer to each other"
                                    : ", or a bearer bracketed to it in the middle");
}

}  // namespace standtrue::check
