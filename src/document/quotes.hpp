#pragma once

#include <cstddef>
#include <string>
#include <string_view>

/// Where scalars end in the text of the file; the parser only tells where they begin.
namespace standtrue::document {

inline constexpr std::size_t npos = std::string_view::npos;

/// First byte after the quoted scalar that begins at `at`, or npos when its quote is never closed.
[[nodiscard]] std::size_t quoted_end(std::string_view text, std::size_t at);

/// First byte after the plain scalar that begins at `at` and reads as `value` (its line breaks
/// folded to single spaces).
[[nodiscard]] std::size_t plain_end(std::string_view text, std::size_t at, std::string_view value);

/// The comment directly after `at` (spaces between) when it looks like part of the value: its '#'
/// is followed by no space, as in `bench #2`. Byte of the '#', or npos.
[[nodiscard]] std::size_t cutting_comment(std::string_view text, std::size_t at);

/// The rest of the line from `at` on, without spaces at its end.
[[nodiscard]] std::string_view rest_of_line(std::string_view text, std::size_t at);

/// `value` as it has to stand in a file: in quotes where YAML would read it otherwise.
[[nodiscard]] std::string as_scalar(std::string_view value);

/// `key: value`, or the value alone when there is no key.
[[nodiscard]] std::string as_entry(std::string_view key, std::string_view value);

/// "length" of "frame.length"; empty for a list item and at the top.
[[nodiscard]] std::string_view last_key(std::string_view path);

}  // namespace standtrue::document
