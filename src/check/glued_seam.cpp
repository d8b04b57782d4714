#include "check/glued_seam.hpp"

#include <algorithm>
#include <cmath>

#include "check/board.hpp"
#include "standtrue/bench/surface.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::check {

using quantity::in_si;

namespace {

/// A carrier square to its seam, own coordinates of the plate.
struct SideOn {
  double middle = 0.0, width = 0.0;
};

SideOn side_on(const model::Parts& parts, const model::Seam& seam) {
  const model::Part& part = parts.parts[seam.part];
  const bench::Sheet& sheet = parts.bench.sheets[seam.sheet];
  if (part.role == model::Role::bearer) {
    return {in_si(parts.bench.bearers[part.source].at), in_si(part.width)};
  }
  if (part.role == model::Role::post) {
    const bench::Post& post = parts.bench.posts[part.source];
    const bool back = sheet.place == bench::SheetPlace::back;
    return {in_si(back ? post.x : post.y), in_si(back ? post.along_x : post.along_y)};
  }
  const bench::Rail& rail = parts.bench.rails[part.source];
  if (!lies(sheet)) return {in_si(rail.height), in_si(rail.depth)};
  const bench::Post& post = parts.bench.posts[rail.from];
  return {in_si((rail.along_x ? post.y : post.x) + rail.aside), in_si(rail.width)};
}

/// From an end of the seam to the face of the post there, where the ties were kept clear of it;
/// `sign`: -1 at its beginning, 1 at its end.
double up_to_post(const model::Parts& parts, const model::Plate& plate, const model::Seam& seam,
                  double sign) {
  const bench::Sheet& sheet = parts.bench.sheets[seam.sheet];
  const model::Part& part = parts.parts[seam.part];
  if (!lies(sheet) || part.role != model::Role::rail) return 0.0;
  const bench::Rail& rail = parts.bench.rails[part.source];
  if (rail.on_wall) return 0.0;
  const model::PlateTie& tie = plate.ties[sign < 0.0 ? seam.first : seam.last - 1];
  const std::vector<double>& lines = seam.along_x ? plate.x : plate.y;
  const double end = lines[seam.along_x ? tie.i : tie.j];
  const bench::Post& post = parts.bench.posts[sign < 0.0 ? rail.from : rail.to];
  const double face = in_si(seam.along_x ? post.x : post.y) -
                      sign * 0.5 * in_si(seam.along_x ? post.along_x : post.along_y);
  constexpr double rounding = 4e-3;  // of mesh lines
  const double gap = sign * (face - end);
  if (gap > in_si(sheet.screws.clear_of_post) + rounding) return 0.0;
  const double edge = sign * ((sign < 0.0 ? lines.front() : lines.back()) - end);
  return std::max(0.0, std::min(gap, edge));
}

}  // namespace

std::vector<GlueFlow> glue_flows(const model::Plate& plate, const model::Seam& seam,
                                 const std::vector<std::array<double, 3>>& ties, double reach,
                                 GlueBeyond beyond) {
  // The frame stands on the side of the plate that its ties are on.
  const double off = plate.tie_level < 0.0 ? 1.0 : -1.0;
  std::vector<double> ends{0.0};  // of what the ties stand for, in metres of glue
  const std::size_t n = seam.last - seam.first;
  for (std::size_t t = 0; t < n; ++t) {
    const double more = (t == 0 ? beyond.start : 0.0) + (t + 1 == n ? beyond.end : 0.0);
    ends.push_back(ends.back() + in_si(seam.lengths[t]) + more);
  }
  const double whole = std::min(reach, ends.back());
  std::vector<GlueFlow> flows;
  for (std::size_t m = 0; m < n; ++m) {
    const double low = std::clamp(0.5 * (ends[m] + ends[m + 1] - whole), 0.0, ends.back() - whole);
    std::array<double, 3> sum{};
    for (std::size_t t = 0; t < n; ++t) {
      const double shared = std::min(ends[t + 1], low + whole) - std::max(ends[t], low);
      if (shared <= 0.0) continue;
      const double part = shared / ((ends[t + 1] - ends[t]) * whole);
      for (std::size_t k = 0; k < 3; ++k) sum[k] += ties[seam.first + t][k] * part;
    }
    const model::PlateTie& tie = plate.ties[seam.first + m];
    flows.push_back({seam.along_x ? sum[0] : sum[1], seam.along_x ? sum[1] : sum[0], off * sum[2],
                     seam.along_x ? plate.x[tie.i] : plate.y[tie.j]});
  }
  return flows;
}

GlueBeyond glue_beyond(const model::Parts& parts, const model::Plate& plate,
                       const model::Seam& seam) {
  return {up_to_post(parts, plate, seam, -1.0), up_to_post(parts, plate, seam, 1.0)};
}

double glue_width(const model::Parts& parts, const model::Plate& plate, const model::Seam& seam) {
  const SideOn side = side_on(parts, seam);
  const std::vector<double>& lines = seam.along_x ? plate.y : plate.x;
  const double b = std::min(lines.back(), side.middle + 0.5 * side.width) -
                   std::max(lines.front(), side.middle - 0.5 * side.width);
  expects(b > 0.0, "glue_width: the sheet must cover some of its carrier");
  return b;
}

OrWhy<GlueStrengths> glue_strengths(const bench::Bench& bench, const bench::Sheet& sheet,
                                    const model::Part& carrier, double b,
                                    reference::Duration duration, const reference::Tables& tables) {
  GlueStrengths f;
  for (const bool along_grain : {true, false}) {
    const OrWhy<BoardStrength> board = board_strength(bench, sheet, along_grain, duration, tables);
    if (!board) return tl::unexpected(board.error());
    if (!(board->f_r > 0.0)) {
      return tl::unexpected(unknown_strength(sheet, "rolling shear", along_grain));
    }
    f.f_r = along_grain ? board->f_r : std::min(f.f_r, board->f_r);
    f.k_mod = board->k_mod;
  }
  const OrWhy<Strengths> timber = strengths(carrier, bench.air.service_class, duration, tables);
  if (!timber) return tl::unexpected(timber.error());
  const bool is_one = sheet.layers == 1 || sheet.between_layers != bench::Bond::glued;
  const double h_f = in_si(sheet.panel.thickness) * (is_one ? 1 : sheet.layers);
  const double n = carrier.role == model::Role::bearer ? 8.0 : 4.0;
  f.spread = std::min(1.0, std::pow(n * h_f / b, 0.8));
  f.f_r *= f.spread;
  const double share = tables.constant("glue home share").value;
  const double f_t_90 =
      design_value(in_si(carrier.timber.f_t_90_k), timber->k_mod, timber->gamma_M);
  f.along = std::min(f.f_r, share * timber->k_cr * in_si(timber->f_v));
  f.across = std::min(f.f_r, share * tables.constant("rolling shear of f_t_90").value * f_t_90);
  f.pull = share * f_t_90;
  return f;
}

double glue_ratio(const GlueFlow& flow, double b, const GlueStrengths& f) {
  expects(b > 0.0 && f.along > 0.0 && f.across > 0.0 && f.pull > 0.0,
          "glue_ratio: width and strengths must be positive");
  return std::hypot(flow.along / (b * f.along), flow.across / (b * f.across)) +
         std::max(flow.pull, 0.0) / (b * f.pull);
}

}  // namespace standtrue::check
