// Nodes, members, their end springs, and ties of a frame case.
#include <cmath>
#include <string>

#include "model/frame_reader.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

/// The material or section that a member names; the only one of the file if it names none.
std::size_t chosen(Map& map, std::string_view key, std::string_view where,
                   const std::vector<std::string>& names, const std::string& member,
                   FrameReader& reader) {
  if (!map.has(key) && names.size() == 1) return 0;
  const std::string who = fmt::format("member '{}' has the {}", member, key);
  const std::string example = fmt::format("{}: {}", key, names.empty() ? "rail" : names.front());
  return need_name(map, key, names, who, where, example, reader).value_or(names.size());
}

double spring_stiffness(const Field& field, Kind kind, std::string_view who, FrameReader& reader) {
  const std::optional<double> k = read_value(field, kind, reader);
  if (k && !(*k > 0.0)) {
    reader.note(field.fault(fmt::format("{} has a stiffness that is not greater than zero", who),
                            *k == 0.0 ? "free" : without_sign(field.text())));
  }
  return k.value_or(0.0);
}

EndSpring read_end_spring(const Field& field, Freedom freedom, std::string_view who,
                          FrameReader& reader) {
  const Kind kind = stiffness_kind(freedom);
  if (field.text() == "free") return EndSpring::free_end();
  if (field.is(document::Node::Kind::map)) {
    Map map(field, *reader.faults, "a spring for each kind of loading: gravity, sway");
    const std::optional<Field> gravity = map.need("gravity", "gravity: 1 kN m/rad");
    const std::optional<Field> sway = map.need("sway", "sway: 2 kN m/rad");
    map.finish();
    if (!gravity || !sway) return {};
    return EndSpring::elastic(spring_stiffness(*gravity, kind, who, reader),
                              spring_stiffness(*sway, kind, who, reader));
  }
  if (is_word(field.text())) {
    reader.note(field.fault(fmt::format("'{}' is neither free nor a stiffness", field.text()),
                            fmt::format("free, or {}; leave it out where it is rigid",
                                        is_rotation(freedom) ? "6e7 N mm/rad" : "500 N/mm")));
    return {};
  }
  return EndSpring::elastic(spring_stiffness(field, kind, who, reader));
}

void read_member(const std::string& name, const Field& field, FrameReader& reader) {
  Model& model = reader.out.model;
  Map map(field, *reader.faults, "a member: from, to, material, section, start, end");
  Member member;
  member.name = name;
  const std::vector<std::string> nodes = names_of(model.nodes);
  const auto from = need_name(map, "from", nodes, fmt::format("member '{}' starts at node", name),
                              "nodes", "from: A", reader);
  const auto to = need_name(map, "to", nodes, fmt::format("member '{}' ends at node", name),
                            "nodes", "to: B", reader);
  const std::size_t material =
      chosen(map, "material", "materials", names_of(reader.out.materials), name, reader);
  if (material < reader.out.materials.size()) {
    member.elastic = reader.out.materials[material].elastic;
  }
  const std::size_t section =
      chosen(map, "section", "sections", names_of(reader.out.sections), name, reader);
  if (section < reader.out.sections.size()) member.section = reader.out.sections[section].section;
  member.depth = find_direction(map, "depth", reader);
  if (const auto roll = map.find("roll")) {
    member.roll = read_value(*roll, Kind::angle, reader).value_or(0.0);
  }
  const auto start_offset = find_vector<Length>(map, "start_offset", Kind::length, reader);
  const auto end_offset = find_vector<Length>(map, "end_offset", Kind::length, reader);
  member.start_offset = start_offset.value_or(Point{});
  member.end_offset = end_offset.value_or(Point{});
  member.carries = quantity::from_si<LineLoad>(
      not_negative(map, "carries", Kind::line_load, reader).value_or(0.0));
  member.start_springs = read_end_springs(map, "start", reader);
  member.end_springs = read_end_springs(map, "end", reader);
  const bool offsets_known = start_offset.has_value() == map.has("start_offset") &&
                             end_offset.has_value() == map.has("end_offset");
  map.finish();

  std::optional<double> length;
  if (from && to) {
    member.start = *from;
    member.end = *to;
    const bool places_known =
        reader.node_is_sound[*from] && reader.node_is_sound[*to] && offsets_known;
    if (places_known && is_sound_geometry(model, member, reader.is_plane, field, reader)) {
      length = quantity::in_si(member_frame(model, member).length);
    }
  }
  model.members.push_back(std::move(member));
  reader.flexible_length.push_back(length);
}

bool lie_together(const Point& a, const Point& b) {
  using quantity::in_si;
  return std::hypot(in_si(b.x - a.x), in_si(b.y - a.y), in_si(b.z - a.z)) < 1e-6;
}

void read_tie(const std::string& name, const Field& field, FrameReader& reader) {
  Model& model = reader.out.model;
  Map map(field, *reader.faults, "a tie: from, to, and stiffnesses x, y, z, rx, ry, rz");
  Tie tie;
  tie.name = name;
  const std::vector<std::string> nodes = names_of(model.nodes);
  const auto a = need_name(map, "from", nodes, fmt::format("tie '{}' starts at node", name),
                           "nodes", "from: A", reader);
  const auto b = need_name(map, "to", nodes, fmt::format("tie '{}' ends at node", name), "nodes",
                           "to: B", reader);
  for (const Freedom freedom : all_freedoms) {
    const auto stiffness = not_negative(map, word_of(freedom), stiffness_kind(freedom), reader);
    tie.stiffness[static_cast<std::size_t>(freedom)] = stiffness.value_or(0.0);
  }
  map.finish();
  if (a && b) {
    tie.a = *a;
    tie.b = *b;
    const bool places_known = reader.node_is_sound[*a] && reader.node_is_sound[*b];
    if (tie.a == tie.b) {
      reader.note(field.fault(
          fmt::format("tie '{}' joins node '{}' to itself", name, model.nodes[tie.a].name),
          "another node at the same place"));
    } else if (places_known && !lie_together(model.nodes[tie.a].at, model.nodes[tie.b].at)) {
      reader.note(field.fault(fmt::format("tie '{}' joins nodes '{}' and '{}', which do not lie at "
                                          "one place",
                                          name, model.nodes[tie.a].name, model.nodes[tie.b].name),
                              "a member between them, or nodes at one place"));
    }
  }
  model.ties.push_back(std::move(tie));
}

}  // namespace

EndSprings read_end_springs(Map& member, std::string_view key, FrameReader& reader) {
  EndSprings springs{};
  const std::optional<Field> field = member.find(key);
  if (!field) return springs;
  Map map(*field, *reader.faults, "springs of a member end: {ry: free} or {ry: 6e7 N mm/rad}");
  for (const Freedom freedom : all_freedoms) {
    const std::optional<Field> spring = map.find(word_of(freedom));
    if (!spring) continue;
    const std::string who = fmt::format("the spring {} at the {}", word_of(freedom), key);
    springs[static_cast<std::size_t>(freedom)] = read_end_spring(*spring, freedom, who, reader);
  }
  map.finish();
  return springs;
}

void read_nodes(Map& top, FrameReader& reader) {
  const std::optional<Field> field =
      top.has("plates") ? top.find("nodes") : top.need("nodes", "nodes: {A: [0 mm, 0 mm, 0 mm]}");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of nodes: A: [0 mm, 0 mm, 0 mm]");
  for (const auto& [name, value] : map.all()) {
    const auto at = read_three(value, Kind::length, reader);
    Node node{name, {}};
    if (at) {
      node.at = {quantity::metres((*at)[0]), quantity::metres((*at)[1]),
                 quantity::metres((*at)[2])};
    }
    reader.out.model.nodes.push_back(std::move(node));
    reader.node_is_sound.push_back(at.has_value());
  }
}

void read_members(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("members");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of members: AB: {from: A, to: B}");
  for (const auto& [name, value] : map.all()) read_member(name, value, reader);
}

void read_ties(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("ties");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of ties: t1: {from: A, to: B, z: 50 N/mm}");
  for (const auto& [name, value] : map.all()) read_tie(name, value, reader);
}

}  // namespace standtrue::model
