#include "app/cli.hpp"

#ifdef __GLIBC__
#include <malloc.h>
#endif

int main(int argc, char** argv) {
#ifdef __GLIBC__
  // One short run: memory once asked for is kept, not handed back and cleared anew for every panel.
  mallopt(M_MMAP_THRESHOLD, 32 << 20);  // the most that glibc takes
  mallopt(M_TRIM_THRESHOLD, 512 << 20);
#endif
  return standtrue::app::command_line(
      std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc));
}
