#pragma once

#include <benchmark/benchmark.h>

#include <array>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>

#include "standtrue/bench/read.hpp"
#include "standtrue/document/document.hpp"
#include "standtrue/model/idealise.hpp"

/// The example benches, as what is timed wants them.
namespace standtrue::speed {

inline constexpr std::array<const char*, 3> examples = {"boiler-plinth", "turning-bench",
                                                        "too-slender"};

inline const reference::Tables& tables() {
  static const reference::Tables loaded = reference::load_tables();
  return loaded;
}

inline std::string text_of(const std::string& name) {
  const std::string path = STANDTRUE_SOURCE_DIR "/examples/" + name + ".yaml";
  std::ifstream file(path);
  if (!file) throw std::runtime_error(path + " can not be opened");
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

inline document::Document document_of(const std::string& name) {
  document::Reading reading = document::parse(name + ".yaml", text_of(name));
  if (!reading.document) throw std::runtime_error(name + " can not be read");
  return std::move(*reading.document);
}

/// `mesh_mm` zero: the usual mesh.
inline bench::Bench bench_of(const std::string& name, double mesh_mm = 0.0) {
  bench::BenchReading read = bench::read_bench(document_of(name), tables());
  if (!read.bench) throw std::runtime_error(name + " is no bench");
  if (mesh_mm > 0.0) read.bench->analysis.mesh = quantity::millimetres(mesh_mm);
  return std::move(*read.bench);
}

inline model::Model model_of(const std::string& name, double mesh_mm = 0.0) {
  model::Idealisation made = model::idealise(bench_of(name, mesh_mm), tables(), {});
  if (!made.model) throw std::runtime_error(name + " makes no frame");
  return std::move(*made.model);
}

/// Google Benchmark calls a function again for each repetition; what it only prepares is made once.
template <class Make>
const auto& kept(const std::string& key, Make make) {
  static std::map<std::string, decltype(make())> all;  // a map for each place that calls
  auto found = all.find(key);
  if (found == all.end()) found = all.emplace(key, make()).first;
  return found->second;
}

/// One row of times for each example, told by its label.
inline void each_example(benchmark::internal::Benchmark* timed) {
  timed->DenseRange(0, examples.size() - 1)->Unit(benchmark::kMillisecond);
}
inline const char* example_of(benchmark::State& state) {
  const char* name = examples.at(static_cast<std::size_t>(state.range(0)));
  state.SetLabel(name);
  return name;
}

}  // namespace standtrue::speed
