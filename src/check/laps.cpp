// All numbers SI (m).
#include "check/laps.hpp"

#include <fmt/format.h>

#include <cmath>

#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

Laps::Laps(const model::Model& model, const model::Part& post) : model_(model), post_(post) {
  if (post.role != model::Role::post) return;
  for (const model::RailEnd& end : model.parts.rail_ends) {
    if (end.joint.kind.fastening != reference::Fastening::half_lap) continue;
    const model::Part& piece = model.parts.parts.at(end.rail);
    if (&model.parts.parts.at(end.onto) != &post || piece.role != model::Role::rail) continue;
    const bench::Rail& rail = model.parts.bench.rails.at(piece.source);
    const double middle = in_si(rail.height), half = 0.5 * in_si(rail.depth);
    laps_.push_back({middle - half, middle + half, rail.along_x});
  }
}

model::Part Laps::left(const model::Member& member, const Station& at) const {
  const model::MemberFrame frame = model::member_frame(model_, member);
  const double z = in_si(model_.nodes.at(member.start).at.z + member.start_offset.z) +
                   frame.axes[0].z * in_si(at.at);
  bool halves_x = false, halves_y = false;
  for (const Lap& lap : laps_) {
    constexpr double rounding = 1e-6;
    if (z < lap.low - rounding || z > lap.high + rounding) continue;
    (lap.halves_y ? halves_y : halves_x) = true;
  }
  model::Part part = post_;
  const bool width_is_y = std::abs(frame.axes[1].y) > std::abs(frame.axes[1].x);
  if (width_is_y ? halves_y : halves_x) part.width = 0.5 * part.width;
  if (width_is_y ? halves_x : halves_y) part.depth = 0.5 * part.depth;
  return part;
}

void tell_halved(Finding& finding, const model::Part& whole, const model::Part& left) {
  if (!(left.width * left.depth < whole.width * whole.depth)) return;
  finding.working.push_back(fmt::format("halved there by laps: {} x {} of {} x {} are left",
                                        shown(left.width), shown(left.depth), shown(whole.width),
                                        shown(whole.depth)));
}

}  // namespace standtrue::check
