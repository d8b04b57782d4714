// Sheets that hold posts square, where they are not computed as plates.
#include <doctest/doctest.h>

#include <cmath>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace build_sheets_test {

using namespace standtrue;
using quantity::in_si;

namespace {

/// A bench with a back sheet, taken as a shear field.
model::Model model_of(const std::string& fixed, const model::Assumptions& assumptions = {}) {
  const std::string text = bench_files::small_bench(
      "analysis: {sheets: strip}\n"
      "sheets: [{side: back, sheet: 9 mm spruce plywood, fixed: " +
      fixed + "}]\n");
  model::Idealisation made =
      model::idealise(bench_files::sound(text), bench_files::tables(), assumptions);
  REQUIRE(made.model);
  return *made.model;
}

/// Sides of the panel between the nodes of its two bars.
struct Panel {
  double stiffness, a, b;
};
Panel back_of(const model::Model& m) {
  for (const model::ShearField& field : m.parts.shear_fields) {
    if (m.parts.bench.sheets[field.sheet_place].place != bench::SheetPlace::back) continue;
    const model::Member& bar = m.members[field.members[0]];
    const model::Point& p = m.nodes[bar.start].at;
    const model::Point& q = m.nodes[bar.end].at;
    return {field.stiffness, std::abs(in_si(q.x - p.x)), std::abs(in_si(q.z - p.z))};
  }
  FAIL("no shear field");
  return {};
}

const bench::Sheet& back_sheet(const model::Model& m) {
  for (const bench::Sheet& sheet : m.parts.bench.sheets) {
    if (sheet.place == bench::SheetPlace::back) return sheet;
  }
  throw std::runtime_error("no back sheet");
}

}  // namespace

TEST_CASE("model/build_sheets: a glued panel shears by V b/(G t a) (constant shear flow V/a)") {
  const model::Model m = model_of("glued");
  const Panel panel = back_of(m);
  const bench::Sheet& sheet = back_sheet(m);
  const double Gt = in_si(sheet.panel.G_v) * in_si(sheet.panel.thickness);
  CHECK(panel.a > 1.0);
  CHECK(panel.stiffness == doctest::Approx(Gt * panel.a / panel.b));
}

TEST_CASE("model/build_sheets: screws add 2 s (a + b)/(K a²), by unit load on their slip") {
  // Shear flow V/a passes s V/a to each of the 2 (a + b)/s screws: energy (s V/a)²/2K of each.
  const model::Model glued = model_of("glued"), screwed = model_of("screwed");
  const Panel panel = back_of(screwed);
  const bench::Sheet& sheet = back_sheet(screwed);
  // K_ser = rho_m^1.5 d/23 (EN 1995-1-1, Table 7.1), rho_m the root of both (7.1(2)).
  const double rho = std::sqrt(in_si(screwed.parts.bench.posts[0].stock.timber.rho_mean) *
                               in_si(sheet.panel.rho_mean));
  const double K = 1e3 * std::pow(rho, 1.5) * 1e3 * in_si(sheet.screws.screw.diameter) / 23.0;
  const double s = in_si(sheet.screws.every);
  const double slip = 2.0 * s * (panel.a + panel.b) / (K * panel.a * panel.a);
  CHECK(1.0 / panel.stiffness == doctest::Approx(1.0 / back_of(glued).stiffness + slip));
  // A third and three times the slip at the bounds (ours), 1 + 2 k_def after creep.
  model::Assumptions stiff{model::Bound::stiff, false, {}}, soft{model::Bound::soft, false, {}};
  CHECK(1.0 / back_of(model_of("screwed", stiff)).stiffness ==
        doctest::Approx(1.0 / back_of(glued).stiffness + slip / 3.0));
  CHECK(1.0 / back_of(model_of("screwed", soft)).stiffness ==
        doctest::Approx(1.0 / back_of(glued).stiffness + slip * 3.0));
}

TEST_CASE("model/build_sheets: the two bars of a panel resist as the panel does, 2 k_d a²/d²") {
  const model::Model m = model_of("glued");
  const Panel panel = back_of(m);
  for (const model::ShearField& field : m.parts.shear_fields) {
    if (m.parts.bench.sheets[field.sheet_place].place != bench::SheetPlace::back) continue;
    double resists = 0.0;
    for (const std::size_t bar : field.members) {
      const double d = std::hypot(panel.a, panel.b);
      const double k_d = in_si(m.members[bar].elastic.E) * in_si(m.members[bar].section.A) / d;
      resists += k_d * panel.a * panel.a / (d * d);
    }
    CHECK(resists == doctest::Approx(panel.stiffness));
  }
}

}  // namespace build_sheets_test
