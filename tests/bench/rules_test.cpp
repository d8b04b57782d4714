#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace rules_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::mm;
using bench_files::named;
using doctest::Approx;

namespace {

bench::Bench us_bench(const std::string& timber, const std::string& more = "") {
  return bench_files::sound(
      "standtrue: 1\nrules: allowable stress\nsize: 72 x 26 x 36 in\njoints: bolted lap\n"
      "top: 3/4 in birch plywood\ntimber: " +
      timber + "\n" + more);
}

double psi(quantity::Stress s) { return quantity::in_si(s) / 6894.757293; }

}  // namespace

TEST_CASE("bench/rules: limit states unless the file asks for allowable stress") {
  CHECK(bench_files::sound(bench_files::small_bench("")).rules == bench::Rules::limit_states);
  CHECK(bench_files::sound(bench_files::small_bench("rules: limit states\n")).rules ==
        bench::Rules::limit_states);
  CHECK(us_bench("2x4").rules == bench::Rules::allowable_stress);
}

TEST_CASE("bench/rules: a grade and a size in any order; a name without a grade is said") {
  for (const char* timber : {"SPF No.2 2x4", "No.2 SPF 2x4", "2x4 SPF No.2", "SPF No.1/No.2 2x4",
                             "spruce-pine-fir No.2 2x4", "SPF No.2 1 1/2 x 3 1/2 in"}) {
    CAPTURE(timber);
    const bench::Bench b = us_bench(timber);
    const bench::Stock& stock = b.posts[0].stock;
    CHECK(stock.timber.key == "SPF No.1/No.2");
    CHECK(mm(stock.thickness) == Approx(38.1));
    CHECK(mm(stock.depth) == Approx(88.9));
    CHECK(stock.marked);
    REQUIRE(stock.timber.allowable.has_value());
    CHECK(psi(stock.timber.allowable->F_b) == Approx(875));
    CHECK_FALSE(assumes(b, "timber"));
  }
  const bench::Bench fir = us_bench("No.2 DF-L 2x6");
  CHECK(fir.posts[0].stock.timber.key == "DF-L No.2");
  CHECK(mm(fir.posts[0].stock.depth) == Approx(139.7));
  const bench::Bench wood = us_bench("Douglas fir 2x4");
  CHECK_FALSE(wood.posts[0].stock.marked);
  CHECK(assumes(wood, "DF-L No.2 timber where the file says 'Douglas fir'"));
}

TEST_CASE("bench/rules: without a grade it is SPF No.1/No.2, and said") {
  const bench::Bench b = us_bench("2x4");
  CHECK(b.rails[0].stock.timber.key == "SPF No.1/No.2");
  CHECK_FALSE(b.rails[0].stock.marked);
  CHECK(assumes(b, "SPF No.1/No.2 timber: the file names no class"));
  const bench::Bench word = us_bench("softwood 2x4");
  CHECK(word.rails[0].stock.timber.key == "SPF No.1/No.2");
  CHECK(assumes(word, "SPF No.1/No.2 timber where the file says 'softwood'"));
}

TEST_CASE("bench/rules: southern pine has the values of its width, also where a part has its own") {
  const bench::Bench b =
      us_bench("SYP No.2 2x4",
               "posts: 4x4\nrails: {section: 2x6, lower: {section: 2x3}, top: {front: "
               "{section: 36 x 130 mm}, back: {timber: {section: 2x12, E: 11 GPa}}}}\n");
  CHECK(psi(b.posts[0].stock.timber.allowable->F_b) == Approx(1100));
  CHECK(psi(named(b.rails, "left top rail").stock.timber.allowable->F_b) == Approx(1000));
  CHECK(psi(named(b.rails, "left top rail").stock.timber.allowable->F_c) == Approx(1400));
  CHECK(psi(named(b.rails, "left lower rail").stock.timber.allowable->F_b) == Approx(1100));
  // What lies between two widths has the values of the wider.
  CHECK(psi(named(b.rails, "front top rail").stock.timber.allowable->F_b) == Approx(1000));
  const reference::Timber& own = named(b.rails, "back top rail").stock.timber;
  CHECK(psi(own.allowable->F_b) == Approx(750));
  CHECK(quantity::in_si(own.E_0_mean) == Approx(11e9));
  // E_min moves with E, of which the file's is free of shear: 510e3 psi x 11/(9.6527 x 1.03).
  CHECK(quantity::in_si(own.allowable->E_min) == Approx(3.51633e9 * 11 / 9.94224).epsilon(1e-5));
}

TEST_CASE("bench/rules: US sizes by name, dressed") {
  struct Size {
    const char* name;
    double thickness, depth;
  };
  for (const Size& s :
       {Size{"1x2", 19.05, 38.1}, Size{"1x3", 19.05, 63.5}, Size{"1x4", 19.05, 88.9},
        Size{"1x6", 19.05, 139.7}, Size{"1x8", 19.05, 184.15}, Size{"1x10", 19.05, 234.95},
        Size{"1x12", 19.05, 285.75}, Size{"2x2", 38.1, 38.1}, Size{"2x3", 38.1, 63.5},
        Size{"2x4", 38.1, 88.9}, Size{"2x6", 38.1, 139.7}, Size{"2x8", 38.1, 184.15},
        Size{"2x10", 38.1, 234.95}, Size{"2x12", 38.1, 285.75}, Size{"4x4", 88.9, 88.9},
        Size{"4x6", 88.9, 139.7}, Size{"6x6", 139.7, 139.7}}) {
    CAPTURE(s.name);
    const auto* section = bench_files::tables().section(s.name);
    REQUIRE(section != nullptr);
    CHECK(mm(section->thickness) == Approx(s.thickness));
    CHECK(mm(section->depth) == Approx(s.depth));
  }
}

}  // namespace rules_test
