// Plates of a frame case: where they lie, their mesh and its holes.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "model/frame_plates.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

constexpr std::size_t most_lines = 1000;  // of a plate in one direction
constexpr std::size_t most_cells_of_all_plates = 40000;
constexpr double least_step = 1e-6;  // m, between mesh lines

std::array<double, 3> three_of(const Direction& d) { return {d.x, d.y, d.z}; }

/// Unit and square to each other; nothing is asked of axes that are faulty by themselves.
void read_plate_place(Map& map, Plate& plate, FrameReader& reader) {
  if (const auto field = map.need("origin", "origin: [0 mm, 0 mm, 0 mm]")) {
    plate.origin = read_three(*field, Kind::length, reader).value_or(plate.origin);
  }
  const auto x = find_direction(map, "x_axis", reader), y = find_direction(map, "y_axis", reader);
  if (x) plate.x_axis = three_of(unit_direction(*x));
  if (y) plate.y_axis = three_of(unit_direction(*y));
  if (map.has("x_axis") != x.has_value() || map.has("y_axis") != y.has_value()) return;
  double along = 0.0;
  for (std::size_t i = 0; i < 3; ++i) along += plate.x_axis[i] * plate.y_axis[i];
  if (std::abs(along) < 1e-9) return;
  reader.note(
      map.find(y ? "y_axis" : "x_axis")
          ->fault(fmt::format("the axes of plate '{}' are not square to each other: they "
                              "meet at {:.6g} degrees",
                              plate.name,
                              std::acos(std::clamp(along, -1.0, 1.0)) * 180.0 / std::numbers::pi),
                  "x_axis: [1, 0, 0], y_axis: [0, 1, 0]"));
}

bool are_few(const Field& field, std::size_t lines, FrameReader& reader) {
  if (lines <= most_lines) return true;
  reader.note(field.fault(
      fmt::format("this mesh has {} lines; {} in one direction is the most", lines, most_lines),
      "a coarser mesh"));
  return false;
}

/// 0 where it is missing or faulty.
std::size_t need_cells(Map& map, FrameReader& reader) {
  const auto field = map.need("cells", "cells: 18");
  if (!field) return 0;
  const int cells = document::read_count(*field, *reader.faults).value_or(0);
  if (cells >= 1) {
    const auto n = static_cast<std::size_t>(cells);
    return are_few(*field, n + 1, reader) ? n : 0;
  }
  if (quantity::parse_count(field->text())) {
    reader.note(field->fault("a plate has at least one cell", "cells: 18"));
  }
  return 0;
}

/// `{from: 0 mm, to: 900 mm, cells: 18}`.
std::vector<double> read_even_lines(const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "mesh lines");
  const auto need_length = [&](std::string_view key, std::string_view example) {
    const auto at = map.need(key, example);
    return at ? read_value(*at, Kind::length, reader) : std::nullopt;
  };
  const auto from = need_length("from", "from: 0 mm"), to = need_length("to", "to: 900 mm");
  const std::size_t n = need_cells(map, reader);
  map.finish();
  if (!from || !to || n == 0) return {};
  if (!(*to - *from > least_step * static_cast<double>(n))) {
    reader.note(
        field.fault(fmt::format("mesh lines must rise; these run from {} to {} in {} step{}",
                                length_text(*from), length_text(*to), n, n == 1 ? "" : "s"),
                    "{from: 0 mm, to: 900 mm, cells: 18}"));
    return {};
  }
  std::vector<double> lines;
  for (std::size_t i = 0; i < n; ++i) {
    lines.push_back(*from + (*to - *from) * static_cast<double>(i) / static_cast<double>(n));
  }
  lines.push_back(*to);
  return lines;
}

std::vector<double> read_listed_lines(const Field& field, FrameReader& reader) {
  const std::vector<Field> items = field.items();
  if (items.size() < 2) {
    reader.note(field.fault("a plate has at least two mesh lines", "[0 mm, 50 mm, 100 mm]"));
    return {};
  }
  if (!are_few(field, items.size(), reader)) return {};
  std::vector<double> lines;
  bool is_good = true;
  for (const Field& item : items) {
    const auto at = read_value(item, Kind::length, reader);
    if (at && !lines.empty() && !(*at - lines.back() > least_step)) {
      reader.note(item.fault(fmt::format("mesh lines must rise; here {} follows {}",
                                         length_text(*at), length_text(lines.back())),
                             "a greater length, or leave it out"));
      is_good = false;
    }
    is_good = is_good && at.has_value();
    if (at) lines.push_back(*at);
  }
  return is_good ? lines : std::vector<double>();
}

/// Nothing where the lines are faulty.
std::vector<double> need_lines(Map& map, std::string_view key, FrameReader& reader) {
  const std::string example = fmt::format("{}: {{from: 0 mm, to: 900 mm, cells: 18}}", key);
  const std::optional<Field> field = map.need(key, example);
  if (!field) return {};
  if (field->is(document::Node::Kind::list)) return read_listed_lines(*field, reader);
  if (field->is(document::Node::Kind::map)) return read_even_lines(*field, reader);
  reader.note(field->fault(fmt::format("'{}' are the mesh lines of the plate", key),
                           example + ", or a list"));
  return {};
}

/// How many cells all plates have so far; a fault where they become too many.
bool count_cells(const Field& field, const Plate& plate, const FrameReader& reader) {
  std::size_t cells = (plate.x.size() - 1) * (plate.y.size() - 1);
  for (const Plate& other : reader.out.model.plates) {
    if (!other.x.empty()) cells += (other.x.size() - 1) * (other.y.size() - 1);
  }
  if (cells <= most_cells_of_all_plates) return true;
  reader.note(field.fault(fmt::format("with plate '{}' the meshes have {} cells; {} is the most",
                                      plate.name, cells, most_cells_of_all_plates),
                          "a coarser mesh"));
  return false;
}

bool lies_on_lines(Map& map, std::string_view key, const std::array<double, 2>& edges,
                   const std::vector<double>& lines, FrameReader& reader) {
  const double low = lines[nearest_line(lines, edges[0])];
  const double high = lines[nearest_line(lines, edges[1])];
  if (edges[1] - edges[0] <= same_place) {
    reader.note(
        map.find(key)->fault("this hole has no width", fmt::format("{}: [0 mm, 45 mm]", key)));
    return false;
  }
  for (const auto& [edge, line] : {std::pair{edges[0], low}, std::pair{edges[1], high}}) {
    if (std::abs(edge - line) <= same_place) continue;
    reader.note(map.find(key)->fault(
        fmt::format("the edge of a hole lies on a mesh line; there is none at {}",
                    length_text(edge)),
        fmt::format("{}: {}", key, pair_text(low, high))));
    return false;
  }
  return true;
}

bool read_holes(Map& map, Plate& plate, FrameReader& reader) {
  const std::optional<Field> field = map.find("holes");
  if (!field) return true;
  if (!field->is(document::Node::Kind::list)) {
    map.note(field->fault("'holes' is a list", "holes: [{x: [0 mm, 45 mm], y: [0 mm, 45 mm]}]"));
    return false;
  }
  bool is_good = true;
  for (const Field& item : field->items()) {
    Map hole(item, *reader.faults, "a hole: {x: [0 mm, 45 mm], y: [0 mm, 45 mm]}");
    const std::optional<Patch> where = need_patch(hole, reader);
    hole.finish();
    const bool is_known = where.has_value() && !plate.x.empty() && !plate.y.empty();
    is_good = is_good && is_known;
    if (!is_known) continue;
    const bool along = lies_on_lines(hole, "x", {where->x0, where->x1}, plate.x, reader);
    const bool across = lies_on_lines(hole, "y", {where->y0, where->y1}, plate.y, reader);
    is_good = is_good && along && across;
    plate.holes.push_back(*where);
  }
  if (is_good && !plate.holes.empty() && !(plate.area() > 0.0)) {
    map.note(field->fault(fmt::format("the holes leave nothing of plate '{}'", plate.name),
                          "smaller holes"));
    return false;
  }
  return is_good;
}

void read_plate(const std::string& name, const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "a plate: origin, x, y, thickness, stiffness, ties");
  Plate plate;
  plate.name = name;
  read_plate_place(map, plate, reader);
  plate.x = need_lines(map, "x", reader);
  plate.y = need_lines(map, "y", reader);
  bool is_sound = !plate.x.empty() && !plate.y.empty() && count_cells(field, plate, reader);
  if (!is_sound) plate.x = plate.y = {};
  is_sound = read_holes(map, plate, reader) && is_sound;
  if (map.has("thickness")) {
    plate.thickness = need_positive(map, "thickness", Kind::length, "thickness: 18 mm", reader);
  }
  plate.stiffness = read_plate_stiffness(map, plate.thickness, reader);
  if (map.has("creep"))
    plate.creep = need_positive(map, "creep", Kind::ratio, "creep: 1.6", reader);
  plate.mass_per_area = not_negative(map, "mass", Kind::mass_per_area, reader).value_or(0.0);
  plate.carries = not_negative(map, "carries", Kind::mass_per_area, reader).value_or(0.0);
  if (const auto level = map.find("tie_level")) {
    plate.tie_level = read_value(*level, Kind::length, reader).value_or(0.0);
  }
  reader.out.model.plates.push_back(std::move(plate));
  reader.plate_is_sound.push_back(is_sound);
  read_plate_parts(map, reader);
  map.finish();
}

}  // namespace

void read_plates(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("plates");
  if (!field) return;
  if (reader.is_plane) {
    reader.note(field->fault("a plane frame has no plates", "plane: false, or leave it out"));
  }
  Map map(*field, *reader.faults,
          "a map of plates: top: {origin, x, y, thickness, stiffness, ties}");
  for (const auto& [name, value] : map.all()) read_plate(name, value, reader);
}

}  // namespace standtrue::model
