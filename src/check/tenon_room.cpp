// All numbers SI (m).
#include "check/tenon_room.hpp"

#include <algorithm>

namespace standtrue::check {

using quantity::in_si;
using quantity::Length;

namespace {

struct Reach {
  double low = 0.0, high = 0.0;
  [[nodiscard]] bool meets(const Reach& other) const {
    constexpr double touch = 0.5e-3;
    return low < other.high - touch && other.low < high - touch;
  }
};

/// Where a tenon stands in its post: along its rail, across it and upright. `face`: where it goes
/// in; `inwards` is +1 if that is the way of the axis.
struct InPost {
  bool along_x = false;
  double face = 0.0, inwards = 1.0;
  Reach along, across, upright;
};

InPost in_post(const model::Parts& parts, const model::RailEnd& end) {
  const bench::Rail& rail = parts.bench.rails.at(parts.parts.at(end.rail).source);
  const bench::Post& post = parts.bench.posts.at(end.at_end ? rail.to : rail.from);
  const Tenon tenon = tenon_of(parts, end);
  InPost at;
  at.along_x = rail.along_x;
  at.inwards = end.at_end ? 1.0 : -1.0;
  const double middle = in_si(rail.along_x ? post.x : post.y);
  const double half = 0.5 * in_si(rail.along_x ? post.along_x : post.along_y);
  at.face = middle - at.inwards * half;
  const double tip = at.face + at.inwards * tenon.l;
  at.along = {std::min(at.face, tip), std::max(at.face, tip)};
  const double line = in_si(rail.along_x ? post.y : post.x) + in_si(rail.aside);
  at.across = {line - 0.5 * tenon.t, line + 0.5 * tenon.t};
  const double height = in_si(rail.height);
  at.upright = {height - 0.5 * tenon.h, height + 0.5 * tenon.h};
  return at;
}

bool is_tenon(const model::Parts& parts, const model::RailEnd& end) {
  return end.joint.kind.fastening == reference::Fastening::tenon &&
         parts.parts.at(end.rail).role == model::Role::rail &&
         parts.parts.at(end.onto).role == model::Role::post;
}

}  // namespace

Tenon tenon_of(const model::Parts& parts, const model::RailEnd& end) {
  const reference::JointKind& kind = end.joint.kind;
  const model::Part& rail = parts.parts.at(end.rail);
  return {kind.thickness > Length{} ? in_si(kind.thickness) : in_si(rail.width) / 3.0,
          kind.width > Length{} ? in_si(kind.width) : 0.8 * in_si(rail.depth), in_si(kind.leg)};
}

std::optional<TenonRoom> tenon_room(const model::Parts& parts, const model::RailEnd& end) {
  if (!is_tenon(parts, end)) return std::nullopt;
  const InPost own = in_post(parts, end);
  std::optional<TenonRoom> room;
  for (const model::RailEnd& other : parts.rail_ends) {
    if (&other == &end || other.onto != end.onto || !is_tenon(parts, other)) continue;
    const InPost its = in_post(parts, other);
    const Reach& its_along = its.along_x == own.along_x ? its.along : its.across;
    const Reach& its_across = its.along_x == own.along_x ? its.across : its.along;
    if (!own.along.meets(its_along) || !own.across.meets(its_across) ||
        !own.upright.meets(its.upright)) {
      continue;
    }
    // From the other side of the post each gets half of the way.
    const double near = own.inwards > 0.0 ? its_along.low : its_along.high;
    const double clear = its.along_x == own.along_x
                             ? 0.5 * std::abs(its.face - own.face)
                             : std::max(0.0, own.inwards * (near - own.face));
    if (!room || clear < room->clear) room = TenonRoom{&other, clear};
  }
  return room;
}

}  // namespace standtrue::check
