#include "document/syntax.hpp"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "document/quotes.hpp"

namespace standtrue::document {
namespace {

bool is_name_character(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

std::string_view line_of(const SourceText& source, int line) {
  if (line < 1 || static_cast<std::size_t>(line) > source.lines.size()) return {};
  return source.lines[static_cast<std::size_t>(line) - 1];
}

std::size_t indentation(std::string_view line) {
  const std::size_t text = line.find_first_not_of(' ');
  return text == npos ? line.size() : text;
}

bool is_blank_or_comment(std::string_view line) {
  const std::size_t text = indentation(line);
  return text == line.size() || line[text] == '#';
}

/// The last line above `line` that holds something, or 0.
int line_above(const SourceText& source, int line) {
  for (--line; line > 0 && is_blank_or_comment(line_of(source, line)); --line) {
  }
  return line;
}

std::optional<Diagnostic> missing_space(const SourceText& source, Position at) {
  for (const int line : {at.line, line_above(source, at.line)}) {
    const std::string_view text = line_of(source, line);
    const std::size_t colon = colon_without_space(text);
    if (colon == npos) continue;
    const std::size_t begin = text.find_first_not_of(" -");
    const std::string put_right =
        as_entry(text.substr(begin, colon - begin), rest_of_line(text, colon + 1));
    return diagnostic_at(source, {line, static_cast<int>(colon) + 1}, 1,
                         "a space is missing after ':'", put_right);
  }
  return std::nullopt;
}

/// A line set further in than the one above it, which already has a value of its own.
std::optional<Diagnostic> deeper_than_above(const SourceText& source, Position at) {
  const std::string_view line = line_of(source, at.line);
  const int above = line_above(source, at.line);
  if (above == 0 || indentation(line) <= indentation(line_of(source, above))) return std::nullopt;
  const std::size_t begin = indentation(line);
  if (byte_of_column(line, at.column) <= begin) return std::nullopt;
  return diagnostic_at(source, {at.line, static_cast<int>(begin) + 1}, 1,
                       fmt::format("this line is set further in than line {}, which already has "
                                   "a value",
                                   above),
                       "it with the indentation of the line above");
}

/// A line without ':' above, which the parser took for the beginning of the key.
std::optional<Diagnostic> no_key_above(const SourceText& source, Position at) {
  const int above = line_above(source, at.line);
  const std::string_view line = line_of(source, above);
  const std::size_t begin = indentation(line);
  const bool same_depth = above > 0 && begin == indentation(line_of(source, at.line));
  if (!same_depth || line.find(':') != npos || line[begin] == '-') return std::nullopt;
  const std::string_view text = rest_of_line(line, begin);
  return diagnostic_at(source, {above, static_cast<int>(begin) + 1}, code_points(text),
                       "this line has no key", "name: " + std::string(text));
}

/// `note: see: this`
Diagnostic colon_in_value(const SourceText& source, const Breakdown& breakdown) {
  const std::string_view line = line_of(source, breakdown.at.line);
  const std::size_t first_colon = line.find(": ");
  std::string put_right = "the value in quotes";
  if (first_colon != npos && first_colon < byte_of_column(line, breakdown.at.column)) {
    const std::string_view value = rest_of_line(line, first_colon + 2);
    const std::string_view key = line.substr(0, first_colon);
    put_right = as_entry(key.substr(indentation(key)), as_scalar(value));
  }
  return diagnostic_at(source, breakdown.at, 1, "this ':' stands inside a value", put_right);
}

Diagnostic illegal_map_value(const SourceText& source, const Breakdown& breakdown) {
  if (auto fault = missing_space(source, breakdown.at)) return *fault;
  if (auto fault = deeper_than_above(source, breakdown.at)) return *fault;
  if (auto fault = no_key_above(source, breakdown.at)) return *fault;
  return colon_in_value(source, breakdown);
}

/// `size: "35 1/2""`: the first byte after a quoted text and then something else on the same line.
std::optional<Diagnostic> text_after_quote(const SourceText& source, const Breakdown& breakdown) {
  const std::string_view line = line_of(source, breakdown.at.line);
  const std::size_t at = byte_of_column(line, breakdown.at.column);
  std::size_t before = at;
  while (before > 0 && line[before - 1] == ' ') --before;
  if (before == 0 || (line[before - 1] != '"' && line[before - 1] != '\'')) return std::nullopt;
  return diagnostic_at(source, breakdown.at, code_points(rest_of_line(line, at)),
                       "text follows a closing quote",
                       "the whole value in one pair of quotes, or without quotes");
}

Diagnostic end_of_map(const SourceText& source, const Breakdown& breakdown) {
  if (auto fault = text_after_quote(source, breakdown)) return *fault;
  if (auto fault = missing_space(source, breakdown.at)) return *fault;
  const std::string_view line = line_of(source, breakdown.at.line);
  const std::string_view text = line.substr(indentation(line));
  if (text.substr(0, 2) == "- " || text == "-") {
    return diagnostic_at(source, breakdown.at, 1,
                         "a list item stands where a key such as 'name:' must stand",
                         "the list below its key, set in by two spaces");
  }
  if (text.find(':') == npos) {
    const std::string_view value = rest_of_line(text, 0);
    return diagnostic_at(source, breakdown.at, code_points(value), "this line has no key",
                         "name: " + std::string(value));
  }
  return diagnostic_at(source, breakdown.at, 1, "the indentation fits no line above",
                       "it below the first letter of its neighbours");
}

Diagnostic end_of_list(const SourceText& source, const Breakdown& breakdown) {
  return diagnostic_at(source, breakdown.at, 1,
                       "a list item '- ' must begin here, or the indentation fits no line above",
                       "- value");
}

Diagnostic unclosed(const SourceText& source, const Breakdown& breakdown) {
  const Position at = breakdown.open_at.value_or(breakdown.at);
  const std::string_view line = line_of(source, at.line);
  const std::size_t byte = byte_of_column(line, at.column);
  const char open = byte < line.size() ? line[byte] : '[';
  const char close = open == '{' ? '}' : ']';
  return diagnostic_at(source, at, 1, fmt::format("the '{}' that opens here is never closed", open),
                       fmt::format("'{}' where it ends", close));
}

Diagnostic stray_close(const SourceText& source, const Breakdown& breakdown) {
  const std::string_view line = line_of(source, breakdown.at.line);
  const std::size_t byte = byte_of_column(line, breakdown.at.column);
  const char close = byte < line.size() ? line[byte] : ']';
  return diagnostic_at(source, breakdown.at, 1, fmt::format("this '{}' closes nothing", close),
                       "the line without it");
}

Diagnostic bad_first_character(const SourceText& source, const Breakdown& breakdown) {
  const std::string_view line = line_of(source, breakdown.at.line);
  const std::size_t byte = byte_of_column(line, breakdown.at.column);
  const std::string_view rest = rest_of_line(line, std::min(byte, line.size()));
  const std::string first(rest.substr(0, byte_of_column(rest, 2)));
  return diagnostic_at(source, breakdown.at, code_points(rest),
                       fmt::format("a value can not begin with '{}'", first),
                       as_entry(breakdown.key, as_scalar(rest)));
}

Diagnostic bad_escape(const SourceText& source, const Breakdown& breakdown) {
  return diagnostic_at(source, breakdown.at, 1, "a '\\' in double quotes begins no known escape",
                       "the text in single quotes, or '\\\\' for the stroke itself");
}

Diagnostic item_beside_key(const SourceText& source, const Breakdown& breakdown) {
  return diagnostic_at(source, breakdown.at, 1, "a list item can not begin here",
                       "the list on the lines below its key, or as [a, b]");
}

Diagnostic dangling_alias(const SourceText& source, const Breakdown& breakdown) {
  return diagnostic_at(source, breakdown.at, 1, "aliases (*name) are not accepted",
                       "the values themselves");
}

struct Translation {
  std::string_view begins_with;
  Diagnostic (*translate)(const SourceText&, const Breakdown&);
};
constexpr std::array translations = {
    Translation{"illegal map value", illegal_map_value},
    Translation{"end of map not found", end_of_map},
    Translation{"end of sequence not found", end_of_list},
    Translation{"end of map flow not found", unclosed},
    Translation{"end of sequence flow not found", unclosed},
    Translation{"illegal flow end", stray_close},
    Translation{"unknown token", bad_first_character},
    Translation{"unknown escape character", bad_escape},
    Translation{"bad character found while scanning hex", bad_escape},
    Translation{"invalid unicode", bad_escape},
    Translation{"illegal block entry", item_beside_key},
    Translation{"the referenced anchor is not defined", dangling_alias},
};

Diagnostic translated(const SourceText& source, const Breakdown& breakdown) {
  const bool after_long_quote =
      breakdown.long_quote_at && breakdown.long_quote_ends_on_line == breakdown.at.line;
  if (after_long_quote) {
    return diagnostic_at(source, *breakdown.long_quote_at, 1,
                         fmt::format("the quote that opens here is closed only on line {}",
                                     breakdown.long_quote_ends_on_line),
                         "the closing quote on the same line");
  }
  for (const Translation& translation : translations) {
    if (std::string_view(breakdown.message).substr(0, translation.begins_with.size()) ==
        translation.begins_with) {
      return translation.translate(source, breakdown);
    }
  }
  return diagnostic_at(source, breakdown.at, 1, "this is not YAML: " + breakdown.message,
                       "name: value");
}

}  // namespace

std::size_t colon_without_space(std::string_view line) {
  std::size_t at = line.find_first_not_of(" -");
  if (at == npos) return npos;
  const std::size_t name = at;
  while (at < line.size() && is_name_character(line[at])) ++at;
  const bool found = at > name && at + 1 < line.size() && line[at] == ':' && line[at + 1] != ' ' &&
                     line[at + 1] != '/';
  return found ? at : npos;
}

Diagnostic syntax_fault(const SourceText& source, const Breakdown& breakdown) {
  Diagnostic fault = translated(source, breakdown);
  fault.path = breakdown.path;
  return fault;
}

}  // namespace standtrue::document
