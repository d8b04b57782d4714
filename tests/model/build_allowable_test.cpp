// Combinations of allowable stress: the same cases without factors, and only where asked for.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace build_allowable_test {

using namespace standtrue;
using model::Combination;
using model::Purpose;

namespace {

model::Idealisation made(const std::string& timber, const std::string& more = "") {
  model::Idealisation idealisation =
      model::idealise(bench_files::sound("standtrue: 1\nsize: 72 x 26 x 36 in\njoints: bolted lap\n"
                                         "top: {sheet: 3/4 in birch plywood, load: 60 lb}\n"
                                         "machines: [{kind: bench grinder, at: [12 in, 12 in]}]\n"
                                         "analysis: {sheets: none}\ntimber: " +
                                         timber + "\n" + more),
                      bench_files::tables(), {});
  REQUIRE(idealisation.model);
  return idealisation;
}

std::vector<Combination> of(const model::Idealisation& made, Purpose purpose) {
  std::vector<Combination> found;
  for (const Combination& c : made.model->combinations) {
    if (c.purpose == purpose) found.push_back(c);
  }
  return found;
}
const Combination& named(const std::vector<Combination>& all, const std::string& name) {
  for (const Combination& c : all) {
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
bool says(const model::Idealisation& made, const std::string& words) {
  return std::any_of(made.assumptions.begin(), made.assumptions.end(),
                     [&](const std::string& line) { return line.find(words) != line.npos; });
}

}  // namespace

TEST_CASE("model/allowable: no such combination by limit states; both kinds where asked for") {
  const model::Idealisation en = made("C24 2x4");
  CHECK(of(en, Purpose::allowable).empty());
  CHECK_FALSE(says(en, "allowable"));
  const model::Idealisation us = made("SPF No.2 2x4", "rules: allowable stress\n");
  CHECK(of(us, Purpose::strength).size() == of(en, Purpose::strength).size());
  CHECK(of(us, Purpose::service).size() == of(en, Purpose::service).size());
  // All of strength but the four ways in which it may be built askew.
  CHECK(of(us, Purpose::allowable).size() == of(us, Purpose::strength).size() - 4);
  CHECK(says(us, "posts, rails, bearers and braces are judged by allowable stresses"));
}

TEST_CASE("model/allowable: D; D + stored; + a person; + a shove, without factors") {
  const model::Idealisation us = made("SPF No.2 2x4", "rules: allowable stress\n");
  const model::Model& m = *us.model;
  const std::vector<Combination> all = of(us, Purpose::allowable);
  const Combination& permanent = named(all, "allowable-permanent");
  CHECK(permanent.duration == reference::Duration::permanent);
  CHECK(factor_of(m, permanent, "self") == 1.0);
  CHECK(factor_of(m, permanent, "machine-bench-grinder") == 1.0);
  CHECK(factor_of(m, permanent, "stored-top") == 0.0);
  const Combination& stored = named(all, "allowable-stored");
  CHECK(stored.duration == reference::Duration::long_term);
  CHECK(factor_of(m, stored, "stored-top") == 1.0);
  const Combination& stand = named(all, "allowable-stand-middle");
  CHECK(stand.duration == reference::Duration::short_term);
  CHECK(factor_of(m, stand, "person-middle") == 1.0);          // the case is of 1 kN
  CHECK(factor_of(m, stand, "machine-bench-grinder") == 1.2);  // running, a fifth more
  const Combination& shove = named(all, "allowable-shove-along-spread-back");
  CHECK(shove.duration == reference::Duration::instantaneous);
  CHECK(factor_of(m, shove, "shove-along-spread") == -300.0);
  CHECK(shove.limited.has_value());
  const Combination& light = named(all, "allowable-shove-light-along-spread-forth");
  CHECK(factor_of(m, light, "self") == 1.0);
  CHECK(factor_of(m, light, "machine-bench-grinder") == 0.0);
  CHECK(factor_of(m, named(all, "allowable-shove-once-along-spread-forth"), "shove-along-spread") ==
        600.0);
  for (const Combination& c : all) CHECK(c.stiffness_over == 1.0);
}

TEST_CASE("model/allowable: added loads with their duration") {
  const model::Idealisation us =
      made("SPF No.2 2x4",
           "rules: allowable stress\nloads: [{at: middle, down: 200 N, duration: medium term}, "
           "{at: middle, down: 300 N, name: vice work}]\n");
  const std::vector<Combination> all = of(us, Purpose::allowable);
  CHECK(named(all, "allowable-added-medium").duration == reference::Duration::medium_term);
  const Combination& added = named(all, "allowable-added");
  CHECK(added.duration == reference::Duration::short_term);
  CHECK(factor_of(*us.model, added, "load-vice-work") == 1.0);
  CHECK(factor_of(*us.model, named(all, "allowable-added-medium"), "load-vice-work") == 0.0);
}

}  // namespace build_allowable_test
