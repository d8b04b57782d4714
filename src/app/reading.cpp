#include "app/reading.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace standtrue::app {

namespace {

/// The end of a list of faults: how many there are, and that nothing was done.
std::string fault_count(const std::string& file, const std::vector<Diagnostic>& diagnostics,
                        const char* nothing_done) {
  const auto n = std::count_if(diagnostics.begin(), diagnostics.end(),
                               [](const Diagnostic& d) { return d.severity == Severity::error; });
  return fmt::format("{}: {} fault{}; {}\n", file, n, n == 1 ? "" : "s", nothing_done);
}

}  // namespace

std::string texts_of(const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += to_text(diagnostic);
  return text;
}

Outcome wrong(const std::string& file, const std::vector<Diagnostic>& diagnostics,
              const char* nothing_done) {
  Outcome outcome{"", texts_of(diagnostics) + fault_count(file, diagnostics, nothing_done),
                  wrong_file};
  outcome.diagnostics = diagnostics;
  return outcome;
}

bool has_key(const document::Document& document, const char* key) {
  const auto& entries = document.root.entries;
  return std::any_of(entries.begin(), entries.end(),
                     [key](const document::Entry& entry) { return entry.key == key; });
}

std::vector<Diagnostic> together(std::vector<Diagnostic> first,
                                 const std::vector<Diagnostic>& second) {
  first.insert(first.end(), second.begin(), second.end());
  return first;
}

Outcome with_reading(
    const std::string& file, const std::string& text,
    const std::function<Outcome(const bench::BenchReading&, const reference::Tables&)>& go) {
  const document::Reading parsed = document::parse(file, text);
  if (!parsed.document) return wrong(file, parsed.diagnostics, "nothing was checked.");
  if (has_key(*parsed.document, "frame_case")) {
    return {"",
            fmt::format("{}: this is a frame case and not a bench; write: standtrue solve {}\n",
                        file, file),
            wrong_file};
  }
  const reference::Tables tables = reference::load_tables();
  const bench::BenchReading reading = bench::read_bench(*parsed.document, tables);
  const std::vector<Diagnostic> diagnostics = together(parsed.diagnostics, reading.diagnostics);
  if (!reading.bench || any_error(diagnostics)) {
    return wrong(file, diagnostics, "nothing was checked.");
  }
  Outcome outcome = go(reading, tables);
  outcome.err = texts_of(diagnostics) + outcome.err;
  outcome.diagnostics = together(diagnostics, outcome.diagnostics);
  return outcome;
}

Outcome with_bench(
    const std::string& file, const std::string& text,
    const std::function<Outcome(const bench::Bench&, const reference::Tables&)>& go) {
  return with_reading(file, text,
                      [&](const bench::BenchReading& reading, const reference::Tables& tables) {
                        return go(*reading.bench, tables);
                      });
}

}  // namespace standtrue::app
