#pragma once

#include <string>
#include <string_view>

#include "standtrue/quantity/unit_text.hpp"

/// Words and cuts of text shared by the readers of numbers, units and sizes.
namespace standtrue::quantity {

/// 'text', cut short when long, so that no message repeats a whole file.
[[nodiscard]] std::string quoted(std::string_view text);

/// `text` with the bytes [offset, offset + length) replaced.
[[nodiscard]] std::string replaced(std::string_view text, std::size_t offset, std::size_t length,
                                   std::string_view with);

[[nodiscard]] std::string lower_case(std::string_view text);  ///< ASCII letters only

[[nodiscard]] bool is_space(char c);
[[nodiscard]] bool is_digit(char c);
[[nodiscard]] bool is_letter(char c);

[[nodiscard]] std::size_t skip_spaces(std::string_view text, std::size_t at);
[[nodiscard]] std::string_view without_trailing_spaces(std::string_view text);
[[nodiscard]] std::string_view trimmed(std::string_view text);

/// End of the run without spaces that begins at `at`.
[[nodiscard]] std::size_t word_end(std::string_view text, std::size_t at);

[[nodiscard]] tl::unexpected<TextFault> fault_at(std::size_t offset, std::size_t length,
                                                 std::string what, std::string instead = {});

/// Everything of `text` from `from` on is too much after what ended at `end`.
[[nodiscard]] tl::unexpected<TextFault> left_over(std::string_view text, std::size_t end,
                                                  std::size_t from);

/// A fault for which only the caller could give an example gets this one.
template <class T>
[[nodiscard]] Parsed<T> with_example(Parsed<T> parsed, std::string_view example) {
  if (!parsed && parsed.error().instead.empty()) parsed.error().instead = std::string(example);
  return parsed;
}

}  // namespace standtrue::quantity
