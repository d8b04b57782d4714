// A bench that leans with its floor: what pushes it downhill, by weight times slope.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace build_leaning_test {

using namespace standtrue;
using doctest::Approx;
using model::Combination;
using model::Purpose;
using quantity::in_si;

namespace {

model::Model model_of(const std::string& floor) {
  model::Idealisation made = model::idealise(
      bench_files::sound("standtrue: 1\nsize: 1500 x 620 x 900 mm\ntimber: C24 45 x 95 mm\n"
                         "joints: two corner brackets\nfeet: none\n"
                         "top: {sheet: 21 mm spruce plywood, load: 40 kg}\n"
                         "machines: [{kind: bench grinder, at: [300 mm, 200 mm]}]\n"
                         "analysis: {sheets: none}\nfloor: {surface: concrete" +
                         floor + "}\n"),
      bench_files::tables(), {});
  REQUIRE(made.model);
  return *std::move(made.model);
}

const Combination& named(const model::Model& model, const std::string& name) {
  for (const Combination& c : model.combinations) {
    if (c.name == name) return c;
  }
  throw std::runtime_error("no combination " + name);
}

double factor_of(const model::Model& model, const Combination& c, const std::string& load_case) {
  for (const model::Factored& term : c.terms) {
    if (model.cases[term.load_case].name == load_case) return term.factor;
  }
  return 0.0;
}

double weight(const model::Model& model, model::Weight::Of of) {
  double W = 0.0;
  for (const model::Weight& weight : model.parts.weights) {
    if (weight.of == of) W += in_si(weight.force);
  }
  return W;
}

}  // namespace

TEST_CASE("model/leaning: an upright bench has no such case; its feet may be set for the fall") {
  for (const char* floor : {"", ", fall: 1 in 80 to back, levelled: yes"}) {
    const model::Model upright = model_of(floor);
    CHECK(std::none_of(upright.cases.begin(), upright.cases.end(), [](const auto& load_case) {
      return load_case.name.rfind("leaning", 0) == 0;
    }));
    CHECK(named(upright, "strength-askew-back").lean[1] == Approx(1.0 / 200));  // EN 1995-1-1
  }
}

TEST_CASE(
    "model/leaning: in strength slope times weight with its factors, on what lasts the slope") {
  using Of = model::Weight::Of;
  const model::Model m = model_of(", fall: [1 in 80 to back, 1 in 100 to left]");
  const double G = weight(m, Of::bench), M = weight(m, Of::machine), Q = weight(m, Of::stored);
  const Combination& stored = named(m, "strength-stored");  // EN 1990: 1.35 G + 1.5 Q
  CHECK(factor_of(m, stored, "leaning-across") == Approx((1.35 * (G + M) + 1.5 * Q) / 80));
  CHECK(factor_of(m, stored, "leaning-along") == Approx(-(1.35 * (G + M) + 1.5 * Q) / 100));
  const Combination& light = named(m, "strength-shove-light-across-spread-back");
  CHECK(factor_of(m, light, "leaning-across") == Approx(G / 80));
  CHECK(m.cases[light.terms.at(*light.limited).load_case].name == "shove-across-spread");
  const Combination& askew = named(m, "strength-askew-back");
  CHECK(factor_of(m, askew, "leaning-across") == 0.0);
  CHECK(askew.lean[0] == Approx(-1.0 / 100));
  CHECK(askew.lean[1] == Approx(1.0 / 200 + 1.0 / 80));
  for (const Combination& c : m.combinations) {
    if (c.purpose == Purpose::strength) continue;
    CHECK(factor_of(m, c, "leaning-across") == 0.0);
  }
}

}  // namespace build_leaning_test
