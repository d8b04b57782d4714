// Formulas of allowable stress, in psi and inches as their examples are printed. "AWC examples":
// Structural Wood Design Examples, 2015/2018 edition, American Wood Council, as a public data file
// restates them.
#include "standtrue/check/allowable.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

namespace allowable_test {

using namespace standtrue;
using namespace standtrue::check;
using namespace standtrue::quantity;
using reference::Duration;
using reference::ServiceClass;

namespace {

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}
constexpr double psi_in_pascals = 6894.757293168;
Stress psi(double value) { return pascals(psi_in_pascals * value); }
double in_psi(Stress value) { return in_si(value) / psi_in_pascals; }
Length inches(double value) { return millimetres(25.4 * value); }

model::Part piece(const char* grade, double b, double d) {
  model::Part part;
  part.name = "rail";
  part.timber = *tables().timber(grade);
  part.width = inches(b);
  part.depth = inches(d);
  return part;
}
Adjusted adjusted(const char* grade, double b, double d, Duration duration = Duration::long_term,
                  ServiceClass air = ServiceClass::sc2) {
  const OrWhy<Adjusted> a = adjusted_values(piece(grade, b, d), air, duration, tables());
  REQUIRE(a.has_value());
  return *a;
}

/// AWC examples, E1.8: southern pine No.2 2x4, 36 in between supports, pushed and bent both ways.
/// F_cE1 = 0.822 x 510e3/(36/3.5)^2 = 3963, F_cE2 = 0.822 x 510e3/24^2 = 727.8; a load in the
/// middle: l_e = 1.37 x 36 + 3 x 3.5 = 59.82 in.
struct Example {
  Adjusted F = adjusted("SYP No.2", 1.5, 3.5, Duration::instantaneous);
  Stress F_cE1 = column_buckling_stress(F.E_min, 36 / 3.5, tables());
  Stress F_cE2 = column_buckling_stress(F.E_min, 36 / 1.5, tables());
  double R_B = beam_slenderness(inches(59.82), inches(1.5), inches(3.5));
  Stress F_bE = beam_buckling_stress(F.E_min, R_B, tables());
  /// With C_D in place of the 1.6 that F was made with.
  [[nodiscard]] SlenderValues values(double C_D) const {
    const Stress F_c = C_D / 1.6 * F.F_c, F_b1 = C_D / 1.6 * F.F_b1;
    return {column_stability_factor(F_cE2, F_c, tables()) * F_c,
            beam_stability_factor(F_bE, F_b1, tables()) * F_b1,
            C_D / 1.6 * F.F_b2,
            F_cE1,
            F_cE2,
            F_bE};
  }
};

}  // namespace

TEST_CASE("check/allowable: C_D by duration (NDS 2018, Table 2.3.2)") {
  CHECK(load_duration_factor(Duration::permanent, tables()) == 0.9);
  CHECK(load_duration_factor(Duration::long_term, tables()) == 1.0);    // to ten years
  CHECK(load_duration_factor(Duration::medium_term, tables()) == 1.0);  // to six months
  CHECK(load_duration_factor(Duration::short_term, tables()) == 1.25);  // to a week
  CHECK(load_duration_factor(Duration::instantaneous, tables()) == 1.6);
}

TEST_CASE("check/allowable: C_F and C_fu by width (NDS Supplement 2018, Table 4A)") {
  const auto of = [](double b, double d) {
    return us_size_factors(inches(b), inches(d), false, tables());
  };
  CHECK(of(1.5, 3.5).bending == 1.5);
  CHECK(of(1.5, 3.5).tension == 1.5);
  CHECK(of(1.5, 3.5).compression == 1.15);
  CHECK(of(1.5, 3.5).flat == 1.1);
  CHECK(of(3.5, 1.5).flat == 1.1);  // laid flat it is the same piece
  CHECK(of(1.5, 2.5).bending == 1.5);
  CHECK(of(1.5, 5.5).bending == 1.3);
  CHECK(of(1.5, 5.5).compression == 1.1);
  CHECK(of(1.5, 5.5).flat == 1.15);
  CHECK(of(1.5, 7.25).bending == 1.2);
  CHECK(of(1.5, 7.25).compression == 1.05);
  CHECK(of(1.5, 9.25).bending == 1.1);
  CHECK(of(1.5, 11.25).bending == 1.0);
  CHECK(of(1.5, 13.25).bending == 0.9);
  CHECK(of(3.5, 7.25).bending == 1.3);  // 4 in thick
  CHECK(of(3.5, 7.25).tension == 1.2);
  CHECK(of(3.5, 5.5).flat == 1.05);
  CHECK(of(3.5, 3.5).bending == 1.5);
  CHECK(of(3.5, 3.5).flat == 1.0);     // a square has no flat side
  CHECK(of(1.5, 4.5).bending == 1.3);  // between two widths: as the wider
  CHECK(us_size_factors(millimetres(38), millimetres(89), false, tables()).bending == 1.5);
  const SizeFactors sized = us_size_factors(inches(1.5), inches(5.5), true, tables());
  CHECK(sized.bending == 1.0);
  CHECK(sized.tension == 1.0);
  CHECK(sized.compression == 1.0);
  CHECK(sized.flat == 1.15);
}

TEST_CASE("check/allowable: adjusted values of SPF No.2 2x4 and of southern pine, by hand") {
  const Adjusted a = adjusted("SPF No.2", 1.5, 3.5, Duration::short_term);
  CHECK(in_psi(a.F_b1) == doctest::Approx(875 * 1.25 * 1.5));  // 1641
  CHECK(in_psi(a.F_b2) == doctest::Approx(875 * 1.25 * 1.5 * 1.1));
  CHECK(in_psi(a.F_t) == doctest::Approx(450 * 1.25 * 1.5));
  CHECK(in_psi(a.F_v) == doctest::Approx(135 * 1.25));
  CHECK(in_psi(a.F_c_perp) == doctest::Approx(425));  // no C_D
  CHECK(in_psi(a.F_c) == doctest::Approx(1150 * 1.25 * 1.15));
  CHECK(in_psi(a.E_min) == doctest::Approx(510000));  // no C_D
  // AWC examples, E1.6: Hem-Fir No.2 2x8 under wind, F_t* = 1008, F_b* = 1632
  const Adjusted hem = adjusted("Hem-Fir No.2", 1.5, 7.25, Duration::instantaneous);
  CHECK(in_psi(hem.F_t) == doctest::Approx(1008));
  CHECK(in_psi(hem.F_b1) == doctest::Approx(1632));
}

TEST_CASE("check/allowable: wet service, and where strength is too low to lose by it") {
  const Adjusted wet = adjusted("DF-L No.2", 1.5, 3.5, Duration::long_term, ServiceClass::sc3);
  CHECK(in_psi(wet.F_b1) == doctest::Approx(900 * 1.5 * 0.85));  // 1350 > 1150
  CHECK(in_psi(wet.F_t) == doctest::Approx(575 * 1.5));
  CHECK(in_psi(wet.F_v) == doctest::Approx(180 * 0.97));
  CHECK(in_psi(wet.F_c_perp) == doctest::Approx(625 * 0.67));
  CHECK(in_psi(wet.F_c) == doctest::Approx(1350 * 1.15 * 0.8));
  CHECK(in_psi(wet.E_min) == doctest::Approx(580000 * 0.9));
  const Adjusted deep = adjusted("DF-L No.2", 1.5, 7.25, Duration::long_term, ServiceClass::sc3);
  CHECK(in_psi(deep.F_b1) == doctest::Approx(900 * 1.2));  // 1080 <= 1150
  reference::Allowable weak = *tables().timber("SPF")->allowable;
  weak.F_c = psi(700);
  CHECK(wet_factors(weak, {}, ServiceClass::sc3, tables()).compression == 1.0);  // 700 <= 750
  CHECK(wet_factors(weak, {}, ServiceClass::sc2, tables()).across == 1.0);
}

TEST_CASE("check/allowable: values hold for 2 in to 4 in; classes of EN 338 have none") {
  const auto why = [](const char* grade, double b, double d) {
    const OrWhy<Adjusted> a =
        adjusted_values(piece(grade, b, d), ServiceClass::sc2, Duration::permanent, tables());
    return a ? std::string("judged") : a.error();
  };
  CHECK(why("SPF No.2", 0.75, 3.5) ==
        "the values of SPF No.1/No.2 are those of lumber from 2 in to 4 in thick (nominal)");
  CHECK(why("SPF No.2", 5.5, 5.5) ==
        "the values of SPF No.1/No.2 are those of lumber from 2 in to 4 in thick (nominal)");
  CHECK(why("SPF No.2", 3.5, 5.5) == "judged");
  CHECK(why("SPF No.2", 1.5, 1.5) == "judged");
  CHECK(why("C24", 1.5, 3.5) == "C24 has no allowable stresses");
}

TEST_CASE("check/allowable: C_P of a 4x4 SPF column 7.3 ft long (HUD guide 2017, example 5.6)") {
  // Residential Structural Design Guide, 2nd edition, as a public data file restates it: 0.4378.
  const Adjusted a = adjusted("SPF No.2", 3.5, 3.5);
  CHECK(in_psi(a.F_c) == doctest::Approx(1322.5));
  // 0.822 x 510e3/25.029^2 = 669.2; r = 0.5060; 0.94126 - sqrt(0.88597 - 0.63251) = 0.43782
  const Stress F_cE = column_buckling_stress(a.E_min, 7.3 * 12 / 3.5, tables());
  CHECK(in_psi(F_cE) == doctest::Approx(669.2).epsilon(1e-4));
  CHECK(column_stability_factor(F_cE, a.F_c, tables()) == doctest::Approx(0.43783).epsilon(2e-5));
  // Short columns lose nothing, long ones tend to Euler.
  CHECK(column_stability_factor(1e6 * a.F_c, a.F_c, tables()) == doctest::Approx(1).epsilon(1e-5));
  CHECK(column_stability_factor(1e-3 * a.F_c, a.F_c, tables()) ==
        doctest::Approx(1e-3).epsilon(1e-3));
  CHECK_THROWS_AS((void)column_stability_factor(F_cE, Stress{}, tables()), std::logic_error);
  CHECK_THROWS_AS((void)column_buckling_stress(F_cE, 0.0, tables()), std::logic_error);
}

TEST_CASE("check/allowable: C_L of a 4x16 Douglas fir beam of 20 ft (AWC examples, E1.2a)") {
  // F_b* = 1500, E_min = 690e3, l_e = 1.37 x 240 + 3 x 15.25 = 375 in: R_B = 21.6, F_bE = 1776, C_L
  // = 0.876, F_b' = 1313
  const double R_B = beam_slenderness(inches(374.55), inches(3.5), inches(15.25));
  CHECK(R_B == doctest::Approx(21.6).epsilon(2e-3));
  const Stress F_bE = beam_buckling_stress(psi(690e3), R_B, tables());
  CHECK(in_psi(F_bE) == doctest::Approx(1776).epsilon(1e-3));
  const double C_L = beam_stability_factor(F_bE, psi(1500), tables());
  CHECK(C_L == doctest::Approx(0.876).epsilon(6e-4));
  CHECK(1500 * C_L == doctest::Approx(1313).epsilon(6e-4));
  // Another printed sheet: R_B = 19.968, F_b* = 1215: F_bE = 2077, C_L = 0.94
  const Stress other = beam_buckling_stress(psi(690e3), 19.968, tables());
  CHECK(in_psi(other) == doctest::Approx(2077).epsilon(3e-4));
  CHECK(beam_stability_factor(other, psi(1215), tables()) == doctest::Approx(0.94).epsilon(5e-3));
  CHECK_THROWS_AS((void)beam_slenderness(inches(9), Length{}, inches(9)), std::logic_error);
  CHECK_THROWS_AS((void)beam_buckling_stress(psi(1), 0.0, tables()), std::logic_error);
  CHECK_THROWS_AS((void)beam_stability_factor(psi(1), Stress{}, tables()), std::logic_error);
}

TEST_CASE("check/allowable: l_e of a beam under any loads (NDS 2018, Table 3.3.3, note)") {
  const auto l_e = [](double l_u) {
    return in_si(bending_length(inches(l_u), inches(3.5), tables())) / 0.0254;
  };
  CHECK(l_e(24) == doctest::Approx(2.06 * 24));  // l_u/d = 6.9
  CHECK(l_e(30) == doctest::Approx(1.63 * 30 + 10.5));
  CHECK(l_e(50) == doctest::Approx(1.63 * 50 + 10.5));  // 14.29
  CHECK(l_e(60) == doctest::Approx(1.84 * 60));
  CHECK_THROWS_AS((void)bending_length(inches(9), Length{}, tables()), std::logic_error);
}

TEST_CASE("check/allowable: pulled and bent: Hem-Fir 2x8 chord (AWC examples, E1.6)") {
  const Adjusted F = adjusted("Hem-Fir No.2", 1.5, 7.25, Duration::instantaneous);
  // T = 3180 lb on 10.875 in2: 292.4; 32 lb/ft over 12 ft: M = 6912 lb in on 13.14 in3: 526.0
  CutStresses f;
  f.f_t = psi(3180 / 10.875);
  f.f_b1 = psi(6912 / 13.141);
  CHECK(tension_bending_ratio(f, F) == doctest::Approx(0.6124).epsilon(1e-4));
  f.f_b2 = psi(100);
  CHECK(tension_bending_ratio(f, F) == doctest::Approx(0.6124 + 100 / (1632 * 1.15)).epsilon(1e-4));
}

TEST_CASE("check/allowable: pushed and bent both ways: southern pine 2x4 (AWC examples, E1.8)") {
  const Example e;
  CHECK(in_psi(e.F.F_c) == doctest::Approx(2320));
  CHECK(in_psi(e.F.F_b2) == doctest::Approx(1936));
  const SlenderValues wind = e.values(1.6);
  CHECK(in_psi(wind.F_c) / 2320 == doctest::Approx(0.29).epsilon(2e-3));
  CHECK(in_psi(wind.F_c) == doctest::Approx(673).epsilon(1e-3));
  CHECK(in_psi(wind.F_b1) == doctest::Approx(1729).epsilon(1e-3));
  CHECK(in_psi(e.values(1.15).F_c) == doctest::Approx(646).epsilon(1e-3));
  CHECK(in_psi(e.values(0.9).F_c) == doctest::Approx(617).epsilon(1e-3));
  // Printed sums: dead, snow and wind 0.98; dead and snow 1.04; dead 0.35.
  CHECK(compression_bending_sum({{}, psi(171), psi(353), psi(1029)}, wind) ==
        doctest::Approx(0.98).epsilon(5e-3));
  CHECK(compression_bending_sum({{}, psi(171), {}, psi(1029)}, e.values(1.15)) ==
        doctest::Approx(1.04).epsilon(5e-3));
  CHECK(compression_bending_sum({{}, psi(57), {}, psi(343)}, e.values(0.9)) ==
        doctest::Approx(0.35).epsilon(5e-3));
}

TEST_CASE("check/allowable: every bracket of eq. (3.9-3) by hand") {
  SlenderValues F;
  F.F_c = psi(400);
  F.F_b1 = psi(1000);
  F.F_b2 = psi(800);
  F.F_cE1 = psi(1000);
  F.F_cE2 = psi(500);
  F.F_bE = psi(2000);
  // 0.25^2 + 0.4/(1 - 0.1) + 0.1/(1 - 0.2 - 0.2^2) = 0.0625 + 0.44444 + 0.13158
  CHECK(compression_bending_sum({{}, psi(100), psi(400), psi(80)}, F) ==
        doctest::Approx(0.638523).epsilon(1e-6));
  // Edgewise bending eases nothing of its own, but takes from what is left flatwise.
  CHECK(compression_bending_sum({{}, {}, psi(400), {}}, F) == doctest::Approx(0.4));
  CHECK(compression_bending_sum({{}, {}, psi(400), psi(80)}, F) ==
        doctest::Approx(0.4 + 0.1 / 0.96));
}

TEST_CASE("check/allowable: the ratio is the share of the load at which the sum is 1") {
  const SlenderValues F = Example{}.values(1.6);
  for (const CutStresses& f :
       {CutStresses{{}, psi(171), psi(353), psi(1029)}, CutStresses{{}, psi(300), {}, psi(20)},
        CutStresses{{}, psi(5), psi(900), psi(3)}, CutStresses{{}, psi(600), psi(900), psi(900)}}) {
    const double ratio = compression_bending_ratio(f, F);
    CHECK(compression_bending_ratio(f, F, 0.999 * ratio) == ratio);
    CHECK(compression_bending_ratio(f, F, 1.001 * ratio) <= ratio);
    const double k = 1.0 / ratio;
    CHECK(compression_bending_sum({{}, k * f.f_c, k * f.f_b1, k * f.f_b2}, F) ==
          doctest::Approx(1.0).epsilon(1e-6));
    CHECK((ratio <= 1.0) == (compression_bending_sum(f, F) <= 1.0));
    CHECK(compression_bending_ratio({{}, 2.0 * f.f_c, 2.0 * f.f_b1, 2.0 * f.f_b2}, F) ==
          doctest::Approx(2.0 * ratio).epsilon(1e-9));
  }
  // One alone is its own share.
  CHECK(compression_bending_ratio({{}, 0.5 * F.F_c, {}, {}}, F) == doctest::Approx(0.5));
  CHECK(compression_bending_ratio({{}, {}, 0.5 * F.F_b1, {}}, F) == doctest::Approx(0.5));
  CHECK(compression_bending_ratio({{}, {}, {}, 0.5 * F.F_b2}, F) == doctest::Approx(0.5));
  CHECK(compression_bending_ratio({}, F) == 0.0);
}

TEST_CASE("check/allowable: beyond Euler the sum is infinite, the ratio is not; NaN stays one") {
  const SlenderValues F = Example{}.values(1.6);
  const CutStresses over{{}, 1.5 * F.F_cE2, psi(10), psi(10)};
  CHECK(std::isinf(compression_bending_sum(over, F)));
  CHECK(compression_bending_ratio(over, F) > 1.5);
  CHECK(std::isfinite(compression_bending_ratio(over, F)));
  // Edgewise the same: a rail held flatwise by what lies on it is slender that way alone.
  SlenderValues edgewise = F;
  std::swap(edgewise.F_cE1, edgewise.F_cE2);
  CHECK(std::isinf(compression_bending_sum({{}, 1.01 * edgewise.F_cE1, psi(10), {}}, edgewise)));
  CHECK(std::isfinite(compression_bending_sum({{}, 0.99 * edgewise.F_cE1, psi(10), {}}, edgewise)));
  const Stress none = pascals(std::numeric_limits<double>::quiet_NaN());
  CHECK(std::isnan(compression_bending_ratio({{}, none, psi(1), psi(1)}, F)));
  CHECK(std::isnan(compression_bending_ratio({{}, psi(1), none, psi(1)}, F)));
  CHECK(std::isnan(compression_bending_ratio({{}, psi(1), psi(1), none}, F)));
}

TEST_CASE("check/allowable: C_b of a bearing away from the end (NDS 2018, 3.10.4)") {
  // Table 3.10.4: 1.75 of half an inch, 1.25 of 1 1/2, 1.11 of 3 1/2, 1.00 of 6 or more.
  const auto C_b = [](double l_b, double from_end) {
    return bearing_area_factor(inches(l_b), inches(from_end), tables());
  };
  CHECK(C_b(0.5, 4) == doctest::Approx(1.75));
  CHECK(C_b(1.5, 4) == doctest::Approx(1.25));
  CHECK(C_b(3.5, 3.1) == doctest::Approx(1.107).epsilon(1e-3));
  CHECK(C_b(6.1, 4) == 1.0);
  CHECK(C_b(1.5, 2.9) == 1.0);
  CHECK_THROWS_AS((void)C_b(0, 4), std::logic_error);
}

TEST_CASE("check/allowable: shear left at a notch falls with the cube (NDS 2018, eq. (3.4-3))") {
  const auto V = [](double d_n) {
    return in_si(notched_shear(psi(135), inches(1.5), inches(5.5), inches(d_n), tables())) /
           (psi_in_pascals * 0.0254 * 0.0254);
  };
  CHECK(V(5.5) == doctest::Approx(2.0 / 3.0 * 135 * 1.5 * 5.5));  // not cut: 742.5 lb
  CHECK(V(4.125) == doctest::Approx(742.5 * 0.75 * 0.75 * 0.75));
  CHECK_THROWS_AS((void)V(0), std::logic_error);
  CHECK_THROWS_AS((void)V(6), std::logic_error);
}

TEST_CASE(
    "check/allowable: a longer load is never borne better, nor a wet piece, nor a weaker wood") {
  double last = 0.0;
  for (const Duration d : {Duration::permanent, Duration::long_term, Duration::medium_term,
                           Duration::short_term, Duration::instantaneous}) {
    for (const ServiceClass air : {ServiceClass::sc3, ServiceClass::sc1}) {
      const Adjusted F = adjusted("Hem-Fir No.2", 1.5, 5.5, d, air);
      const Stress F_cE = column_buckling_stress(F.E_min, 30.0, tables());
      const double F_c = in_psi(column_stability_factor(F_cE, F.F_c, tables()) * F.F_c);
      if (air == ServiceClass::sc3) {
        CHECK(F_c < in_psi(adjusted("Hem-Fir No.2", 1.5, 5.5, d, ServiceClass::sc2).F_c));
        continue;
      }
      CHECK(F_c >= last);
      last = F_c;
    }
  }
  const Adjusted dry = adjusted("SPF No.2", 1.5, 5.5), fir = adjusted("DF-L No.2", 1.5, 5.5);
  CHECK(fir.F_b1 > dry.F_b1);
  CHECK(fir.F_v > dry.F_v);
  CHECK(fir.F_c > dry.F_c);
  CHECK(fir.E_min > dry.E_min);
}

}  // namespace allowable_test
