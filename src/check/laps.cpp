// All numbers SI (m).
#include "check/laps.hpp"

#include <fmt/format.h>

#include <cmath>

#include "check/words.hpp"

namespace standtrue::check {

using quantity::in_si;

Laps::Laps(const model::Model& model, const model::Part& post) : model_(model), post_(post) {
  if (post.role != model::Role::post) return;
  cuts_ = bench::let_into(model.parts.bench, post.source);
}

model::Part Laps::left(const model::Member& member, const Station& at) const {
  model::Part part = post_;
  if (none()) return part;
  const model::MemberFrame frame = model::member_frame(model_, member);
  const double z = in_si(model_.nodes.at(member.start).at.z + member.start_offset.z) +
                   frame.axes[0].z * in_si(at.at);
  const bench::SidesLeft sides =
      bench::sides_left(model_.parts.bench.posts.at(post_.source), cuts_, quantity::metres(z));
  const bool width_is_y = std::abs(frame.axes[1].y) > std::abs(frame.axes[1].x);
  part.width = width_is_y ? sides.along_y : sides.along_x;
  part.depth = width_is_y ? sides.along_x : sides.along_y;
  return part;
}

quantity::Stress over_left(quantity::Stress of_whole, const model::Part& whole,
                           const model::Part& left) {
  return of_whole * ((whole.width * whole.depth) / (left.width * left.depth));
}

bool tell_left(Finding& finding, const model::Part& whole, const model::Part& left) {
  if (!is_less(left, whole)) return false;
  finding.working.push_back(fmt::format("rails are let in there: {} x {} of {} x {} are left",
                                        shown(left.width), shown(left.depth), shown(whole.width),
                                        shown(whole.depth)));
  return true;
}

std::string cure_of_laps(const model::Part& post) {
  return fmt::format("rails that are not let into the {}, or a thicker post", post.name);
}

}  // namespace standtrue::check
