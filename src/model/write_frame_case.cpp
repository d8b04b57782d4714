#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "model/frame_reader.hpp"
#include "model/frame_writer.hpp"

namespace standtrue::model {

namespace {

using quantity::Kind;

bool same(const Elastic& a, const Elastic& b) {
  return a.E == b.E && a.G == b.G && a.density == b.density;
}
bool same(const Section& a, const Section& b) {
  return a.A == b.A && a.A_sy == b.A_sy && a.A_sz == b.A_sz && a.I_y == b.I_y && a.I_z == b.I_z &&
         a.J == b.J && a.width == b.width && a.depth == b.depth;
}

const Elastic& value_of(const NamedMaterial& named) { return named.elastic; }
const Section& value_of(const NamedSection& named) { return named.section; }

/// The place of a value among the named ones; a value that is not there gets a name of its own.
template <class Named, class Value>
std::size_t place_among(std::vector<Named>& all, const Value& value, std::string_view stem) {
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (same(value_of(all[i]), value)) return i;
  }
  std::string name;
  std::size_t number = all.size();
  do {
    name = fmt::format("{}{}", stem, ++number);
  } while (std::any_of(all.begin(), all.end(), [&](const Named& n) { return n.name == name; }));
  all.push_back({name, value});
  return all.size() - 1;
}

/// Every material and section by name, and which of them each member has.
struct Named {
  std::vector<NamedMaterial> materials;
  std::vector<NamedSection> sections;
  std::vector<std::pair<std::size_t, std::size_t>> of_member;
};

Named named_properties(const FrameCase& frame_case) {
  Named named{frame_case.materials, frame_case.sections, {}};
  for (const Member& member : frame_case.model.members) {
    named.of_member.emplace_back(place_among(named.materials, member.elastic, "material_"),
                                 place_among(named.sections, member.section, "section_"));
  }
  return named;
}

std::string section_text(const Section& section) {
  FlowMap map;
  Section base;
  const bool is_rectangle = section.width > Length{} && section.depth > Length{};
  if (is_rectangle) {
    base = rectangle(section.width, section.depth);
    const std::string sides =
        exact(section.width, Kind::length) + " x " + exact(section.depth, Kind::length);
    if (same(base, section)) return sides;
    map.add("rectangle", sides);
  }
  const auto add = [&](std::string_view key, const auto& value, const auto& usual, Kind kind) {
    if (!(value == usual)) map.add(key, exact(value, kind));
  };
  add("A", section.A, base.A, Kind::area);
  add("I_y", section.I_y, base.I_y, Kind::second_moment);
  add("I_z", section.I_z, base.I_z, Kind::second_moment);
  add("J", section.J, base.J, Kind::second_moment);
  if (is_rectangle && section.A_sy == Area{} && section.A_sz == Area{}) {
    map.add("shear", "none");
  } else {
    add("A_sy", section.A_sy, base.A_sy, Kind::area);
    add("A_sz", section.A_sz, base.A_sz, Kind::area);
  }
  return map.text();
}

std::string write_properties(const Named& named) {
  std::string text;
  if (!named.materials.empty()) text += "\nmaterials:\n";
  for (const NamedMaterial& material : named.materials) {
    FlowMap map;
    map.add("E", exact(material.elastic.E, Kind::stress));
    map.add("G", exact(material.elastic.G, Kind::stress));
    if (material.elastic.density != Density{}) {
      map.add("density", exact(material.elastic.density, Kind::density));
    }
    text += fmt::format("  {}: {}\n", yaml_text(material.name), map.text());
  }
  if (!named.sections.empty()) text += "sections:\n";
  for (const NamedSection& section : named.sections) {
    text += fmt::format("  {}: {}\n", yaml_text(section.name), section_text(section.section));
  }
  return text;
}

std::string spring_text(const EndSpring& spring, Freedom freedom) {
  if (spring.kind == EndSpring::Kind::free) return "free";
  const Kind kind = stiffness_kind(freedom);
  if (spring.gravity == spring.sway) return quantity::print_exact(spring.gravity, kind);
  FlowMap map;
  map.add("gravity", quantity::print_exact(spring.gravity, kind));
  map.add("sway", quantity::print_exact(spring.sway, kind));
  return map.text();
}

void add_springs(FlowMap& member, std::string_view key, const EndSprings& springs) {
  FlowMap map;
  for (const Freedom freedom : all_freedoms) {
    const EndSpring& spring = springs[static_cast<std::size_t>(freedom)];
    if (spring.kind != EndSpring::Kind::rigid)
      map.add(word_of(freedom), spring_text(spring, freedom));
  }
  if (!map.empty()) member.add(key, map.text());
}

std::string member_text(const Model& model, const Member& member, const Named& named,
                        std::size_t material, std::size_t section) {
  FlowMap map;
  map.add("from", yaml_text(model.nodes[member.start].name));
  map.add("to", yaml_text(model.nodes[member.end].name));
  if (named.materials.size() > 1) map.add("material", yaml_text(named.materials[material].name));
  if (named.sections.size() > 1) map.add("section", yaml_text(named.sections[section].name));
  if (member.depth) map.add("depth", exact(*member.depth));
  if (member.roll != 0.0) map.add("roll", quantity::print_exact(member.roll, Kind::angle));
  if (!is_zero(member.start_offset)) {
    map.add("start_offset", exact(member.start_offset, Kind::length));
  }
  if (!is_zero(member.end_offset)) map.add("end_offset", exact(member.end_offset, Kind::length));
  if (member.carries != LineLoad{}) map.add("carries", exact(member.carries, Kind::line_load));
  add_springs(map, "start", member.start_springs);
  add_springs(map, "end", member.end_springs);
  return map.text();
}

std::string write_skeleton(const Model& model, const Named& named) {
  std::string text = model.nodes.empty() ? "" : "nodes:\n";
  for (const Node& node : model.nodes) {
    text += fmt::format("  {}: {}\n", yaml_text(node.name), exact(node.at, Kind::length));
  }
  if (!model.members.empty()) text += "members:\n";
  for (MemberId m = 0; m < model.members.size(); ++m) {
    const auto [material, section] = named.of_member[m];
    text += fmt::format("  {}: {}\n", yaml_text(model.members[m].name),
                        member_text(model, model.members[m], named, material, section));
  }
  if (!model.ties.empty()) text += "ties:\n";
  for (const Tie& tie : model.ties) {
    FlowMap map;
    map.add("from", yaml_text(model.nodes[tie.a].name));
    map.add("to", yaml_text(model.nodes[tie.b].name));
    for (const Freedom freedom : all_freedoms) {
      const double k = tie.stiffness[static_cast<std::size_t>(freedom)];
      if (k != 0.0) map.add(word_of(freedom), quantity::print_exact(k, stiffness_kind(freedom)));
    }
    text += fmt::format("  {}: {}\n", yaml_text(tie.name), map.text());
  }
  return text;
}

std::string write_masses(const Model& model) {
  std::string text = model.masses.empty() ? "" : "masses:\n";
  for (const PointMass& mass : model.masses) {
    FlowMap map;
    map.add("node", yaml_text(model.nodes[mass.node].name));
    map.add("mass", exact(mass.mass, Kind::mass));
    if (!is_zero(mass.offset)) map.add("offset", exact(mass.offset, Kind::length));
    if (!is_zero(mass.inertia)) map.add("inertia", exact(mass.inertia, Kind::mass_moment));
    text += fmt::format("  {}: {}\n", yaml_text(mass.name), map.text());
  }
  return text;
}

std::string write_bodies(const Model& model) {
  std::string text = model.bodies.empty() ? "" : "bodies:\n";
  for (const Body& body : model.bodies) {
    FlowMap map;
    map.add("mass", exact(body.mass, Kind::mass));
    if (!is_zero(body.inertia)) map.add("inertia", exact(body.inertia, Kind::mass_moment));
    std::string cases;
    for (const CaseId unit : body.unit) {
      cases += (cases.empty() ? "" : ", ") + yaml_text(model.cases[unit].name);
    }
    map.add("unit", "[" + cases + "]");
    text += fmt::format("  {}: {}\n", yaml_text(body.name), map.text());
  }
  return text;
}

/// A block text; the digit after the bar keeps sketches that begin with spaces.
std::string block_text(const std::string& text) {
  std::string out = "|2\n";
  for (std::size_t at = 0; at <= text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string line = text.substr(at, end - at);
    out += (line.empty() ? "" : "  " + line) + "\n";
    at = end + 1;
  }
  return out;
}

std::string write_heading(const FrameCase& frame_case) {
  std::string text = "frame_case: 1\n";
  const std::string& title = frame_case.title.empty() ? frame_case.model.title : frame_case.title;
  if (!title.empty()) text += fmt::format("title: {}\n", yaml_text(title));
  if (!frame_case.about.empty()) text += "about: " + block_text(frame_case.about);
  if (!frame_case.source.empty()) text += fmt::format("source: {}\n", yaml_text(frame_case.source));
  if (ends_with_plane_supports(frame_case.model)) text += "plane: true\n";
  return text;
}

}  // namespace

std::string write_frame_case(const FrameCase& frame_case) {
  const Model& model = frame_case.model;
  const Named named = named_properties(frame_case);
  return write_heading(frame_case) + write_properties(named) + write_skeleton(model, named) +
         write_plates(model) + write_supports(model) + write_masses(model) + write_loads(model) +
         write_bodies(model) +
         (frame_case.divide > 1 ? fmt::format("divide: {}\n", frame_case.divide) : "") +
         write_expectations(frame_case);
}

}  // namespace standtrue::model
