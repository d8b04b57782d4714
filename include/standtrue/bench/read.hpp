#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "standtrue/bench/bench.hpp"
#include "standtrue/document/document.hpp"

namespace standtrue::bench {

/// Where the file speaks of a part: "machines[1]" or, as the nearest that it says, "rails.lower".
struct Written {
  std::string path;
  Position at;
};
/// By the part's name; "machine <name>" and "foot of <post>" for those.
using WrittenParts = std::map<std::string, Written>;

/// The bench of a file, or nothing if it has an error; with every fault found in one run. Names are
/// resolved in `tables`; every default taken is listed in Bench::assumptions; geometry is checked
/// (parts that float, collide or do not reach, a foot on a keep-off strip, a machine over the
/// edge).
struct BenchReading {
  std::optional<Bench> bench;
  std::vector<Diagnostic> diagnostics;
  WrittenParts written;  ///< of parts that the file speaks of; the others are assumed
};
[[nodiscard]] BenchReading read_bench(const document::Document& document,
                                      const reference::Tables& tables);

}  // namespace standtrue::bench
