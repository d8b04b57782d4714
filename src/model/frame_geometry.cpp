// Whether the members of a frame case can be solved as they lie. Numbers in m.
#include <cmath>

#include "model/direction.hpp"
#include "model/frame_reader.hpp"

namespace standtrue::model {

namespace {

constexpr double shortest_member = 1e-6;  // m; below this a member is a slip of the pen

Direction in_metres(const Point& p) {
  return {quantity::in_si(p.x), quantity::in_si(p.y), quantity::in_si(p.z)};
}

std::string print_length(double metres) { return quantity::print(metres, quantity::Kind::length); }

}  // namespace

bool is_sound_geometry(const Model& model, const Member& member, bool is_plane,
                       const document::Field& field, FrameReader& reader) {
  const Direction start = in_metres(model.nodes[member.start].at);
  const Direction end = in_metres(model.nodes[member.end].at);
  const Direction chord = minus(end, start);
  const Direction flexible =
      minus(plus(end, in_metres(member.end_offset)), plus(start, in_metres(member.start_offset)));
  const auto fault = [&](std::string what, std::string instead) {
    reader.note(field.fault(std::move(what), std::move(instead)));
    return false;
  };
  if (member.start == member.end) {
    return fault(fmt::format("member '{}' starts and ends at node '{}'", member.name,
                             model.nodes[member.start].name),
                 "another node for one of its ends");
  }
  if (norm(chord) < shortest_member && norm(flexible) < shortest_member) {
    return fault(
        fmt::format("member '{}' has no length: nodes '{}' and '{}' lie at one place", member.name,
                    model.nodes[member.start].name, model.nodes[member.end].name),
        "a tie (ties), or nodes apart");
  }
  if (norm(flexible) < shortest_member ||
      (norm(chord) >= shortest_member && dot(flexible, chord) <= 0.0)) {
    return fault(fmt::format("the offsets of member '{}' swallow it: nothing is left to bend of "
                             "the {} between its nodes",
                             member.name, print_length(norm(chord))),
                 "start_offset and end_offset from each node towards the other, shorter together");
  }
  if (is_plane && std::abs(flexible.y) > 1e-9 * norm(flexible)) {
    return fault(fmt::format("member '{}' leaves the x-z plane by {}, but the frame is 'plane'",
                             member.name, print_length(std::abs(flexible.y))),
                 "plane: no, or nodes with the same y");
  }
  if (member.depth &&
      norm(cross(*member.depth, flexible)) < 1e-6 * norm(*member.depth) * norm(flexible)) {
    return fault(
        fmt::format("the depth of member '{}' looks along the member itself", member.name),
        std::abs(flexible.z) < 0.9 * norm(flexible) ? "depth: [0, 0, 1]" : "depth: [1, 0, 0]");
  }
  return true;
}

}  // namespace standtrue::model
