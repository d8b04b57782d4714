#include "reference/readers.hpp"

namespace standtrue::reference {

using quantity::Density;
using quantity::Kind;
using quantity::Length;

void read_timber(const Record& r, Tables& out) {
  constexpr std::pair<std::string_view, Species> species[] = {{"softwood", Species::softwood},
                                                              {"hardwood", Species::hardwood}};
  Timber t;
  t.key = r.key();
  t.names = r.names();
  t.species = r.one_of("species", species);
  t.material = material_in(r, "material");
  t.f_m_k = stress(r, "f_m_k");
  t.f_t_0_k = stress(r, "f_t_0_k");
  t.f_t_90_k = stress(r, "f_t_90_k");
  t.f_c_0_k = stress(r, "f_c_0_k");
  t.f_c_90_k = stress(r, "f_c_90_k");
  t.f_v_k = stress(r, "f_v_k");
  t.E_0_mean = stress(r, "E_0_mean");
  t.E_0_05 = stress(r, "E_0_05");
  t.E_90_mean = stress(r, "E_90_mean");
  t.G_mean = stress(r, "G_mean");
  t.rho_k = r.read<Density>("rho_k", Kind::density);
  t.rho_mean = r.read<Density>("rho_mean", Kind::density);
  t.source = r.sources();
  out.timbers.push_back(std::move(t));
}

void read_scatter(const Record& r, Tables& out) {
  constexpr std::pair<std::string_view, Scatter::Shape> shapes[] = {
      {"normal", Scatter::Shape::normal}, {"lognormal", Scatter::Shape::lognormal}};
  out.scatters.push_back({.key = r.key(),
                          .shape = r.one_of("shape", shapes),
                          .cov = r.number("cov"),
                          .source = r.source("cov")});
}

void read_correlation(const Record& r, Tables& out) {
  out.correlations.push_back({.key = r.key(), .rho = r.number("rho"), .source = r.source("rho")});
}

void read_section(const Record& r, Tables& out) {
  out.sections.push_back({.key = r.key(),
                          .family = r.text("family"),
                          .names = r.names(),
                          .thickness = r.read<Length>("thickness", Kind::length),
                          .depth = r.read<Length>("depth", Kind::length),
                          .source = r.source("thickness")});
}

void read_tolerance(const Record& r, Tables& out) {
  out.tolerances.push_back({.key = r.key(),
                            .below = r.read<Length>("below", Kind::length),
                            .above = r.read<Length>("above", Kind::length),
                            .source = r.source("below")});
}

void read_stock_length(const Record& r, Tables& out) {
  out.stock_lengths.push_back(
      {.length = r.read<Length>("key", Kind::length), .source = r.source("key")});
}

void read_sheet_size(const Record& r, Tables& out) {
  const auto size = quantity::parse_pair(r.key());
  if (!size) r.fault(r.key(), size.error().what);
  out.sheet_sizes.push_back(
      {.key = r.key(), .width = (*size)[0], .length = (*size)[1], .source = r.source("key")});
}

}  // namespace standtrue::reference
