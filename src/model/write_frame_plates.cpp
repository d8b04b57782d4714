// The plates of a frame case, and the loads on them.
#include <fmt/format.h>

#include "model/frame_reader.hpp"
#include "model/frame_writer.hpp"

namespace standtrue::model {

namespace {

using quantity::Kind;

std::string length(double metres) { return quantity::print_exact(metres, Kind::length); }

std::string three(const std::array<double, 3>& v, Kind kind) {
  return flow_list({quantity::print_exact(v[0], kind), quantity::print_exact(v[1], kind),
                    quantity::print_exact(v[2], kind)});
}

std::string lines_text(const std::vector<double>& lines) {
  std::vector<std::string> items;
  for (const double at : lines) items.push_back(length(at));
  return flow_list(items);
}

void add_patch(FlowMap& map, const Patch& patch) {
  map.add("x", flow_list({length(patch.x0), length(patch.x1)}));
  map.add("y", flow_list({length(patch.y0), length(patch.y1)}));
}

std::string patch_text(const Patch& patch) {
  FlowMap map;
  add_patch(map, patch);
  return map.text();
}

std::string stiffness_text(const PlateStiffness& s) {
  FlowMap map;
  const auto add = [&](std::string_view key, double value, Kind kind) {
    map.add(key, quantity::print_exact(value, kind));
  };
  add("A_11", s.A_11, Kind::linear_stiffness);
  add("A_12", s.A_12, Kind::linear_stiffness);
  add("A_22", s.A_22, Kind::linear_stiffness);
  add("A_66", s.A_66, Kind::linear_stiffness);
  add("D_11", s.D_11, Kind::moment);
  add("D_12", s.D_12, Kind::moment);
  add("D_22", s.D_22, Kind::moment);
  add("D_66", s.D_66, Kind::moment);
  add("S_x", s.S_x, Kind::linear_stiffness);
  add("S_y", s.S_y, Kind::linear_stiffness);
  return map.text();
}

std::string hold_text(const PlateHold& hold) {
  std::vector<std::string> held;
  for (std::size_t f = 0; f < hold.freedoms.size(); ++f) {
    if (hold.freedoms[f]) held.push_back(plate_freedom_words()[f]);
  }
  FlowMap map;
  add_patch(map, hold.where);
  map.add("freedoms", flow_list(held));
  return map.text();
}

std::string tie_text(const Model& model, const Plate& plate, const PlateTie& tie) {
  FlowMap map;
  map.add("at", flow_list({length(plate.x[tie.i]), length(plate.y[tie.j])}));
  map.add("node", yaml_text(model.nodes[tie.node].name));
  for (std::size_t k = 0; k < 3; ++k) {
    if (tie.stiffness[k] == 0.0) continue;
    map.add(tie_component_words()[k],
            quantity::print_exact(tie.stiffness[k], Kind::linear_stiffness));
  }
  if (tie.gravity_only) map.add("gravity_only", "yes");
  return map.text();
}

std::string body_text(const PlateBody& body) {
  std::vector<std::string> pads;
  for (const Patch& pad : body.pads) pads.push_back(patch_text(pad));
  FlowMap map;
  if (!body.name.empty()) map.add("name", yaml_text(body.name));
  map.add("pads", flow_list(pads));
  map.add("stiffness", quantity::print_exact(body.stiffness, Kind::linear_stiffness));
  return map.text();
}

/// A list with one item on each line.
template <class Item, class Text>
std::string list_text(std::string_view key, const std::vector<Item>& items, Text text_of) {
  std::string text = items.empty() ? "" : fmt::format("    {}:\n", key);
  for (const Item& item : items) text += fmt::format("      - {}\n", text_of(item));
  return text;
}

std::string plate_text(const Model& model, const Plate& plate) {
  const Plate usual;
  std::string text = fmt::format("  {}:\n", yaml_text(plate.name));
  const auto add = [&](std::string_view key, const std::string& value) {
    text += fmt::format("    {}: {}\n", key, value);
  };
  add("origin", three(plate.origin, Kind::length));
  if (plate.x_axis != usual.x_axis) add("x_axis", three(plate.x_axis, Kind::ratio));
  if (plate.y_axis != usual.y_axis) add("y_axis", three(plate.y_axis, Kind::ratio));
  add("x", lines_text(plate.x));
  add("y", lines_text(plate.y));
  text += list_text("holes", plate.holes, patch_text);
  if (plate.thickness != 0.0) add("thickness", length(plate.thickness));
  add("stiffness", stiffness_text(plate.stiffness));
  if (plate.mass_per_area != 0.0) {
    add("mass", quantity::print_exact(plate.mass_per_area, Kind::mass_per_area));
  }
  if (plate.carries != 0.0) {
    add("carries", quantity::print_exact(plate.carries, Kind::mass_per_area));
  }
  if (plate.creep != usual.creep) add("creep", exact_number(plate.creep));
  if (plate.tie_level != 0.0) add("tie_level", length(plate.tie_level));
  return text + list_text("holds", plate.holds, hold_text) +
         list_text("ties", plate.ties,
                   [&](const PlateTie& tie) { return tie_text(model, plate, tie); }) +
         list_text("bodies", plate.bodies, body_text);
}

}  // namespace

std::string write_plates(const Model& model) {
  std::string text = model.plates.empty() ? "" : "plates:\n";
  for (const Plate& plate : model.plates) text += plate_text(model, plate);
  return text;
}

std::string write_patch_load(const Model& model, const PatchLoad& load) {
  FlowMap map;
  map.add("plate", yaml_text(model.plates[load.plate].name));
  add_patch(map, load.where);
  map.add("force", three(load.force, Kind::force));
  return map.text();
}

}  // namespace standtrue::model
