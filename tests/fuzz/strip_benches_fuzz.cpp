// Benches drawn by chance, their sheets as strips.
#include "tests/fuzz/benches.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::hold_bench(data, size, "strip");
  return 0;
}
