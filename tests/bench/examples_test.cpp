#include <doctest/doctest.h>

#include <filesystem>
#include <set>

#include "tests/bench/bench_files.hpp"

namespace examples_test {

TEST_CASE("bench/examples: every example reads without a fault or a warning") {
  const std::filesystem::path folder = std::filesystem::path(STANDTRUE_SOURCE_DIR) / "examples";
  std::set<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() == ".yaml") files.insert(entry.path());
  }
  CHECK(files.size() >= 3);
  for (const std::filesystem::path& file : files) {
    CAPTURE(file.filename().string());
    const std::string text = bench_files::file_text(file.string());
    CHECK(text.rfind("# ", 0) == 0);
    CHECK(text.find("# Expect ") != std::string::npos);
    const bench_files::Read read = bench_files::read(file.filename().string(), text);
    CHECK(read.bench);
    CHECK(read.messages.empty());
  }
}

TEST_CASE("bench/examples: every whole bench in the guide to the format reads without a word") {
  const std::string guide =
      bench_files::file_text(std::string(STANDTRUE_SOURCE_DIR) + "/docs/bench-file.md");
  const std::string open = "```yaml\n";
  int benches = 0;
  for (std::size_t at = guide.find(open); at != guide.npos; at = guide.find(open, at + 1)) {
    const std::size_t begin = at + open.size();
    const std::string text = guide.substr(begin, guide.find("```", begin) - begin);
    if (text.rfind("standtrue:", 0) != 0) continue;
    ++benches;
    CAPTURE(text);
    const bench_files::Read read = bench_files::read("guide.yaml", text);
    CHECK(read.bench);
    CHECK(read.messages.empty());
  }
  CHECK(benches == 2);
}

}  // namespace examples_test
