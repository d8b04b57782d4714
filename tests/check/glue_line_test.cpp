#include "check/glue_line.hpp"

#include <doctest/doctest.h>

#include "tests/check/portal.hpp"

namespace glue_line_test {

using namespace standtrue;
using doctest::Approx;

TEST_CASE("check/glue_line: torsion and shear of a crossing, by hand; more glue is never weaker") {
  const portal::Built built = portal::build({});
  const model::Part& rail = built.model.parts.parts[2];
  const model::Part& post = built.model.parts.parts[0];
  const auto line = [&](double l, double h, double faces) {
    return check::glue_line(l, h, faces, rail, post, portal::tables());
  };
  // 60 x 100 mm: I_p = 60 x 100 (60^2 + 100^2)/12 = 6.8e6 mm4; half of 2.5 N/mm2 over 50 mm
  CHECK(line(0.06, 0.1, 1).M_k == Approx(1.25 * 6.8e6 / 50 / 1e3));
  // half of twice f_t,90 = 0.4 N/mm2
  CHECK(line(0.06, 0.1, 1).F_k == Approx(0.4 * 6000));
  CHECK(line(0.06, 0.1, 2).M_k == Approx(2 * line(0.06, 0.1, 1).M_k));
  for (double h = 0.05; h < 0.2; h += 0.01) {
    CHECK(line(0.06, h + 0.01, 1).M_k > line(0.06, h, 1).M_k);
    CHECK(line(h + 0.01, 0.09, 1).F_k > line(h, 0.09, 1).F_k);
  }
  CHECK_THROWS((void)line(0.0, 0.1, 1));
}

}  // namespace glue_line_test
