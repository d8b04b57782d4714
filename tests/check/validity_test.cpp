// Outside a rule's range there is no number but a reason: over all records of the tables.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

#include "check/board.hpp"
#include "check/joint_strength.hpp"
#include "standtrue/check/fasteners.hpp"
#include "standtrue/check/strength.hpp"
#include "tests/check/joint_cases.hpp"

namespace validity_test {

using namespace standtrue;
using namespace standtrue::check;
using quantity::in_si;
using quantity::millimetres;
using reference::Duration;
using reference::Material;
using reference::ServiceClass;

namespace {

constexpr double right_angle = 3.14159265358979323846 / 2.0;

const reference::Tables& tables() { return joint_cases::tables(); }

constexpr std::array all_airs{ServiceClass::sc1, ServiceClass::sc2, ServiceClass::sc3};
constexpr std::array all_durations{Duration::permanent, Duration::long_term, Duration::medium_term,
                                   Duration::short_term, Duration::instantaneous};
constexpr std::array all_materials{Material::solid_timber, Material::glulam, Material::lvl,
                                   Material::plywood,      Material::osb_2,  Material::osb_3,
                                   Material::mdf};
static_assert(all_materials.size() == reference::material_count);

/// Where the code has a k_mod: Table 3.1 of EN 1995-1-1 (second hand; of MDF from memory). OSB/2
/// and MDF belong in dry air alone, OSB/3 not in the wet.
bool belongs(Material material, ServiceClass air) {
  if (material == Material::osb_2 || material == Material::mdf) return air == ServiceClass::sc1;
  if (material == Material::osb_3) return air != ServiceClass::sc3;
  return true;
}

}  // namespace

TEST_CASE("check/validity: k_mod for every material in every air that it belongs in (Table 3.1)") {
  for (const Material material : all_materials) {
    CAPTURE(reference::to_text(material));
    for (const ServiceClass air : all_airs) {
      for (const Duration duration : all_durations) {
        const OrWhy<double> k = k_mod(material, air, duration, tables());
        CHECK(k.has_value() == belongs(material, air));
        if (k) {
          CHECK(*k > 0.0);
        } else {
          const std::string wanted =
              "the code gives no strength of " + std::string(reference::to_text(material)) +
              " in air of service class " + std::to_string(static_cast<int>(air) + 1);
          CHECK(k.error() == wanted);
        }
      }
    }
  }
}

TEST_CASE("check/validity: no strength of a part, a board or a joint without its k_mod") {
  for (const Material material : all_materials) {
    CAPTURE(reference::to_text(material));
    for (const ServiceClass air : all_airs) {
      model::Part part;
      part.timber = *tables().timber("C24");
      part.timber.material = material;
      part.width = part.depth = millimetres(70);
      CHECK(strengths(part, air, Duration::permanent, tables()).has_value() ==
            belongs(material, air));
      for (const Material other : all_materials) {
        JointStrength joint;
        joint.rail = material;
        joint.other = other;
        CHECK(joint_k_mod(joint, air, Duration::permanent, tables()).has_value() ==
              (belongs(material, air) && belongs(other, air)));
      }
    }
  }
}

TEST_CASE(
    "check/validity: a board in air that is too damp for it has no strength (EN 636, EN 300)") {
  bench::Bench bench;
  for (const reference::PanelFamily& family : tables().panel_families) {
    CAPTURE(family.key);
    bench::Sheet sheet;
    sheet.family = family;
    sheet.panel.f_m_0_k = sheet.panel.f_r_0_k = quantity::pascals(1e6);
    for (const reference::Air& air : tables().airs) {
      bench.air = air;
      const auto f = board_strength(bench, sheet, true, Duration::permanent, tables());
      const bool dry_enough = air.service_class <= family.wettest;
      CHECK(f.has_value() == (dry_enough && belongs(family.material, air.service_class)));
      if (!dry_enough) {
        CHECK(f.error() == family.key + " does not belong in air as damp as " + air.key);
      }
    }
  }
}

TEST_CASE("check/validity: screws under 30 degrees to the grain have no pull (8.7.2(4))") {
  for (const reference::Screw& screw : tables().screws) {
    CAPTURE(screw.key);
    for (double degrees = 0; degrees <= 90; degrees += 1) {
      const auto F =
          withdrawal(screw, 10.0 * screw.diameter, quantity::from_si<quantity::Density>(350.0),
                     degrees * right_angle / 90.0 + 1e-12, tables());
      CHECK(F.has_value() == (degrees >= 30));
      if (!F) CHECK(F.error() == "screws pulled along the grain: the code gives them no strength");
    }
  }
}

TEST_CASE("check/validity: less than 6 d of thread is not pulled, and says so (8.7.2(3))") {
  for (const reference::Screw& screw : tables().screws) {
    CAPTURE(screw.key);
    for (double depths = 0.25; depths <= 12; depths += 0.25) {
      const auto F = withdrawal(screw, depths * screw.diameter,
                                quantity::from_si<quantity::Density>(350.0), right_angle, tables());
      CHECK(F.has_value() == (depths >= 6.0));
      if (!F) CHECK(F.error().find("of thread in the wood, ") != std::string::npos);
    }
  }
}

TEST_CASE("check/validity: eq. (8.38) for 6 to 12 mm and roots of 0.6 to 0.75 d, else (8.40a)") {
  for (const reference::Screw& screw : tables().screws) {
    CAPTURE(screw.key);
    const double d = 1e3 * in_si(screw.diameter), root = 1e3 * in_si(screw.root) / d;
    const bool in_range = d > 5.99 && d < 12.01 && root >= 0.6 && root <= 0.75;
    const auto F = withdrawal(screw, 8.0 * screw.diameter,
                              quantity::from_si<quantity::Density>(380.0), right_angle, tables());
    REQUIRE(F.has_value());
    CHECK(F->by_formula == in_range);
    const double l = 8.0 * d;
    const double by_formula = 0.52 / std::sqrt(d) * std::pow(l, -0.1) * std::pow(380, 0.8) * d * l *
                              std::min(d / 8.0, 1.0);
    const double measured =
        1e-6 * in_si(screw.f_ax_k) * d * l * std::pow(380 / in_si(screw.rho_a), 0.8);
    CHECK(in_si(F->F) == doctest::Approx(in_range ? by_formula : measured));
  }
}

TEST_CASE(
    "check/validity: fasteners in boards without a rule of embedment have no strength (8.3.1.3)") {
  for (const Material material : all_materials) {
    CAPTURE(reference::to_text(material));
    const auto f = embedment_panel(millimetres(4), millimetres(12),
                                   quantity::from_si<quantity::Density>(500.0), material, tables());
    const bool has_rule =
        material == Material::plywood || material == Material::osb_2 || material == Material::osb_3;
    CHECK(f.has_value() == has_rule);
    if (!f) {
      CHECK(f.error() == "the code gives no strength of fasteners in " +
                             std::string(reference::to_text(material)));
    }
  }
}

TEST_CASE("check/validity: a gusset of any sheet is judged or says why") {
  for (const reference::PanelFamily& family : tables().panel_families) {
    CAPTURE(family.key);
    portal::Portal p;
    p.joint = "plywood gusset";
    const JointStrength joint = joint_cases::strength(
        p, [&](portal::Built& built) { built.joint(0).kind.gusset_family = family.key; });
    const bool has_rule = family.material == Material::plywood ||
                          family.material == Material::osb_2 || family.material == Material::osb_3;
    if (!has_rule) CHECK_FALSE(joint.why.empty());
    if (!joint.why.empty()) CHECK(joint.groups.empty());
  }
}

TEST_CASE("check/validity: k_c,90 is 1 where bearings are nearer than twice the depth (6.1.5)") {
  for (const reference::Timber& timber : tables().timbers) {
    CAPTURE(timber.key);
    for (double h = 20; h <= 300; h += 20) {
      for (double clear = 10; clear <= 1000; clear += 10) {
        const double k = bearing_factor(timber, millimetres(clear), millimetres(h), tables());
        const bool soft = timber.species == reference::Species::softwood;
        const double apart = !soft ? 1.0 : timber.material == Material::glulam ? 1.75 : 1.5;
        CHECK(k == (clear > 2 * h - 1e-6 ? apart : 1.0));
      }
    }
  }
}

TEST_CASE("check/validity: dense timber and thick screws are pre-drilled (8.3.1.1(2), 10.4.5)") {
  for (const reference::Screw& screw : tables().screws) {
    for (const reference::Timber& timber : tables().timbers) {
      CAPTURE(screw.key);
      CAPTURE(timber.key);
      const bool must = in_si(timber.rho_k) > 500.0 || in_si(screw.diameter) > 6.001e-3;
      CHECK(must_predrill(screw.diameter, timber.rho_k, tables()) == must);
      // So are all screws that are counted in it, whatever their spacing.
      Leg leg{"rail",
              timber,
              millimetres(90),
              true,
              0.0,
              quantity::metres(1),
              quantity::metres(1),
              quantity::metres(1)};
      const Grid grid{3, 2, millimetres(200), 15.0 * screw.diameter, 10.0 * screw.diameter};
      const Pattern pattern = lateral_pattern(grid, leg, screw.diameter, Plate::none, tables());
      CHECK(pattern.count() == 6);
      CHECK(pattern.predrilled == must);
    }
  }
}

TEST_CASE(
    "check/validity: bolts nearer to an end, an edge or each other than Table 8.4 are not judged") {
  for (const reference::Bolt& bolt : tables().bolts) {
    CAPTURE(bolt.key);
    const double d = 1e3 * in_si(bolt.diameter);
    for (double first = 20; first <= 120; first += 4) {
      for (double pitch = 20; pitch <= 80; pitch += 4) {
        portal::Portal p;
        p.joint = "bolted lap";
        p.rail_depth = 0.3;
        p.post = 0.14;
        const JointStrength joint = joint_cases::strength(p, [&](portal::Built& built) {
          reference::JointKind& kind = built.joint(0).kind;
          kind.fastener_diameter = bolt.diameter;
          kind.first = millimetres(first);
          kind.pitch = millimetres(pitch);
        });
        // a_1 = 5 d, a_4t = 4 d across the grain, a_3t = max(7 d, 80 mm).
        // What the first bolt leaves of the lap holds the other: 4 d to its far edges.
        const double along = 140 - first - 4 * d, upright = 300 - first - 4 * d;
        const bool fits = along > -1e-6 && pitch < std::hypot(along, upright) + 1e-6;
        const bool may = pitch > 5 * d - 1e-6 && first > 4 * d - 1e-6 &&
                         first > std::max(7 * d, 80.0) - 1e-6 && fits;
        CHECK(joint.why.empty() == may);
        if (!may) CHECK_FALSE(joint.advice.empty());
      }
    }
  }
}

TEST_CASE("check/validity: the size factor ends at 150 mm, at 1.3 and at 700 kg/m3 (3.2(3))") {
  for (const reference::Timber& timber : tables().timbers) {
    if (timber.material != Material::solid_timber) continue;
    CAPTURE(timber.key);
    for (double h = 10; h <= 300; h += 5) {
      const double k = size_factor(millimetres(h), timber, tables());
      CHECK(k == doctest::Approx(h >= 150 ? 1.0 : std::min(std::pow(150 / h, 0.2), 1.3)));
    }
    reference::Timber heavy = timber;
    heavy.rho_k = quantity::from_si<quantity::Density>(701);
    CHECK(size_factor(millimetres(40), heavy, tables()) == 1.0);
  }
}

}  // namespace validity_test
