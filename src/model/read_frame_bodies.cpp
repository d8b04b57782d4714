#include <fmt/format.h>

// Bodies of a frame case: what stands on the frame and swings with it.
#include <algorithm>

#include "model/frame_reader.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

constexpr std::string_view body_example =
    "{mass: 40 kg, inertia: [1 kg m2, 2 kg m2, 1 kg m2], unit: [fx, fy, fz, mx, my, mz]}";

void read_swinging_body(const std::string& name, const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, body_example);
  Body body;
  body.name = name;
  body.mass =
      quantity::from_si<Mass>(need_positive(map, "mass", Kind::mass, "mass: 40 kg", reader));
  body.inertia =
      find_vector<MassMoment>(map, "inertia", Kind::mass_moment, reader).value_or(body.inertia);
  const auto unit = map.need("unit", "unit: [fx, fy, fz, mx, my, mz]");
  map.finish();
  if (!unit) return;
  if (!unit->is(document::Node::Kind::list) || unit->items().size() != body.unit.size()) {
    reader.note(unit->fault("'unit' names six load cases: a unit force and a unit moment each way",
                            "unit: [fx, fy, fz, mx, my, mz]"));
    return;
  }
  const std::vector<std::string> cases = names_of(reader.out.model.cases);
  for (std::size_t i = 0; i < body.unit.size(); ++i) {
    const auto found = find_name(unit->items()[i], cases, fmt::format("body '{}' moves with", name),
                                 "cases", reader);
    if (!found) return;
    body.unit[i] = *found;
  }
  reader.out.model.bodies.push_back(std::move(body));
}

}  // namespace

void read_bodies(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("bodies");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of bodies: lathe: {mass: 40 kg, unit: [...]}");
  for (const auto& [name, value] : map.all()) read_swinging_body(name, value, reader);
}

void read_division(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("divide");
  if (!field) return;
  const auto pieces = document::read_count(*field, *reader.faults);
  if (!pieces) return;
  constexpr int most = 64;
  if (*pieces < 1 || *pieces > most) {
    reader.note(field->fault("members are cut into 1 to 64 pieces", "divide: 8"));
    return;
  }
  if (*pieces > 1 && !reader.out.model.plates.empty()) {
    reader.note(field->fault("a frame with plates is not divided", "divide: 1"));
    return;
  }
  constexpr std::size_t most_members = 50000;  // some hundred megabytes
  const std::size_t members = reader.out.model.members.size() * static_cast<std::size_t>(*pieces);
  if (*pieces > 1 && members > most_members) {
    reader.note(
        field->fault(fmt::format("members would be cut into {} pieces in all; {} are the most",
                                 members, most_members),
                     "divide: 2"));
    return;
  }
  reader.out.divide = *pieces;
}

}  // namespace standtrue::model
