// The largest mass on a patch. Source: lines whose limit is known.
#include "decide/load_plan.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>

namespace load_plan_test {

using namespace standtrue;

TEST_CASE("decide/load_plan: the largest mass is found from below, on lines that bend upwards") {
  // 0.2 at rest, then the steeper of two lines: 1 at 100 kg.
  std::size_t asked = 0;
  const auto bent = [&asked](double m) {
    ++asked;
    return decide::Governing{std::max(0.2 + 0.004 * m, 0.01 * m), "it"};
  };
  const decide::LargestMass found = decide::largest_mass(bent, bent(0.0), 40.0, 300.0);
  CHECK(found.mass <= 100.0);
  CHECK(found.mass > 97.4);
  CHECK(found.why == "it");
  CHECK(asked < 12);
  const auto flat = [](double) { return decide::Governing{0.4, "other"}; };
  CHECK(decide::largest_mass(flat, flat(0.0), 40.0, 300.0).mass == 300.0);
  CHECK(decide::largest_mass(flat, flat(0.0), 40.0, 300.0).why.empty());
  const auto over = [](double m) { return decide::Governing{1.2 + m, "before"}; };
  CHECK(decide::largest_mass(over, over(0.0), 40.0, 300.0).mass == 0.0);
  CHECK(decide::largest_mass(over, over(0.0), 40.0, 300.0).why == "before");
  // It tips from 30 kg on.
  const auto tips = [](double m) {
    return decide::Governing{m < 30.0 ? 0.1 : std::numeric_limits<double>::infinity(), "tips"};
  };
  const double tipping = decide::largest_mass(tips, tips(0.0), 60.0, 300.0).mass;
  CHECK(tipping < 30.0);
  CHECK(tipping > 27.0);
}

TEST_CASE("decide/load_plan: rounding at the limit does not move the mass") {
  // A line that a secant ends on exactly, 100 kg, whichever way rounding has its last digit.
  for (const double rounding : {-1e-14, 0.0, 1e-14}) {
    CAPTURE(rounding);
    const auto line = [rounding](double m) {
      return decide::Governing{0.2 + 0.008 * m + (m > 0.0 ? rounding : 0.0), "it"};
    };
    CHECK(std::abs(decide::largest_mass(line, line(0.0), 40.0, 300.0).mass - 100.0) < 1e-9);
  }
}

}  // namespace load_plan_test
