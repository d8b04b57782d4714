#include "bench/reader.hpp"

namespace standtrue::bench {
namespace {

using reference::Panel;

struct Value {
  std::string_view key;
  Stress reference::PanelValues::*member;
};

/// Reads `key: {along: ..., ...}` and turns each value into a modulus by `modulus`.
template <std::size_t n, class Modulus>
void read_group(Reader& reader, Map& map, std::string_view key, quantity::Kind kind,
                std::string_view example, const std::array<Value, n>& values, Panel& panel,
                Modulus modulus) {
  const auto field = map.find(key);
  if (!field) return;
  Map group(*field, reader.faults, fmt::format("{}: {}", key, example));
  for (const Value& value : values) {
    const auto given = group.si(value.key, kind);
    if (!given) continue;
    if (!(*given > 0.0)) {
      reader.note(group.find(value.key)->fault("a stiffness must be more than nothing",
                                               fmt::format("{}: {}", key, example)));
      continue;
    }
    panel.*value.member = quantity::pascals(modulus(*given));
    panel.source.exceptions.push_back({std::string(value.key) + " of " + std::string(key),
                                       {.key = "", .where = "given by the bench file"}});
  }
  group.finish();
}

}  // namespace

/// The stiffness of a sheet per width, as tests and product tables give it, turned into the moduli
/// of its full thickness t:  D = E t³/12 (bending; twist: G t³/12),  A = E t (in the plane; shear:
/// G t), S = G_r 5/6 t (through the thickness).
void read_sheet_stiffness(Reader& reader, Map& map, Panel& panel) {
  const double t = in_si(panel.thickness);
  if (!(t > 0.0)) return;
  using Values = reference::PanelValues;
  read_group<2>(reader, map, "A", quantity::Kind::linear_stiffness,
                "{along: 130 kN/mm, across: 85 kN/mm}",
                {{{"along", &Values::E_t_0}, {"across", &Values::E_t_90}}}, panel,
                [t](double A) { return A / t; });
  read_group<2>(reader, map, "S", quantity::Kind::linear_stiffness,
                "{along: 0.9 kN/mm, across: 0.7 kN/mm}",
                {{{"along", &Values::G_r_0}, {"across", &Values::G_r_90}}}, panel,
                [t](double S) { return S / (5.0 / 6.0 * t); });
  read_group<3>(reader, map, "D", quantity::Kind::moment,
                "{along: 4.2 kN m, across: 2.7 kN m, twist: 0.32 kN m}",
                {{{"along", &Values::E_m_0}, {"across", &Values::E_m_90}, {"twist", &Values::G_v}}},
                panel, [t](double D) { return 12.0 * D / (t * t * t); });
}

}  // namespace standtrue::bench
