#pragma once

#include <optional>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::bench {

/// The bench of a file, or nothing if it has an error; with every fault found in one run. Names are
/// resolved in `tables`; every default taken is listed in Bench::assumptions; geometry is checked
/// (parts that float, collide or do not reach, a foot on a keep-off strip, a machine over the
/// edge).
struct BenchReading {
  std::optional<Bench> bench;
  std::vector<Diagnostic> diagnostics;
};
[[nodiscard]] BenchReading read_bench(const document::Document& document,
                                      const reference::Tables& tables);

}  // namespace standtrue::bench
