#include "standtrue/diagnostic.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <vector>

namespace standtrue {
namespace {

constexpr int widest = 100;  // columns of a source line that are shown

/// The code points of a line; a tab shows as one space so that the caret stands below its place.
std::vector<std::string> characters(std::string_view line) {
  std::vector<std::string> out;
  for (const char c : line) {
    const bool continues = (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
    if (continues && !out.empty()) {
      out.back() += c;
    } else {
      out.emplace_back(1, c == '\t' ? ' ' : c);
    }
  }
  return out;
}

/// Line and caret, clipped to a window around the span when the line is long.
std::string underlined(const Diagnostic& diagnostic) {
  const std::vector<std::string> line = characters(diagnostic.source_line);
  const int size = static_cast<int>(line.size());
  const int span_begin = std::clamp(diagnostic.at.column - 1, 0, size);
  const int span_end = std::clamp(span_begin + diagnostic.length, span_begin + 1, size + 1);

  int begin = 0, end = size;
  if (size > widest) {
    const int margin = std::max(0, widest - (span_end - span_begin)) / 2;
    begin = std::clamp(span_begin - margin, 0, size - widest);
    end = begin + widest;
  }
  const std::string before = begin > 0 ? "..." : "", after = end < size ? "..." : "";
  std::string shown = "  " + before;
  for (int i = begin; i < end; ++i) shown += line[static_cast<std::size_t>(i)];
  shown += after;

  const int carets = std::max(1, std::min(span_end, std::max(end, span_begin + 1)) - span_begin);
  const auto indent = static_cast<std::size_t>(2 + span_begin - begin) + before.size();
  return shown + "\n" + std::string(indent, ' ') + "^" +
         std::string(static_cast<std::size_t>(carets - 1), '~') + "\n";
}

/// `  at frame.length; write, for example: length: 2100 mm`
std::string place_and_advice(const Diagnostic& diagnostic) {
  const std::string place = diagnostic.path.empty() ? "" : "at " + diagnostic.path;
  const std::string advice =
      diagnostic.instead.empty() ? "" : "write, for example: " + diagnostic.instead;
  if (place.empty() && advice.empty()) return "";
  return "  " + place + (place.empty() || advice.empty() ? "" : "; ") + advice + "\n";
}

}  // namespace

std::string to_text(const Diagnostic& diagnostic) {
  std::string out =
      fmt::format("{}:{}:{}: {}{}\n", diagnostic.file, diagnostic.at.line, diagnostic.at.column,
                  diagnostic.severity == Severity::warning ? "warning: " : "", diagnostic.what);
  if (!diagnostic.source_line.empty()) out += underlined(diagnostic);
  return out + place_and_advice(diagnostic);
}

}  // namespace standtrue
