// Benches drawn by chance, their sheets as shells.
#include "tests/fuzz/benches.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::hold_bench(data, size, "shell");
  return 0;
}
