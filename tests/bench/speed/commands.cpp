// How long a builder waits for each command on the example benches: by the clock, from the text of
// the file to the answer, on all cores where the command uses them.
#include "app/work.hpp"
#include "standtrue/app/run.hpp"
#include "tests/bench/speed/example.hpp"

using namespace standtrue;
using namespace standtrue::speed;

namespace {

void command(benchmark::State& state, app::Command which, bool report) {
  const std::string name = example_of(state), text = text_of(name);
  app::Options options;
  options.work = app::threaded_work();
  options.report = report;
  for (auto _ : state) {
    const app::Outcome outcome = app::run(which, options, name, text);
    if (outcome.out.empty()) state.SkipWithError("there is no answer");
  }
}

void thrice(benchmark::internal::Benchmark* timed) {
  each_example(timed);
  timed->Iterations(1)->Repetitions(3)->UseRealTime();
}
/// What takes long.
void once(benchmark::internal::Benchmark* timed) {
  each_example(timed);
  timed->Iterations(1)->Repetitions(1)->UseRealTime();
}

using app::Command;
BENCHMARK_CAPTURE(command, check, Command::check, false)->Apply(thrice);
BENCHMARK_CAPTURE(command, check_and_report, Command::check, true)->Apply(thrice);
BENCHMARK_CAPTURE(command, parts, Command::parts, false)->Apply(thrice);
BENCHMARK_CAPTURE(command, level, Command::level, false)->Apply(thrice);
BENCHMARK_CAPTURE(command, prove, Command::prove, false)->Apply(thrice);
BENCHMARK_CAPTURE(command, place, Command::place, false)->Apply(once);
BENCHMARK_CAPTURE(command, ply, Command::ply, false)->Apply(once);
BENCHMARK_CAPTURE(command, brace, Command::brace, false)->Apply(once);
BENCHMARK_CAPTURE(command, odds, Command::odds, false)->Apply(once);
BENCHMARK_CAPTURE(command, improve, Command::improve, false)->Apply(once);

}  // namespace
