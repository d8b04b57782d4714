#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "standtrue/diagnostic.hpp"
#include "standtrue/document/document.hpp"

/// The text of a file before anybody asks what it means: encoding, line ends, columns.
namespace standtrue::document {

struct SourceText {
  std::string name;
  std::string text;                ///< UTF-8, lines end in \n, no byte order mark
  std::vector<std::string> lines;  ///< of `text`; what can not be shown is replaced by U+FFFD
  bool is_readable = true;         ///< false: not UTF-8, control characters, tabs, or too long
};

/// Checks the encoding and the characters and notes what is wrong with them.
[[nodiscard]] SourceText take_text(std::string_view name, std::string_view text,
                                   std::vector<Diagnostic>& faults);

/// With U+FFFD in place of what is not UTF-8, and of each control character but tab and line end.
[[nodiscard]] std::string that_can_be_shown(std::string_view text);

/// Code points of valid UTF-8.
[[nodiscard]] int code_points(std::string_view text);

/// Byte in `line` of a column that counts code points from 1; the end of the line if beyond.
[[nodiscard]] std::size_t byte_of_column(std::string_view line, int column);

/// The line as a Diagnostic shows it: empty when there is none or when it is too long to repeat.
[[nodiscard]] std::string shown_line(const std::vector<std::string>& lines, int line);

[[nodiscard]] Diagnostic diagnostic_at(const SourceText& source, Position at, int length,
                                       std::string what, std::string instead);

}  // namespace standtrue::document
