// Supports of a frame case: of a node ("A: [x, z]") and in free form (known by the key `node`).
#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "model/frame_reader.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

/// Names of supports that ride on others, looked up when all supports are known.
using Rides = std::vector<std::pair<std::size_t, Field>>;

Support held(const Node& node, NodeId id, Freedom freedom) {
  Support support;
  support.name = node.name + "." + word_of(freedom);
  support.node = id;
  support.rotation = is_rotation(freedom);
  support.along = axis_of(freedom);
  return support;
}

Kind movement_kind(bool rotation) { return rotation ? Kind::angle : Kind::length; }

std::optional<double> read_support_stiffness(const Field& field, bool rotation,
                                             FrameReader& reader) {
  const Kind kind = rotation ? Kind::rotational_stiffness : Kind::linear_stiffness;
  const std::optional<double> k = read_value(field, kind, reader);
  if (k && !(*k > 0.0)) {
    reader.note(field.fault("a support's stiffness must be greater than zero",
                            *k < 0.0   ? without_sign(field.text())
                            : rotation ? "1 kN m/rad"
                                       : "400 N/mm"));
  }
  return k;
}

/// `held`, a spring, or `{moved: 1 mm}`.
Support read_held(const Field& field, const Node& node, NodeId id, Freedom freedom,
                  FrameReader& reader) {
  Support support = held(node, id, freedom);
  if (field.text() == "held") return support;
  if (field.is(document::Node::Kind::map)) {
    Map map(field, *reader.faults, "an imposed movement: {moved: 1 mm}");
    const auto moved = map.need("moved", is_rotation(freedom) ? "moved: 0.01 rad" : "moved: 1 mm");
    if (moved) {
      support.imposed = read_value(*moved, movement_kind(support.rotation), reader).value_or(0.0);
    }
    map.finish();
    return support;
  }
  if (is_word(field.text())) {
    reader.note(
        field.fault(fmt::format("'{}' is neither held nor a stiffness", field.text()),
                    fmt::format("held, or {}", support.rotation ? "1 kN m/rad" : "400 N/mm")));
    return support;
  }
  support.stiffness = read_support_stiffness(field, support.rotation, reader);
  return support;
}

void read_list_of_held(const Field& field, const Node& node, NodeId id, FrameReader& reader) {
  std::vector<Support>& supports = reader.out.model.supports;
  const std::string who = fmt::format("node '{}' holds", node.name);
  std::array<bool, 6> is_held{};
  for (const Field& item : field.items()) {
    const auto freedom = find_name(item, freedom_words(), who, listed(freedom_words()), reader);
    if (!freedom) continue;
    if (is_held[*freedom]) {
      reader.note(item.fault(fmt::format("{} '{}' twice", who, item.text()), "each freedom once"));
      continue;
    }
    is_held[*freedom] = true;
    supports.push_back(held(node, id, all_freedoms[*freedom]));
  }
}

void read_node_supports(const Field& field, NodeId id, FrameReader& reader) {
  const Node& node = reader.out.model.nodes[id];
  std::vector<Support>& supports = reader.out.model.supports;
  if (field.text() == "all") {
    for (const Freedom freedom : all_freedoms) supports.push_back(held(node, id, freedom));
    return;
  }
  if (field.is(document::Node::Kind::list)) {
    read_list_of_held(field, node, id, reader);
    return;
  }
  Map map(field, *reader.faults, "supports of a node: all, [x, z], or {z: held, ry: 1 kN m/rad}");
  if (!field.is(document::Node::Kind::map)) return;
  for (const Freedom freedom : all_freedoms) {
    const std::optional<Field> value = map.find(word_of(freedom));
    if (value) supports.push_back(read_held(*value, node, id, freedom, reader));
  }
  map.finish();
}

void check_press_only(Map& map, const Support& support, FrameReader& reader) {
  if (support.press_only && support.rotation) {
    reader.note(map.field().fault(
        fmt::format("support '{}' holds a rotation and can not be press_only", support.name),
        "rotation: no, or press_only: no"));
  }
  if (!support.press_only && map.has("gap")) {
    reader.note(
        map.field().fault(fmt::format("support '{}' has a gap but is not press_only", support.name),
                          "press_only: yes"));
  }
}

void read_free_form(const std::string& name, Map& map, Rides& rides, FrameReader& reader) {
  Model& model = reader.out.model;
  Support support;
  support.name = name;
  support.node = need_name(map, "node", names_of(model.nodes),
                           fmt::format("support '{}' holds node", name), "nodes", "node: A", reader)
                     .value_or(0);
  if (map.need("along", "along: [0, 0, 1]")) {
    support.along = unit_direction(find_direction(map, "along", reader).value_or(support.along));
  }
  support.rotation = map.yes_no("rotation").value_or(false);
  if (const auto k = map.find("stiffness")) {
    support.stiffness = read_support_stiffness(*k, support.rotation, reader);
  }
  if (const auto moved = map.find("moved")) {
    support.imposed = read_value(*moved, movement_kind(support.rotation), reader).value_or(0.0);
  }
  support.press_only = map.yes_no("press_only").value_or(false);
  support.gap = not_negative(map, "gap", Kind::length, reader).value_or(0.0);
  check_press_only(map, support, reader);
  support.friction = not_negative(map, "friction", Kind::ratio, reader);
  if (support.friction && !map.has("rides_on")) {
    map.note(map.field().fault(
        fmt::format("support '{}' has friction and rides on nothing that presses", name),
        "rides_on: foot"));
  }
  if (const auto other = map.find("rides_on")) rides.emplace_back(model.supports.size(), *other);
  map.finish();
  model.supports.push_back(std::move(support));
}

void read_support(const std::string& name, const Field& field, Rides& rides, FrameReader& reader) {
  const std::vector<std::string> nodes = names_of(reader.out.model.nodes);
  if (field.is(document::Node::Kind::map)) {
    Map map(field, *reader.faults, "a support");
    if (map.has("node")) {
      read_free_form(name, map, rides, reader);
      return;
    }
  }
  for (NodeId id = 0; id < nodes.size(); ++id) {
    if (nodes[id] == name) {
      read_node_supports(field, id, reader);
      return;
    }
  }
  const std::string near = quantity::nearest(name, nodes);
  reader.note(field.fault(
      fmt::format("support '{}' is the name of no node; a support with a name of its own has the "
                  "key 'node'",
                  name),
      near.empty() ? fmt::format("{}: {{node: A, along: [0, 0, 1]}}", name) : near));
}

void resolve_rides(const Rides& rides, FrameReader& reader) {
  std::vector<Support>& supports = reader.out.model.supports;
  const std::vector<std::string> names = names_of(supports);
  for (const auto& [rider, field] : rides) {
    const auto other =
        find_name(field, names, fmt::format("support '{}' rides on", supports[rider].name),
                  "supports", reader);
    if (!other) continue;
    supports[rider].rides_on = other;
    if (!supports[*other].press_only || *other == rider) {
      reader.note(field.fault(fmt::format("support '{}' rides on '{}', which is not press_only",
                                          supports[rider].name, names[*other]),
                              "the name of a support with press_only: yes"));
    }
  }
}

/// "B.z" can also be the name of a support of free form.
void find_double_names(const Field& field, FrameReader& reader) {
  std::vector<std::string> names = names_of(reader.out.model.supports);
  std::sort(names.begin(), names.end());
  for (auto twin = std::adjacent_find(names.begin(), names.end()); twin != names.end();
       twin = std::adjacent_find(twin + 1, names.end())) {
    reader.note(field.fault(fmt::format("two supports are called '{}'", *twin),
                            "another name for the one with the key 'node'"));
  }
}

bool holds(const Support& support, NodeId node, Freedom freedom) {
  const Direction axis = axis_of(freedom);
  const double along =
      support.along.x * axis.x + support.along.y * axis.y + support.along.z * axis.z;
  return support.node == node && support.rotation == is_rotation(freedom) && !support.stiffness &&
         !support.press_only && !support.rides_on && std::abs(along) == 1.0;
}

}  // namespace

void read_supports(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("supports");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of supports: A: [x, z]");
  Rides rides;
  for (const auto& [name, value] : map.all()) read_support(name, value, rides, reader);
  resolve_rides(rides, reader);
  find_double_names(*field, reader);
}

std::vector<Support> plane_supports(const Model& model) {
  std::vector<Support> added;
  for (NodeId id = 0; id < model.nodes.size(); ++id) {
    for (const Freedom freedom : {Freedom::y, Freedom::rx, Freedom::rz}) {
      bool is_held = false;
      for (const Support& support : model.supports) {
        is_held = is_held || holds(support, id, freedom);
      }
      if (is_held) continue;
      Support support = held(model.nodes[id], id, freedom);
      support.name = model.nodes[id].name + ".plane." + word_of(freedom);
      added.push_back(std::move(support));
    }
  }
  return added;
}

}  // namespace standtrue::model
