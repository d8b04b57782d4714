// Runs a target without libFuzzer, under any compiler: the files that are named, or bytes by
// chance.
//   blind_strip_benches_fuzz FILE ...
//   blind_strip_benches_fuzz --runs N [--seed S] [--most BYTES] [--seconds T]
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

void run(const std::vector<std::uint8_t>& bytes) {
  LLVMFuzzerTestOneInput(bytes.data(), bytes.size());
}

struct Plan {
  unsigned long runs = 0, seed = 1, most = 256;
  double seconds = 1e9;
};

/// What was being tried stays in a file when a law breaks.
void keep(const std::vector<std::uint8_t>& bytes) {
  std::ofstream out("blind-last", std::ios::binary | std::ios::trunc);
  out.write(reinterpret_cast<const char*>(bytes.data()),
            static_cast<std::streamsize>(bytes.size()));
}

void by_chance(const Plan& plan) {
  std::mt19937_64 chance(plan.seed);
  const auto begin = std::chrono::steady_clock::now();
  unsigned long done = 0;
  for (; done < plan.runs; ++done) {
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    if (took.count() > plan.seconds) break;
    std::vector<std::uint8_t> bytes(chance() % (plan.most + 1));
    for (std::uint8_t& byte : bytes) byte = static_cast<std::uint8_t>(chance());
    keep(bytes);
    run(bytes);
  }
  std::fprintf(stderr, "blind: %lu runs from seed %lu\n", done, plan.seed);
}

}  // namespace

int main(int argc, char** argv) {
  Plan plan;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word.rfind("--", 0) != 0) {
      std::ifstream in(word, std::ios::binary);
      run({std::istreambuf_iterator<char>(in), {}});
    } else if (i + 1 < argc) {
      const std::string value = argv[++i];
      if (word == "--runs") plan.runs = std::stoul(value);
      if (word == "--seed") plan.seed = std::stoul(value);
      if (word == "--most") plan.most = std::stoul(value);
      if (word == "--seconds") plan.seconds = std::stod(value);
    }
  }
  if (plan.runs > 0) by_chance(plan);
}
