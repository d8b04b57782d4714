#include "reference/readers.hpp"

namespace standtrue::reference {
namespace {

using quantity::Kind;
using quantity::Length;

Sourced<double> sourced(const Record& r, std::string_view column) {
  return {.value = r.number(column), .source = r.source(column)};
}

MaterialFactors& factors_of(const Record& r, Tables& out) {
  const Material material = material_in(r, "key");
  for (MaterialFactors& factors : out.materials) {
    if (factors.material == material) return factors;
  }
  r.fault(r.key(), "this material has no row of its own before");
}

}  // namespace

Material material_in(const Record& r, std::string_view column) {
  constexpr std::pair<std::string_view, Material> materials[] = {
      {"solid timber", Material::solid_timber},
      {"glulam", Material::glulam},
      {"LVL", Material::lvl},
      {"plywood", Material::plywood},
      {"OSB/2", Material::osb_2},
      {"OSB/3", Material::osb_3},
      {"MDF", Material::mdf}};
  return r.one_of(column, materials);
}

ServiceClass service_class_in(const Record& r, std::string_view column) {
  constexpr std::pair<std::string_view, ServiceClass> classes[] = {
      {"1", ServiceClass::sc1}, {"2", ServiceClass::sc2}, {"3", ServiceClass::sc3}};
  return r.one_of(column, classes);
}

void read_material(const Record& r, Tables& out) {
  MaterialFactors m;
  m.material = material_in(r, "key");
  m.gamma_M = sourced(r, "gamma_M");
  m.k_cr = sourced(r, "k_cr");
  m.k_m = sourced(r, "k_m");
  m.beta_c = sourced(r, "beta_c");
  m.k_h_reference = r.read<Length>("k_h_reference", Kind::length);
  m.k_h_exponent = r.number("k_h_exponent");
  m.k_h_max = r.number("k_h_max");
  m.k_h_source = r.source("k_h_exponent");
  out.materials.push_back(std::move(m));
}

void read_k_def(const Record& r, Tables& out) {
  MaterialFactors& m = factors_of(r, out);
  constexpr std::string_view columns[] = {"sc1", "sc2", "sc3"};
  for (std::size_t i = 0; i < 3; ++i) {
    m.k_def[i] = r.number_if_any(columns[i]);
    if (m.k_def[i]) m.k_def_source[i] = r.source(columns[i]);
  }
}

void read_k_mod(const Record& r, Tables& out) {
  MaterialFactors& m = factors_of(r, out);
  const auto sc = static_cast<std::size_t>(service_class_in(r, "service_class"));
  constexpr std::string_view columns[] = {"permanent", "long_term", "medium_term", "short_term",
                                          "instantaneous"};
  for (std::size_t i = 0; i < 5; ++i) m.k_mod[sc][i] = r.number_if_any(columns[i]);
  m.k_mod_source[sc] = r.source();
}

void read_bearing_factor(const Record& r, Tables& out) {
  out.bearing_factors.push_back(
      {.key = r.key(), .k_c_90 = r.number("k_c_90"), .source = r.source("k_c_90")});
}

void read_combination(const Record& r, Tables& out) {
  out.combinations.push_back({.key = r.key(),
                              .psi_0 = r.number("psi_0"),
                              .psi_1 = r.number("psi_1"),
                              .psi_2 = r.number("psi_2"),
                              .source = r.source()});
}

void read_air(const Record& r, Tables& out) {
  out.airs.push_back({.key = r.key(),
                      .names = r.names(),
                      .service_class = service_class_in(r, "service_class"),
                      .source = r.source("service_class")});
}

void read_spacing_rule(const Record& r, Tables& out) {
  out.spacing_rules.push_back({.key = r.key(),
                               .a1 = r.number("a1"),
                               .a1_cos = r.number("a1_cos"),
                               .a2 = r.number("a2"),
                               .a2_sin = r.number("a2_sin"),
                               .a3t = r.number("a3t"),
                               .a3t_cos = r.number("a3t_cos"),
                               .a3t_min = r.read<Length>("a3t_min", Kind::length),
                               .a3c = r.number("a3c"),
                               .a3c_one = r.number("a3c_one"),
                               .a3c_sin = r.number("a3c_sin"),
                               .a4t = r.number("a4t"),
                               .a4t_sin = r.number("a4t_sin"),
                               .a4c = r.number("a4c"),
                               .source = r.sources()});
}

void read_constant(const Record& r, Tables& out) {
  const std::string text = r.text("value");
  Kind kind = Kind::ratio;
  if (text.ends_with(" mm") || text.ends_with(" in")) kind = Kind::length;
  if (text.ends_with(" kg")) kind = Kind::mass;
  if (text.ends_with(" kg/m3")) kind = Kind::density;
  if (text.ends_with("N/mm")) kind = Kind::linear_stiffness;
  if (text.ends_with("N/mm2") || text.ends_with(" psi")) kind = Kind::stress;
  out.constants.push_back(
      {.key = r.key(), .value = r.si("value", kind), .source = r.source("value")});
}

}  // namespace standtrue::reference
