// Records of timber and of sheets: in the bands of wood, and in the relations between their values.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "standtrue/reference/tables.hpp"
#include "tests/reference/bands.hpp"

namespace material_records_test {

using namespace standtrue;
using namespace standtrue::tests;

TEST_CASE("reference/material_records: timber lies in the bands of wood") {
  for (const Timber& t : tables().timbers) {
    CAPTURE(t.key);
    // A grade of allowable-stress rules has the strength of its widest size.
    CHECK(mpa_between(t.f_m_k, t.allowable ? 10 : 14, 70));
    CHECK(mpa_between(t.f_t_0_k, 5, 40));
    CHECK(mpa_between(t.f_t_90_k, 0.3, 0.7));
    CHECK(mpa_between(t.f_c_0_k, 10, 40));
    CHECK(mpa_between(t.f_c_90_k, 1.5, 15));
    CHECK(mpa_between(t.f_v_k, 1.5, 6));
    CHECK(mpa_between(t.E_0_mean, 6000, 20000));
    CHECK(mpa_between(t.E_90_mean, 200, 1500));
    CHECK(mpa_between(t.G_mean, 400, 1300));
    CHECK(between(t.rho_k, 280, 900));
    CHECK(t.rho_mean > t.rho_k);
    CHECK(t.f_t_0_k < t.f_m_k);
  }
}

TEST_CASE("reference/material_records: solid timber keeps the relations of EN 384 and EN 338") {
  for (const Timber& t : tables().timbers) {
    if (t.material != Material::solid_timber || t.allowable) continue;
    CAPTURE(t.key);
    const bool soft = t.species == Species::softwood;
    const double E = in_si(t.E_0_mean);
    CHECK(in_si(t.E_0_05) / E ==
          doctest::Approx(tables().constant(soft ? "E_05 softwood" : "E_05 hardwood").value)
              .epsilon(0.01));
    CHECK(E / in_si(t.E_90_mean) ==
          doctest::Approx(tables().constant(soft ? "E_90 softwood" : "E_90 hardwood").value)
              .epsilon(0.025));
    CHECK(E / in_si(t.G_mean) ==
          doctest::Approx(tables().constant("G divisor").value).epsilon(0.02));
    if (soft) {
      CHECK(in_si(t.f_c_90_k) / 1e6 == doctest::Approx(0.007 * in_si(t.rho_k)).epsilon(0.03));
    }
  }
}

TEST_CASE("reference/material_records: a higher class is nowhere weaker, softer or lighter") {
  const Timber* below = nullptr;
  for (const Timber& t : tables().timbers) {
    if (t.allowable) continue;
    const bool same =
        below != nullptr && below->species == t.species && below->material == t.material;
    if (same) {
      CAPTURE(t.key);
      CHECK(t.f_m_k > below->f_m_k);
      CHECK(t.f_t_0_k > below->f_t_0_k);
      CHECK(t.f_c_0_k > below->f_c_0_k);
      CHECK(t.f_c_90_k >= below->f_c_90_k);
      CHECK(t.f_v_k >= below->f_v_k);
      CHECK(t.E_0_mean > below->E_0_mean);
      CHECK(t.E_0_05 > below->E_0_05);
      CHECK(t.E_90_mean > below->E_90_mean);
      CHECK(t.G_mean > below->G_mean);
      CHECK(t.rho_k > below->rho_k);
      CHECK(t.rho_mean > below->rho_mean);
    }
    below = &t;
  }
}

TEST_CASE("reference/material_records: sheets lie in the bands of wood-based panels") {
  for (const Panel& p : tables().panels) {
    CAPTURE(p.family);
    CAPTURE(in_si(p.nominal));
    CHECK(tables().panel_family(p.family) != nullptr);
    CHECK(mm_between(p.nominal, 3, 50));
    CHECK(std::abs(in_si(p.thickness) / in_si(p.nominal) - 1.0) < 0.06);
    CHECK(mpa_between(p.E_m_0, 2000, 16000));
    CHECK(mpa_between(p.E_m_90, 400, 9000));
    CHECK(p.E_m_0 >= p.E_m_90);
    CHECK(mpa_between(p.E_t_0, 2000, 12000));
    CHECK(mpa_between(p.E_t_90, 2000, 9000));
    CHECK(mpa_between(p.G_v, 300, 1500));
    CHECK(mpa_between(p.G_r_0, 20, 300));
    CHECK(mpa_between(p.G_r_90, 20, 300));
    CHECK(mpa_between(p.f_m_0_k, 10, 80));
    CHECK(mpa_between(p.f_m_90_k, 3, 50));
    CHECK(mpa_between(p.f_v_k, 2, 12));
    for (const quantity::Stress& f : {p.f_t_0_k, p.f_t_90_k, p.f_c_0_k, p.f_c_90_k}) {
      CHECK(mpa_between_or_unknown(f, 5, 60));
    }
    for (const quantity::Stress& f : {p.f_r_0_k, p.f_r_90_k}) {
      CHECK(mpa_between_or_unknown(f, 0.5, 4));
    }
    CHECK(between(p.rho_k, 300, 900));
    CHECK(p.rho_mean > p.rho_k);
    double T = 0.0;
    for (const Ply& ply : p.plies) T += in_si(ply.thickness);
    if (!p.plies.empty()) CHECK(T == doctest::Approx(in_si(p.thickness)));
  }
}

TEST_CASE(
    "reference/material_records: between two published spruce sheets stands the lower value of "
    "each") {
  const auto ply = [](double mm) {
    return *tables().panel("spruce plywood", quantity::millimetres(mm));
  };
  const Panel thin = ply(12), thick = ply(24);
  for (const double mm : {15.0, 18.0, 21.0}) {
    const Panel p = ply(mm);
    CHECK(p.E_m_0 == std::min(thin.E_m_0, thick.E_m_0));
    CHECK(p.E_m_90 == std::min(thin.E_m_90, thick.E_m_90));
    CHECK(p.f_m_0_k == std::min(thin.f_m_0_k, thick.f_m_0_k));
    CHECK(p.f_m_90_k == std::min(thin.f_m_90_k, thick.f_m_90_k));
    CHECK(!p.note.empty());
    CHECK(p.source.of("E_m_0").status == Status::ours);
  }
}

}  // namespace material_records_test
