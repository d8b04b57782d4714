#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "tests/bench/bench_files.hpp"

namespace messages_test {

namespace {

const std::filesystem::path folder =
    std::filesystem::path(STANDTRUE_SOURCE_DIR) / "tests" / "messages";

}  // namespace

TEST_CASE("bench/messages: every broken bench file gets its whole message") {
  std::set<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    const std::string name = entry.path().filename().string();
    if (name.rfind("bench_", 0) == 0 && entry.path().extension() == ".yaml") {
      files.insert(entry.path());
    }
  }
  CHECK(files.size() >= 20);
  for (const std::filesystem::path& file : files) {
    CAPTURE(file.filename().string());
    const std::string name = file.filename().string();
    std::filesystem::path expected = file;
    expected.replace_extension(".txt");
    const bench_files::Read read = bench_files::read(name, bench_files::file_text(file.string()));
    CHECK(read.messages == bench_files::file_text(expected.string()));
    CHECK_FALSE(read.messages.empty());
  }
}

}  // namespace messages_test
