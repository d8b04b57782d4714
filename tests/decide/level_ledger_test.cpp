#include <doctest/doctest.h>

#include "standtrue/decide/level.hpp"
#include "tests/bench/bench_files.hpp"

/// What is told where a ledger leaves nothing to reckon.
namespace level_ledger_test {

using namespace standtrue;

namespace {

std::string told(const std::string& feet) {
  const bench::Bench bench = bench_files::sound(bench_files::small_bench(
      "wall: {ledger: 38 x 89 mm}\nanalysis: {sheets: strip}\nfeet: " + feet + "\n"));
  return decide::level(bench, bench_files::tables()).why_none;
}

}  // namespace

TEST_CASE("decide/level: before a ledger feet are turned, posts without feet are packed up") {
  CHECK(told("M10").find("turn the front feet") != std::string::npos);
  CHECK(told("none").find("put packing under the front posts") != std::string::npos);
  CHECK(told("none").find("turn") == std::string::npos);
}

}  // namespace level_ledger_test
