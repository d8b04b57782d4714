// Rail ends as springs. Bands: builders' reports, no test of small brackets found (ours).
#include "model/joint_stiffness.hpp"

#include <doctest/doctest.h>

#include "model/slip.hpp"

namespace joint_stiffness_test {

using namespace standtrue;
using namespace standtrue::quantity;
using doctest::Approx;

namespace {

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

model::RailEndGeometry usual() {
  const reference::Timber& c16 = *tables().timber("C16");
  return {c16, c16, millimetres(38), millimetres(89), millimetres(89)};
}

model::JointStiffness stiffness(const char* kind, model::Bound bound = model::Bound::mean) {
  bench::Joint joint;
  joint.kind = *tables().joint_kind(kind);
  joint.place = joint.kind.place;
  return model::joint_stiffness(joint, usual(), tables(), bound);
}

}  // namespace

TEST_CASE("model/joint: the usual build of each kind lies within its band") {
  for (const char* kind : {"corner brackets", "two corner brackets", "ribbed corner brackets",
                           "bolted lap", "plywood gusset", "end-grain screws"}) {
    CAPTURE(kind);
    const reference::JointKind& record = *tables().joint_kind(kind);
    const double k = stiffness(kind).bend_sway;
    CHECK(k >= in_si(record.bend.soft));
    CHECK(k <= in_si(record.bend.stiff));
  }
}

TEST_CASE("model/joint: a bracket under a rail opens stiffer than it closes; sag closes it") {
  const model::JointStiffness k = stiffness("corner brackets");
  CHECK(k.bend_opening > k.bend_closing);
  CHECK(k.bend_gravity == k.bend_closing);
  CHECK(k.bend_sway == Approx(0.5 * (k.bend_opening + k.bend_closing)));
  bench::Joint above;
  above.kind = *tables().joint_kind("corner brackets");
  above.place = "above";
  const auto turned = model::joint_stiffness(above, usual(), tables(), model::Bound::mean);
  CHECK(turned.bend_gravity == turned.bend_opening);
}

TEST_CASE("model/joint: soft and stiff are a third and three times the mean") {
  const double mean = stiffness("plywood gusset").bend_sway;
  CHECK(stiffness("plywood gusset", model::Bound::soft).bend_sway == Approx(mean / 3));
  CHECK(stiffness("plywood gusset", model::Bound::stiff).bend_sway == Approx(mean * 3));
}

TEST_CASE("model/joint: glue in a low rail holds by the cube of its depth, in a high one no more") {
  model::RailEndGeometry geometry = usual();
  for (const char* kind : {"half lap", "glued tenon", "glued"}) {
    CAPTURE(kind);
    bench::Joint joint;
    joint.kind = *tables().joint_kind(kind);
    const auto at = [&](double depth) {
      geometry.rail_depth = millimetres(depth);
      return model::joint_stiffness(joint, geometry, tables(), model::Bound::mean).bend_sway;
    };
    CHECK(at(95) == Approx(15e3));
    CHECK(at(195) == Approx(15e3));
    CHECK(at(47.5) == Approx(15e3 / 8.0));
  }
}

TEST_CASE("model/joint: a stiffness given by the file stands at every bound") {
  bench::Joint joint;
  joint.kind = *tables().joint_kind("corner brackets");
  joint.stiffness.bend = newton_metres(4200);
  for (const auto bound : {model::Bound::soft, model::Bound::mean, model::Bound::stiff}) {
    const auto k = model::joint_stiffness(joint, usual(), tables(), bound);
    CHECK(k.bend_gravity == 4200);
    CHECK(k.bend_sway == 4200);
  }
}

TEST_CASE("model/joint: two bolts on a line, K = sum K_ser r^2 (elastic centre of a group)") {
  // EN 1995-1-1, Table 7.1: 370^1.5 x 8/23 = 2476 N/mm each, 29 mm from the middle of the line.
  const double K_ser = 2475.5e3;
  CHECK(stiffness("bolted lap").bend_sway == Approx(2 * K_ser * 0.029 * 0.029).epsilon(1e-3));
}

TEST_CASE("model/slip: K_ser = rho_m^1.5 d/23, doubled to steel (EN 1995-1-1, Table 7.1, 7.1(3))") {
  // C24, rho_m = 420 kg/m3: 1871 N/mm at d = 5 mm, 3742 to steel (by hand).
  const Density rho = from_si<Density>(420);
  CHECK(model::lateral_slip(tables(), rho, millimetres(5), false) == Approx(1871e3).epsilon(1e-3));
  CHECK(model::lateral_slip(tables(), rho, millimetres(5), true) == Approx(3742e3).epsilon(1e-3));
}

TEST_CASE("model/slip: K_ax = 780 d^0.2 l_ef^0.4 along a screw (approvals, from memory)") {
  // d = 5 mm, 40 mm of thread: 780 x 1.380 x 4.373 = 4707 N/mm (by hand).
  CHECK(model::axial_slip(tables(), millimetres(5), millimetres(40)) ==
        Approx(4707e3).epsilon(1e-4));
}

TEST_CASE("model/joint: slip creeps twice: k / (1 + 2 k_def) (EN 1995-1-1, 2.3.2.2)") {
  const model::JointStiffness k = stiffness("corner brackets");
  const model::JointStiffness later = model::after_creep(k, 2 * 0.8);
  CHECK(later.bend_gravity == Approx(k.bend_gravity / 2.6));
  CHECK(later.upright == Approx(k.upright / 2.6));
}

}  // namespace joint_stiffness_test
