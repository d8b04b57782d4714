#include "quantity/number.hpp"

#include <fast_float/fast_float.h>

#include <cmath>
#include <optional>

#include "quantity/wording.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::quantity {
namespace {

std::size_t digits_end(std::string_view text, std::size_t at) {
  while (at < text.size() && is_digit(text[at])) ++at;
  return at;
}

char at_or_nul(std::string_view text, std::size_t at) { return at < text.size() ? text[at] : '\0'; }

bool is_hex_digit(char c) {
  return is_digit(c) || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
}

/// The grammar has been checked: digits, point, exponent. Infinite when too large for a double.
double to_double(std::string_view digits) {
  double value = 0.0;
  const auto result = fast_float::from_chars(digits.data(), digits.data() + digits.size(), value);
  expects(result.ptr == digits.data() + digits.size(),
          "to_double: the grammar let rubbish through");
  return value;
}

tl::unexpected<TextFault> not_a_number(std::string_view text, std::size_t at) {
  const std::size_t end = word_end(text, at);
  if (end == at) return fault_at(at, 0, "a number is missing");
  return fault_at(at, end - at, quoted(text.substr(at, end - at)) + " is not a number");
}

/// `1,5` is a decimal comma; `2,100` and `1,234,567` look like thousands; `1.234,5` is both.
tl::unexpected<TextFault> comma_fault(std::string_view text, std::size_t begin) {
  std::size_t end = begin;
  std::size_t commas = 0, comma = 0, point = std::string_view::npos;
  for (; end < text.size() && (is_digit(text[end]) || text[end] == ',' || text[end] == '.');
       ++end) {
    if (text[end] == '.') point = end;
    if (text[end] == ',') {
      ++commas;
      comma = end;
    }
  }
  const std::string_view number = text.substr(begin, end - begin);
  const bool groups_of_three = end - comma == 4 && text[begin] != '0';
  const bool has_point = point != std::string_view::npos;
  const bool point_first = has_point && point < comma;
  const bool decimal = commas == 1 && (point_first || (!has_point && !groups_of_three));

  std::string put_right;
  for (const char c : number) {
    if (c == ',' && decimal) put_right += '.';
    if (c != ',' && !(c == '.' && point_first)) put_right += c;
  }
  const std::string what =
      quoted(number) + (decimal ? " has a decimal comma" : " has commas between its thousands");
  return fault_at(begin, end - begin, what, replaced(text, begin, end - begin, put_right));
}

tl::unexpected<TextFault> too_large(std::string_view text, std::size_t begin, std::size_t end) {
  return fault_at(begin, end - begin, quoted(text.substr(begin, end - begin)) + " is too large");
}

/// `3/4`, or the part after the whole number in `35 1/2`; `at` is its first digit.
Parsed<Number> read_fraction(std::string_view text, std::size_t at) {
  const std::size_t slash = digits_end(text, at);
  const std::size_t end = digits_end(text, slash + 1);
  const Number fraction{.numerator = to_double(text.substr(at, slash - at)),
                        .denominator = to_double(text.substr(slash + 1, end - slash - 1)),
                        .end = end,
                        .is_whole = false,
                        .is_fraction = true};
  if (fraction.denominator == 0.0) {
    return fault_at(at, end - at, quoted(text.substr(at, end - at)) + " divides by zero");
  }
  if (!std::isfinite(fraction.numerator) || !std::isfinite(fraction.denominator)) {
    return too_large(text, at, end);
  }
  return fraction;
}

bool fraction_begins(std::string_view text, std::size_t at) {
  const std::size_t slash = digits_end(text, at);
  return slash > at && at_or_nul(text, slash) == '/' && is_digit(at_or_nul(text, slash + 1));
}

/// `35 1/2`: one whole number and a proper fraction.
Parsed<Number> read_mixed(std::string_view text, std::size_t whole_at, std::size_t fraction_at) {
  const double whole = to_double(text.substr(whole_at, digits_end(text, whole_at) - whole_at));
  Parsed<Number> number = read_fraction(text, fraction_at);
  if (!number) return number;
  if (number->numerator >= number->denominator) {
    return fault_at(fraction_at, number->end - fraction_at,
                    quoted(text.substr(fraction_at, number->end - fraction_at)) +
                        " is not less than one, so it can not follow a whole number");
  }
  number->numerator += whole * number->denominator;
  if (!std::isfinite(number->numerator)) return too_large(text, whole_at, number->end);
  return number;
}

/// Where the decimals and the exponent end; `at` is the end of the leading digits.
std::size_t decimal_end(std::string_view text, std::size_t at) {
  if (at_or_nul(text, at) == '.' && is_digit(at_or_nul(text, at + 1)))
    at = digits_end(text, at + 1);
  const char e = at_or_nul(text, at);
  if (e != 'e' && e != 'E') return at;
  const char sign = at_or_nul(text, at + 1);
  const std::size_t digits = at + (sign == '+' || sign == '-' ? 2 : 1);
  return is_digit(at_or_nul(text, digits)) ? digits_end(text, digits) : at;
}

/// End of `2 100` or `1 234 567`, or 0: groups of three digits after one to three.
std::size_t spaced_thousands_end(std::string_view text, std::size_t begin, std::size_t digits) {
  if (digits - begin > 3) return 0;
  std::size_t end = digits;
  while (at_or_nul(text, end) == ' ' && digits_end(text, end + 1) == end + 4) end += 4;
  return end > digits && at_or_nul(text, end) != '/' ? end : 0;
}

/// Spellings of other number systems and of `3-1/2`, named before they read as something else.
std::optional<tl::unexpected<TextFault>> foreign_spelling(std::string_view text, std::size_t begin,
                                                          std::size_t digits) {
  const char next = at_or_nul(text, digits);
  const char after = at_or_nul(text, digits + 1);
  if (digits == begin + 1 && text[begin] == '0' && (next == 'x' || next == 'X') &&
      is_hex_digit(after)) {
    const std::size_t end = word_end(text, begin);
    return fault_at(begin, end - begin,
                    quoted(text.substr(begin, end - begin)) + " is not a decimal number");
  }
  if (next == ',' && is_digit(after)) return comma_fault(text, begin);
  if (next == '-' && fraction_begins(text, digits + 1)) {
    const std::size_t end = digits_end(text, digits_end(text, digits + 1) + 1);
    return fault_at(begin, end - begin,
                    quoted(text.substr(begin, end - begin)) + " has a hyphen before its fraction",
                    replaced(text, digits, 1, " "));
  }
  if (const std::size_t end = spaced_thousands_end(text, begin, digits)) {
    std::string joined;
    for (const char c : text.substr(begin, end - begin)) {
      if (c != ' ') joined += c;
    }
    return fault_at(begin, end - begin,
                    quoted(text.substr(begin, end - begin)) + " has spaces between its thousands",
                    replaced(text, begin, end - begin, joined));
  }
  return std::nullopt;
}

Parsed<Number> read_unsigned(std::string_view text, std::size_t begin) {
  const std::size_t digits = digits_end(text, begin);
  if (const auto fault = foreign_spelling(text, begin, digits)) return *fault;
  if (fraction_begins(text, begin)) return read_fraction(text, begin);
  const std::size_t gap_end = skip_spaces(text, digits);
  if (gap_end > digits && fraction_begins(text, gap_end)) return read_mixed(text, begin, gap_end);

  const std::size_t end = decimal_end(text, digits);
  if (at_or_nul(text, end) == ',' && is_digit(at_or_nul(text, end + 1))) {
    return comma_fault(text, begin);
  }
  if (at_or_nul(text, end) == '/' && is_digit(at_or_nul(text, end + 1))) {
    const std::size_t fraction_end = digits_end(text, end + 1);
    return fault_at(
        begin, fraction_end - begin,
        quoted(text.substr(begin, fraction_end - begin)) + " is not a fraction of whole numbers");
  }
  const Number number{.numerator = to_double(text.substr(begin, end - begin)),
                      .denominator = 1.0,
                      .end = end,
                      .is_whole = end == digits,
                      .is_fraction = false};
  if (!std::isfinite(number.numerator)) return too_large(text, begin, end);
  return number;
}

}  // namespace

Parsed<Number> read_number(std::string_view text, std::size_t at) {
  constexpr std::string_view minus = "\xE2\x88\x92";  // U+2212, as word processors write it
  if (text.substr(at, minus.size()) == minus) {
    return fault_at(at, minus.size(), quoted(minus) + " is not the minus sign of the keyboard",
                    replaced(text, at, minus.size(), "-"));
  }
  const char sign = at_or_nul(text, at);
  const std::size_t begin = at + (sign == '+' || sign == '-' ? 1 : 0);
  const bool begins = is_digit(at_or_nul(text, begin)) ||
                      (at_or_nul(text, begin) == '.' && is_digit(at_or_nul(text, begin + 1)));
  if (!begins) return not_a_number(text, at);
  Parsed<Number> number = read_unsigned(text, begin);
  if (number && sign == '-') number->numerator = -number->numerator;
  return number;
}

}  // namespace standtrue::quantity
