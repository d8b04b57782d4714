#pragma once

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>

/// Whole outputs kept beside the tests. STANDTRUE_GOLDEN=write renews them; read the difference.
namespace standtrue::test {

inline std::string golden_path(const std::string& name) {
  return std::string(STANDTRUE_SOURCE_DIR) + "/tests/report/golden/" + name;
}

inline void check_golden(const std::string& name, const std::string& got) {
  const char* const wish = std::getenv("STANDTRUE_GOLDEN");
  if (wish && std::string(wish) == "write") std::ofstream(golden_path(name)) << got;
  std::ifstream in(golden_path(name));
  std::ostringstream wanted;
  wanted << in.rdbuf();
  INFO("golden file " << name);
  CHECK(got == wanted.str());
}

}  // namespace standtrue::test
