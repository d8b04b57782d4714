// The supports of a frame case, in the short form where it says all.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "model/frame_reader.hpp"
#include "model/frame_writer.hpp"

namespace standtrue::model {

namespace {

using quantity::Kind;

bool same_support(const Support& a, const Support& b) {
  return a.name == b.name && a.node == b.node && a.rotation == b.rotation &&
         a.along.x == b.along.x && a.along.y == b.along.y && a.along.z == b.along.z &&
         a.stiffness == b.stiffness && a.imposed == b.imposed && a.press_only == b.press_only &&
         a.gap == b.gap && a.rides_on == b.rides_on && a.friction == b.friction;
}

/// The freedom that a support holds under its node's name ("A.z"), if it can be written that way.
std::optional<Freedom> short_form(const Model& model, const Support& support) {
  for (const Freedom freedom : all_freedoms) {
    Support plain;
    plain.name = model.nodes[support.node].name + "." + word_of(freedom);
    plain.node = support.node;
    plain.rotation = is_rotation(freedom);
    plain.along = axis_of(freedom);
    plain.stiffness = support.stiffness;
    plain.imposed = support.imposed;
    const bool is_both = support.stiffness && support.imposed != 0.0;
    if (same_support(plain, support) && !is_both) return freedom;
  }
  return std::nullopt;
}

std::string held_text(const Support& support, Freedom freedom) {
  if (support.stiffness) return quantity::print_exact(*support.stiffness, stiffness_kind(freedom));
  if (support.imposed == 0.0) return "held";
  FlowMap map;
  map.add("moved", quantity::print_exact(support.imposed,
                                         is_rotation(freedom) ? Kind::angle : Kind::length));
  return map.text();
}

std::string free_form(const Model& model, const Support& support) {
  FlowMap map;
  map.add("node", yaml_text(model.nodes[support.node].name));
  map.add("along", exact(support.along));
  if (support.rotation) map.add("rotation", "yes");
  const Kind stiffness = support.rotation ? Kind::rotational_stiffness : Kind::linear_stiffness;
  if (support.stiffness) map.add("stiffness", quantity::print_exact(*support.stiffness, stiffness));
  if (support.imposed != 0.0) {
    const Kind movement = support.rotation ? Kind::angle : Kind::length;
    map.add("moved", quantity::print_exact(support.imposed, movement));
  }
  if (support.press_only) map.add("press_only", "yes");
  if (support.gap != 0.0) map.add("gap", quantity::print_exact(support.gap, Kind::length));
  if (support.rides_on) map.add("rides_on", yaml_text(model.supports[*support.rides_on].name));
  if (support.friction) map.add("friction", exact_number(*support.friction));
  return fmt::format("  {}: {}\n", yaml_text(support.name), map.text());
}

/// Supports [first, last) of one node, all of short form.
std::string node_form(const Model& model, std::size_t first, std::size_t last) {
  std::vector<std::string> words;
  FlowMap map;
  bool all_held = true;
  for (std::size_t s = first; s < last; ++s) {
    const Support& support = model.supports[s];
    const Freedom freedom = *short_form(model, support);
    all_held = all_held && !support.stiffness && support.imposed == 0.0;
    words.push_back(word_of(freedom));
    map.add(word_of(freedom), held_text(support, freedom));
  }
  const std::string text = !all_held                  ? map.text()
                           : words == freedom_words() ? "all"
                                                      : flow_list(words);
  return fmt::format("  {}: {}\n", yaml_text(model.nodes[model.supports[first].node].name), text);
}

std::size_t count_plane_supports(const Model& model) {
  const std::size_t n = model.supports.size();
  std::size_t count = 0;
  while (count < n && model.supports[n - 1 - count].name.find(".plane.") != std::string::npos) {
    ++count;
  }
  if (count == 0) return 0;
  Model without;
  without.nodes = model.nodes;
  without.supports.assign(model.supports.begin(),
                          model.supports.end() - static_cast<std::ptrdiff_t>(count));
  const std::vector<Support> added = plane_supports(without);
  const bool is_same =
      added.size() == count &&
      std::equal(added.begin(), added.end(),
                 model.supports.end() - static_cast<std::ptrdiff_t>(count), same_support);
  return is_same ? count : 0;
}

/// The last of the supports from `first` that can share its line: one node, short form, and in the
/// order of the freedoms, which is the order in which a map is read.
std::size_t end_of_node_form(const Model& model, std::size_t first, std::size_t last) {
  std::optional<Freedom> before;
  std::size_t s = first;
  for (; s < last && model.supports[s].node == model.supports[first].node; ++s) {
    const std::optional<Freedom> freedom = short_form(model, model.supports[s]);
    if (!freedom || (before && *freedom <= *before)) break;
    before = freedom;
  }
  return s;
}

/// A node can stand only once among the keys.
bool has_short_form_elsewhere(const Model& model, std::size_t first, std::size_t end,
                              std::size_t last) {
  for (std::size_t s = 0; s < last; ++s) {
    const bool is_inside = s >= first && s < end;
    if (!is_inside && model.supports[s].node == model.supports[first].node &&
        short_form(model, model.supports[s])) {
      return true;
    }
  }
  return false;
}

}  // namespace

bool ends_with_plane_supports(const Model& model) { return count_plane_supports(model) > 0; }

std::string write_supports(const Model& model) {
  const std::size_t last = model.supports.size() - count_plane_supports(model);
  std::string text = last == 0 ? "" : "supports:\n";
  for (std::size_t s = 0; s < last;) {
    const std::size_t end = end_of_node_form(model, s, last);
    if (end > s && !has_short_form_elsewhere(model, s, end, last)) {
      text += node_form(model, s, end);
      s = end;
    } else {
      text += free_form(model, model.supports[s]);
      ++s;
    }
  }
  return text;
}

}  // namespace standtrue::model
