#pragma once

#include <functional>
#include <string>
#include <vector>

#include "standtrue/app/run.hpp"
#include "standtrue/bench/read.hpp"

/// From the text of a file to a bench, or to an Outcome that tells its faults.
namespace standtrue::app {

[[nodiscard]] std::string texts_of(const std::vector<Diagnostic>& diagnostics);

/// Faults, how many there are, and that nothing was done.
[[nodiscard]] Outcome wrong(const std::string& file, const std::vector<Diagnostic>& diagnostics,
                            const char* nothing_done);

[[nodiscard]] bool has_key(const document::Document& document, const char* key);

/// `diagnostics` of a parse, then those of a reader of its document.
[[nodiscard]] std::vector<Diagnostic> together(std::vector<Diagnostic> first,
                                               const std::vector<Diagnostic>& second);

/// Reads a bench and hands on the reading, which has one; its warnings get into the Outcome.
[[nodiscard]] Outcome with_reading(
    const std::string& file, const std::string& text,
    const std::function<Outcome(const bench::BenchReading&, const reference::Tables&)>& go);
/// The same for the bench alone.
[[nodiscard]] Outcome with_bench(
    const std::string& file, const std::string& text,
    const std::function<Outcome(const bench::Bench&, const reference::Tables&)>& go);

}  // namespace standtrue::app
