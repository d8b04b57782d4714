// What holds a plate of a frame case: rigid holds, ties to the frame, bodies on it.
#include <cmath>
#include <functional>

#include "model/frame_plates.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

constexpr std::size_t most_read_ties = 2000;  // of all plates

/// Each item of a list; a fault if the key has something else.
void each(Map& map, std::string_view key, std::string_view example,
          const std::function<void(const Field&)>& read) {
  const std::optional<Field> field = map.find(key);
  if (!field) return;
  if (!field->is(document::Node::Kind::list)) {
    map.note(field->fault(fmt::format("'{}' is a list", key), std::string(example)));
    return;
  }
  for (const Field& item : field->items()) read(item);
}

std::array<bool, 5> need_freedoms(Map& map, FrameReader& reader) {
  std::array<bool, 5> held{};
  const std::optional<Field> field = map.need("freedoms", "freedoms: [w]");
  if (!field) return held;
  if (!field->is(document::Node::Kind::list) || field->items().empty()) {
    map.note(
        field->fault("'freedoms' is a list of what is held: u, v, w, rx, ry", "freedoms: [w]"));
    return held;
  }
  for (const Field& item : field->items()) {
    const auto freedom =
        find_name(item, plate_freedom_words(), "this holds", listed(plate_freedom_words()), reader);
    if (freedom) held[*freedom] = true;
  }
  return held;
}

bool finds_node(const Plate& plate, const Patch& where) {
  for (std::size_t j = 0; j < plate.y.size(); ++j) {
    for (std::size_t i = 0; i < plate.x.size(); ++i) {
      if (is_within(plate, i, j, where) && has_node(plate, i, j)) return true;
    }
  }
  return false;
}

void read_hold(const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "a hold: {x: [0 mm, 0 mm], y: [0 mm, 600 mm], freedoms: [w]}");
  if (!field.is(document::Node::Kind::map)) return;
  const std::optional<Patch> where = need_patch(map, reader);
  const std::array<bool, 5> freedoms = need_freedoms(map, reader);
  map.finish();
  if (!where) return;
  Plate& plate = reader.out.model.plates.back();
  if (reader.plate_is_sound.back() && !finds_node(plate, *where)) {
    reader.note(field.fault(
        fmt::format("this holds nothing: plate '{}' has no mesh node within it", plate.name),
        fmt::format("{{x: {}, y: {}, freedoms: [w]}}", pair_text(plate.x.front(), plate.x.front()),
                    pair_text(plate.y.front(), plate.y.back()))));
  }
  plate.holds.push_back({*where, freedoms});
}

/// The mesh node of a tie; a fault if it is none, or not there, or held.
void place_tie(Map& map, PlateTie& tie, FrameReader& reader) {
  const auto at = need_place(map, "at: [450 mm, 0 mm]", reader);
  const Plate& plate = reader.out.model.plates.back();
  if (!at || !reader.plate_is_sound.back()) return;
  tie.i = nearest_line(plate.x, (*at)[0]);
  tie.j = nearest_line(plate.y, (*at)[1]);
  const double x = plate.x[tie.i], y = plate.y[tie.j];
  const auto fault = [&](std::string what, std::string instead) {
    reader.note(map.find("at")->fault(std::move(what), std::move(instead)));
  };
  if (std::abs((*at)[0] - x) > same_place || std::abs((*at)[1] - y) > same_place) {
    fault(fmt::format("a tie sits where two mesh lines of plate '{}' cross; none do here",
                      plate.name),
          "at: " + pair_text(x, y));
  } else if (!has_node(plate, tie.i, tie.j)) {
    fault(fmt::format("this tie sits in a hole of plate '{}'", plate.name),
          "a place beside the hole");
  } else if (is_held(plate, tie.i, tie.j)) {
    fault(fmt::format("this tie sits where a hold of plate '{}' is", plate.name),
          "leave out the tie, or the hold");
  }
}

void read_plate_tie(const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "a tie: {at: [450 mm, 0 mm], node: A, normal: 1 kN/mm}");
  if (!field.is(document::Node::Kind::map)) return;
  PlateTie tie;
  place_tie(map, tie, reader);
  tie.node = need_name(map, "node", names_of(reader.out.model.nodes), "this tie holds to node",
                       "nodes", "node: A", reader)
                 .value_or(0);
  for (std::size_t k = 0; k < 3; ++k) {
    const std::string& word = tie_component_words()[k];
    tie.stiffness[k] = not_negative(map, word, Kind::linear_stiffness, reader).value_or(0.0);
  }
  tie.gravity_only = map.yes_no("gravity_only").value_or(false);
  map.finish();
  reader.out.model.plates.back().ties.push_back(tie);
}

void read_pads(Map& map, PlateBody& body, FrameReader& reader) {
  constexpr std::string_view example =
      "pads: [{x: [0 mm, 50 mm], y: [0 mm, 50 mm]}, ...], four in turn round the body";
  const std::optional<Field> pads = map.need("pads", example);
  if (!pads) return;
  const std::vector<Field> items = pads->items();
  if (items.size() != body.pads.size()) {
    map.note(pads->fault("a body stands on four pads", std::string(example)));
    return;
  }
  for (std::size_t p = 0; p < items.size(); ++p) {
    Map pad(items[p], *reader.faults, "a pad: {x: [0 mm, 50 mm], y: [0 mm, 50 mm]}");
    body.pads[p] = need_patch_on(pad, "this pad", reader.out.model.plates.size() - 1, reader);
    pad.finish();
  }
}

void read_plate_body(const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "a body: {name: lathe, pads: [...], stiffness: 100 kN/m}");
  if (!field.is(document::Node::Kind::map)) return;
  PlateBody body;
  body.name = map.text("name").value_or("");
  read_pads(map, body, reader);
  body.stiffness =
      need_positive(map, "stiffness", Kind::linear_stiffness, "stiffness: 100 kN/m", reader);
  map.finish();
  reader.out.model.plates.back().bodies.push_back(std::move(body));
}

void count_ties(Map& map, FrameReader& reader) {
  std::size_t ties = 0;
  for (const Plate& plate : reader.out.model.plates) ties += plate.ties.size();
  if (ties <= most_read_ties) return;
  reader.note(map.find("ties")->fault(
      fmt::format("the plates have {} ties; {} is the most", ties, most_read_ties), "fewer ties"));
}

}  // namespace

void read_plate_parts(Map& map, FrameReader& reader) {
  each(map, "holds", "holds: [{x: [0 mm, 0 mm], y: [0 mm, 600 mm], freedoms: [w]}]",
       [&](const Field& item) { read_hold(item, reader); });
  each(map, "ties", "ties: [{at: [450 mm, 0 mm], node: A, normal: 1 kN/mm}]",
       [&](const Field& item) { read_plate_tie(item, reader); });
  each(map, "bodies", "bodies: [{name: lathe, pads: [...], stiffness: 100 kN/m}]",
       [&](const Field& item) { read_plate_body(item, reader); });
  if (map.has("ties")) count_ties(map, reader);
}

}  // namespace standtrue::model
