// Materials and sections of a frame case.
#include <string>

#include "model/frame_reader.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

NamedMaterial read_material(const std::string& name, const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "a material: E, G, density");
  NamedMaterial material{name, {}};
  if (!field.is(document::Node::Kind::map)) return material;
  material.elastic.E =
      quantity::pascals(need_positive(map, "E", Kind::stress, "E: 11 kN/mm2", reader));
  material.elastic.G =
      quantity::pascals(need_positive(map, "G", Kind::stress, "G: 0.7 kN/mm2", reader));
  material.elastic.density =
      quantity::from_si<Density>(not_negative(map, "density", Kind::density, reader).value_or(0.0));
  map.finish();
  return material;
}

std::optional<Section> read_rectangle(const Field& field, FrameReader& reader) {
  const auto sides = quantity::parse_pair(field.text());
  if (!sides) {
    reader.note(field.fault(sides.error()));
    return std::nullopt;
  }
  const auto [width, depth] = *sides;
  const auto is_side = [](Length side) {
    return side > quantity::metres(1e-6) && side < quantity::metres(1e3);
  };
  if (!is_side(width) || !is_side(depth)) {
    reader.note(field.fault("both sides of a rectangle must be between 0.001 mm and 1 km",
                            "45 x 95 mm (width x depth)"));
    return std::nullopt;
  }
  return rectangle(width, depth);
}

/// Takes the value of a key: of a rectangle it overrides, of another section it must be there.
template <class Quantity>
void take_value(Map& map, std::string_view key, Kind kind, std::string_view example, bool is_needed,
                Quantity& value, FrameReader& reader) {
  if (!is_needed && !map.has(key)) return;
  value = quantity::from_si<Quantity>(need_positive(map, key, kind, example, reader));
}

void take_shear(Map& map, Section& section, FrameReader& reader) {
  const bool has_areas = map.has("A_sy") || map.has("A_sz");
  if (const auto a = not_negative(map, "A_sy", Kind::area, reader)) {
    section.A_sy = quantity::from_si<Area>(*a);
  }
  if (const auto a = not_negative(map, "A_sz", Kind::area, reader)) {
    section.A_sz = quantity::from_si<Area>(*a);
  }
  const std::optional<Field> shear = map.find("shear");
  if (!shear) return;
  if (shear->text() != "none" || has_areas) {
    reader.note(shear->fault("the only word for shear is none, and it does not go with shear areas",
                             "shear: none"));
  }
  section.A_sy = section.A_sz = Area{};
}

Section read_section(const Field& field, FrameReader& reader) {
  if (field.is(document::Node::Kind::scalar)) {
    return read_rectangle(field, reader).value_or(Section{});
  }
  Map map(field, *reader.faults,
          "a section: 60 x 240 mm, or {A, I_y, I_z, J, A_sy, A_sz}, or {rectangle, ...}");
  Section section;
  if (!field.is(document::Node::Kind::map)) return section;
  const std::optional<Field> sides = map.find("rectangle");
  if (sides) section = read_rectangle(*sides, reader).value_or(Section{});
  take_value(map, "A", Kind::area, "A: 4275 mm2", !sides, section.A, reader);
  take_value(map, "I_y", Kind::second_moment, "I_y: 3215156 mm4", !sides, section.I_y, reader);
  take_value(map, "I_z", Kind::second_moment, "I_z: 721406 mm4", !sides, section.I_z, reader);
  take_value(map, "J", Kind::second_moment, "J: 2026410 mm4", !sides, section.J, reader);
  take_shear(map, section, reader);
  map.finish();
  return section;
}

}  // namespace

void read_materials(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("materials");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of materials: timber: {E: 11 kN/mm2, G: 0.7 kN/mm2}");
  for (const auto& [name, value] : map.all()) {
    reader.out.materials.push_back(read_material(name, value, reader));
  }
}

void read_sections(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("sections");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of sections: rail: 45 x 95 mm");
  for (const auto& [name, value] : map.all()) {
    reader.out.sections.push_back({name, read_section(value, reader)});
  }
}

}  // namespace standtrue::model
