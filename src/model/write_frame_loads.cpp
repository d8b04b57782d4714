// Load cases and combinations of a frame case.
#include <fmt/format.h>

#include <algorithm>

#include "model/frame_writer.hpp"

namespace standtrue::model {

namespace {

using quantity::Kind;

template <class Load>
void add_wrench(FlowMap& map, const Load& load) {
  if (!is_zero(load.force) || is_zero(load.moment))
    map.add("force", exact(load.force, Kind::force));
  if (!is_zero(load.moment)) map.add("moment", exact(load.moment, Kind::moment));
}

std::string load_text(const Model& model, const NodeLoad& load) {
  FlowMap map;
  map.add("node", yaml_text(model.nodes[load.node].name));
  add_wrench(map, load);
  if (!is_zero(load.offset)) map.add("offset", exact(load.offset, Kind::length));
  return map.text();
}

std::string load_text(const Model& model, const MemberPointLoad& load) {
  FlowMap map;
  map.add("member", yaml_text(model.members[load.member].name));
  map.add("at", exact(load.at, Kind::length));
  add_wrench(map, load);
  return map.text();
}

std::string load_text(const Model& model, const MemberLineLoad& load) {
  const Member& member = model.members[load.member];
  FlowMap map;
  map.add("member", yaml_text(member.name));
  if (load.from != Length{}) map.add("from", exact(load.from, Kind::length));
  if (load.to != member_frame(model, member).length) map.add("to", exact(load.to, Kind::length));
  map.add("line", exact(load.at_from, Kind::line_load));
  const bool is_uniform = load.at_from.x == load.at_to.x && load.at_from.y == load.at_to.y &&
                          load.at_from.z == load.at_to.z;
  if (!is_uniform) map.add("line_end", exact(load.at_to, Kind::line_load));
  return map.text();
}

std::string load_text(const Model& model, const PatchLoad& load) {
  return write_patch_load(model, load);
}

std::string write_case(const Model& model, const LoadCase& load_case) {
  std::string text = fmt::format("  {}:\n", yaml_text(load_case.name));
  if (!load_case.title.empty()) text += fmt::format("    title: {}\n", yaml_text(load_case.title));
  text += fmt::format("    duration: {}\n", word_of(load_case.duration, duration_words()));
  if (load_case.self_weight) text += "    self_weight: yes\n";
  if (load_case.weight) text += "    weight: yes\n";
  std::string loads;
  const auto add = [&](const auto& all) {
    for (const auto& load : all) loads += fmt::format("      - {}\n", load_text(model, load));
  };
  add(load_case.node_loads);
  add(load_case.point_loads);
  add(load_case.line_loads);
  add(load_case.patch_loads);
  return text + (loads.empty() ? "" : "    loads:\n" + loads);
}

std::string write_combination(const Model& model, const Combination& combination) {
  FlowMap map;
  Duration shortest = Duration::permanent;
  if (!combination.title.empty()) map.add("title", yaml_text(combination.title));
  for (const Factored& term : combination.terms) {
    map.add(yaml_text(model.cases[term.load_case].name), exact_number(term.factor));
    shortest = std::max(shortest, model.cases[term.load_case].duration);
  }
  if (combination.springs != SpringSet::gravity) map.add("springs", "sway");
  if (combination.purpose != Purpose::as_given) {
    map.add("purpose", purpose_words()[static_cast<std::size_t>(combination.purpose)]);
  }
  if (combination.second_order) map.add("second_order", "yes");
  for (const std::size_t way : {0u, 1u}) {
    if (combination.lean[way] == 0.0 || !combination.second_order) continue;
    map.add(way == 0 ? "lean_along" : "lean_across",
            quantity::print_exact(combination.lean[way], Kind::slope));
  }
  if (combination.second_order && combination.stiffness_over != 1.0) {
    map.add("stiffness_over", exact_number(combination.stiffness_over));
  }
  if (combination.slides) map.add("slides", "yes");
  if (combination.duration != shortest)
    map.add("duration", word_of(combination.duration, duration_words()));
  return fmt::format("  {}: {}\n", yaml_text(combination.name), map.text());
}

}  // namespace

std::string write_loads(const Model& model) {
  std::string text = model.cases.empty() ? "" : "cases:\n";
  for (const LoadCase& load_case : model.cases) text += write_case(model, load_case);
  if (!model.combinations.empty()) text += "combinations:\n";
  for (const Combination& combination : model.combinations) {
    text += write_combination(model, combination);
  }
  return text;
}

}  // namespace standtrue::model
