// Machines as beds that the sheet under them would twist: where their pads lie, and how stiff.
#include <doctest/doctest.h>
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace beds_test {

using namespace standtrue;
using quantity::in_si;

namespace {

/// Within a part of the value itself: Approx adds one to its scale unless told otherwise.
doctest::Approx close_to(double value, double relative) {
  return doctest::Approx(value).epsilon(relative).scale(0.0);
}

model::Model model_of(const std::string& machine, const model::Assumptions& assumptions = {},
                      const std::string& more = "analysis: {mesh: 100 mm}\n") {
  const std::string text = R"(
standtrue: 1
size: 1700 x 650 x 880 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 18 mm spruce plywood
)" + more + "machines:\n  - {kind: mini metal lathe, " +
                           machine + "}\n";
  model::Idealisation made =
      model::idealise(bench_files::sound(text), bench_files::tables(), assumptions);
  REQUIRE(made.model);
  return *made.model;
}

const model::BedPlace& only_bed(const model::Model& model) {
  REQUIRE(model.parts.beds.size() == 1);
  return model.parts.beds.front();
}

double middle_x(const model::Patch& pad) { return 0.5 * (pad.x0 + pad.x1); }
double middle_y(const model::Patch& pad) { return 0.5 * (pad.y0 + pad.y1); }

}  // namespace

TEST_CASE("model/beds: pads in turn from the front left, where the file puts them") {
  const model::Model model = model_of("at: [1000 mm, 250 mm]");
  const model::BedPlace& bed = only_bed(model);
  CHECK(bed.along_x);
  CHECK(bed.length == close_to(0.525, 1e-12));
  CHECK(bed.breadth == close_to(0.15, 1e-12));
  const bench::Sheet& top = model.parts.bench.sheets.at(0);
  const double x = in_si(top.x0) + 1.0, y = in_si(top.y0) + 0.25;
  constexpr std::array<std::array<double, 2>, 4> turn{{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}};
  for (std::size_t p = 0; p < 4; ++p) {
    CHECK(middle_x(bed.pads[p]) == close_to(x + 0.5 * turn[p][0] * 0.525, 1e-9));
    CHECK(middle_y(bed.pads[p]) == close_to(y + 0.5 * turn[p][1] * 0.15, 1e-9));
    CHECK(bed.pads[p].x1 - bed.pads[p].x0 == close_to(0.04, 1e-9));
  }
}

TEST_CASE("model/beds: a turned machine's bed lies across, its pads still in turn") {
  const model::BedPlace bed = only_bed(model_of("at: [1000 mm, 320 mm], turned: yes"));
  CHECK_FALSE(bed.along_x);
  CHECK(bed.length == close_to(0.525, 1e-12));
  CHECK(bed.breadth == close_to(0.15, 1e-12));
  CHECK(middle_x(bed.pads[1]) - middle_x(bed.pads[0]) == close_to(0.15, 1e-9));
  CHECK(middle_y(bed.pads[3]) - middle_y(bed.pads[0]) == close_to(0.525, 1e-9));
  CHECK(middle_x(bed.pads[2]) == close_to(middle_x(bed.pads[1]), 1e-12));
  CHECK(middle_y(bed.pads[2]) == close_to(middle_y(bed.pads[3]), 1e-12));
}

TEST_CASE("model/beds: stiffness by bound (machines.yaml, ours); the file's own at every bound") {
  const auto at = [](model::Bound bound, const std::string& more) {
    return only_bed(model_of("at: middle" + more, {bound, false, {}})).stiffness;
  };
  CHECK(at(model::Bound::soft, "") == close_to(30e3, 1e-12));
  CHECK(at(model::Bound::mean, "") == close_to(100e3, 1e-12));
  CHECK(at(model::Bound::stiff, "") == close_to(300e3, 1e-12));
  for (const model::Bound bound : {model::Bound::soft, model::Bound::stiff}) {
    CHECK(at(bound, ", bed_twist: 90 kN m/rad") == close_to(90e3, 1e-12));
  }
}

TEST_CASE(
    "model/beds: bolted it is in the model, standing it is not; without plates there is none") {
  CHECK(only_bed(model_of("at: middle, mounting: bolted")).in_model);
  CHECK_FALSE(only_bed(model_of("at: middle, mounting: standing")).in_model);
  for (const char* sheets : {"strip", "none"}) {
    CHECK(model_of("at: middle", {}, fmt::format("analysis: {{sheets: {}}}\n", sheets))
              .parts.beds.empty());
  }
}

TEST_CASE("model/beds: its load case balances, and does unit work on the warp of its pads") {
  const model::Model model = model_of("at: [1000 mm, 250 mm]");
  const model::BedPlace& bed = only_bed(model);
  const model::LoadCase& pattern = model.cases.at(bed.load_case);
  REQUIRE(pattern.patch_loads.size() == 4);
  CHECK_FALSE(pattern.self_weight);
  double sum = 0.0, about_x = 0.0, about_y = 0.0, work = 0.0;
  for (std::size_t p = 0; p < 4; ++p) {
    const double up = pattern.patch_loads[p].force[2];
    CHECK(pattern.patch_loads[p].where == bed.pads[p]);
    sum += up;
    about_x += up * middle_y(bed.pads[p]);
    about_y += up * middle_x(bed.pads[p]);
    work += up * (p % 2 == 0 ? 0.25 : -0.25);  // q = 1
  }
  CHECK(std::abs(sum) < 1e-12);
  CHECK(std::abs(about_x) < 1e-12);
  CHECK(std::abs(about_y) < 1e-12);
  CHECK(work == close_to(1.0, 1e-12));
}

}  // namespace beds_test
