#include "quantity/unit.hpp"

#include <string>
#include <vector>

#include "quantity/unit_table.hpp"
#include "quantity/wording.hpp"

namespace standtrue::quantity {
namespace {

bool starts_with(std::string_view text, std::size_t at, std::string_view with) {
  return text.substr(at, with.size()) == with;
}

/// Length of the micro sign or letter at `at`, else 0.
std::size_t micro_at(std::string_view text, std::size_t at) {
  return starts_with(text, at, "\xC2\xB5") || starts_with(text, at, "\xCE\xBC") ? 2 : 0;
}

/// A unit sign that is no letter: inch and foot marks, degree, percent. Its length, else 0.
std::size_t sign_at(std::string_view text, std::size_t at) {
  for (const std::string_view sign : {"\"", "'", "%", "\xC2\xB0", "\xE2\x80\xB2", "\xE2\x80\xB3",
                                      "\xE2\x80\x99", "\xE2\x80\x9D"}) {
    if (starts_with(text, at, sign)) return sign.size();
  }
  return 0;
}

/// The x of `38mmx89mm`, which is in no name of a unit.
bool is_times_sign(std::string_view text, std::size_t at) {
  const std::size_t next = skip_spaces(text, at + 1);
  return text[at] == 'x' && next < text.size() && is_digit(text[next]);
}

/// End of the name that begins at `at`: letters, or one sign.
std::size_t name_end(std::string_view text, std::size_t at) {
  if (const std::size_t sign = sign_at(text, at)) return at + sign;
  at += micro_at(text, at);
  while (at < text.size() && is_letter(text[at]) && !is_times_sign(text, at)) ++at;
  return at;
}

const UnitSpelling* find_spelling(std::string_view name) {
  for (const UnitSpelling& unit : unit_spellings) {
    if (unit.spelling == name) return &unit;
  }
  return nullptr;
}

struct Exponent {
  int value = 1;
  std::size_t end = 0;
};

/// `2`, `^2` or `²` directly after a name; more than one digit is none.
Exponent read_exponent(std::string_view text, std::size_t at) {
  if (starts_with(text, at, "\xC2\xB2")) return {2, at + 2};
  if (starts_with(text, at, "\xC2\xB3")) return {3, at + 2};
  if (starts_with(text, at, "\xE2\x81\xB4")) return {4, at + 3};
  const std::size_t digit = at + (starts_with(text, at, "^") ? 1 : 0);
  const bool one_digit = digit < text.size() && text[digit] >= '1' && text[digit] <= '4' &&
                         !(digit + 1 < text.size() && is_digit(text[digit + 1]));
  if (!one_digit) return {1, at};
  return {text[digit] - '0', digit + 1};
}

void multiply(Unit& unit, const UnitSpelling& by, int exponent) {
  for (int i = 0; i < exponent; ++i) {
    unit.top *= by.top;
    unit.bottom *= by.bottom;
  }
  for (int i = 0; i > exponent; --i) {
    unit.top *= by.bottom;
    unit.bottom *= by.top;
  }
  unit.dimension.m += exponent * by.dimension.m;
  unit.dimension.kg += exponent * by.dimension.kg;
  unit.dimension.s += exponent * by.dimension.s;
  unit.dimension.rad += exponent * by.dimension.rad;
  unit.in_pounds = unit.in_pounds || by.in_pounds;
}

/// The spelling that was meant by `name`: one that differs in case only, one near among those that
/// fit `wanted` alone, or, when `wanted` takes several terms, any near one.
std::string meant_by(std::string_view name, Dimension wanted) {
  std::vector<std::string> fitting, all;
  for (const UnitSpelling& unit : unit_spellings) {
    if (sign_at(unit.spelling, 0) != 0) continue;
    if (unit.dimension == wanted) fitting.emplace_back(unit.spelling);
    all.emplace_back(unit.spelling);
  }
  const std::string meant = nearest(name, fitting.empty() ? all : fitting);
  if (!meant.empty()) return meant;
  for (const std::string& spelling : all) {
    if (lower_case(spelling) == lower_case(name)) return spelling;
  }
  return "";
}

tl::unexpected<TextFault> unknown_unit(std::string_view text, std::size_t at, Dimension wanted) {
  std::size_t end = name_end(text, at);
  for (const RefusedSpelling& refused : refused_spellings) {
    if (refused.spelling == text.substr(at, end - at)) {
      return fault_at(at, end - at, std::string(refused.what),
                      replaced(text, at, end - at, refused.instead));
    }
  }
  if (at >= text.size()) return fault_at(at, 0, "a unit is missing at the end");
  if (end == at) end = word_end(text, at);
  const std::string_view name = text.substr(at, end - at);
  const std::string meant = meant_by(name, wanted);
  return fault_at(at, end - at, quoted(name) + " is not a unit",
                  meant.empty() ? "" : replaced(text, at, end - at, meant));
}

enum class Joint { none, times, over };

struct Continuation {
  Joint joint = Joint::none;
  std::size_t next = 0;  ///< where the next name begins
};

/// How the unit goes on after a term that ends at `at`.
Continuation read_joint(std::string_view text, std::size_t at) {
  const std::size_t here = skip_spaces(text, at);
  if (here >= text.size()) return {};
  if (text[here] == '/') return {Joint::over, skip_spaces(text, here + 1)};
  std::size_t next = here;
  if (starts_with(text, here, "\xC2\xB7")) next = here + 2;
  if (text[here] == '.' || text[here] == '*' || text[here] == '-') next = here + 1;
  next = skip_spaces(text, next);
  const bool name_follows =
      next > at && next < text.size() && (is_letter(text[next]) || micro_at(text, next) != 0);
  return name_follows ? Continuation{Joint::times, next} : Continuation{};
}

}  // namespace

Parsed<Unit> read_unit(std::string_view text, std::size_t at, Dimension wanted) {
  Unit unit;
  unit.end = at;
  if (at >= text.size()) return unit;
  Continuation after{Joint::times, at};
  if (starts_with(text, at, "1")) after = read_joint(text, at + 1);  // as in 1/min
  if (starts_with(text, at, "/")) after = read_joint(text, at);
  bool divided = false;
  while (after.joint != Joint::none) {
    if (after.joint == Joint::over && divided) break;
    divided = divided || after.joint == Joint::over;
    const std::size_t name_ends = name_end(text, after.next);
    const UnitSpelling* spelling = find_spelling(text.substr(after.next, name_ends - after.next));
    if (!spelling && unit.end > at && after.joint == Joint::times && unit.dimension == wanted) {
      return left_over(text, unit.end, skip_spaces(text, unit.end));
    }
    if (!spelling) return unknown_unit(text, after.next, wanted);

    const bool is_sign = sign_at(text, after.next) != 0;
    const Exponent exponent = is_sign ? Exponent{1, name_ends} : read_exponent(text, name_ends);
    multiply(unit, *spelling, divided ? -exponent.value : exponent.value);
    unit.end = exponent.end;
    if (is_sign) break;  // after 6' a number follows, not an exponent or a product
    after = read_joint(text, unit.end);
    if (divided && after.joint == Joint::times) break;  // N/mm rad could mean two things
  }
  return unit;
}

Unit read_length_unit(std::string_view text, std::size_t at) {
  Unit unit;
  unit.end = at;
  const std::size_t end = name_end(text, at);
  const UnitSpelling* spelling = find_spelling(text.substr(at, end - at));
  if (!spelling || spelling->dimension != dimension::length) return unit;
  const bool is_sign = sign_at(text, at) != 0;
  const bool goes_on = end < text.size() && (is_digit(text[end]) || text[end] == '^' ||
                                             text[end] == '/' || text[end] == '\xC2');
  if (goes_on && !is_sign) return unit;
  multiply(unit, *spelling, 1);
  unit.end = end;
  return unit;
}

}  // namespace standtrue::quantity
