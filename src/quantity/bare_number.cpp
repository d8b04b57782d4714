#include <cmath>
#include <string>

#include "quantity/number.hpp"
#include "quantity/unit.hpp"
#include "quantity/wording.hpp"
#include "standtrue/quantity/unit_text.hpp"

namespace standtrue::quantity {
namespace {

/// The only thing in `text`, which has no spaces at its end.
Parsed<Number> read_alone(std::string_view text) {
  const std::size_t begin = skip_spaces(text, 0);
  if (begin >= text.size()) return fault_at(0, 0, "there is no value");
  Parsed<Number> number = read_number(text, begin);
  if (!number) return number;
  const std::size_t rest = skip_spaces(text, number->end);
  if (rest >= text.size()) return number;
  const Parsed<Unit> unit = read_unit(text, rest, {});
  if (unit && unit->end == text.size()) {
    return fault_at(rest, text.size() - rest,
                    quoted(text.substr(rest)) + " is a unit; a plain number is wanted",
                    std::string(trimmed(text.substr(0, number->end))));
  }
  return left_over(text, number->end, rest);
}

}  // namespace

Parsed<double> parse_number(std::string_view text) {
  const Parsed<Number> number = with_example(read_alone(without_trailing_spaces(text)), "0.3");
  if (!number) return tl::unexpected<TextFault>(number.error());
  return number->numerator / number->denominator;
}

Parsed<int> parse_count(std::string_view text) {
  text = without_trailing_spaces(text);
  const Parsed<Number> number = with_example(read_alone(text), "2");
  if (!number) return tl::unexpected<TextFault>(number.error());
  const std::size_t begin = skip_spaces(text, 0);
  const std::string_view written = text.substr(begin);
  if (!number->is_whole) {
    const double value = number->numerator / number->denominator;
    const bool is_small = std::abs(value) < 1e5;
    return fault_at(begin, written.size(), quoted(written) + " is not a whole number",
                    is_small ? print(std::round(value), Kind::ratio) : "2");
  }
  if (std::abs(number->numerator) > 2147483647.0) {
    return fault_at(begin, written.size(), quoted(written) + " is too large", "2");
  }
  return static_cast<int>(number->numerator);
}

}  // namespace standtrue::quantity
