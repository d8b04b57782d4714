// The stiffness of a plate: as a homogeneous sheet, or as its matrices.
#include <algorithm>

#include "model/frame_plates.hpp"

namespace standtrue::model {

namespace {

using document::Field;
using document::Map;
using quantity::Kind;

/// Of a homogeneous sheet, by Reissner's parabola of shear stress.
constexpr double shear_correction = 5.0 / 6.0;

/// A key that is looked for without being marked as known.
bool names(const Field& field, std::string_view key) {
  const auto& entries = field.node().entries;
  return std::any_of(entries.begin(), entries.end(),
                     [key](const document::Entry& entry) { return entry.key == key; });
}

double need_number(Map& map, std::string_view key, std::string_view example, FrameReader& reader) {
  const std::optional<Field> field = map.need(key, example);
  return field ? read_value(*field, Kind::ratio, reader).value_or(0.0) : 0.0;
}

/// E / (1 - ν_12 ν_21) t and the same with t³/12, for one material or two directions of it.
PlateStiffness sheet(double E_1, double E_2, double nu_12, double t) {
  const double by = 1.0 - nu_12 * nu_12 * E_2 / E_1;
  const double I = t * t * t / 12.0;
  PlateStiffness s;
  s.A_11 = E_1 * t / by;
  s.A_12 = nu_12 * E_2 * t / by;
  s.A_22 = E_2 * t / by;
  s.D_11 = E_1 * I / by;
  s.D_12 = nu_12 * E_2 * I / by;
  s.D_22 = E_2 * I / by;
  return s;
}

void set_shear(PlateStiffness& s, double G_12, double G_13, double G_23, double t) {
  s.A_66 = G_12 * t;
  s.D_66 = G_12 * t * t * t / 12.0;
  s.S_x = shear_correction * G_13 * t;
  s.S_y = shear_correction * G_23 * t;
}

PlateStiffness read_isotropic(Map& map, double t, FrameReader& reader) {
  const double E = need_positive(map, "E", Kind::stress, "E: 9 kN/mm2", reader);
  const double nu = need_number(map, "nu", "nu: 0.3", reader);
  if (!(nu > -1.0 && nu <= 0.5)) {
    map.note(map.find("nu")->fault("nu must lie between -1 and 0.5", "nu: 0.3"));
    return {};
  }
  if (!(E > 0.0)) return {};
  PlateStiffness s = sheet(E, E, nu, t);
  const double G = E / (2.0 * (1.0 + nu));
  set_shear(s, G, G, G, t);
  return s;
}

PlateStiffness read_orthotropic(Map& map, double t, FrameReader& reader) {
  const auto modulus = [&](std::string_view key) {
    return need_positive(map, key, Kind::stress, fmt::format("{}: 650 N/mm2", key), reader);
  };
  const double E_1 = modulus("E_1"), E_2 = modulus("E_2");
  const double nu_12 = need_number(map, "nu_12", "nu_12: 0.1", reader);
  const double G_12 = modulus("G_12"), G_13 = modulus("G_13"), G_23 = modulus("G_23");
  if (!(E_1 > 0.0 && E_2 > 0.0)) return {};
  if (!(nu_12 * nu_12 * E_2 < E_1)) {
    map.note(map.find("nu_12")->fault("nu_12 squared must be less than E_1/E_2", "nu_12: 0.1"));
    return {};
  }
  PlateStiffness s = sheet(E_1, E_2, nu_12, t);
  set_shear(s, G_12, G_13, G_23, t);
  return s;
}

void check_coupling(Map& map, std::string_view key, double k_11, double k_12, double k_22) {
  if (!(k_11 > 0.0 && k_22 > 0.0) || k_12 * k_12 < k_11 * k_22) return;
  map.note(map.find(key)->fault(
      fmt::format("{0}_12 squared must be less than {0}_11 {0}_22", key.substr(0, 1)),
      "a smaller value"));
}

PlateStiffness read_matrices(Map& map, FrameReader& reader) {
  const auto membrane = [&](std::string_view key) {
    return need_positive(map, key, Kind::linear_stiffness, fmt::format("{}: 1e8 N/m", key), reader);
  };
  const auto bending = [&](std::string_view key) {
    return need_positive(map, key, Kind::moment, fmt::format("{}: 4000 N m", key), reader);
  };
  const auto coupling = [&](std::string_view key, Kind kind) {
    const std::optional<Field> field = map.find(key);
    return field ? read_value(*field, kind, reader).value_or(0.0) : 0.0;
  };
  PlateStiffness s;
  s.A_11 = membrane("A_11");
  s.A_12 = coupling("A_12", Kind::linear_stiffness);
  s.A_22 = membrane("A_22");
  s.A_66 = membrane("A_66");
  s.D_11 = bending("D_11");
  s.D_12 = coupling("D_12", Kind::moment);
  s.D_22 = bending("D_22");
  s.D_66 = bending("D_66");
  s.S_x = membrane("S_x");
  s.S_y = membrane("S_y");
  check_coupling(map, "A_12", s.A_11, s.A_12, s.A_22);
  check_coupling(map, "D_12", s.D_11, s.D_12, s.D_22);
  return s;
}

}  // namespace

PlateStiffness read_plate_stiffness(Map& plate, double thickness, FrameReader& reader) {
  constexpr std::string_view example =
      "stiffness: {E, nu}, {E_1, E_2, nu_12, G_12, G_13, G_23} or {A_11, A_12, A_22, A_66, D_11, "
      "D_12, D_22, D_66, S_x, S_y}";
  const std::optional<Field> field = plate.need("stiffness", example);
  if (!field) return {};
  Map map(*field, *reader.faults, example);
  if (!field->is(document::Node::Kind::map)) return {};
  PlateStiffness stiffness;
  if (names(*field, "E") || names(*field, "nu")) {
    static_cast<void>(plate.need("thickness", "thickness: 18 mm"));
    stiffness = read_isotropic(map, thickness, reader);
  } else if (names(*field, "E_1") || names(*field, "E_2")) {
    static_cast<void>(plate.need("thickness", "thickness: 18 mm"));
    stiffness = read_orthotropic(map, thickness, reader);
  } else if (names(*field, "A_11") || names(*field, "D_11")) {
    stiffness = read_matrices(map, reader);
  } else {
    map.note(field->fault("this is none of the three ways to give a plate's stiffness",
                          std::string(example)));
    return {};
  }
  map.finish();
  return stiffness;
}

}  // namespace standtrue::model
