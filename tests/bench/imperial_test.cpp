#include <doctest/doctest.h>

#include "tests/bench/bench_files.hpp"

namespace imperial_test {

using namespace standtrue;
using bench_files::assumes;
using bench_files::mm;
using bench_files::named;
using doctest::Approx;

namespace {

constexpr std::string_view inches = R"(standtrue: 1
size: 70 x 26 x 36 in
timber: C24 2x6
posts: 4x4
joints: bolted lap
top: 3/4 in birch plywood
shelf: {sheet: 1/2 in plywood, load: 10 lb/ft2}
floor: {surface: concrete, keep_off: [{from: 20 in, to: 48 in}]}
machines: [{kind: bench grinder, mass: 40 lb, at: [12 in, 300 mm]}]
)";

}  // namespace

TEST_CASE("bench/imperial: inches, pounds and sizes by name, mixed with millimetres") {
  const bench::Bench b = bench_files::sound(inches);
  CHECK(b.units == quantity::UnitSystem::imperial);
  CHECK(mm(b.length) == Approx(1778.0));
  CHECK(mm(b.posts[0].along_x) == Approx(88.9));
  CHECK(mm(b.rails[0].depth) == Approx(139.7));
  CHECK(quantity::in_si(named(b.machines, "bench grinder").mass) == Approx(40 * 0.45359237));
  CHECK(mm(named(b.machines, "bench grinder").x) == Approx(12 * 25.4 - 25.0));
  CHECK(mm(b.floor.keep_off[0].x0) == Approx(508.0));
}

TEST_CASE("bench/imperial: a sheet sold by the inch is the listed one a little thinner, and said") {
  const bench::Bench b = bench_files::sound(inches);
  CHECK(mm(named(b.sheets, "top").panel.nominal) == Approx(18.0));
  CHECK(mm(named(b.sheets, "shelf").panel.nominal) == Approx(12.0));
  CHECK(assumes(b, "the 18 mm birch plywood sheet for the one of 3/4 in"));
}

TEST_CASE("bench/imperial: the file's word decides how results are shown") {
  CHECK(bench_files::sound(bench_files::small_bench("units: imperial\n")).units ==
        quantity::UnitSystem::imperial);
  CHECK(bench_files::sound(std::string(inches) + "units: metric\n").units ==
        quantity::UnitSystem::metric);
}

}  // namespace imperial_test
