#include <algorithm>

#include "reference/readers.hpp"

namespace standtrue::reference {
namespace {

using quantity::Density;
using quantity::Kind;
using quantity::Length;

/// "1.1 7x1.4 1.1": thicknesses in mm from face to face, the grain turning at each.
std::vector<Ply> plies_in(const Record& r) {
  const std::string text = r.text("plies");
  std::vector<Ply> plies;
  bool along = true;
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find(' ', begin), text.size());
    const std::string part = text.substr(begin, end - begin);
    const std::size_t x = part.find('x');
    const auto times = quantity::parse_count(x == std::string::npos ? "1" : part.substr(0, x));
    const auto mm = quantity::parse_number(x == std::string::npos ? part : part.substr(x + 1));
    if (!times || !mm) r.fault(part, "plies read like 1.1 7x1.4 1.1");
    for (int i = 0; i < *times; ++i) {
      plies.push_back({.thickness = quantity::millimetres(*mm), .along = along});
      along = !along;
    }
    begin = end + 1;
  }
  return plies;
}

}  // namespace

void read_panel_family(const Record& r, Tables& out) {
  out.panel_families.push_back({.key = r.key(),
                                .names = r.names(),
                                .material = material_in(r, "material"),
                                .wettest = service_class_in(r, "wettest"),
                                .note = r.text("note"),
                                .source = r.sources()});
}

void read_veneer(const Record& r, Tables& out) {
  out.veneers.push_back({.key = r.key(),
                         .E = stress(r, "E"),
                         .G_along = stress(r, "G_along"),
                         .G_rolling = stress(r, "G_rolling"),
                         .f_m = stress(r, "f_m"),
                         .f_t = stress(r, "f_t"),
                         .f_c = stress(r, "f_c"),
                         .f_roll = stress(r, "f_roll"),
                         .source = r.sources()});
}

void read_panel(const Record& r, Tables& out) {
  const auto nominal = quantity::parse_number(r.key());
  if (!nominal) r.fault(r.key(), nominal.error().what);
  Panel p;
  p.family = r.text("family");
  p.nominal = quantity::millimetres(*nominal);
  p.thickness = r.read<Length>("thickness", Kind::length);
  p.plies = plies_in(r);
  p.E_m_0 = stress(r, "E_m_0");
  p.E_m_90 = stress(r, "E_m_90");
  p.E_t_0 = stress(r, "E_t_0");
  p.E_t_90 = stress(r, "E_t_90");
  p.G_v = stress(r, "G_v");
  p.G_r_0 = stress(r, "G_r_0");
  p.G_r_90 = stress(r, "G_r_90");
  p.f_m_0_k = stress(r, "f_m_0_k");
  p.f_m_90_k = stress(r, "f_m_90_k");
  p.f_t_0_k = stress(r, "f_t_0_k");
  p.f_t_90_k = stress(r, "f_t_90_k");
  p.f_c_0_k = stress(r, "f_c_0_k");
  p.f_c_90_k = stress(r, "f_c_90_k");
  p.f_v_k = stress(r, "f_v_k");
  p.f_r_0_k = stress(r, "f_r_0_k");
  p.f_r_90_k = stress(r, "f_r_90_k");
  p.rho_k = r.read<Density>("rho_k", Kind::density);
  p.rho_mean = r.read<Density>("rho_mean", Kind::density);
  p.note = r.text("note");
  p.source = r.sources();
  out.panels.push_back(std::move(p));
}

}  // namespace standtrue::reference
