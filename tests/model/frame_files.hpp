#pragma once

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

/// Files that the tests of frame cases read.
namespace standtrue::test {

inline std::string slurp(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The files of a folder of the source tree, in the order of their names.
inline std::vector<std::filesystem::path> files_of(const std::string& folder,
                                                   const std::string& prefix,
                                                   const std::string& extension) {
  std::vector<std::filesystem::path> files;
  const std::filesystem::path root = std::filesystem::path(STANDTRUE_SOURCE_DIR) / folder;
  for (const auto& entry : std::filesystem::directory_iterator(root)) {
    const std::string name = entry.path().filename().string();
    if (name.rfind(prefix, 0) == 0 && entry.path().extension() == extension) {
      files.push_back(entry.path());
    }
  }
  std::sort(files.begin(), files.end());
  return files;
}

}  // namespace standtrue::test
