// How times grow with the number of unknowns: of the first example on finer and finer meshes, and
// of a plain bench with more and more bays of 1.1 m.
#include <fmt/format.h>

#include "solve/prepared.hpp"
#include "standtrue/decide/assess.hpp"
#include "tests/bench/speed/example.hpp"

using namespace standtrue;
using namespace standtrue::speed;

namespace {

bench::Bench finer(int mesh_mm) { return bench_of(examples[0], mesh_mm); }

bench::Bench longer(int bays) {
  std::string stations = "0 mm";
  for (int bay = 1; bay <= bays; ++bay) stations += fmt::format(", {} mm", 1100 * bay);
  const std::string text = fmt::format(
      "standtrue: 1\nsize: {} x 800 x 900 mm\ntimber: C24 45 x 95 mm\n"
      "posts: {{stations: [{}]}}\njoints: {{kind: two corner brackets, thickness: 4 mm}}\n"
      "top: {{sheet: 21 mm spruce plywood, load: 30 kg/m2}}\n"
      "shelf: {{sheet: 15 mm spruce plywood, load: 40 kg/m2}}\n"
      "braces: [{{side: back, kind: diagonal}}, {{side: left, kind: diagonal}}]\n",
      1100 * bays + 50, stations);
  const document::Reading reading = document::parse("longer.yaml", text);
  return bench::read_bench(reading.document.value(), tables()).bench.value();
}

using Growing = bench::Bench (*)(int);

const solve::Prepared& prepared_of(benchmark::State& state, Growing growing) {
  const auto size = static_cast<int>(state.range(0));
  const std::string key = fmt::format("{} {}", growing == finer ? "finer" : "longer", size);
  const solve::Prepared& prepared = kept(key, [&] {
    const model::Model model = model::idealise(growing(size), tables(), {}).model.value();
    return solve::prepare(model).value();
  });
  const model::Model& model = prepared.model();
  double whole = 6.0 * static_cast<double>(model.nodes.size());
  for (const model::Plate& plate : model.plates) whole += 5.0 * static_cast<double>(plate.lines());
  state.counters["frame"] = static_cast<double>(prepared.inside().freedoms.unknowns);
  state.counters["whole"] = whole;
  return prepared;
}

void factor(benchmark::State& state, Growing growing) {
  const solve::Prepared& prepared = prepared_of(state, growing);
  const solve::SparseMatrix K = solve::free_part(prepared.inside().K, prepared.inside().freedoms);
  for (auto _ : state) {
    solve::Layouts none;
    const solve::Factor factor(K, none);
    benchmark::DoNotOptimize(factor.broke_down());
  }
}

void solve_500(benchmark::State& state, Growing growing) {
  const solve::Prepared& prepared = prepared_of(state, growing);
  const solve::Factor& factor = *prepared.inside().factor;
  const solve::Panel F = solve::Panel::Random(prepared.inside().freedoms.unknowns, 500);
  for (auto _ : state) {
    const solve::Panel X = factor.solve(F);
    benchmark::DoNotOptimize(X.data());
  }
}

void assess(benchmark::State& state, Growing growing) {
  const bench::Bench bench = growing(static_cast<int>(state.range(0)));
  (void)prepared_of(state, growing);
  for (auto _ : state) {
    const decide::Assessment assessment = decide::assess(bench, tables());
    benchmark::DoNotOptimize(assessment.findings.data());
  }
}

void meshes(benchmark::internal::Benchmark* timed) {
  for (const int mesh_mm : {100, 70, 50, 35, 25}) timed->Arg(mesh_mm);
  timed->Unit(benchmark::kMillisecond);
}
void bays(benchmark::internal::Benchmark* timed) {
  for (const int number : {1, 2, 3, 4, 6}) timed->Arg(number);
  timed->Unit(benchmark::kMillisecond);
}
/// What takes seconds.
void twice(benchmark::internal::Benchmark* timed) { timed->Iterations(1)->Repetitions(2); }

BENCHMARK_CAPTURE(factor, finer, finer)->Apply(meshes);
BENCHMARK_CAPTURE(solve_500, finer, finer)->Apply(meshes);
BENCHMARK_CAPTURE(assess, finer, finer)->Apply(meshes)->Apply(twice);
BENCHMARK_CAPTURE(factor, longer, longer)->Apply(bays);
BENCHMARK_CAPTURE(solve_500, longer, longer)->Apply(bays);
BENCHMARK_CAPTURE(assess, longer, longer)->Apply(bays)->Apply(twice);

}  // namespace

BENCHMARK_MAIN();
