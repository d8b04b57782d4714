#include "standtrue/reference/tables.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "standtrue/contract.hpp"

namespace standtrue::reference {
namespace {

using quantity::in_si;
using quantity::Length;

/// Names are compared by these letters: no case, no spaces, hyphens, underscores or apostrophes.
std::string letters(std::string_view name) {
  std::string out;
  for (const char c : name) {
    if (c == ' ' || c == '-' || c == '_' || c == '\'') continue;
    out += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return out;
}

template <class T>
bool answers_to(const T& record, const std::string& wanted) {
  if (letters(record.key) == wanted) return true;
  if constexpr (requires { record.names; }) {
    return std::any_of(record.names.begin(), record.names.end(),
                       [&](const std::string& name) { return letters(name) == wanted; });
  }
  return false;
}

template <class T>
const T* by_name(const std::vector<T>& records, std::string_view name) {
  const std::string wanted = letters(name);
  const auto found = std::find_if(records.begin(), records.end(),
                                  [&](const T& record) { return answers_to(record, wanted); });
  return found == records.end() ? nullptr : &*found;
}

template <class T>
const T& need(const std::vector<T>& records, std::string_view key) {
  for (const T& record : records) {
    // Sizes first: checks ask for constants by the thousand.
    if (record.key.size() == key.size() && record.key == key) return record;
  }
  throw std::logic_error("reference: no record '" + std::string(key) + "'");
}

template <class T>
std::vector<std::string> all_names(const std::vector<T>& records) {
  std::vector<std::string> names;
  for (const T& record : records) {
    names.push_back(record.key);
    if constexpr (requires { record.names; }) {
      names.insert(names.end(), record.names.begin(), record.names.end());
    }
  }
  return names;
}

bool within(Length a, Length b, double tolerance_mm) {
  return std::abs(in_si(a - b)) <= tolerance_mm * 1e-3;
}

template <class T>
const T* by_length(const std::vector<T>& records, Length T::*size, Length wanted) {
  for (const T& record : records) {
    if (within(record.*size, wanted, 0.05)) return &record;
  }
  return nullptr;
}

}  // namespace

const Timber* Tables::timber(std::string_view name) const { return by_name(timbers, name); }

const PanelFamily* Tables::panel_family(std::string_view name) const {
  return by_name(panel_families, name);
}

const Panel* Tables::panel(std::string_view family, Length nominal) const {
  const PanelFamily* known = panel_family(family);
  if (known == nullptr) return nullptr;
  const Panel* nearest = nullptr;
  for (const Panel& panel : panels) {
    if (panel.family != known->key || !within(panel.nominal, nominal, 0.3)) continue;
    if (nearest == nullptr ||
        std::abs(in_si(panel.nominal - nominal)) < std::abs(in_si(nearest->nominal - nominal))) {
      nearest = &panel;
    }
  }
  return nearest;
}

std::vector<Length> Tables::panel_thicknesses(std::string_view family) const {
  std::vector<Length> out;
  const PanelFamily* known = panel_family(family);
  if (known == nullptr) return out;
  for (const Panel& panel : panels) {
    if (panel.family == known->key) out.push_back(panel.nominal);
  }
  std::sort(out.begin(), out.end());
  return out;
}

const VeneerValues* Tables::veneer(std::string_view name) const { return by_name(veneers, name); }

const Section* Tables::section(std::string_view name) const { return by_name(sections, name); }

const Screw* Tables::screw(Length diameter) const {
  return by_length(screws, &Screw::diameter, diameter);
}

const Bolt* Tables::bolt(std::string_view thread) const { return by_name(bolts, thread); }

const Bolt* Tables::bolt(Length diameter) const {
  return by_length(bolts, &Bolt::diameter, diameter);
}

const Steel* Tables::steel(std::string_view name) const { return by_name(steels, name); }

const JointKind* Tables::joint_kind(std::string_view name) const {
  return by_name(joint_kinds, name);
}

const Foot* Tables::foot(std::string_view thread) const { return by_name(feet, thread); }

const Castor* Tables::castor(Length wheel) const {
  return by_length(castors, &Castor::wheel, wheel);
}

const Floor* Tables::floor(std::string_view surface) const { return by_name(floors, surface); }

const Machine* Tables::machine(std::string_view kind) const { return by_name(machines, kind); }

const Duty* Tables::duty(std::string_view name) const { return by_name(duties, name); }

const Air* Tables::air(std::string_view name) const { return by_name(airs, name); }

const SourceRecord* Tables::source(std::string_view key) const { return by_name(sources, key); }

const MaterialFactors& Tables::material(Material material) const {
  for (const MaterialFactors& factors : materials) {
    if (factors.material == material) return factors;
  }
  throw std::logic_error("reference: no factors of " + std::string(to_text(material)));
}

const BearingFactor& Tables::bearing_factor(std::string_view key) const {
  return need(bearing_factors, key);
}

const CombinationFactors& Tables::combination(std::string_view key) const {
  return need(combinations, key);
}

const SpacingRule& Tables::spacing_rule(std::string_view key) const {
  return need(spacing_rules, key);
}

const Constant& Tables::constant(std::string_view key) const { return need(constants, key); }

const Load& Tables::load(std::string_view key) const { return need(loads, key); }

const Scatter& Tables::scatter(std::string_view key) const { return need(scatters, key); }

const Correlation& Tables::correlation(std::string_view key) const {
  return need(correlations, key);
}

std::vector<std::string> Tables::timber_names() const { return all_names(timbers); }
std::vector<std::string> Tables::panel_names() const { return all_names(panel_families); }
std::vector<std::string> Tables::section_names() const { return all_names(sections); }
std::vector<std::string> Tables::joint_names() const { return all_names(joint_kinds); }
std::vector<std::string> Tables::foot_names() const { return all_names(feet); }
std::vector<std::string> Tables::floor_names() const { return all_names(floors); }
std::vector<std::string> Tables::machine_names() const { return all_names(machines); }
std::vector<std::string> Tables::duty_names() const { return all_names(duties); }
std::vector<std::string> Tables::air_names() const { return all_names(airs); }

std::optional<Sourced<double>> MaterialFactors::k_def_in(ServiceClass air) const {
  const auto sc = static_cast<std::size_t>(air);
  if (!k_def[sc]) return std::nullopt;
  return Sourced<double>{.value = *k_def[sc], .source = k_def_source[sc]};
}

std::optional<Sourced<double>> MaterialFactors::k_mod_in(ServiceClass air,
                                                         Duration duration) const {
  const auto sc = static_cast<std::size_t>(air);
  const std::optional<double> value = k_mod[sc][static_cast<std::size_t>(duration)];
  if (!value) return std::nullopt;
  return Sourced<double>{.value = *value, .source = k_mod_source[sc]};
}

double Floor::friction(FootMaterial foot) const {
  switch (foot) {
    case FootMaterial::rubber:
      return rubber;
    case FootMaterial::plastic:
      return plastic;
    case FootMaterial::steel:
      return steel;
    case FootMaterial::timber:
      return timber;
  }
  expects(false, "Floor::friction: no such foot");
  return 0.0;
}

std::string_view to_text(Material material) {
  switch (material) {
    case Material::solid_timber:
      return "solid timber";
    case Material::glulam:
      return "glulam";
    case Material::lvl:
      return "LVL";
    case Material::plywood:
      return "plywood";
    case Material::osb_2:
      return "OSB/2";
    case Material::osb_3:
      return "OSB/3";
    case Material::mdf:
      return "MDF";
  }
  expects(false, "to_text: no such material");
  return "";
}

std::string_view to_text(Duration duration) {
  switch (duration) {
    case Duration::permanent:
      return "permanent";
    case Duration::long_term:
      return "long term";
    case Duration::medium_term:
      return "medium term";
    case Duration::short_term:
      return "short term";
    case Duration::instantaneous:
      return "instantaneous";
  }
  expects(false, "to_text: no such duration");
  return "";
}

}  // namespace standtrue::reference
