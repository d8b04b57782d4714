#include <fmt/format.h>

#include <type_traits>

#include "model/frame_reader.hpp"
#include "model/frame_writer.hpp"
#include "standtrue/model/frame_case.hpp"

namespace standtrue::model {

namespace {

quantity::Kind kind_of(Expectation::Component component) {
  using Component = Expectation::Component;
  switch (component) {
    case Component::N:
    case Component::V_y:
    case Component::V_z:
      return quantity::Kind::force;
    case Component::T:
    case Component::M_y:
    case Component::M_z:
      return quantity::Kind::moment;
    default:
      return quantity::Kind::length;
  }
}

quantity::Kind kind_of(Expectation::PlateComponent component) {
  using Component = Expectation::PlateComponent;
  switch (component) {
    case Component::u:
    case Component::v:
    case Component::w:
      return quantity::Kind::length;
    case Component::rx:
    case Component::ry:
      return quantity::Kind::angle;
    case Component::M_x:
    case Component::M_y:
    case Component::M_xy:
      return quantity::Kind::moment_per_length;
    default:
      return quantity::Kind::line_load;
  }
}

}  // namespace

const std::vector<std::string>& freedom_words() {
  static const std::vector<std::string> words = {"x", "y", "z", "rx", "ry", "rz"};
  return words;
}

const std::vector<std::string>& component_words() {
  static const std::vector<std::string> words = {"N",   "V_y", "V_z", "T", "M_y",
                                                 "M_z", "u",   "v",   "w"};
  return words;
}

const std::vector<std::string>& property_words() {
  static const std::vector<std::string> words = {"A", "A_sy", "A_sz", "I_y", "I_z", "J"};
  return words;
}

const std::vector<std::string>& plate_component_words() {
  static const std::vector<std::string> words = {"u",    "v",   "w",   "rx",   "ry",  "N_x", "N_y",
                                                 "N_xy", "M_x", "M_y", "M_xy", "Q_x", "Q_y"};
  return words;
}

const std::vector<std::string>& tie_component_words() {
  static const std::vector<std::string> words = {"x", "y", "normal"};
  return words;
}

const std::vector<std::string>& duration_words() {
  static const std::vector<std::string> words = {"permanent", "long_term", "medium_term",
                                                 "short_term", "instantaneous"};
  return words;
}

const std::vector<std::string>& purpose_words() {
  static const std::vector<std::string> words = {"as_given", "strength",  "service",
                                                 "sway",     "allowable", "test"};
  return words;
}

const std::vector<std::string>& refusal_words() {
  static const std::vector<std::string> words = {
      "mechanism",    "loose_part", "ill_conditioned", "tips",           "contact_unsettled",
      "audit_failed", "slides",     "buckles",         "modes_unsettled"};
  return words;
}

const std::vector<std::string>& expectation_words() {
  static const std::vector<std::string> words = {
      "displacement", "force", "extreme", "reaction", "stiffness", "spring",
      "section",      "plate", "tie",     "refusal",  "buckling",  "frequency"};
  return words;
}

quantity::Kind value_kind(const Expectation& expectation, const Model& model) {
  using Of = Expectation::Of;
  using quantity::Kind;
  const bool turns = is_rotation(expectation.freedom);
  switch (expectation.of) {
    case Of::displacement:
    case Of::spring:
      return turns ? Kind::angle : Kind::length;
    case Of::force:
    case Of::extreme:
      return kind_of(expectation.component);
    case Of::reaction:
      return model.supports.at(expectation.support).rotation ? Kind::moment : Kind::force;
    case Of::stiffness:
      return turns ? Kind::rotational_stiffness : Kind::linear_stiffness;
    case Of::section: {
      using Property = Expectation::Property;
      const bool is_area = expectation.property == Property::A ||
                           expectation.property == Property::A_sy ||
                           expectation.property == Property::A_sz;
      return is_area ? Kind::area : Kind::second_moment;
    }
    case Of::plate:
      return kind_of(expectation.plate_component);
    case Of::tie:
      return Kind::force;
    case Of::frequency:
      return Kind::speed;
    case Of::buckling:
    case Of::refusal:
      break;
  }
  return Kind::ratio;
}

std::string loading_name(const LoadingRef& loading, const Model& model) {
  return loading.is_combination ? model.combinations.at(loading.place).name
                                : model.cases.at(loading.place).name;
}

std::string describe(const Expectation& expectation, const FrameCase& frame_case) {
  using Of = Expectation::Of;
  const Expectation& e = expectation;
  const Model& model = frame_case.model;
  const std::string under =
      e.under ? fmt::format(" under {}", loading_name(*e.under, model)) : std::string();
  const auto node = [&] { return model.nodes.at(e.node).name; };
  const auto member = [&] { return model.members.at(e.member).name; };
  const std::string& freedom = word_of(e.freedom, freedom_words());
  const std::string& component = word_of(e.component, component_words());
  switch (e.of) {
    case Of::displacement:
      return fmt::format("{} of node {}{}", freedom, node(), under);
    case Of::force:
      return fmt::format("{} of {} at {}{}{}", component, member(),
                         quantity::print(quantity::in_si(e.at), quantity::Kind::length),
                         e.from_left ? " (left)" : "", under);
    case Of::extreme:
      return fmt::format("{} {} of {}{}",
                         e.which == Expectation::Which::least ? "least" : "greatest", component,
                         member(), under);
    case Of::reaction:
      return fmt::format("reaction {}{}", model.supports.at(e.support).name, under);
    case Of::stiffness:
      return fmt::format("stiffness {} of node {}{}", freedom, node(), under);
    case Of::spring:
      return fmt::format("spring {} at the {} of {}{}", freedom, e.at_end ? "end" : "start",
                         member(), under);
    case Of::section:
      return fmt::format("{} of section {}", word_of(e.property, property_words()),
                         frame_case.sections.at(e.section).name);
    case Of::plate:
      return fmt::format("{} of plate {} at ({:.6g}, {:.6g}) mm{}",
                         word_of(e.plate_component, plate_component_words()),
                         model.plates.at(e.plate).name, 1e3 * e.on_plate[0], 1e3 * e.on_plate[1],
                         under);
    case Of::tie:
      return fmt::format("{} of tie {} of plate {}{}",
                         word_of(e.tie_component, tie_component_words()), e.tie + 1,
                         model.plates.at(e.plate).name, under);
    case Of::buckling:
      return fmt::format("buckling factor {}{}", e.mode, under);
    case Of::frequency:
      return fmt::format("frequency {}{}", e.mode, under);
    case Of::refusal:
      return fmt::format("refusal{}: {}", under, e.because);
  }
  return {};
}

}  // namespace standtrue::model
