// Formulas of EN 1995-1-1, section 6, worked by hand; the arithmetic stands beside each.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <stdexcept>

#include "standtrue/check/finding.hpp"
#include "standtrue/check/strength.hpp"
#include "standtrue/model/model.hpp"

namespace strength_test {

using namespace standtrue;
using namespace standtrue::check;
using namespace standtrue::quantity;
using reference::Duration;
using reference::Material;
using reference::ServiceClass;

namespace {

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}
reference::Timber timber(const char* key) { return *tables().timber(key); }
Stress mpa(double value) { return pascals(1e6 * value); }
double in_mpa(Stress value) { return 1e-6 * in_si(value); }
double in_mm(Length value) { return 1e3 * in_si(value); }

model::Part rail(const char* key = "C24", double b = 38.0, double h = 89.0) {
  model::Part part;
  part.name = "rail";
  part.timber = timber(key);
  part.width = millimetres(b);
  part.depth = millimetres(h);
  return part;
}

}  // namespace

TEST_CASE("check/strength: f_m,d of C24 for years = 0.6 x 24/1.3 (EN 1995-1-1, eq. (2.14))") {
  CHECK(in_mpa(design_value(mpa(24), 0.6, 1.3)) == doctest::Approx(11.076923));
}

TEST_CASE("check/strength: k_h = (150/h)^0.2, at most 1.3 (EN 1995-1-1, eq. (3.1))") {
  const reference::Timber c24 = timber("C24");
  CHECK(size_factor(millimetres(89), c24, tables()) == doctest::Approx(1.1100441));  // (150/89)^0.2
  CHECK(size_factor(millimetres(38), c24, tables()) == 1.3);  // (150/38)^0.2 = 1.316
  CHECK(size_factor(millimetres(150), c24, tables()) == 1.0);
  CHECK(size_factor(millimetres(195), c24, tables()) == 1.0);
  reference::Timber heavy = c24;
  heavy.rho_k = from_si<Density>(750.0);  // the rule ends at 700 kg/m3
  CHECK(size_factor(millimetres(89), heavy, tables()) == 1.0);
  // Glulam: min((600/h)^0.1, 1.1); (600/300)^0.1 = 1.0718
  CHECK(size_factor(millimetres(300), timber("GL24h"), tables()) == doctest::Approx(1.0717735));
  CHECK_THROWS_AS((void)size_factor(Length{}, c24, tables()), std::logic_error);
}

TEST_CASE("check/strength: k_mod of EN 1995-1-1, Table 3.1, and none where the code gives none") {
  const auto k = [](Material m, ServiceClass air, Duration d) {
    return k_mod(m, air, d, tables());
  };
  CHECK(*k(Material::solid_timber, ServiceClass::sc1, Duration::permanent) == 0.6);
  CHECK(*k(Material::solid_timber, ServiceClass::sc2, Duration::short_term) == 0.9);
  CHECK(*k(Material::solid_timber, ServiceClass::sc3, Duration::instantaneous) == 0.9);
  const OrWhy<double> wet = k(Material::osb_2, ServiceClass::sc3, Duration::permanent);
  REQUIRE_FALSE(wet.has_value());
  CHECK(wet.error().find("service class 3") != std::string::npos);
}

TEST_CASE("check/strength: strengths of a C24 38 x 89 under a person (k_mod 0.9, gamma_M 1.3)") {
  const OrWhy<Strengths> f = strengths(rail(), ServiceClass::sc2, Duration::short_term, tables());
  REQUIRE(f.has_value());
  CHECK(in_mpa(f->f_m.y) == doctest::Approx(1.1100441 * 0.9 * 24 / 1.3).epsilon(1e-6));
  CHECK(in_mpa(f->f_m.z) == doctest::Approx(1.3 * 0.9 * 24 / 1.3).epsilon(1e-9));
  CHECK(in_mpa(f->f_t_0) == doctest::Approx(1.1100441 * 0.9 * 14.5 / 1.3).epsilon(1e-6));
  CHECK(in_mpa(f->f_c_0) == doctest::Approx(0.9 * 21 / 1.3));
  CHECK(in_mpa(f->f_c_90) == doctest::Approx(0.9 * 2.5 / 1.3));
  CHECK(in_mpa(f->f_v) == doctest::Approx(0.9 * 4.0 / 1.3));
}

TEST_CASE("check/strength: a strength that is not known is not judged, never zero") {
  model::Part part = rail();
  part.timber.f_v_k = Stress{};
  CHECK_FALSE(strengths(part, ServiceClass::sc2, Duration::short_term, tables()).has_value());
  part.timber.f_v_k = pascals(std::numeric_limits<double>::quiet_NaN());
  CHECK_FALSE(strengths(part, ServiceClass::sc2, Duration::short_term, tables()).has_value());
  part = rail();
  part.timber.material = Material::mdf;
  CHECK_FALSE(strengths(part, ServiceClass::sc3, Duration::short_term, tables()).has_value());
}

TEST_CASE("check/strength: 500 N m on 38 x 89 is 9.97 N/mm2 (sigma = 6 M/(b h^2))") {
  // 6 x 500e3/(38 x 89^2) = 9.967; 6 x 100e3/(89 x 38^2) = 4.669
  const AboutAxes<Stress> s =
      bending_stress({newton_metres(500), newton_metres(100)}, millimetres(38), millimetres(89));
  CHECK(in_mpa(s.y) == doctest::Approx(9.96675).epsilon(1e-4));
  CHECK(in_mpa(s.z) == doctest::Approx(4.66866).epsilon(1e-4));
  CHECK_THROWS_AS((void)bending_stress({}, Length{}, millimetres(89)), std::logic_error);
}

TEST_CASE("check/strength: bending about both axes, worked by hand (EN 1995-1-1, (6.11), (6.12))") {
  // 6/12 + 0.7 x 2/16 = 0.5875; 0.7 x 6/12 + 2/16 = 0.475; signs are ignored
  CHECK(bending_ratio({mpa(6), mpa(-2)}, {mpa(12), mpa(16)}, 0.7) == doctest::Approx(0.5875));
  // the other line governs: 1/12 + 0.7 x 12/16 = 0.608; 0.7/12 + 12/16 = 0.808
  CHECK(bending_ratio({mpa(-1), mpa(12)}, {mpa(12), mpa(16)}, 0.7) == doctest::Approx(0.808333));
  CHECK(bending_ratio({}, {mpa(12), mpa(16)}, 0.7) == 0.0);
  CHECK_THROWS_AS((void)bending_ratio({}, {mpa(12), mpa(0)}, 0.7), std::logic_error);
  const double nan = std::numeric_limits<double>::quiet_NaN();
  CHECK(judge(bending_ratio({mpa(nan), mpa(1)}, {mpa(12), mpa(16)}, 0.7)) == Judgement::not_judged);
}

TEST_CASE(
    "check/strength: axial force adds by line in tension, by square in compression (6.2.3, "
    "6.2.4)") {
  Strengths f;
  f.f_m = {mpa(12), mpa(16)};
  f.k_m = 0.7;
  f.f_t_0 = mpa(8);
  f.f_c_0 = mpa(14);
  const AboutAxes<Stress> sigma{mpa(6), mpa(2)};
  CHECK(bending_tension_ratio(sigma, mpa(1), f) == doctest::Approx(0.125 + 0.5875));
  CHECK(bending_compression_ratio(sigma, mpa(-7), f) == doctest::Approx(0.25 + 0.5875));
  Strengths none = f;
  none.f_t_0 = Stress{};
  CHECK_THROWS_AS((void)bending_tension_ratio(sigma, mpa(1), none), std::logic_error);
  none = f;
  none.f_c_0 = Stress{};
  CHECK_THROWS_AS((void)bending_compression_ratio(sigma, mpa(1), none), std::logic_error);
}

TEST_CASE("check/strength: 2 kN on 38 x 89 with k_cr 0.67 is 1.32 N/mm2 (EN 1995-1-1, 6.1.7)") {
  // 1.5 x 2000/(0.67 x 38 x 89) = 1.32397; with 1.5 kN across 1.25 times as much
  const auto tau = [](double y, double z) {
    return in_mpa(
        shear_stress({newtons(y), newtons(z)}, millimetres(38), millimetres(89), 0.67, tables()));
  };
  CHECK(tau(0, 2000) == doctest::Approx(1.32397).epsilon(1e-4));
  CHECK(tau(1500, -2000) == doctest::Approx(1.25 * 1.32397).epsilon(1e-4));
  CHECK_THROWS_AS((void)shear_stress({}, millimetres(38), millimetres(89), 0.0, tables()),
                  std::logic_error);
}

TEST_CASE("check/strength: torsion of a square and a strip (Timoshenko & Goodier, art. 109)") {
  // tau = T/(k_2 a b^2) of a x b: k_2 = 0.208 for a square, 0.246 for 2:1, 0.3333 for a strip
  const auto k_2 = [](double b, double h) {
    const model::Section s = model::rectangle(millimetres(b), millimetres(h));
    const double tau =
        in_si(torsion_stress(newton_metres(10), s.J, millimetres(b), millimetres(h)));
    const double least = 1e-3 * std::min(b, h), most = 1e-3 * std::max(b, h);
    return 10.0 / (tau * most * least * least);
  };
  CHECK(k_2(70, 70) == doctest::Approx(0.208).epsilon(3e-3));
  CHECK(k_2(40, 80) == doctest::Approx(0.246).epsilon(3e-3));
  CHECK(k_2(80, 40) == doctest::Approx(0.246).epsilon(3e-3));
  CHECK(k_2(1, 100) == doctest::Approx(1.0 / 3.0).epsilon(1e-2));
  CHECK_THROWS_AS((void)torsion_stress({}, SecondMoment{}, millimetres(1), millimetres(1)),
                  std::logic_error);
}

TEST_CASE("check/strength: k_shape = 1 + 0.05 h/b up to 1.3 (EN 1995-1-1:2004/A2:2014, (6.15))") {
  CHECK(k_shape(millimetres(38), millimetres(89), tables()) ==
        doctest::Approx(1.0 + 0.05 * 89 / 38));
  CHECK(k_shape(millimetres(89), millimetres(38), tables()) ==
        doctest::Approx(1.0 + 0.05 * 89 / 38));
  CHECK(k_shape(millimetres(20), millimetres(140), tables()) == 1.3);
  CHECK_THROWS_AS((void)k_shape(Length{}, millimetres(9), tables()), std::logic_error);
}

TEST_CASE("check/strength: a C24 70 mm post 1.8 m long (EN 1995-1-1, (6.21) to (6.28))") {
  // lambda = 1800/(70/sqrt 12) = 89.08; lambda_rel = 89.08/pi sqrt(21/7400) = 1.5105
  const double lambda_rel =
      relative_slenderness(millimetres(1800), millimetres(70), mpa(21), mpa(7400));
  CHECK(lambda_rel == doctest::Approx(1.510459));
  // k = (1 + 0.2 x 1.2105 + 2.28161)/2 = 1.76186; k_c = 1/(1.76186 + sqrt(3.10414 - 2.28161))
  CHECK(buckling_factor(1.5105, 0.2, tables()) == doctest::Approx(0.374702).epsilon(1e-4));
  CHECK(buckling_factor(0.3, 0.2, tables()) == 1.0);
  CHECK(buckling_factor(0.30001, 0.2, tables()) == doctest::Approx(1.0).epsilon(1e-3));  // no step
  CHECK_THROWS_AS((void)relative_slenderness(millimetres(1), Length{}, mpa(21), mpa(7400)),
                  std::logic_error);
}

TEST_CASE(
    "check/strength: columns: stocky by squares, slender by k_c (EN 1995-1-1, 6.3.2(2), (3))") {
  Strengths f;
  f.f_m = {mpa(12), mpa(16)};
  f.k_m = 0.7;
  f.f_c_0 = mpa(14);
  const AboutAxes<Stress> sigma{mpa(6), mpa(2)};
  const auto stocky = buckling_factors({0.3, 0.2}, 0.2, tables());
  CHECK_FALSE(stocky.y.has_value());
  CHECK(column_ratio(sigma, mpa(7), f, stocky) == doctest::Approx(0.25 + 0.5875));
  const auto slender = buckling_factors({0.2, 1.5105}, 0.2, tables());
  CHECK(*slender.y == 1.0);
  // 0.5/1 + 0.5 + 0.7/8 = 1.0875; 0.5/0.374702 + 0.35 + 0.125 = 1.80939
  CHECK(column_ratio(sigma, mpa(7), f, slender) == doctest::Approx(1.809393).epsilon(1e-4));
  CHECK(column_ratio(sigma, mpa(7), f, {1.0, 1.0}) == doctest::Approx(1.0875));
  CHECK_THROWS_AS((void)column_ratio(sigma, mpa(7), {}, {1.0, 1.0}), std::logic_error);
}

TEST_CASE(
    "check/strength: lateral buckling of 38 x 140 C24 over 3 m (EN 1995-1-1, (6.30) to (6.34))") {
  const model::Section s = model::rectangle(millimetres(38), millimetres(140));
  // 0.78 x 38^2 x 7400/(140 x 3000) = 19.845
  const Stress soft = critical_bending_stress(timber("C24"), millimetres(38), millimetres(140), s.J,
                                              millimetres(3000), tables());
  CHECK(in_mpa(soft) == doctest::Approx(19.845).epsilon(1e-4));
  // Hardwood by (6.31): b^2 pi sqrt(E G/ (..)): about 0.78 b^2 E/(h l) again, as G = E/16
  const Stress hard = critical_bending_stress(timber("D30"), millimetres(38), millimetres(140), s.J,
                                              millimetres(3000), tables());
  CHECK(in_mpa(hard) == doctest::Approx(0.78 * 38 * 38 * 9200 / (140.0 * 3000)).epsilon(0.1));
  CHECK(k_crit(0.75, tables()) == 1.0);
  CHECK(k_crit(1.0, tables()) == doctest::Approx(0.81));  // 1.56 - 0.75
  CHECK(k_crit(1.4, tables()) == doctest::Approx(0.51));
  CHECK(k_crit(2.0, tables()) == doctest::Approx(0.25));
  CHECK_THROWS_AS((void)critical_bending_stress(timber("C24"), millimetres(38), millimetres(140),
                                                s.J, Length{}, tables()),
                  std::logic_error);
}

TEST_CASE(
    "check/strength: contact length at an end grows by 30 mm at most (EN 1995-1-1, 6.1.5(1))") {
  CHECK(in_mm(effective_contact(millimetres(89), millimetres(1400), tables())) ==
        doctest::Approx(119));
  CHECK(in_mm(effective_contact(millimetres(20), millimetres(1400), tables())) ==
        doctest::Approx(40));
  CHECK(in_mm(effective_contact(millimetres(89), millimetres(40), tables())) ==
        doctest::Approx(109));
  CHECK_THROWS_AS((void)effective_contact(Length{}, millimetres(40), tables()), std::logic_error);
}

TEST_CASE("check/strength: k_c,90 on single bearings (EN 1995-1-1, 6.1.5(4))") {
  const Length h = millimetres(89), far = millimetres(1400);
  CHECK(bearing_factor(timber("C24"), far, h, tables()) == 1.5);
  CHECK(bearing_factor(timber("C24"), millimetres(170), h, tables()) == 1.0);  // < 2h
  CHECK(bearing_factor(timber("D30"), far, h, tables()) == 1.0);
  CHECK(bearing_factor(timber("GL24h"), far, h, tables()) == 1.75);
}

TEST_CASE("check/strength: a stronger class is never worse") {
  double last_m = 1e9, last_c = 1e9;
  for (const char* key : {"C14", "C16", "C18", "C20", "C22", "C24", "C27", "C30", "C35"}) {
    const OrWhy<Strengths> f =
        strengths(rail(key), ServiceClass::sc2, Duration::permanent, tables());
    REQUIRE(f.has_value());
    const double ratio_m = bending_ratio({mpa(5), mpa(2)}, f->f_m, f->k_m);
    const reference::Timber t = timber(key);
    const double l = relative_slenderness(millimetres(1800), millimetres(70), t.f_c_0_k, t.E_0_05);
    const double ratio_c =
        column_ratio({mpa(5), mpa(2)}, mpa(1), *f, buckling_factors({l, l}, 0.2, tables()));
    CHECK(ratio_m <= last_m);
    CHECK(ratio_c <= last_c);
    last_m = ratio_m;
    last_c = ratio_c;
  }
}

}  // namespace strength_test
