#pragma once

#include <string>
#include <vector>

#include "standtrue/bench/read.hpp"

namespace standtrue::bench {

/// One of a file's `variants`: the file with some keys changed. Faults of the changed bench point
/// into the file.
struct Variant {
  std::string name;
  document::Document document;
  BenchReading reading;
};

/// `variants: {name: {keys}}`, in the order of the file; empty without them. The file's own bench
/// is not among them. Faults of the list itself go to `diagnostics`.
[[nodiscard]] std::vector<Variant> read_variants(const document::Document& document,
                                                 const reference::Tables& tables,
                                                 std::vector<Diagnostic>& diagnostics);

}  // namespace standtrue::bench
