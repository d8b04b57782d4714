#include "report/rod.hpp"

#include <doctest/doctest.h>

#include <stdexcept>

#include <limits>

namespace rod_test {

using standtrue::report::rod;

namespace {
std::string drawn(double least, double greatest) { return rod(least, greatest, 22).plain(); }
}  // namespace

TEST_CASE("report/rod: the knife line stands at three quarters, the smear from best to worst") {
  //                                           1 at the knife
  CHECK(drawn(0.0, 0.0) == "|o...............||    ");
  CHECK(drawn(0.25, 0.45) == "|....oooo........||    ");
  CHECK(drawn(0.99, 0.99) == "|...............o||    ");
  CHECK(drawn(0.75, 1.10) == "|............oooo||oo  ");
  CHECK(drawn(1.10, 1.20) == "|................|| ooo");
}

TEST_CASE("report/rod: an answer is never drawn on the wrong side of the line") {
  CHECK(drawn(1.0, 1.0) == "|...............o||    ");
  CHECK(drawn(1.0 + 1e-12, 1.0 + 1e-12) == "|................||o   ");
}

TEST_CASE("report/rod: what leaves the rod is shown by an arrow") {
  CHECK(drawn(0.9, 40.0) == "|..............oo||ooo>");
  CHECK(drawn(3.0, 9.0) == "|................||   >");
  CHECK(drawn(1.1, std::numeric_limits<double>::infinity()) == "|................|| oo>");
}

TEST_CASE("report/rod: a range that is not one is a fault of ours") {
  CHECK_THROWS_AS((void)rod(0.5, 0.4, 22), std::logic_error);
  CHECK_THROWS_AS((void)rod(-0.1, 0.4, 22), std::logic_error);
  CHECK_THROWS_AS((void)rod(std::numeric_limits<double>::quiet_NaN(), 0.4, 22), std::logic_error);
}

}  // namespace rod_test
