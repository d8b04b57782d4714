#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "standtrue/document/document.hpp"
#include "standtrue/reference/tables.hpp"

/// What holds for every input whatever. A law that is broken ends the run, and libFuzzer keeps the
/// input. What a room throws ends it too: a `std::logic_error` is a bug of ours.
namespace fuzz {

inline void law(bool holds, const char* what, std::string_view told = "") {
  if (holds) return;
  std::fprintf(stderr, "broken law: %s\n%.*s\n", what, static_cast<int>(told.size()), told.data());
  std::abort();
}

inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

/// Nothing that moves a terminal's cursor or colours it.
inline bool is_printable(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) {
    const auto byte = static_cast<unsigned char>(c);
    return byte >= 0x20U ? byte != 0x7FU : c == '\n' || c == '\t';
  });
}

inline int code_points(std::string_view text) {
  return static_cast<int>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
  }));
}

/// Every fault says what is wrong, and stands inside the text: on one of its `lines` or just behind
/// the last, in a column of that line or just behind it.
inline void hold_diagnostics(const std::vector<standtrue::Diagnostic>& diagnostics, int lines) {
  for (const standtrue::Diagnostic& d : diagnostics) {
    const std::string told = to_text(d);
    law(!d.what.empty(), "a fault says what is wrong", told);
    law(d.at.line >= 1 && d.at.line <= lines + 1, "a fault stands on a line of the text", told);
    law(d.at.column >= 1 && d.length >= 1, "a fault stands in a column", told);
    law(d.source_line.empty() || d.at.column <= code_points(d.source_line) + 1,
        "a fault stands inside its line", told);
    law(is_printable(told), "a message has no control characters", told);
  }
}

inline int lines_of(std::string_view text) {
  return 1 + static_cast<int>(std::count(text.begin(), text.end(), '\n'));
}

/// The document of a text whose faults keep the laws; either it is there or an error says why not.
inline standtrue::document::Reading document_of(std::string_view text) {
  standtrue::document::Reading reading = standtrue::document::parse("fuzz.yaml", text);
  hold_diagnostics(reading.diagnostics, lines_of(text));
  law(reading.document || any_error(reading.diagnostics), "a text that is not read has a fault");
  return reading;
}

inline const standtrue::reference::Tables& tables() {
  static const standtrue::reference::Tables read = standtrue::reference::load_tables();
  return read;
}

}  // namespace fuzz
