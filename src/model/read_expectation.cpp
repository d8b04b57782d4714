// What a frame case expects.
#include <algorithm>
#include <string>

#include "model/frame_plates.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;
using Of = Expectation::Of;

template <class Enumerator>
Enumerator need_word(Map& map, std::string_view key, const std::vector<std::string>& words,
                     std::string_view example) {
  if (!map.need(key, example)) return {};
  const std::optional<std::string> word = map.word(key, words);
  if (!word) return {};
  return static_cast<Enumerator>(std::find(words.begin(), words.end(), *word) - words.begin());
}

void read_under(Map& map, Expectation& e, FrameReader& reader) {
  const Model& model = reader.out.model;
  std::vector<std::string> loadings = names_of(model.cases);
  const std::size_t n_cases = loadings.size();
  for (const Combination& combination : model.combinations) loadings.push_back(combination.name);
  const auto which = need_name(map, "under", loadings, "this expects an answer under",
                               "cases or combinations", "under: live", reader);
  if (!which) return;
  const bool is_combination = *which >= n_cases;
  e.under = LoadingRef{is_combination, is_combination ? *which - n_cases : *which};
}

void read_node(Map& map, Expectation& e, FrameReader& reader) {
  e.node = need_name(map, "node", names_of(reader.out.model.nodes),
                     "this expects an answer at node", "nodes", "node: A", reader)
               .value_or(0);
}

/// The member; nothing if it is not known.
std::optional<MemberId> read_member_ref(Map& map, Expectation& e, FrameReader& reader) {
  const auto member =
      need_name(map, "member", names_of(reader.out.model.members),
                "this expects an answer of member", "members", "member: AB", reader);
  e.member = member.value_or(0);
  return member;
}

Freedom read_freedom(Map& map) {
  return need_word<Freedom>(map, "freedom", freedom_words(), "freedom: z");
}

Expectation::Component read_component(Map& map) {
  return need_word<Expectation::Component>(map, "component", component_words(), "component: M_y");
}

std::optional<Length> read_place_along(Map& map, std::string_view key,
                                       std::optional<MemberId> member, FrameReader& reader) {
  const std::optional<Field> field = map.find(key);
  if (!field) return std::nullopt;
  const auto at = read_value(*field, Kind::length, reader);
  if (!at || !member) return std::nullopt;
  return station(*field, key, *at, *member, reader);
}

void read_force(Map& map, Expectation& e, FrameReader& reader) {
  const auto member = read_member_ref(map, e, reader);
  static_cast<void>(map.need("at", "at: 750 mm"));
  e.at = read_place_along(map, "at", member, reader).value_or(Length{});
  e.component = read_component(map);
  if (const auto side = map.word("side", {"left", "right"})) e.from_left = *side == "left";
}

void read_extreme(Map& map, Expectation& e, FrameReader& reader) {
  const auto member = read_member_ref(map, e, reader);
  e.component = read_component(map);
  e.which = need_word<Expectation::Which>(map, "which", {"least", "greatest"}, "which: least");
  e.place = read_place_along(map, "place", member, reader);
}

void read_spring(Map& map, Expectation& e, FrameReader& reader) {
  const auto member = read_member_ref(map, e, reader);
  e.at_end = need_word<int>(map, "end", {"start", "end"}, "end: start") == 1;
  e.freedom = read_freedom(map);
  if (!member) return;
  const Member& m = reader.out.model.members[*member];
  const EndSprings& springs = e.at_end ? m.end_springs : m.start_springs;
  if (springs[static_cast<std::size_t>(e.freedom)].kind != EndSpring::Kind::elastic) {
    map.note(map.field().fault(fmt::format("member '{}' has no spring {} at its {}", m.name,
                                           word_of(e.freedom), e.at_end ? "end" : "start"),
                               "the end and the freedom of a spring"));
  }
}

void read_stiffness(Map& map, Expectation& e, FrameReader& reader) {
  read_node(map, e, reader);
  e.freedom = read_freedom(map);
  const Kind kind = is_rotation(e.freedom) ? Kind::moment : Kind::force;
  if (const auto field = map.need("force", "force: 1000 N")) {
    e.pushed_with = read_value(*field, kind, reader).value_or(0.0);
  }
}

/// The plate; nothing if it is not known.
std::optional<std::size_t> read_plate_ref(Map& map, Expectation& e, FrameReader& reader) {
  const auto plate = need_name(map, "plate", names_of(reader.out.model.plates),
                               "this expects an answer of plate", "plates", "plate: top", reader);
  e.plate = plate.value_or(0);
  return plate;
}

void read_on_plate(Map& map, Expectation& e, FrameReader& reader) {
  const auto plate = read_plate_ref(map, e, reader);
  const auto at = need_place(map, "at: [450 mm, 300 mm]", reader);
  e.on_plate = at.value_or(e.on_plate);
  e.plate_component = need_word<Expectation::PlateComponent>(
      map, "component", plate_component_words(), "component: w");
  if (!plate || !at || !reader.plate_is_sound[*plate]) return;
  must_lie_on(*map.find("at"), {(*at)[0], (*at)[0], (*at)[1], (*at)[1]}, "this place",
              reader.out.model.plates[*plate], reader);
}

void read_of_tie(Map& map, Expectation& e, FrameReader& reader) {
  const auto plate = read_plate_ref(map, e, reader);
  e.tie_component = need_word<Expectation::TieComponent>(map, "component", tie_component_words(),
                                                         "component: normal");
  const auto field = map.need("tie", "tie: 1");
  const auto number = field ? document::read_count(*field, *reader.faults) : std::nullopt;
  if (!plate || !number) return;
  const Plate& p = reader.out.model.plates[*plate];
  const std::size_t n = p.ties.size();
  if (*number >= 1 && static_cast<std::size_t>(*number) <= n) {
    e.tie = static_cast<std::size_t>(*number) - 1;
    return;
  }
  map.note(field->fault(n == 0
                            ? fmt::format("plate '{}' has no ties", p.name)
                            : fmt::format("plate '{}' has no tie {}: its ties count from 1 to {}",
                                          p.name, *number, n),
                        n == 0 ? "of: plate" : "tie: 1"));
}

/// The word that decides of which kind the value is: `of` does, or the freedom or component.
bool is_value_kind_known(Map& map, const Expectation& e, const FrameReader& reader) {
  const auto is_word = [&](std::string_view key, const std::vector<std::string>& words) {
    const std::optional<Field> field = map.find(key);
    return field && std::find(words.begin(), words.end(), field->text()) != words.end();
  };
  switch (e.of) {
    case Of::displacement:
    case Of::stiffness:
    case Of::spring:
      return is_word("freedom", freedom_words());
    case Of::force:
    case Of::extreme:
      return is_word("component", component_words());
    case Of::section:
      return is_word("property", property_words());
    case Of::reaction:
      return e.support < reader.out.model.supports.size();
    case Of::plate:
      return is_word("component", plate_component_words());
    case Of::tie:
    case Of::buckling:
    case Of::frequency:
      return true;
    case Of::refusal:
      break;
  }
  return false;
}

void read_mode(Map& map, Expectation& e, FrameReader& reader) {
  const std::optional<Field> field = map.find("mode");
  if (!field) return;
  const auto mode = document::read_count(*field, *reader.faults);
  if (!mode) return;
  constexpr int most = 100;
  if (*mode < 1 || *mode > most) {
    map.note(field->fault("modes count from 1 to 100, the lowest first", "mode: 1"));
    return;
  }
  e.mode = *mode;
}

/// The keys that belong to one kind of expectation.
void read_subject(Map& map, Expectation& e, FrameReader& reader) {
  if (e.of != Of::section && (e.of != Of::frequency || map.has("under"))) {
    read_under(map, e, reader);
  }
  switch (e.of) {
    case Of::displacement:
      read_node(map, e, reader);
      e.freedom = read_freedom(map);
      break;
    case Of::force:
      read_force(map, e, reader);
      break;
    case Of::extreme:
      read_extreme(map, e, reader);
      break;
    case Of::reaction:
      e.support = need_name(map, "support", names_of(reader.out.model.supports),
                            "this expects the force of support", "supports", "support: A.z", reader)
                      .value_or(reader.out.model.supports.size());
      break;
    case Of::stiffness:
      read_stiffness(map, e, reader);
      break;
    case Of::spring:
      read_spring(map, e, reader);
      break;
    case Of::section:
      e.section = need_name(map, "section", names_of(reader.out.sections),
                            "this expects a value of section", "sections", "section: rail", reader)
                      .value_or(0);
      e.property =
          need_word<Expectation::Property>(map, "property", property_words(), "property: J");
      break;
    case Of::plate:
      read_on_plate(map, e, reader);
      break;
    case Of::tie:
      read_of_tie(map, e, reader);
      break;
    case Of::buckling:
    case Of::frequency:
      read_mode(map, e, reader);
      break;
    case Of::refusal:
      if (map.need("because", "because: mechanism")) {
        e.because = map.word("because", refusal_words()).value_or("");
      }
      break;
  }
}

void read_expected_value(Map& map, Expectation& e, FrameReader& reader) {
  const auto field = map.need("value", "value: 12 mm");
  e.within = not_negative(map, "within", Kind::ratio, reader);
  const bool has_absolute = map.has("within_absolute");
  if (!map.has("within") && !has_absolute) {
    map.note(map.field().fault("this expectation has no tolerance", "within: 1e-6"));
  }
  if (field && is_value_kind_known(map, e, reader)) {
    const Kind kind = value_kind(e, reader.out.model);
    const std::optional<double> value = read_value(*field, kind, reader);
    e.value = value.value_or(0.0);
    e.within_absolute = not_negative(map, "within_absolute", kind, reader);
    if (value == 0.0 && e.within && !has_absolute) {
      map.note(field->fault("a tolerance relative to zero can never be met",
                            fmt::format("value: {}, within_absolute: {}", field->text(),
                                        quantity::print_exact(1e-9, kind))));
    }
  }
  e.magnitude = map.yes_no("magnitude").value_or(false);
}

void read_expectation(const Field& field, FrameReader& reader) {
  Map map(field, *reader.faults, "an expectation: of, under, value, within");
  if (!field.is(document::Node::Kind::map)) return;
  Expectation e;
  e.position = field.node().at;
  if (!map.need("of", "of: displacement")) return;
  const auto word = map.word("of", expectation_words());
  if (!word) return;
  const auto& words = expectation_words();
  e.of = static_cast<Of>(std::find(words.begin(), words.end(), *word) - words.begin());
  read_subject(map, e, reader);
  if (e.of != Of::refusal) read_expected_value(map, e, reader);
  e.source = map.text("source").value_or("");
  e.note = map.text("note").value_or("");
  e.why = map.text("why").value_or("");
  map.finish();
  reader.out.expectations.push_back(std::move(e));
}

}  // namespace

void read_expectations(Map& top, FrameReader& reader) {
  const std::optional<Field> field = top.find("expect");
  if (!field) return;
  if (!field->is(document::Node::Kind::list)) {
    reader.note(field->fault("'expect' is a list", "expect: [{of: reaction, ...}]"));
    return;
  }
  for (const Field& item : field->items()) read_expectation(item, reader);
}

}  // namespace standtrue::model
