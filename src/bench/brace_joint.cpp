// What the file gives of a brace's joint.
#include "bench/reader.hpp"

namespace standtrue::bench {

namespace {

/// A group with one key that a brace's end has a use for, which it returns: without it, or with
/// another, a fault.
std::optional<Field> only_along_it(Reader& reader, Map& joint, std::string_view group,
                                   std::string_view used, const std::vector<std::string>& others,
                                   const std::string& instead) {
  const auto field = joint.find(group);
  if (!field || !field->is(document::Node::Kind::map)) return std::nullopt;
  Map values(*field, reader.faults, instead);
  bool is_refused = false;
  for (const std::string& key : others) {
    if (const auto other = values.find(key)) {
      reader.note(other->fault(
          fmt::format("'{}' does nothing here: a brace is pinned at its ends", key), instead));
      is_refused = true;
    }
  }
  return is_refused ? values.find(used) : values.need(used, instead);
}

/// False where neither kind nor fasteners are given.
bool check_brace_joint(Reader& reader, const Field& field, const Joint& joint) {
  const std::string instead = "stiffness: {along: 5 kN/mm}";
  Map map(field, reader.faults, instead);
  const auto along = only_along_it(reader, map, "stiffness", "along",
                                   {"bend", "sideways", "twist", "across"}, instead);
  if (along && joint.stiffness.along == quantity::LinearStiffness{}) {
    reader.note(along->fault("a brace whose ends give way freely holds nothing", instead));
  }
  (void)only_along_it(reader, map, "resistance", "shear", {"moment"}, "resistance: {shear: 2 kN}");
  return map.has("kind") || map.has("bolts") || map.has("screws") || map.has("fasteners");
}

}  // namespace

bool read_brace_joint(Reader& reader, Map& map, Brace& brace) {
  Joint joint = joint_of(reader, "bolted lap");
  bool is_fastening_given = false;
  if (const auto field = map.find("joint")) {
    joint = read_joint(reader, *field, joint, true);
    is_fastening_given =
        !field->is(document::Node::Kind::map) || check_brace_joint(reader, *field, joint);
  }
  brace.joint = joint.kind;
  brace.slip = joint.stiffness.along;
  brace.resistance = joint.shear_resistance;
  return is_fastening_given;
}

}  // namespace standtrue::bench
