#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>
#include <vector>

#include "standtrue/reference/tables.hpp"

namespace layup_test {

using namespace standtrue;
using namespace standtrue::reference;
using quantity::in_si;
using quantity::millimetres;
using quantity::Stress;

namespace {

double mpa(Stress s) { return in_si(s) / 1e6; }

std::vector<Ply> plies_mm(const std::vector<double>& thicknesses) {
  std::vector<Ply> out;
  bool along = true;
  for (const double t : thicknesses) {
    out.push_back({.thickness = millimetres(t), .along = along});
    along = !along;
  }
  return out;
}

VeneerValues veneer() {
  VeneerValues v;
  v.E = quantity::pascals(12e9);
  v.G_along = quantity::pascals(600e6);
  v.G_rolling = quantity::pascals(60e6);
  v.f_m = quantity::pascals(40e6);
  v.f_t = quantity::pascals(30e6);
  v.f_c = quantity::pascals(30e6);
  v.f_roll = quantity::pascals(1e6);
  return v;
}

}  // namespace

TEST_CASE("reference/layup: the birch table is reproduced by the rule of parallel plies") {
  const Tables tables = load_tables();
  const VeneerValues* birch = tables.veneer("birch");
  REQUIRE(birch != nullptr);
  int checked = 0;
  for (const Panel& p : tables.panels) {
    if (p.family != "birch plywood") continue;
    CAPTURE(in_si(p.nominal));
    const PanelValues v = layup_values(p.plies, *birch);
    double T = 0.0;
    for (const Ply& ply : p.plies) T += in_si(ply.thickness);
    CHECK(T == doctest::Approx(in_si(p.thickness)).epsilon(1e-9));
    const auto printed = [](Stress rule, Stress table, double last_digit) {
      CHECK(std::abs(mpa(rule) - mpa(table)) <= 0.5001 * last_digit);
    };
    printed(v.E_m_0, p.E_m_0, 1.0);
    printed(v.E_m_90, p.E_m_90, 1.0);
    printed(v.E_t_0, p.E_t_0, 1.0);
    printed(v.E_t_90, p.E_t_90, 1.0);
    printed(v.f_m_0_k, p.f_m_0_k, 0.1);
    printed(v.f_m_90_k, p.f_m_90_k, 0.1);
    printed(v.f_t_0_k, p.f_t_0_k, 0.1);
    printed(v.f_t_90_k, p.f_t_90_k, 0.1);
    printed(v.f_c_0_k, p.f_c_0_k, 0.1);
    printed(v.f_c_90_k, p.f_c_90_k, 0.1);
    printed(v.f_r_0_k, p.f_r_0_k, 0.01);
    printed(v.f_r_90_k, p.f_r_90_k, 0.01);
    if (p.plies.size() >= 7) {  // the planar modulus is reproduced less closely for few plies
      CHECK(mpa(v.G_r_0) == doctest::Approx(mpa(p.G_r_0)).epsilon(0.01));
      CHECK(mpa(v.G_r_90) == doctest::Approx(mpa(p.G_r_90)).epsilon(0.01));
    }
    ++checked;
  }
  CHECK(checked == 9);
}

TEST_CASE("reference/layup: the conifer table is the rule with conifer constants") {
  const Tables tables = load_tables();
  for (const Panel& p : tables.panels) {
    if (p.family != "conifer plywood") continue;
    const PanelValues v = layup_values(p.plies, *tables.veneer("conifer"));
    CHECK(mpa(p.E_m_0) == doctest::Approx(mpa(v.E_m_0)).epsilon(1e-4));
    CHECK(mpa(p.E_m_90) == doctest::Approx(mpa(v.E_m_90)).epsilon(1e-3));
    CHECK(mpa(p.E_t_0) == doctest::Approx(mpa(v.E_t_0)).epsilon(1e-4));
    CHECK(mpa(p.f_m_0_k) == doctest::Approx(mpa(v.f_m_0_k)).epsilon(3e-3));
    CHECK(mpa(p.f_m_90_k) == doctest::Approx(mpa(v.f_m_90_k)).epsilon(3e-3));
    CHECK(in_si(v.f_t_0_k) == 0.0);  // not known, so not known
  }
}

TEST_CASE("reference/layup: three equal plies carry 26/27 along and 1/27 across") {
  const PanelValues v = layup_values(plies_mm({3, 3, 3}), veneer());
  CHECK(mpa(v.E_m_0) == doctest::Approx(12000.0 * 26.0 / 27.0).epsilon(1e-12));
  CHECK(mpa(v.E_m_90) == doctest::Approx(12000.0 / 27.0).epsilon(1e-12));
  CHECK(mpa(v.f_m_90_k) == doctest::Approx(40.0 / 9.0).epsilon(1e-12));
  CHECK(mpa(v.E_t_90) == doctest::Approx(4000.0).epsilon(1e-12));
  // Along: S = 3 * 3 = 9 mm², I = 58.5 mm³, T = 9 mm.
  CHECK(mpa(v.f_r_0_k) == doctest::Approx(1.5 * 58.5 / (9.0 * 9.0)).epsilon(1e-12));
  CHECK(in_si(v.f_r_90_k) == 0.0);  // no ply lies beyond the outer cross plies
}

TEST_CASE("reference/layup: with equal shear moduli and thin cross plies it is the solid's 5/6") {
  VeneerValues v = veneer();
  v.G_rolling = v.G_along;
  const PanelValues values = layup_values(plies_mm({5, 1e-6, 5}), v);
  CHECK(mpa(values.G_r_0) == doctest::Approx(600.0).epsilon(1e-6));
}

TEST_CASE("reference/layup: bending shares of along and across add up to the veneer's modulus") {
  for (const auto& mm :
       {std::vector<double>{1, 2, 1}, {2, 2, 2, 2, 2}, {1.1, 1.4, 1.4, 1.4, 1.1}}) {
    const PanelValues v = layup_values(plies_mm(mm), veneer());
    CHECK(mpa(v.E_m_0 + v.E_m_90) == doctest::Approx(12000.0).epsilon(1e-12));
    CHECK(mpa(v.E_t_0 + v.E_t_90) == doctest::Approx(12000.0).epsilon(1e-12));
    CHECK(mpa(v.G_r_0) > 60.0);
    CHECK(mpa(v.G_r_0) < 600.0);
  }
}

TEST_CASE("reference/layup: a lopsided, thin or one-way layup is a bug of the caller") {
  CHECK_THROWS_AS((void)layup_values(plies_mm({1, 2, 3}), veneer()), std::logic_error);
  CHECK_THROWS_AS((void)layup_values(plies_mm({1, 1}), veneer()), std::logic_error);
  CHECK_THROWS_AS((void)layup_values(plies_mm({1, -1, 1}), veneer()), std::logic_error);
  const std::vector<Ply> one_way(3, Ply{.thickness = millimetres(3), .along = true});
  CHECK_THROWS_AS((void)layup_values(one_way, veneer()), std::logic_error);
}

}  // namespace layup_test
