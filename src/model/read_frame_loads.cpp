// Masses, load cases and combinations of a frame case.
#include <algorithm>
#include <cmath>
#include <string>

#include "model/frame_plates.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

void read_mass(const std::string& name, const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "a mass: node, mass, offset, inertia");
  PointMass mass;
  mass.name = name;
  mass.node = need_name(map, "node", names_of(reader.out.model.nodes),
                        fmt::format("mass '{}' sits on node", name), "nodes", "node: A", reader)
                  .value_or(0);
  mass.mass = quantity::kilograms(need_positive(map, "mass", Kind::mass, "mass: 40 kg", reader));
  mass.offset = find_vector<Length>(map, "offset", Kind::length, reader).value_or(Point{});
  mass.inertia = find_vector<MassMoment>(map, "inertia", Kind::mass_moment, reader)
                     .value_or(Vector<MassMoment>{});
  if (mass.inertia.x < MassMoment{} || mass.inertia.y < MassMoment{} ||
      mass.inertia.z < MassMoment{}) {
    map.note(field.fault(fmt::format("mass '{}' has a negative inertia", name),
                         "inertia: [1 kg m2, 1 kg m2, 0 kg m2]"));
  }
  map.finish();
  reader.out.model.masses.push_back(std::move(mass));
}

/// The force and the moment of a load; one of them must be there.
struct Wrench {
  ForceVector force;
  MomentVector moment;
};
Wrench read_wrench(Map& map, FrameReader& reader) {
  if (!map.has("force") && !map.has("moment")) {
    map.note(map.field().fault("this load has neither a force nor a moment",
                               "force: [0 N, 0 N, -100 N]"));
  }
  return {find_vector<Force>(map, "force", Kind::force, reader).value_or(ForceVector{}),
          find_vector<Moment>(map, "moment", Kind::moment, reader).value_or(MomentVector{})};
}

void read_node_load(Map& map, LoadCase& load_case, FrameReader& reader) {
  NodeLoad load;
  load.node = need_name(map, "node", names_of(reader.out.model.nodes), "this load acts on node",
                        "nodes", "node: A", reader)
                  .value_or(0);
  const Wrench wrench = read_wrench(map, reader);
  load.force = wrench.force;
  load.moment = wrench.moment;
  load.offset = find_vector<Length>(map, "offset", Kind::length, reader).value_or(Point{});
  load_case.node_loads.push_back(load);
}

std::optional<Length> read_station(Map& map, std::string_view key, MemberId member,
                                   FrameReader& reader) {
  const std::optional<Field> field = map.find(key);
  if (!field) return std::nullopt;
  const auto at = read_value(*field, Kind::length, reader);
  if (!at) return std::nullopt;
  return station(*field, key, *at, member, reader);
}

void read_point_load(Map& map, MemberId member, LoadCase& load_case, FrameReader& reader) {
  MemberPointLoad load;
  load.member = member;
  load.at = read_station(map, "at", member, reader).value_or(Length{});
  const Wrench wrench = read_wrench(map, reader);
  load.force = wrench.force;
  load.moment = wrench.moment;
  load_case.point_loads.push_back(load);
}

void read_line_load(Map& map, MemberId member, LoadCase& load_case, FrameReader& reader) {
  MemberLineLoad load;
  load.member = member;
  const Length whole = quantity::metres(
      member < reader.flexible_length.size() ? reader.flexible_length[member].value_or(0.0) : 0.0);
  const auto from = read_station(map, "from", member, reader);
  const auto to = read_station(map, "to", member, reader);
  const bool places_known =
      map.has("from") == from.has_value() && map.has("to") == to.has_value() && whole > Length{};
  load.from = from.value_or(Length{});
  load.to = to.value_or(whole);
  if (places_known && !(load.from < load.to)) {
    map.note(map.field().fault("this line load ends where it starts or before", "from below to"));
  }
  load.at_from =
      find_vector<LineLoad>(map, "line", Kind::line_load, reader).value_or(LineLoadVector{});
  load.at_to =
      find_vector<LineLoad>(map, "line_end", Kind::line_load, reader).value_or(load.at_from);
  load_case.line_loads.push_back(load);
}

void read_member_load(Map& map, LoadCase& load_case, FrameReader& reader) {
  const auto found = need_name(map, "member", names_of(reader.out.model.members),
                               "this load acts on member", "members", "member: AB", reader);
  const MemberId member = found.value_or(reader.out.model.members.size());
  const bool is_point = map.has("at"), is_line = map.has("line");
  if (is_point == is_line) {
    map.note(
        map.field().fault("a load on a member has either 'at' (with force or moment) or 'line'",
                          "{member: AB, at: 500 mm, force: [0 N, 0 N, -100 N]}"));
    for (const std::string_view key : {"force", "moment", "from", "to", "line_end", "offset"}) {
      static_cast<void>(map.has(key));  // known words; one fault is enough
    }
    return;
  }
  if (is_point) {
    read_point_load(map, member, load_case, reader);
  } else {
    read_line_load(map, member, load_case, reader);
  }
}

void read_patch_load(Map& map, LoadCase& load_case, FrameReader& reader) {
  PatchLoad load;
  const auto plate = need_name(map, "plate", names_of(reader.out.model.plates),
                               "this load acts on plate", "plates", "plate: top", reader);
  load.plate = plate.value_or(0);
  load.where = plate ? need_patch_on(map, "this load", *plate, reader)
                     : need_patch(map, reader).value_or(Patch{});
  if (const auto force = map.need("force", "force: [0 N, 0 N, -100 N]")) {
    load.force = read_three(*force, Kind::force, reader).value_or(load.force);
  }
  load_case.patch_loads.push_back(load);
}

void read_load(const Field& field, LoadCase& load_case, FrameReader& reader) {
  Map map(field, *reader.faults, "a load: node, member or plate, force, moment, at, line");
  if (!field.is(document::Node::Kind::map)) return;
  const bool on_node = map.has("node"), on_member = map.has("member"), on_plate = map.has("plate");
  if (on_node + on_member + on_plate != 1) {
    map.note(field.fault("a load acts on one of these: a node, a member, a plate",
                         "{node: A, force: [0 N, 0 N, -100 N]}"));
    return;
  }
  if (on_node) {
    read_node_load(map, load_case, reader);
  } else if (on_member) {
    read_member_load(map, load_case, reader);
  } else {
    read_patch_load(map, load_case, reader);
  }
  map.finish();
}

template <class Enumerator>
Enumerator read_enumerator(Map& map, std::string_view key, const std::vector<std::string>& words,
                           Enumerator usual) {
  const std::optional<std::string> word = map.word(key, words);
  if (!word) return usual;
  const auto at = std::find(words.begin(), words.end(), *word);
  return static_cast<Enumerator>(at - words.begin());
}

const std::vector<std::string>& spring_set_words() {
  static const std::vector<std::string> words = {"gravity", "sway"};
  return words;
}

/// Keys of a combination that can not be the name of a case.
const std::vector<std::string>& combination_keys() {
  static const std::vector<std::string> words = {"title",       "purpose",      "duration",
                                                 "springs",     "second_order", "lean_along",
                                                 "lean_across", "slides",       "stiffness_over"};
  return words;
}

void read_case(const std::string& name, const Field& field, FrameReader& reader) {
  LoadCase load_case;
  load_case.name = name;
  Map map(field, *reader.faults, "a load case: self_weight, weight, duration, loads");
  load_case.title = map.text("title").value_or("");
  load_case.duration = read_enumerator(map, "duration", duration_words(), Duration::permanent);
  load_case.self_weight = map.yes_no("self_weight").value_or(false);
  load_case.weight = map.yes_no("weight").value_or(false);
  if (const std::optional<Field> loads = map.find("loads")) {
    if (loads->is(document::Node::Kind::list)) {
      for (const Field& load : loads->items()) read_load(load, load_case, reader);
    } else {
      map.note(loads->fault("'loads' is a list", "loads: [{node: A, force: [0 N, 0 N, -100 N]}]"));
    }
  }
  map.finish();
  const auto& reserved = combination_keys();
  if (std::find(reserved.begin(), reserved.end(), name) != reserved.end()) {
    map.note(
        field.fault(fmt::format("a load case can not be called '{}', a word of combinations", name),
                    name + "_case"));
  }
  reader.out.model.cases.push_back(std::move(load_case));
}

void read_combination(const std::string& name, const Field& field, FrameReader& reader) {
  Model& model = reader.out.model;
  Combination combination;
  combination.name = name;
  Map map(field, *reader.faults, "a combination: factors of cases, {dead: 1.35, live: 1.5}");
  combination.title = map.text("title").value_or("");
  combination.purpose = read_enumerator(map, "purpose", purpose_words(), Purpose::as_given);
  combination.springs = read_enumerator(map, "springs", spring_set_words(), SpringSet::gravity);
  combination.second_order = map.yes_no("second_order").value_or(false);
  combination.slides = map.yes_no("slides").value_or(false);
  const auto lean = [&](std::string_view key) {
    const std::optional<Field> slope = map.find(key);
    if (slope && !combination.second_order) {
      map.note(slope->fault("a lean counts in second order only", "second_order: yes"));
    }
    return slope ? read_value(*slope, Kind::slope, reader).value_or(0.0) : 0.0;
  };
  combination.lean = {lean("lean_along"), lean("lean_across")};
  if (map.has("stiffness_over")) {
    combination.stiffness_over =
        need_positive(map, "stiffness_over", Kind::ratio, "stiffness_over: 1.3", reader);
  }
  const std::vector<std::string> cases = names_of(model.cases);
  const std::vector<std::string>& own = combination_keys();
  Duration shortest = Duration::permanent;
  for (const auto& [key, value] : map.all()) {
    if (std::find(own.begin(), own.end(), key) != own.end()) continue;
    const auto which = std::find(cases.begin(), cases.end(), key);
    if (which == cases.end()) {
      const std::string near = quantity::nearest(key, cases);
      map.note(value.fault(
          fmt::format("combination '{}' has a factor for '{}', which is not in cases", name, key),
          near.empty() ? "one of: " + listed(cases) : near));
      continue;
    }
    const auto factor = read_value(value, Kind::ratio, reader);
    const auto place = static_cast<CaseId>(which - cases.begin());
    combination.terms.push_back({place, factor.value_or(1.0)});
    shortest = std::max(shortest, model.cases[place].duration);
  }
  combination.duration = read_enumerator(map, "duration", duration_words(), shortest);
  if (std::find(cases.begin(), cases.end(), name) != cases.end()) {
    map.note(field.fault(fmt::format("'{}' is already the name of a load case", name),
                         "another name for the combination"));
  }
  model.combinations.push_back(std::move(combination));
}

}  // namespace

void read_masses(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("masses");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of masses: lathe: {node: A, mass: 40 kg}");
  for (const auto& [name, value] : map.all()) read_mass(name, value, reader);
}

void read_cases(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("cases");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of load cases: live: {loads: [...]}");
  for (const auto& [name, value] : map.all()) read_case(name, value, reader);
}

void read_combinations(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("combinations");
  if (!field) return;
  Map map(*field, *reader.faults, "a map of combinations: all: {dead: 1.35, live: 1.5}");
  for (const auto& [name, value] : map.all()) read_combination(name, value, reader);
}

}  // namespace standtrue::model
