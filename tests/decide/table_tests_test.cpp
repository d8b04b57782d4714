// Published tests of tables are told beside the verdict.
#include <doctest/doctest.h>

#include <string>

#include "standtrue/decide/assess.hpp"
#include "tests/bench/bench_files.hpp"

namespace table_tests_test {

using namespace standtrue;
using bench_files::tables;
using check::Finding;
using check::Judgement;
using check::Kind;

TEST_CASE("decide/table_tests: told or a caution, at mean joints alone, and never in the verdict") {
  const bench_files::Read read =
      bench_files::read("bench.yaml",
                        "standtrue: 1\nsize: 1600 x 600 x 900 mm\ntimber: C24 45 x 95 mm\n"
                        "joints: two corner brackets\ntop: 18 mm birch plywood\n"
                        "machines: [{kind: drill press, mass: 60 kg, at: [800 mm, 300 mm]}]\n");
  REQUIRE(read.bench);
  const decide::Assessment a = decide::assess(*read.bench, tables());
  std::vector<Finding> others;
  std::size_t told = 0;
  for (const Finding& f : a.findings) {
    const std::string check = f.id.substr(0, f.id.find('/'));
    if (check != "table-test" && check != "drop" && check != "drag") {
      others.push_back(f);
      continue;
    }
    ++told;
    CHECK((f.kind == Kind::told || f.kind == Kind::caution));
    CHECK((f.kind == Kind::caution) == (f.judgement == Judgement::exceeded));
    CHECK_FALSE(f.source.where.empty());
    CHECK_FALSE(f.sentence.empty());
    CHECK(f.ratio_soft == f.ratio);
  }
  CHECK(told == 7);
  CHECK(decide::verdict_of(others) == a.verdict);
  // As bad as may be, they change nothing.
  for (Finding& f : others) f.kind = Kind::told;
  std::vector<Finding> worse = a.findings;
  for (Finding& f : worse) {
    if (f.kind == Kind::caution || f.kind == Kind::told) f.ratio = 100.0;
  }
  CHECK(decide::verdict_of(worse) == a.verdict);
}

}  // namespace table_tests_test
