#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "document/source_text.hpp"
#include "standtrue/diagnostic.hpp"

namespace standtrue::document {

/// What is known when the YAML parser gives up.
struct Breakdown {
  std::string message;  ///< the parser's
  Position at;
  std::optional<Position> open_at;  ///< of the innermost list or map that is still open
  std::string key;                  ///< whose value was to come
  std::string path;
  /// The last quoted text that runs over several lines: most often its quote was forgotten.
  std::optional<Position> long_quote_at;
  int long_quote_ends_on_line = 0;
};

/// Byte of the ':' in a line or key such as `length:2100 mm`, or npos.
[[nodiscard]] std::size_t colon_without_space(std::string_view line);

/// The parser's complaint in the words of the person who wrote the file.
[[nodiscard]] Diagnostic syntax_fault(const SourceText& source, const Breakdown& breakdown);

}  // namespace standtrue::document
