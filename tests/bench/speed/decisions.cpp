// How long a builder waits for each decision on the example benches: once, on all cores, as the
// program does it.
#include "app/work.hpp"
#include "standtrue/bench/readings.hpp"
#include "standtrue/decide/decide.hpp"
#include "standtrue/decide/level.hpp"
#include "standtrue/decide/odds.hpp"
#include "standtrue/decide/parts_list.hpp"
#include "standtrue/decide/place.hpp"
#include "standtrue/decide/prove.hpp"
#include "tests/bench/speed/example.hpp"

using namespace standtrue;
using namespace standtrue::speed;

namespace {

void once(benchmark::internal::Benchmark* timed) {
  each_example(timed);
  timed->Iterations(1)->Repetitions(1)->UseRealTime();
}

/// `ask(document, bench)` for the example that is meant.
template <class Ask>
void decision(benchmark::State& state, Ask ask) {
  const document::Document document = document_of(example_of(state));
  const bench::Bench bench = bench_of(example_of(state));
  for (auto _ : state) {
    const auto answer = ask(document, bench);
    benchmark::DoNotOptimize(&answer);
  }
}

using Comparison = decide::SideBySide (*)(const document::Document&, const bench::Bench&,
                                          const reference::Tables&, const decide::Work&);
void compare(benchmark::State& state, Comparison comparison) {
  decision(state, [&](const document::Document& document, const bench::Bench& bench) {
    return comparison(document, bench, tables(), app::threaded_work());
  });
}

BENCHMARK_CAPTURE(compare, ply, decide::ply)->Name("ply")->Apply(once);
BENCHMARK_CAPTURE(compare, brace, decide::brace)->Name("brace")->Apply(once);
BENCHMARK_CAPTURE(compare, improve, decide::improve)->Name("improve")->Apply(once);

void place(benchmark::State& state) {
  decision(state, [](const document::Document&, const bench::Bench& bench) {
    return decide::place(bench, decide::machine_on_top(bench).value(), tables(),
                         app::threaded_work());
  });
}
BENCHMARK(place)->Apply(once);

void odds(benchmark::State& state) {
  decision(state, [](const document::Document&, const bench::Bench& bench) {
    return decide::odds(bench, tables(), app::threaded_work());
  });
}
BENCHMARK(odds)->Apply(once);

void prove(benchmark::State& state) {
  decision(state, [](const document::Document& document, const bench::Bench& bench) {
    std::vector<Diagnostic> faults;
    const std::vector<bench::Reading> readings = bench::read_readings(document, tables(), faults);
    return decide::prove(bench, readings, tables(), app::threaded_work());
  });
}
BENCHMARK(prove)->Apply(once);

void level(benchmark::State& state) {
  decision(state, [](const document::Document&, const bench::Bench& bench) {
    return decide::level(bench, tables());
  });
}
BENCHMARK(level)->Apply(once);

void parts(benchmark::State& state) {
  decision(state, [](const document::Document&, const bench::Bench& bench) {
    return decide::parts_list(bench, tables());
  });
}
BENCHMARK(parts)->Apply(once);

}  // namespace
