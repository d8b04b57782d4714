#include <algorithm>

#include "bench/reader.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::bench {
namespace {

using quantity::LinearStiffness;
using quantity::RotationalStiffness;
using reference::Fastening;
using reference::JointKind;

constexpr std::string_view joints_example = "joints: corner brackets";
const std::vector<std::string> places = {"under",      "above", "inside face",
                                         "both faces", "lap",   "end"};

/// The sizes of bracket, gusset or fasteners that the file changes.
void read_build(Reader& reader, Map& map, JointKind& kind) {
  if (const auto v = few(reader, map, "pieces")) kind.pieces = *v;
  if (const auto v = size(reader, map, "leg")) kind.leg = *v;
  if (const auto v = size(reader, map, "width")) kind.width = *v;
  if (const auto v = positive_of<Length>(reader, map, "thickness", Kind::length)) {
    kind.thickness = *v;
  }
  if (const auto v = map.yes_no("ribbed")) kind.ribbed = *v;
  if (const auto v = few(reader, map, "fasteners")) kind.fasteners = *v;
  if (const auto v = few(reader, map, "rows")) kind.rows = *v;
  if (const auto v = size(reader, map, "first")) kind.first = *v;
  if (const auto v = size(reader, map, "pitch")) kind.pitch = *v;
  if (const auto v = size(reader, map, "radius")) kind.radius = *v;
  if (const auto v = size_or_zero(reader, map, "clearance")) kind.clearance = *v;
}

/// `screws: 5 x 40 mm` or `bolts: M10`.
void read_fasteners(Reader& reader, Map& map, JointKind& kind) {
  if (const auto field = map.find("screws")) {
    if (const auto text = text_of(reader, *field, "screws: 5 x 40 mm")) {
      const auto pair = quantity::parse_pair(*text);
      if (!pair) {
        reader.note(field->fault(pair.error()));
      } else {
        const Length diameter = std::min((*pair)[0], (*pair)[1]);
        if (reader.tables.screw(diameter) == nullptr) {
          reader.note(field->fault(fmt::format("no screw of {} is listed", say(diameter, reader)),
                                   "screws: 5 x 40 mm"));
        }
        kind.fastener_diameter = diameter;
        kind.fastener_length = std::max((*pair)[0], (*pair)[1]);
      }
    }
  }
  if (const auto field = map.find("bolts")) {
    if (const auto text = text_of(reader, *field, "bolts: M8")) {
      if (const auto* bolt = reader.tables.bolt(*text)) {
        kind.fastener_diameter = bolt->diameter;
      } else {
        std::vector<std::string> known;
        for (const auto& b : reader.tables.bolts) known.push_back(b.key);
        unknown_word(reader, *field, *text, "bolt", known, "M8");
      }
    }
  }
}

/// Screws through steel or board want some wood behind it, and are of a length that is sold.
void check_screw_length(Reader& reader, Map& map, const JointKind& kind) {
  const bool through_plate =
      kind.fastening == Fastening::bracket || kind.fastening == Fastening::gusset;
  const auto screws = map.find("screws");
  if (kind.fastener_length > metres(1.0)) {
    reader.note(
        (screws ? *screws : map.field()).fault("no screw is longer than 1 m", "screws: 5 x 40 mm"));
  } else if (through_plate && kind.thickness >= kind.fastener_length) {
    const auto thickness = map.find("thickness");
    const Field& field = thickness ? *thickness : screws ? *screws : map.field();
    reader.note(
        field.fault(fmt::format("{} of plate leave nothing in the wood of screws {} long",
                                say(kind.thickness, reader), say(kind.fastener_length, reader)),
                    "{thickness: 3 mm, screws: 5 x 40 mm}"));
  }
}

bool read_stiffness(Reader& reader, Map& map, Joint& joint) {
  const auto field = map.find("stiffness");
  if (!field) return false;
  Map values(*field, reader.faults, "stiffness: {bend: 5 kN m/rad, along: 10 kN/mm}");
  const auto turning = [&](std::string_view key, std::optional<RotationalStiffness>& value) {
    if (const auto v = positive_of<RotationalStiffness>(reader, values, key,
                                                        Kind::rotational_stiffness, true)) {
      value = *v;
    }
  };
  const auto moving = [&](std::string_view key, std::optional<LinearStiffness>& value) {
    if (const auto v =
            positive_of<LinearStiffness>(reader, values, key, Kind::linear_stiffness, true)) {
      value = *v;
    }
  };
  turning("bend", joint.stiffness.bend);
  turning("sideways", joint.stiffness.sideways);
  turning("twist", joint.stiffness.twist);
  moving("along", joint.stiffness.along);
  moving("across", joint.stiffness.across);
  values.finish();
  return true;
}

void read_resistance(Reader& reader, Map& map, Joint& joint) {
  const auto field = map.find("resistance");
  if (!field) return;
  Map values(*field, reader.faults, "resistance: {moment: 300 N m, shear: 2 kN}");
  if (const auto v = positive_of<Moment>(reader, values, "moment", Kind::moment)) {
    joint.moment_resistance = *v;
  }
  if (const auto v = positive_of<Force>(reader, values, "shear", Kind::force)) {
    joint.shear_resistance = *v;
  }
  values.finish();
}

/// The kind by its name, keeping nothing of the usual joint.
bool take_joint_kind(Reader& reader, const Field& field, const std::string& name, Joint& joint) {
  const JointKind* kind = reader.tables.joint_kind(name);
  if (kind == nullptr) {
    unknown_word(reader, field, name, "joint", reader.tables.joint_names(), "corner brackets");
    return false;
  }
  joint = Joint{.kind = *kind, .place = kind->place};
  return true;
}

}  // namespace

Joint joint_of(Reader& reader, std::string_view kind) {
  const JointKind* known = reader.tables.joint_kind(kind);
  expects(known != nullptr, "joint_of: the records know no such joint");
  return Joint{.kind = *known, .place = known->place};
}

Joint read_joint(Reader& reader, const Field& field, const Joint& usual, bool keeps_usual_kind) {
  Joint joint = usual;
  if (!field.is(document::Node::Kind::map)) {
    if (const auto name = text_of(reader, field, joints_example)) {
      take_joint_kind(reader, field, *name, joint);
    }
    return joint;
  }
  Map map(field, reader.faults, joints_example);
  const auto kind = map.find("kind");
  if (kind) {
    if (const auto name = text_of(reader, *kind, "kind: corner brackets")) {
      take_joint_kind(reader, *kind, *name, joint);
    }
  }
  const bool own = read_stiffness(reader, map, joint);
  if (own && !kind && !keeps_usual_kind) {  // nothing is known of its build
    JointKind given = joint_of(reader, "pinned").kind;
    given.key = "own values";
    joint.kind = given;
    joint.place = given.place;
  }
  read_resistance(reader, map, joint);
  if (const auto word = map.word("place", places)) {
    joint.place = *word;
    joint.kind.place = *word;
  }
  read_build(reader, map, joint.kind);
  read_fasteners(reader, map, joint.kind);
  check_screw_length(reader, map, joint.kind);
  map.finish();
  return joint;
}

void read_default_joint(Reader& reader, Map& top) {
  reader.joint = joint_of(reader, "corner brackets");
  reader.joint_place = top.find("joints");
  if (reader.joint_place) {
    reader.joint = read_joint(reader, *reader.joint_place, reader.joint);
  } else {
    reader.assume("one plain corner bracket at each rail end: the file names no joints");
  }
}

Joint bearer_joint(Reader& reader, Map& map) {
  const Fastening usual = reader.joint.kind.fastening;
  Joint joint = reader.joint;
  if (const auto field = map.find("joint")) return read_joint(reader, *field, joint);
  if (usual != Fastening::bracket && usual != Fastening::end_grain_screws) {
    joint = joint_of(reader, "corner brackets");
    reader.assume("corner brackets at the ends of the bearers");
  }
  if (joint.kind.fastening == Fastening::bracket) {
    // Under a bearer as deep as its rail a bracket would find nothing to be screwed to.
    joint.kind.pieces = 1;
    joint.kind.place = joint.place = "inside face";
  }
  return joint;
}

bool is_lapped(const Joint& joint) {
  return joint.kind.fastening == Fastening::bolts || joint.kind.fastening == Fastening::lap_screws;
}

}  // namespace standtrue::bench
