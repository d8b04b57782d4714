#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "standtrue/reference/tables.hpp"

namespace read_visual_grade_test {

using namespace standtrue;
using namespace standtrue::reference;
using quantity::in_si;

namespace {

const Tables& tables() {
  static const Tables loaded = load_tables();
  return loaded;
}

}  // namespace

TEST_CASE(
    "reference/visual_grades: E_min of a grade is E (1 - 1.645 x 0.25) 1.03/1.66 (NDS, Appendix "
    "D)") {
  int grades = 0;
  for (const Timber& t : tables().timbers) {
    if (!t.allowable) continue;
    ++grades;
    CAPTURE(t.key);
    const double cov = tables().scatter("E visual grade").cov;
    const double E_min = in_si(t.E_0_mean) * (1.0 - 1.645 * cov) / 1.66;  // E_0_mean has the 1.03
    // Printed to 10,000 psi.
    CHECK(std::abs(E_min - in_si(t.allowable->E_min)) < 5.1e3 * 6894.757);
    CHECK(in_si(t.E_0_05) == doctest::Approx(1.66 * in_si(t.allowable->E_min)));
  }
  CHECK(grades == 8);
}

TEST_CASE("reference/visual_grades: SPF No.2 in N/mm2 and kg/m3") {
  const Timber& t = *tables().timber("SPF No.2");
  const auto mpa = [](quantity::Stress s) { return in_si(s) / 1e6; };
  // psi x 0.006894757
  CHECK(mpa(t.allowable->F_b) == doctest::Approx(6.0329).epsilon(1e-4));
  CHECK(mpa(t.allowable->F_t) == doctest::Approx(3.1026).epsilon(1e-4));
  CHECK(mpa(t.allowable->F_v) == doctest::Approx(0.93079).epsilon(1e-4));
  CHECK(mpa(t.allowable->F_c_perp) == doctest::Approx(2.9303).epsilon(1e-4));
  CHECK(mpa(t.allowable->F_c) == doctest::Approx(7.9290).epsilon(1e-4));
  CHECK(mpa(t.allowable->E_min) == doctest::Approx(3516.3).epsilon(1e-4));
  // 1.4e6 psi = 9652.7, times 1.03
  CHECK(mpa(t.E_0_mean) == doctest::Approx(9942.2).epsilon(1e-4));
  // 1000 x 0.42/(1 + 0.009 x 12 x 0.42) x 1.12 = 449.99
  CHECK(in_si(t.rho_mean) == doctest::Approx(449.99).epsilon(1e-4));
  // 449.99 (1 - 1.645 x 0.10) = 375.98; between C20 and C30 of like weight
  CHECK(in_si(t.rho_k) == doctest::Approx(375.98).epsilon(1e-4));
  // For joints: 2.1 x 6.0329 and 0.007 x 375.98
  CHECK(mpa(t.f_m_k) == doctest::Approx(12.669).epsilon(1e-4));
  CHECK(mpa(t.f_c_90_k) == doctest::Approx(2.6319).epsilon(1e-4));
  CHECK(t.allowable->specific_gravity == 0.42);
  CHECK_FALSE(t.allowable->sized);
}

TEST_CASE(
    "reference/visual_grades: the shear in a tabulated E is that of a beam 21 times its depth") {
  // w = 5 q L^4/384 E I + q L^2/8 G A_s of a rectangle with E/G = 16: E_app of the whole.
  const double G_share = 1.0 / tables().constant("G divisor").value, h = 1.0, L = 21.0;
  const double bend = 5.0 / 384.0 * L * L * L * L / (h * h * h / 12.0);
  const double shear = L * L / 8.0 / (G_share * 5.0 / 6.0 * h);
  CHECK((bend + shear) / bend ==
        doctest::Approx(tables().constant("E shear-free").value).epsilon(0.006));  // 1.03: 2 digits
}

TEST_CASE("reference/visual_grades: values of southern pine fall with its width") {
  const Timber* wider = nullptr;
  for (const char* width : {"12", "10", "8", "6", "4"}) {
    const Timber* t = tables().timber(std::string("SYP No.2, ") + width + " in wide");
    REQUIRE(t != nullptr);
    CHECK(t->allowable->sized);
    if (wider != nullptr) {
      CHECK(t->allowable->F_b > wider->allowable->F_b);
      CHECK(t->allowable->F_t > wider->allowable->F_t);
      CHECK(t->allowable->F_c > wider->allowable->F_c);
      CHECK(t->E_0_mean == wider->E_0_mean);
    }
    wider = t;
  }
}

}  // namespace read_visual_grade_test
