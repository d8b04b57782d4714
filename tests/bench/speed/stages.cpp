// How long the stages of a check take, on the first example: its sheets condensed, its frame
// assembled, factorised and solved, and all of it. Ratios count, not times: compare within one run.
#include <benchmark/benchmark.h>

#include <fstream>
#include <sstream>
#include <stdexcept>

#include "solve/prepared.hpp"
#include "standtrue/bench/read.hpp"
#include "standtrue/check/check_all.hpp"
#include "standtrue/decide/assess.hpp"
#include "standtrue/document/document.hpp"
#include "standtrue/solve/modes.hpp"

using namespace standtrue;

namespace {

const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

bench::Bench example(double mesh_mm) {
  const std::string path = STANDTRUE_SOURCE_DIR "/examples/boiler-plinth.yaml";
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  const document::Reading reading = document::parse(path, text.str());
  bench::BenchReading read = bench::read_bench(*reading.document, tables());
  if (!read.bench) throw std::runtime_error("the example can not be read");
  read.bench->analysis.mesh = quantity::millimetres(mesh_mm);
  return *read.bench;
}

model::Model model_of(double mesh_mm) {
  return *model::idealise(example(mesh_mm), tables(), {}).model;
}

double mesh_of(const benchmark::State& state) { return static_cast<double>(state.range(0)); }

/// The top alone, and how its freedoms count.
void condense(benchmark::State& state) {
  const model::Model model = model_of(mesh_of(state));
  for (auto _ : state) {
    const solve::CondensedPlate plate(model.plates[0]);
    benchmark::DoNotOptimize(plate.stiffness().data());
  }
  const model::Plate& top = model.plates[0];
  state.counters["freedoms"] = static_cast<double>(5 * top.lines());
  state.counters["kept"] = static_cast<double>(3 * top.ties.size());
}
BENCHMARK(condense)->Arg(100)->Arg(50)->Arg(25)->Unit(benchmark::kMillisecond);

/// Members, ties and the condensed plates into one stiffness matrix.
void assemble_frame(benchmark::State& state) {
  const solve::Prepared prepared = *solve::prepare(model_of(mesh_of(state)));
  const solve::Prepared::Inside& in = prepared.inside();
  for (auto _ : state) {
    const solve::SparseMatrix K =
        solve::stiffness_matrix(in.model, in.freedoms, in.kernels, in.plates, in.springs);
    benchmark::DoNotOptimize(K.nonZeros());
  }
  state.counters["unknowns"] = static_cast<double>(in.freedoms.unknowns);
}
BENCHMARK(assemble_frame)->Arg(50)->Unit(benchmark::kMillisecond);

void factorise_frame(benchmark::State& state) {
  const solve::Prepared prepared = *solve::prepare(model_of(mesh_of(state)));
  const solve::SparseMatrix K = solve::free_part(prepared.inside().K, prepared.inside().freedoms);
  for (auto _ : state) {
    const solve::SparseLdlt ldlt(K);
    benchmark::DoNotOptimize(ldlt.ok());
  }
  state.counters["entries"] = static_cast<double>(K.nonZeros());
}
BENCHMARK(factorise_frame)->Arg(50)->Unit(benchmark::kMillisecond);

/// 500 right-hand sides, side by side or one after the other.
void solve_500(benchmark::State& state) {
  const solve::Prepared prepared = *solve::prepare(model_of(50.0));
  const solve::SparseMatrix K = solve::free_part(prepared.inside().K, prepared.inside().freedoms);
  const solve::SparseLdlt ldlt(K);
  const solve::Panel F = solve::Panel::Random(K.rows(), 500);
  const bool as_panel = state.range(0) == 1;
  for (auto _ : state) {
    if (as_panel) {
      const solve::Panel X = ldlt.solve(F);
      benchmark::DoNotOptimize(X.data());
      continue;
    }
    for (Eigen::Index c = 0; c < F.cols(); ++c) {
      const Eigen::VectorXd x = ldlt.solve(Eigen::VectorXd(F.col(c)));
      benchmark::DoNotOptimize(x.data());
    }
  }
}
BENCHMARK(solve_500)->ArgName("panel")->Arg(0)->Arg(1)->Unit(benchmark::kMillisecond);

void all_combinations(benchmark::State& state) {
  const model::Model model = model_of(mesh_of(state));
  solve::PlateCache plates;
  (void)solve::static_response(model, plates);
  for (auto _ : state) {
    const solve::OrRefusal<solve::Response> response = solve::static_response(model, plates);
    benchmark::DoNotOptimize(response.has_value());
  }
}
BENCHMARK(all_combinations)->Arg(50)->Unit(benchmark::kMillisecond);

/// Twelve shapes at least, and all up to 60 Hz.
void modes(benchmark::State& state) {
  const solve::Prepared prepared =
      *solve::prepare(model_of(mesh_of(state)), model::SpringSet::sway);
  std::size_t found = 0;
  for (auto _ : state) {
    const solve::OrRefusal<std::vector<solve::Mode>> modes = solve::modes(prepared);
    found = modes->size();
    benchmark::DoNotOptimize(found);
  }
  state.counters["modes"] = static_cast<double>(found);
}
BENCHMARK(modes)->Arg(50)->Unit(benchmark::kMillisecond);

void check_all(benchmark::State& state) {
  const model::Model model = model_of(mesh_of(state));
  const solve::Response response = *solve::static_response(model);
  for (auto _ : state) {
    const std::vector<check::Finding> findings = check::check_all({model, response}, tables());
    benchmark::DoNotOptimize(findings.data());
  }
}
BENCHMARK(check_all)->Arg(50)->Unit(benchmark::kMillisecond);

void assess(benchmark::State& state) {
  const bench::Bench bench = example(mesh_of(state));
  for (auto _ : state) {
    const decide::Assessment assessment = decide::assess(bench, tables());
    benchmark::DoNotOptimize(assessment.findings.data());
  }
}
BENCHMARK(assess)->Arg(100)->Arg(50)->Arg(25)->Unit(benchmark::kMillisecond);

}  // namespace

BENCHMARK_MAIN();
