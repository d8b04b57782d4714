// Sheets as the analyst's plates: mesh, stiffness, ties.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "model/idealising.hpp"
#include "tests/bench/bench_files.hpp"

namespace plates_test {

using namespace standtrue;
using doctest::Approx;
using model::Plate;
using quantity::in_si;

namespace {

using bench_files::tables;

bench::Bench read(const std::string& text) {
  return bench_files::read("bench.yaml", text).bench.value();
}

const char* const plain = R"(
standtrue: 1
size: 1700 x 650 x 880 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 18 mm spruce plywood
shelf: 12 mm spruce plywood
machines:
  - {kind: bench grinder, at: [700 mm, 300 mm]}
)";

model::Model model_of(const std::string& text, const model::Assumptions& assumptions = {}) {
  model::Idealisation made = model::idealise(read(text), tables(), assumptions);
  REQUIRE(made.model);
  return *made.model;
}

}  // namespace

TEST_CASE("model/plates: mesh lines pass every wanted place and leave no wide cell") {
  const std::vector<double> lines = model::mesh_lines(-0.025, 1.675, {0.0225, 0.7, 0.701}, 0.05);
  CHECK(lines.front() == -0.025);
  CHECK(lines.back() == 1.675);
  for (const double wanted : {0.0225, 0.7}) {
    CHECK(std::count(lines.begin(), lines.end(), wanted) == 1);
  }
  CHECK(std::count(lines.begin(), lines.end(), 0.701) == 0);  // 1 mm beside one that came first
  for (std::size_t i = 0; i + 1 < lines.size(); ++i) {
    CHECK(lines[i + 1] - lines[i] > 0.004 - 1e-12);
    CHECK(lines[i + 1] - lines[i] < 0.05 * 1.3 + 1e-12);
  }
}

TEST_CASE("model/plates: what the lines of a seam stand for adds up to it, to the first moment") {
  const std::vector<double> lines{0.0, 0.1, 0.18, 0.3, 0.45};
  const std::vector<double> share = model::tributary(lines, 0.04, 0.41);
  const double sum = std::accumulate(share.begin(), share.end(), 0.0);
  CHECK(sum == Approx(0.37).epsilon(1e-12));
  double moment = 0.0;
  for (std::size_t i = 0; i < lines.size(); ++i) moment += lines[i] * share[i];
  CHECK(moment == Approx(0.5 * (0.41 * 0.41 - 0.04 * 0.04)).epsilon(1e-12));
}

TEST_CASE("model/plates: stiffness of a sheet is that of its table, D = E t³/12, A = E t") {
  const bench::Bench bench = read(plain);
  const bench::Sheet& top = bench.sheets.at(0);
  const double t = in_si(top.panel.thickness);
  const model::PlateStiffness s = model::plate_stiffness(top, true);
  CHECK(s.D_11 == Approx(in_si(top.panel.E_m_0) * t * t * t / 12.0).epsilon(1e-12));
  CHECK(s.D_22 == Approx(in_si(top.panel.E_m_90) * t * t * t / 12.0).epsilon(1e-12));
  CHECK(s.D_66 == Approx(in_si(top.panel.G_v) * t * t * t / 12.0).epsilon(1e-12));
  CHECK(s.A_11 == Approx(in_si(top.panel.E_t_0) * t).epsilon(1e-12));
  CHECK(s.S_x == Approx(in_si(top.panel.G_r_0) * t / 1.2).epsilon(1e-12));
  const model::PlateStiffness turned = model::plate_stiffness(top, false);
  CHECK(turned.D_22 == s.D_11);
  CHECK(turned.A_22 == s.A_11);
  CHECK(turned.S_y == s.S_x);
  CHECK(turned.D_66 == s.D_66);
}

TEST_CASE(
    "model/plates: two layers beside each other bend as two, glued ones as one twice as thick") {
  bench::Sheet sheet = read(plain).sheets.at(0);
  // One modulus for bending and stretching, so that glue makes one board of it.
  sheet.panel.E_t_0 = sheet.panel.E_m_0;
  sheet.panel.E_t_90 = sheet.panel.E_m_90;
  const model::PlateStiffness one = model::plate_stiffness(sheet, true);
  sheet.layers = 2;
  const model::PlateStiffness loose = model::plate_stiffness(sheet, true);
  CHECK(loose.D_11 == Approx(2.0 * one.D_11).epsilon(1e-12));
  CHECK(loose.S_x == Approx(2.0 * one.S_x).epsilon(1e-12));
  CHECK(loose.A_11 == Approx(one.A_11).epsilon(1e-12));  // the lower one alone is held
  sheet.between_layers = bench::Bond::glued;
  const model::PlateStiffness glued = model::plate_stiffness(sheet, true);
  CHECK(glued.D_11 == Approx(8.0 * one.D_11).epsilon(1e-12));
  CHECK(glued.D_66 == Approx(8.0 * one.D_66).epsilon(1e-12));
  CHECK(glued.A_22 == Approx(2.0 * one.A_22).epsilon(1e-12));
}

TEST_CASE("model/plates: seams carry what they are long, and no tie stands near a post") {
  const model::Model model = model_of(plain);
  REQUIRE(model.plates.size() == 2);
  REQUIRE(model.parts.seams.size() >= 8);
  const bench::Bench& bench = model.parts.bench;
  for (const model::Seam& seam : model.parts.seams) {
    const Plate& plate = model.plates[seam.plate];
    double length = 0.0, slip = 0.0;
    for (std::size_t tie = seam.first; tie < seam.last; ++tie) {
      length += in_si(seam.lengths[tie - seam.first]);
      slip += plate.ties[tie].stiffness[0];
      const double x = plate.x[plate.ties[tie].i], y = plate.y[plate.ties[tie].j];
      for (const bench::Post& post : bench.posts) {
        const double clear_x = std::abs(x - in_si(post.x)) - 0.5 * in_si(post.along_x);
        const double clear_y = std::abs(y - in_si(post.y)) - 0.5 * in_si(post.along_y);
        CHECK(std::max(clear_x, clear_y) > 0.099);  // 100 mm is the usual clear way of screws
      }
    }
    const model::Part& part = model.parts.parts[seam.part];
    CHECK(length == Approx(in_si(part.span) - 0.2).epsilon(0.02));
    const double K = slip / length * 0.25;  // of one screw every 250 mm
    CHECK(K > 1.0e6);                       // ρ^1.5 d/23 of 420 and 460 kg/m³, 4 mm: 1.6 kN/mm
    CHECK(K < 2.0e6);
  }
}

TEST_CASE("model/plates: a shelf is cut round the posts that pass it") {
  const model::Model model = model_of(plain);
  const Plate& shelf = model.plates.at(1);
  REQUIRE(shelf.holes.size() == 4);
  double holes = 0.0;
  for (const model::Patch& hole : shelf.holes) holes += (hole.x1 - hole.x0) * (hole.y1 - hole.y0);
  const double whole = (shelf.x.back() - shelf.x.front()) * (shelf.y.back() - shelf.y.front());
  CHECK(shelf.area() == Approx(whole - holes).epsilon(1e-9));
  CHECK(holes == Approx(4.0 * 0.045 * 0.095).epsilon(1e-3));
}

TEST_CASE("model/plates: a bolted machine's bed resists warping, a standing one's does not") {
  const std::string lathe = R"(
standtrue: 1
size: 1700 x 650 x 880 mm
timber: C24 45 x 95 mm
joints: two corner brackets
top: 24 mm spruce plywood
machines:
  - {kind: mini metal lathe, at: [800 mm, 320 mm], mounting: )";
  CHECK(model_of(lathe + "standing}\n").plates.at(0).bodies.empty());
  const model::Model bolted = model_of(lathe + "bolted, bed_twist: 90 kN m/rad}\n");
  REQUIRE(bolted.plates.at(0).bodies.size() == 1);
  const bench::Machine& machine = bolted.parts.bench.machines.at(0);
  const double b = std::min(in_si(machine.pads_x), in_si(machine.pads_y));
  CHECK(bolted.plates[0].bodies[0].stiffness == Approx(90e3 / (b * b)).epsilon(1e-12));
}

TEST_CASE("model/plates: a pad over a hole and a load over a hole are faults of the bench") {
  bench::Bench bench = read(plain);
  bench.sheets[0].cut_outs.push_back({quantity::metres(0.45), quantity::metres(0.9),
                                      quantity::metres(0.15), quantity::metres(0.4)});
  const model::Idealisation made = model::idealise(bench, tables(), {});
  CHECK_FALSE(made.model);
  REQUIRE_FALSE(made.faults.empty());
  CHECK(made.faults[0] == "the bench grinder has a pad over a hole in the top");
}

TEST_CASE("model/plates: a mesh beyond all use is a fault, not a long wait") {
  bench::Bench bench = read(plain);
  bench.analysis.mesh = quantity::millimetres(5.0);
  const model::Idealisation made = model::idealise(bench, tables(), {});
  CHECK_FALSE(made.model);
  REQUIRE_FALSE(made.faults.empty());
  CHECK(made.faults[0].rfind("the mesh of the sheets would have ", 0) == 0);
}

TEST_CASE("model/plates: ties are limited, over all sheets") {
  std::string text = plain;
  const std::size_t at = text.find("size: ");
  text.replace(at, text.find('\n', at) - at, "size: 20 x 2 x 0.9 m");
  const std::string file = text + "bearers: {every: 100 mm}\n";
  const model::Idealisation made = model::idealise(read(file), tables(), {});
  CHECK_FALSE(made.model);
  REQUIRE(made.faults.size() == 1);
  CHECK(made.faults[0].find("places tied to the frame, and 900 are the most") != std::string::npos);
}

}  // namespace plates_test
