// What every formula of fasteners must obey, over all records of the reference tables: more wood,
// one more screw, denser timber is never worse; closer never counts more. No source but sense.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <limits>

#include "standtrue/check/fasteners.hpp"

namespace fastener_laws_test {

using namespace standtrue;
using namespace standtrue::check;
using namespace standtrue::quantity;
using reference::Material;
using reference::Timber;

namespace {

constexpr double right_angle = 3.14159265358979323846 / 2.0;

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

/// A value that must not fall as one goes on.
struct Rising {
  double last = -std::numeric_limits<double>::infinity();
  void operator()(double value) {
    CHECK(value >= last - 1e-12 * std::abs(last));  // rounding
    last = value;
  }
};

/// Calls `see(screw or bolt diameter, d_ef, M_y)` for every screw and every bolt of 4.6 and 8.8.
template <class See>
void each_fastener(See see) {
  for (const reference::Screw& screw : tables().screws) {
    see(screw.diameter, effective_diameter(screw, Length{}, tables()), screw.M_y_k);
  }
  for (const reference::Bolt& bolt : tables().bolts) {
    for (const char* steel : {"4.6", "8.8"}) {
      see(bolt.diameter, bolt.diameter,
          yield_moment(tables().steel(steel)->f_u, bolt.diameter, tables()));
    }
  }
}

}  // namespace

TEST_CASE("check/fastener_laws: thicker timber on either side is never worse (8.6)") {
  for (const Timber& timber : tables().timbers) {
    each_fastener([&](Length, Length d, Moment M_y) {
      const Stress f_h = embedment_screw(d, timber, true, right_angle, tables());
      for (const double other : {12.0, 38.0, 90.0}) {
        for (const bool head : {true, false}) {
          Rising rise;
          for (double t = 4; t <= 160; t += 4) {
            const Length t_1 = millimetres(head ? t : other), t_2 = millimetres(head ? other : t);
            rise(in_si(
                timber_to_timber({f_h, f_h, t_1, t_2, d, M_y, newtons(500), 1.0}, tables()).F));
          }
        }
      }
    });
  }
}

TEST_CASE("check/fastener_laws: thicker timber, or a thicker plate, is never worse (8.9, 8.10)") {
  for (const Timber& timber : tables().timbers) {
    each_fastener([&](Length d_nominal, Length d, Moment M_y) {
      const Stress f_h = embedment_screw(d, timber, true, 0.0, tables());
      for (const bool tight : {true, false}) {
        for (const double plate : {0.5, 1.5, 2.5, 4.0, 10.0}) {
          Rising rise;
          for (double t = 4; t <= 160; t += 4) {
            rise(in_si(steel_to_timber({millimetres(plate), tight, f_h, millimetres(t), d,
                                        d_nominal, M_y, newtons(500), 1.0},
                                       tables())
                           .F));
          }
        }
        for (const double t : {10.0, 20.0, 35.0, 90.0}) {
          Rising rise;
          for (double plate = 0.25; plate <= 14; plate += 0.25) {
            rise(in_si(steel_to_timber({millimetres(plate), tight, f_h, millimetres(t), d,
                                        d_nominal, M_y, newtons(500), 1.0},
                                       tables())
                           .F));
          }
        }
      }
    });
  }
}

TEST_CASE("check/fastener_laws: a screw that pulls more helps no less across (8.2.2(2))") {
  each_fastener([](Length d_nominal, Length d, Moment M_y) {
    const Stress f_h = embedment_screw(d, *tables().timber("C24"), true, 0.0, tables());
    for (const double limit : {0.0, 0.25, 1.0}) {
      std::array<Rising, 2> rise;
      for (double F_ax = 0; F_ax < 8000; F_ax += 250) {
        rise[0](in_si(timber_to_timber({f_h, f_h, millimetres(38), millimetres(60), d, M_y,
                                        newtons(F_ax), limit},
                                       tables())
                          .F));
        rise[1](in_si(steel_to_timber({millimetres(2.5), true, f_h, millimetres(32), d, d_nominal,
                                       M_y, newtons(F_ax), limit},
                                      tables())
                          .F));
      }
    }
  });
}

TEST_CASE("check/fastener_laws: denser timber holds fasteners no worse") {
  for (const bool predrilled : {true, false}) {
    each_fastener([&](Length, Length d, Moment) {
      Timber timber = *tables().timber("C24");
      std::array<Rising, 3> rise;
      for (double rho = 250; rho <= 700; rho += 10) {
        timber.rho_k = from_si<Density>(rho);
        rise[0](in_si(embedment_screw(d, timber, predrilled, right_angle, tables())));
        rise[1](in_si(embedment_bolt(d, timber, right_angle, tables())));
        rise[2](
            in_si(*embedment_panel(d, millimetres(12), timber.rho_k, Material::plywood, tables())));
      }
    });
  }
  for (const reference::Screw& screw : tables().screws) {
    std::array<Rising, 2> rise;
    for (double rho = 250; rho <= 700; rho += 10) {
      const Density rho_k = from_si<Density>(rho);
      rise[0](in_si(withdrawal(screw, 10.0 * screw.diameter, rho_k, right_angle, tables())->F));
      rise[1](in_si(head_pull_through(screw, rho_k, tables())));
    }
  }
}

TEST_CASE("check/fastener_laws: a steeper pull and more thread never hold less (8.38, 8.40a)") {
  for (const reference::Screw& screw : tables().screws) {
    const Density rho_k = from_si<Density>(350);
    Rising rise;
    for (double degrees = 30; degrees <= 90; degrees += 5) {
      rise(in_si(withdrawal(screw, 10.0 * screw.diameter, rho_k,
                            degrees / 90 * right_angle * 1.0001, tables())
                     ->F));
    }
    Rising longer;
    for (double l = 6.01; l < 30; l += 0.5) {
      longer(in_si(withdrawal(screw, l * screw.diameter, rho_k, right_angle, tables())->F));
    }
  }
}

TEST_CASE(
    "check/fastener_laws: one more in a row is never weaker, closer never counts more (8.17)") {
  for (const reference::Screw& screw : tables().screws) {
    for (const bool predrilled : {true, false}) {
      for (double a_1 = 2.0; a_1 <= 20.0; a_1 += 0.25) {
        Rising more;
        for (int n = 1; n <= 12; ++n) {
          const double n_ef =
              effective_in_row(n, a_1 * screw.diameter, screw.diameter, predrilled, tables());
          more(n_ef);
          CHECK(n_ef >= 1.0);
          CHECK(n_ef <= n);
        }
      }
      for (int n = 1; n <= 12; ++n) {
        Rising wider;
        for (double a_1 = 2.0; a_1 <= 20.0; a_1 += 0.25) {
          wider(effective_in_row(n, a_1 * screw.diameter, screw.diameter, predrilled, tables()));
        }
      }
    }
  }
}

TEST_CASE("check/fastener_laws: the same of bolts; one bolt counts as one (8.34)") {
  const reference::SpacingRule& rule = tables().spacing_rule("bolts");
  for (const reference::Bolt& bolt : tables().bolts) {
    const Length d = bolt.diameter;
    const double least = least_spacings(rule, d, 0.0, Plate::none, tables()).a_1 / d;
    for (double a_1 = least; a_1 <= 30.0; a_1 += 0.5) {
      Rising more;
      for (int n = 1; n <= 12; ++n) {
        const double n_ef = effective_bolts(n, a_1 * d, d, tables());
        more(n_ef);
        CHECK(n_ef <= n);
      }
      CHECK(effective_bolts(1, a_1 * d, d, tables()) == 1.0);
    }
    for (int n = 1; n <= 12; ++n) {
      Rising wider;
      for (double a_1 = 1.0; a_1 <= 30.0; a_1 += 0.5)
        wider(effective_bolts(n, a_1 * d, d, tables()));
    }
  }
}

TEST_CASE(
    "check/fastener_laws: more screws pulled together hold more, no more than so many (8.41)") {
  Rising more;
  for (int n = 1; n <= 40; ++n) {
    more(effective_axial(n, tables()));
    CHECK(effective_axial(n, tables()) <= n);
  }
}

TEST_CASE(
    "check/fastener_laws: fasteners farther into the rail, or wider timber, split it later (8.4)") {
  Rising deeper, wider;
  for (double h_e = 10; h_e < 140; h_e += 5) {
    deeper(
        in_si(splitting_resistance(millimetres(45), millimetres(h_e), millimetres(140), tables())));
    wider(
        in_si(splitting_resistance(millimetres(h_e), millimetres(70), millimetres(140), tables())));
  }
}

}  // namespace fastener_laws_test
