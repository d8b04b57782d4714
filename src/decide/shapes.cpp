// Numbers in SI.
#include "decide/shapes.hpp"

#include <cmath>

#include "standtrue/solve/plate_response.hpp"

namespace standtrue::decide {

using quantity::in_si;

namespace {

constexpr int stretches = 8;  // that a member is drawn in

bool is_drawn(const model::Part& part) {
  return part.role != model::Role::strip && part.role != model::Role::stem;
}

Place start_of(const model::Model& model, const model::Member& member) {
  const model::Point &node = model.nodes[member.start].at, &off = member.start_offset;
  return {in_si(node.x + off.x), in_si(node.y + off.y), in_si(node.z + off.z)};
}

/// Local components to global ones.
Place global(const model::MemberFrame& frame, double x, double y, double z) {
  const auto& a = frame.axes;
  return {x * a[0].x + y * a[1].x + z * a[2].x, x * a[0].y + y * a[1].y + z * a[2].y,
          x * a[0].z + y * a[1].z + z * a[2].z};
}

void add_member(AxisLine& line, const model::Model& model, std::size_t m,
                const solve::MemberDiagrams& d, const solve::MemberDiagrams* rest) {
  const model::MemberFrame frame = model::member_frame(model, model.members[m]);
  const Place start = start_of(model, model.members[m]);
  const double length = in_si(frame.length);
  const auto value = [&](const solve::Diagram& of, const solve::Diagram* less, double x,
                         bool from_left) {
    return of.at(x, from_left) - (less ? less->at(x, from_left) : 0.0);
  };
  for (int i = 0; i <= stretches; ++i) {
    const double x = length * i / stretches;
    const bool left = i == stretches;
    AxisPoint point;
    point.at = global(frame, x, 0.0, 0.0);
    for (std::size_t k = 0; k < 3; ++k) point.at[k] += start[k];
    point.moved = global(frame, value(d.u, rest ? &rest->u : nullptr, x, left),
                         value(d.v, rest ? &rest->v : nullptr, x, left),
                         value(d.w, rest ? &rest->w : nullptr, x, left));
    // M_y > 0 stretches the +z side, M_z > 0 presses the +y side.
    point.moment = global(frame, 0.0, -value(d.M_z, rest ? &rest->M_z : nullptr, x, left),
                          value(d.M_y, rest ? &rest->M_y : nullptr, x, left));
    line.points.push_back(point);
  }
}

bool is_lying(const model::Plate& plate) { return std::abs(plate.normal()[2]) > 0.99; }

SheetField mesh_of(const model::Model& model, std::size_t p) {
  const model::Plate& plate = model.plates[p];
  SheetField field;
  field.place = model.parts.plate_sheets.at(p);
  field.sheet = model.parts.bench.sheets.at(field.place).name;
  for (const double x : plate.x) field.x.push_back(plate.origin[0] + x);
  for (const double y : plate.y) field.y.push_back(plate.origin[1] + y);
  field.z = plate.origin[2];
  for (std::size_t j = 0; j + 1 < plate.y.size(); ++j) {
    for (std::size_t i = 0; i + 1 < plate.x.size(); ++i) {
      field.has_cell.push_back(plate.has_cell(i, j));
    }
  }
  return field;
}

/// Row 2 of the five of each mesh node is w, along the normal.
void move(SheetField& field, const model::Plate& plate, const solve::PlateMovements& movements) {
  const double up = plate.normal()[2];
  for (std::size_t n = 0; n < plate.lines(); ++n) {
    field.w.push_back(up * movements(static_cast<long>(5 * n + 2), 0));
  }
}

}  // namespace

FrameShape frame_shape(const Bounded& at, std::size_t combination,
                       std::optional<std::size_t> rest) {
  const model::Model& model = *at.idealisation.model;
  FrameShape shape;
  shape.name = model.combinations[combination].name;
  shape.title = model.combinations[combination].title;
  for (const model::Part& part : model.parts.parts) {
    if (!is_drawn(part)) continue;
    AxisLine line{part.name, part.role, {}};
    for (const std::size_t m : part.members) {
      const solve::MemberDiagrams d = solve::diagrams(*at.response, combination, m);
      if (rest) {
        const solve::MemberDiagrams before = solve::diagrams(*at.response, *rest, m);
        add_member(line, model, m, d, &before);
      } else {
        add_member(line, model, m, d, nullptr);
      }
    }
    shape.lines.push_back(std::move(line));
  }
  return shape;
}

std::vector<SheetField> sheet_fields(const Bounded& at, std::size_t combination) {
  const model::Model& model = *at.idealisation.model;
  const auto springs = static_cast<std::size_t>(model.combinations[combination].springs);
  const auto& prepared = at.response->prepared[springs];
  std::vector<SheetField> fields;
  if (!prepared) return fields;
  const solve::Answered one{&at.response->loadings[combination],
                            &*at.response->states[combination]};
  for (std::size_t p = 0; p < model.plates.size(); ++p) {
    const model::Plate& plate = model.plates[p];
    if (!is_lying(plate)) continue;
    SheetField field = mesh_of(model, p);
    const solve::PlateMovements movements = solve::plate_movements(*prepared, p, {&one, 1});
    move(field, plate, movements);
    for (const solve::PlateForces& forces : solve::plate_forces(plate, movements, 0)) {
      field.M_x.push_back(plate.normal()[2] * forces.M_x);
      field.M_y.push_back(plate.normal()[2] * forces.M_y);
    }
    fields.push_back(std::move(field));
  }
  return fields;
}

Swing swing_of(const model::Model& model, const solve::Mode& mode, std::string words) {
  Swing swing{mode.frequency, std::move(words), {}, {}};
  const auto point = [&](model::NodeId node) {
    const model::Point& p = model.nodes[node].at;
    const auto row = static_cast<long>(6 * node);
    return AxisPoint{
        {in_si(p.x), in_si(p.y), in_si(p.z)},
        {mode.displacement(row), mode.displacement(row + 1), mode.displacement(row + 2)},
        {}};
  };
  for (const model::Part& part : model.parts.parts) {
    if (!is_drawn(part) || part.members.empty()) continue;
    AxisLine line{part.name, part.role, {point(model.members[part.members.front()].start)}};
    for (const std::size_t m : part.members) line.points.push_back(point(model.members[m].end));
    swing.lines.push_back(std::move(line));
  }
  for (std::size_t p = 0; p < model.plates.size() && p < mode.plates.size(); ++p) {
    if (!is_lying(model.plates[p])) continue;
    SheetField field = mesh_of(model, p);
    move(field, model.plates[p], mode.plates[p]);
    swing.sheets.push_back(std::move(field));
  }
  return swing;
}

}  // namespace standtrue::decide
