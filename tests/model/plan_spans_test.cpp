// How wide a strip of a board carries a load in mid-bay.
#include <doctest/doctest.h>

#include <cmath>

#include "standtrue/model/idealise.hpp"
#include "tests/bench/bench_files.hpp"

namespace plan_spans_test {

using namespace standtrue;
using quantity::in_si;
using quantity::pascals;

namespace {

model::SheetSpan span_of(bench::Bench bench, double E_s, double E_t, double G) {
  bench::Sheet& top = bench.sheets.at(0);
  top.grain_along_x = false;  // it spans across, from front to back
  top.panel.E_m_0 = pascals(E_s);
  top.panel.E_m_90 = pascals(E_t);
  top.panel.G_v = pascals(G);
  const model::Idealisation made = model::idealise(bench, bench_files::tables(), {});
  REQUIRE(made.model);
  REQUIRE_FALSE(made.model->parts.spans.at(0).along_x);
  return made.model->parts.spans.at(0);
}

}  // namespace

TEST_CASE("model/plan_spans: an isotropic plate gives w = 0.01695 P a²/D (Timoshenko, art. 36)") {
  // Theory of Plates and Shells: a long plate simply supported on two sides, P in mid-span,
  // w = 0.01695 P a²/D (from memory, its table of deflections for b/a without end). A strip of
  // width b sags P a³/(48 b D): b = a/(48 x 0.01695) = 1.229 a. Without Poisson's ratio G = E/2.
  const bench::Bench bench = bench_files::sound(bench_files::small_bench(""));
  const double E = 8e9;
  const model::SheetSpan span = span_of(bench, E, E, E / 2.0);
  CHECK(in_si(span.effective_width) / in_si(span.bay) ==
        doctest::Approx(1.0 / (48.0 * 0.01695)).epsilon(1e-3));
}

TEST_CASE("model/plan_spans: stiffer along the span narrows the strip, stiffer across widens it") {
  const bench::Bench bench = bench_files::sound(bench_files::small_bench(""));
  const auto width = [&](double E_s, double E_t, double G) {
    return in_si(span_of(bench, E_s, E_t, G).effective_width);
  };
  const double same = width(8e9, 8e9, 0.5e9);
  CHECK(width(12e9, 8e9, 0.5e9) < same);
  CHECK(width(8e9, 12e9, 0.5e9) > same);
  CHECK(width(8e9, 8e9, 0.7e9) > same);
  // Alike in scale: all moduli twice as high change nothing.
  CHECK(width(16e9, 16e9, 1e9) == doctest::Approx(same));
}

}  // namespace plan_spans_test
