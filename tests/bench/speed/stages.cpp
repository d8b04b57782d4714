// How long each stage of a check takes on the example benches, one thread, mean joints.
#include "decide/bounded.hpp"
#include "decide/influence.hpp"
#include "decide/place_directly.hpp"
#include "decide/placing.hpp"
#include "solve/prepared.hpp"
#include "standtrue/check/check_all.hpp"
#include "standtrue/report/html.hpp"
#include "standtrue/solve/modes.hpp"
#include "tests/bench/speed/example.hpp"

using namespace standtrue;
using namespace standtrue::speed;

namespace {

/// A bench of the examples at mean joints, factorised.
const solve::Prepared& prepared_of(const std::string& name) {
  return kept(name, [&] { return solve::prepare(model_of(name)).value(); });
}

const decide::Assessment& assessed(const std::string& name) {
  return kept(name, [&] { return decide::assess(bench_of(name), tables()); });
}

solve::SparseMatrix matrix_of(const solve::Prepared& prepared) {
  return solve::free_part(prepared.inside().K, prepared.inside().freedoms);
}

void load_tables(benchmark::State& state) {
  for (auto _ : state) {
    const reference::Tables loaded = reference::load_tables();
    benchmark::DoNotOptimize(&loaded);
  }
}
BENCHMARK(load_tables)->Unit(benchmark::kMillisecond);

void parse(benchmark::State& state) {
  const std::string name = example_of(state);
  const std::string text = text_of(name);
  for (auto _ : state) {
    const document::Reading reading = document::parse(name, text);
    benchmark::DoNotOptimize(reading.document.has_value());
  }
}
BENCHMARK(parse)->Apply(each_example);

void read_bench(benchmark::State& state) {
  const document::Document document = document_of(example_of(state));
  for (auto _ : state) {
    const bench::BenchReading read = bench::read_bench(document, tables());
    benchmark::DoNotOptimize(read.bench.has_value());
  }
}
BENCHMARK(read_bench)->Apply(each_example);

void idealise(benchmark::State& state) {
  const bench::Bench bench = bench_of(example_of(state));
  for (auto _ : state) {
    const model::Idealisation made = model::idealise(bench, tables(), {});
    benchmark::DoNotOptimize(made.model.has_value());
  }
}
BENCHMARK(idealise)->Apply(each_example);

void condense(benchmark::State& state) {
  const model::Model model = model_of(example_of(state));
  for (auto _ : state) {
    for (const model::Plate& plate : model.plates) {
      const solve::CondensedPlate condensed(plate);
      benchmark::DoNotOptimize(condensed.stiffness().data());
    }
  }
}
BENCHMARK(condense)->Apply(each_example);

void assemble(benchmark::State& state) {
  const solve::Prepared& prepared = prepared_of(example_of(state));
  const solve::Prepared::Inside& in = prepared.inside();
  for (auto _ : state) {
    const solve::SparseMatrix K =
        solve::stiffness_matrix(in.model, in.freedoms, in.kernels, in.plates, in.springs);
    benchmark::DoNotOptimize(K.nonZeros());
  }
}
BENCHMARK(assemble)->Apply(each_example);

void factor(benchmark::State& state) {
  const solve::SparseMatrix K = matrix_of(prepared_of(example_of(state)));
  for (auto _ : state) {
    solve::Layouts none;
    const solve::Factor factor(K, none);
    benchmark::DoNotOptimize(factor.broke_down());
  }
}
BENCHMARK(factor)->Apply(each_example);

void solve_500(benchmark::State& state) {
  const solve::Prepared& prepared = prepared_of(example_of(state));
  const solve::Factor& factor = *prepared.inside().factor;
  const solve::Panel F = solve::Panel::Random(prepared.inside().freedoms.unknowns, 500);
  for (auto _ : state) {
    const solve::Panel X = factor.solve(F);
    benchmark::DoNotOptimize(X.data());
  }
}
BENCHMARK(solve_500)->Apply(each_example);

void all_combinations(benchmark::State& state) {
  const model::Model model = model_of(example_of(state));
  solve::PlateCache plates;
  (void)solve::static_response(model, plates);
  for (auto _ : state) {
    const solve::OrRefusal<solve::Response> response = solve::static_response(model, plates);
    benchmark::DoNotOptimize(response.has_value());
  }
}
BENCHMARK(all_combinations)->Apply(each_example);

void modes(benchmark::State& state) {
  const std::string name = example_of(state);
  const solve::Prepared& prepared =
      kept(name, [&] { return solve::prepare(model_of(name), model::SpringSet::sway).value(); });
  for (auto _ : state) {
    const solve::OrRefusal<std::vector<solve::Mode>> modes = solve::modes(prepared);
    benchmark::DoNotOptimize(modes->size());
  }
}
BENCHMARK(modes)->Apply(each_example);

/// The heaviest machine on the top at all places of a grid of 100 mm where there is room.
decide::Elsewhere places_on(const bench::Bench& bench) {
  decide::Elsewhere elsewhere;
  elsewhere.machine = decide::machine_on_top(bench).value();
  const bench::Machine& machine = bench.machines[elsewhere.machine];
  const bench::Sheet& sheet = bench.sheets[machine.sheet];
  const quantity::Length step = quantity::millimetres(100.0);
  for (quantity::Length x = sheet.x0 + step; x < sheet.x1; x += step) {
    for (quantity::Length y = sheet.y0 + step; y < sheet.y1; y += step) {
      bench::Machine there = machine;
      there.x = x;
      there.y = y;
      if (decide::in_the_way(bench, elsewhere.machine, there).empty()) {
        elsewhere.places.push_back(there);
      }
    }
  }
  return elsewhere;
}

void influence_fields(benchmark::State& state) {
  const bench::Bench bench = bench_of(example_of(state));
  const decide::Elsewhere elsewhere = places_on(bench);
  for (auto _ : state) {
    solve::PlateCache plates;
    const auto made =
        decide::Influence::make(bench, tables(), elsewhere, {}, decide::is_wanted_at_once, plates);
    benchmark::DoNotOptimize(made.has_value());
  }
  state.counters["places"] = static_cast<double>(elsewhere.places.size());
}
BENCHMARK(influence_fields)->Apply(each_example);

/// One place of them.
void sum_of_fields(benchmark::State& state) {
  const bench::Bench bench = bench_of(example_of(state));
  solve::PlateCache plates;
  const auto made = decide::Influence::make(bench, tables(), places_on(bench), {},
                                            decide::is_wanted_at_once, plates);
  for (auto _ : state) {
    const decide::Placed placed = made->at(0);
    benchmark::DoNotOptimize(placed.plates.data());
  }
}
BENCHMARK(sum_of_fields)->Apply(each_example);

void check_all(benchmark::State& state) {
  solve::PlateCache plates;
  const decide::Bounded mean = decide::solved(bench_of(example_of(state)), tables(), {}, plates);
  for (auto _ : state) {
    const std::vector<check::Finding> findings =
        check::check_all({mean.idealisation.model.value(), mean.response.value()}, tables());
    benchmark::DoNotOptimize(findings.data());
  }
}
BENCHMARK(check_all)->Apply(each_example);

void assess(benchmark::State& state) {
  const bench::Bench bench = bench_of(example_of(state));
  for (auto _ : state) {
    const decide::Assessment assessment = decide::assess(bench, tables());
    benchmark::DoNotOptimize(assessment.findings.data());
  }
}
BENCHMARK(assess)->Apply(each_example);

void report_text(benchmark::State& state) {
  const decide::Assessment& assessment = assessed(example_of(state));
  for (auto _ : state) {
    const std::string text = report::text(assessment, {});
    benchmark::DoNotOptimize(text.data());
  }
}
BENCHMARK(report_text)->Apply(each_example);

void report_json(benchmark::State& state) {
  const decide::Assessment& assessment = assessed(example_of(state));
  for (auto _ : state) {
    const std::string text = report::json(assessment, "bench.yaml", "0");
    benchmark::DoNotOptimize(text.data());
  }
}
BENCHMARK(report_json)->Apply(each_example);

void report_html(benchmark::State& state) {
  const decide::Assessment& assessment = assessed(example_of(state));
  for (auto _ : state) {
    const decide::Picture picture = decide::picture_of(assessment, tables());
    const std::string text = report::html(assessment, picture, std::nullopt, {});
    benchmark::DoNotOptimize(text.data());
  }
}
BENCHMARK(report_html)->Apply(each_example);

}  // namespace
