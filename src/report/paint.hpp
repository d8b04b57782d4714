#pragma once

#include <string>

/// Colour of a terminal: support, never the message itself.
namespace standtrue::report {

enum class Paint { bold, chalk_blue, red_brown };

/// The text in that colour, or the text itself if `colour` is off.
[[nodiscard]] inline std::string painted(std::string text, Paint paint, bool colour) {
  if (!colour || text.empty()) return text;
  const char* const code = paint == Paint::bold         ? "\x1b[1m"
                           : paint == Paint::chalk_blue ? "\x1b[38;5;67m"
                                                        : "\x1b[38;5;130m";
  return code + text + "\x1b[0m";
}

}  // namespace standtrue::report
