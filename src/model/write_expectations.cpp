// What a frame case expects, as text.
#include <fmt/format.h>

#include "model/frame_writer.hpp"

namespace standtrue::model {

namespace {

using quantity::Kind;
using Of = Expectation::Of;

void add_member_part(FlowMap& map, const Expectation& e, const Model& model) {
  map.add("member", yaml_text(model.members[e.member].name));
  if (e.of == Of::force) map.add("at", exact(e.at, Kind::length));
  if (e.of == Of::spring) {
    map.add("end", e.at_end ? "end" : "start");
    map.add("freedom", word_of(e.freedom, freedom_words()));
    return;
  }
  map.add("component", word_of(e.component, component_words()));
  if (e.of == Of::extreme) {
    map.add("which", e.which == Expectation::Which::least ? "least" : "greatest");
    if (e.place) map.add("place", exact(*e.place, Kind::length));
  }
  if (e.from_left) map.add("side", "left");
}

void add_subject(FlowMap& map, const Expectation& e, const FrameCase& frame_case) {
  const Model& model = frame_case.model;
  switch (e.of) {
    case Of::displacement:
    case Of::stiffness:
      map.add("node", yaml_text(model.nodes[e.node].name));
      map.add("freedom", word_of(e.freedom, freedom_words()));
      if (e.of == Of::stiffness) {
        const Kind kind = e.freedom >= Freedom::rx ? Kind::moment : Kind::force;
        map.add("force", quantity::print_exact(e.pushed_with, kind));
      }
      break;
    case Of::force:
    case Of::extreme:
    case Of::spring:
      add_member_part(map, e, model);
      break;
    case Of::reaction:
      map.add("support", yaml_text(model.supports[e.support].name));
      break;
    case Of::section:
      map.add("section", yaml_text(frame_case.sections[e.section].name));
      map.add("property", word_of(e.property, property_words()));
      break;
    case Of::plate:
      map.add("plate", yaml_text(model.plates[e.plate].name));
      map.add("at", flow_list({quantity::print_exact(e.on_plate[0], Kind::length),
                               quantity::print_exact(e.on_plate[1], Kind::length)}));
      map.add("component", word_of(e.plate_component, plate_component_words()));
      break;
    case Of::tie:
      map.add("plate", yaml_text(model.plates[e.plate].name));
      map.add("tie", std::to_string(e.tie + 1));
      map.add("component", word_of(e.tie_component, tie_component_words()));
      break;
    case Of::buckling:
    case Of::frequency:
      map.add("mode", std::to_string(e.mode));
      break;
    case Of::refusal:
      map.add("because", e.because);
      break;
  }
}

std::string expectation_text(const Expectation& e, const FrameCase& frame_case) {
  FlowMap map;
  map.add("of", word_of(e.of, expectation_words()));
  if (e.under) map.add("under", yaml_text(loading_name(*e.under, frame_case.model)));
  add_subject(map, e, frame_case);
  if (e.of != Of::refusal) {
    const Kind kind = value_kind(e, frame_case.model);
    map.add("value", quantity::print_exact(e.value, kind));
    if (e.within) map.add("within", exact_number(*e.within));
    if (e.within_absolute) {
      map.add("within_absolute", quantity::print_exact(*e.within_absolute, kind));
    }
    if (e.magnitude) map.add("magnitude", "yes");
  }
  if (!e.why.empty()) map.add("why", yaml_text(e.why));
  if (!e.note.empty()) map.add("note", yaml_text(e.note));
  if (!e.source.empty()) map.add("source", yaml_text(e.source));
  return map.text();
}

}  // namespace

std::string write_expectations(const FrameCase& frame_case) {
  std::string text = frame_case.expectations.empty() ? "" : "expect:\n";
  for (const Expectation& e : frame_case.expectations) {
    text += fmt::format("  - {}\n", expectation_text(e, frame_case));
  }
  return text;
}

}  // namespace standtrue::model
