#pragma once

#include <algorithm>
#include <string>
#include <vector>

namespace standtrue {

/// A place in a text file; line and column count from 1, columns in Unicode code points.
struct Position {
  int line = 1;
  int column = 1;
};

enum class Severity { error, warning };

/// One fault of an input file: what is wrong, where, and what to write instead.
struct Diagnostic {
  Severity severity = Severity::error;
  std::string file{};  ///< as the caller named it
  Position at{};
  int length = 1;             ///< code points to underline, at least 1
  std::string source_line{};  ///< the line of the file, without its end; empty if there is none
  std::string path{};         ///< where in the document, "machines[1].mass"; empty at the top
  std::string what{};         ///< what is wrong, one sentence without a full stop
  std::string instead{};      ///< what to write; empty only if nothing sensible can be said
};

/// The message as a person reads it:
///     bench.yaml:5:11: '2100' has no unit
///       length: 2100
///               ^~~~
///       at frame.length; write, for example: length: 2100 mm
/// A warning reads "bench.yaml:5:11: warning: ...". Ends with a line end.
[[nodiscard]] std::string to_text(const Diagnostic& diagnostic);

[[nodiscard]] inline bool any_error(const std::vector<Diagnostic>& diagnostics) {
  return std::any_of(diagnostics.begin(), diagnostics.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

}  // namespace standtrue
