#include "document/source_text.hpp"

#include <algorithm>
#include <utility>

#include <fmt/core.h>

namespace standtrue::document {
namespace {

constexpr std::size_t largest_text = std::size_t{1} << 20U;  // 1 MiB
constexpr std::size_t longest_shown_line = 2000;
constexpr std::size_t most_of_one_sort = 20;              // faults; a binary file has thousands
constexpr std::string_view replacement = "\xEF\xBF\xBD";  // U+FFFD

unsigned byte_at(std::string_view text, std::size_t at) {
  return static_cast<unsigned char>(text[at]);
}

bool continues(std::string_view text, std::size_t at) {
  return at < text.size() && (byte_at(text, at) & 0xC0U) == 0x80U;
}

/// Bytes of the code point at `at`, or 0 if it is not valid UTF-8 (overlong forms, surrogates and
/// values above U+10FFFF are not).
std::size_t utf8_length(std::string_view text, std::size_t at) {
  const unsigned lead = byte_at(text, at);
  if (lead < 0x80U) return 1;
  if (lead < 0xC2U || lead > 0xF4U || !continues(text, at + 1)) return 0;
  if (lead < 0xE0U) return 2;
  const unsigned second = byte_at(text, at + 1);
  if (lead == 0xE0U && second < 0xA0U) return 0;
  if (lead == 0xEDU && second > 0x9FU) return 0;
  if (lead == 0xF0U && second < 0x90U) return 0;
  if (lead == 0xF4U && second > 0x8FU) return 0;
  if (!continues(text, at + 2)) return 0;
  if (lead < 0xF0U) return 3;
  return continues(text, at + 3) ? 4 : 0;
}

bool is_control(std::string_view text, std::size_t at) {
  const unsigned c = byte_at(text, at);
  if (c < 0x20U) return c != '\t' && c != '\n';
  const bool second_set = c == 0xC2U && at + 1 < text.size() && byte_at(text, at + 1) < 0xA0U;
  return c == 0x7FU || second_set;  // U+0080 to U+009F
}

std::string without_carriage_returns(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
    out += text[i];
  }
  return out;
}

struct BadCharacter {
  Position at;
  bool is_utf8 = false;
  unsigned byte = 0;
};

/// Fills `lines` and returns the characters that do not belong in a text.
std::vector<BadCharacter> split_lines(std::string_view text, std::vector<std::string>& lines) {
  std::vector<BadCharacter> bad;
  lines.emplace_back();
  int column = 1;
  for (std::size_t i = 0; i < text.size();) {
    if (text[i] == '\n') {
      lines.emplace_back();
      column = 1;
      ++i;
      continue;
    }
    const std::size_t length = utf8_length(text, i);
    if (length == 0 || is_control(text, i)) {
      bad.push_back({{static_cast<int>(lines.size()), column}, length > 0, byte_at(text, i)});
      lines.back() += replacement;
    } else {
      lines.back() += text.substr(i, length);
    }
    i += std::max<std::size_t>(length, 1);
    ++column;
  }
  if (lines.back().empty() && lines.size() > 1) lines.pop_back();
  return bad;
}

Diagnostic bad_character(const SourceText& source, const BadCharacter& bad) {
  if (!bad.is_utf8) {
    return diagnostic_at(source, bad.at, 1,
                         fmt::format("the byte {:02X} (hexadecimal) is not UTF-8", bad.byte),
                         "save the file as UTF-8");
  }
  return diagnostic_at(source, bad.at, 1,
                       fmt::format("there is a control character, {:02X} (hexadecimal)", bad.byte),
                       "the line without it");
}

/// YAML forbids tabs in the indentation; the parser would only say "illegal map value".
void find_indenting_tabs(SourceText& source, std::vector<Diagnostic>& faults) {
  std::size_t found = 0;
  for (std::size_t i = 0; i < source.lines.size() && found < most_of_one_sort; ++i) {
    const std::string& line = source.lines[i];
    const std::size_t text = line.find_first_not_of(" \t");
    const std::size_t tab = line.find('\t');
    if (text == std::string::npos || line[text] == '#' || tab > text) continue;
    ++found;
    source.is_readable = false;
    faults.push_back(diagnostic_at(source, {static_cast<int>(i) + 1, static_cast<int>(tab) + 1},
                                   static_cast<int>(text - tab), "a tab indents this line",
                                   "spaces"));
  }
}

/// The parser stumbles over tabs even before a comment or on a line that holds nothing else.
void replace_harmless_tabs(std::string& text) {
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    const std::size_t first = std::min(text.find_first_not_of(" \t", begin), end);
    if (first == end || text[first] == '#') {
      std::replace(text.begin() + static_cast<std::ptrdiff_t>(begin),
                   text.begin() + static_cast<std::ptrdiff_t>(first), '\t', ' ');
    }
    begin = end + 1;
  }
}

}  // namespace

SourceText take_text(std::string_view name, std::string_view text,
                     std::vector<Diagnostic>& faults) {
  SourceText source;
  source.name = name;
  if (text.size() > largest_text) {
    source.is_readable = false;
    faults.push_back(diagnostic_at(source, {}, 1, "the file is larger than 1 MiB",
                                   "a bench in a few hundred lines"));
    return source;
  }
  constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
  if (text.substr(0, byte_order_mark.size()) == byte_order_mark) {
    text.remove_prefix(byte_order_mark.size());
  }
  source.text = without_carriage_returns(text);
  const std::vector<BadCharacter> bad = split_lines(source.text, source.lines);
  source.is_readable = bad.empty();
  for (std::size_t i = 0; i < std::min(bad.size(), most_of_one_sort); ++i) {
    faults.push_back(bad_character(source, bad[i]));
  }
  find_indenting_tabs(source, faults);
  replace_harmless_tabs(source.text);
  return source;
}

std::string that_can_be_shown(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = utf8_length(text, i);
    out += length == 0 || is_control(text, i) ? replacement : text.substr(i, length);
    i += std::max<std::size_t>(length, 1);
  }
  return out;
}

int code_points(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

std::size_t byte_of_column(std::string_view line, int column) {
  std::size_t at = 0;
  for (int i = 1; i < column && at < line.size(); ++i) {
    ++at;
    while (continues(line, at)) ++at;
  }
  return at;
}

std::string shown_line(const std::vector<std::string>& lines, int line) {
  if (line < 1 || static_cast<std::size_t>(line) > lines.size()) return "";
  const std::string& text = lines[static_cast<std::size_t>(line) - 1];
  return text.size() > longest_shown_line ? "" : text;
}

Diagnostic diagnostic_at(const SourceText& source, Position at, int length, std::string what,
                         std::string instead) {
  return Diagnostic{.severity = Severity::error,
                    .file = source.name,
                    .at = at,
                    .length = std::max(length, 1),
                    .source_line = shown_line(source.lines, at.line),
                    .path = "",
                    .what = std::move(what),
                    .instead = std::move(instead)};
}

}  // namespace standtrue::document
