#pragma once

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "standtrue/bench/read.hpp"

/// Bench files read in tests.
namespace bench_files {

inline const standtrue::reference::Tables& tables() {
  static const standtrue::reference::Tables read = standtrue::reference::load_tables();
  return read;
}

inline std::string messages(const std::vector<standtrue::Diagnostic>& diagnostics) {
  std::string out;
  for (const standtrue::Diagnostic& diagnostic : diagnostics) out += to_text(diagnostic);
  return out;
}

struct Read {
  std::optional<standtrue::bench::Bench> bench;
  std::string messages;
};

inline Read read(std::string_view name, std::string_view text) {
  const standtrue::document::Reading reading = standtrue::document::parse(name, text);
  Read out{.bench = std::nullopt, .messages = messages(reading.diagnostics)};
  if (!reading.document) return out;
  standtrue::bench::BenchReading bench = standtrue::bench::read_bench(*reading.document, tables());
  out.bench = std::move(bench.bench);
  out.messages += messages(bench.diagnostics);
  return out;
}

/// The bench of a text that has no fault; its messages if it has.
inline standtrue::bench::Bench sound(std::string_view text) {
  Read out = read("b.yaml", text);
  if (!out.bench) throw std::runtime_error(out.messages);
  return std::move(*out.bench);
}

inline std::string file_text(const std::string& path) {
  std::ifstream in(path);
  std::stringstream text;
  text << in.rdbuf();
  return text.str();
}

/// The part of that name; throws if there is none.
template <class Named>
const Named& named(const std::vector<Named>& parts, std::string_view name) {
  const auto found = std::find_if(parts.begin(), parts.end(),
                                  [&](const Named& part) { return part.name == name; });
  if (found == parts.end()) throw std::runtime_error("no part is named " + std::string(name));
  return *found;
}

inline double mm(standtrue::quantity::Length length) {
  return standtrue::quantity::in_si(length) * 1e3;
}

inline bool assumes(const standtrue::bench::Bench& bench, std::string_view words) {
  return std::any_of(bench.assumptions.begin(), bench.assumptions.end(),
                     [&](const std::string& line) { return line.find(words) != line.npos; });
}

/// The short form with more lines at its end.
inline std::string small_bench(const std::string& more) {
  return "standtrue: 1\n"
         "size: 1880 x 590 x 860 mm\n"
         "timber: C16 38 x 89 mm\n"
         "joints: {kind: corner brackets, width: 38 mm}\n"
         "top: 18 mm spruce plywood\n" +
         more;
}

}  // namespace bench_files
