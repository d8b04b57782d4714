#include "standtrue/quantity/unit_text.hpp"

#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <utility>

#include "quantity/kind.hpp"
#include "quantity/number.hpp"
#include "quantity/unit.hpp"
#include "quantity/unit_table.hpp"
#include "quantity/wording.hpp"

namespace standtrue::quantity {
namespace {

/// A number with its unit, as one of the two figures of `6 ft 2 in`.
struct Figure {
  double value_si = 0.0;
  Unit unit;
  std::size_t end = 0;
};

bool fits(const KindFacts& facts, const Unit& unit) {
  if (unit.dimension == facts.dimension) return true;
  const bool counts_as_weight =
      facts.weights == Weights::all || (facts.weights == Weights::pounds && unit.in_pounds);
  Dimension as_weight = unit.dimension;
  as_weight.m += 1;
  as_weight.s -= 2;
  return counts_as_weight && as_weight == facts.dimension;
}

double value_si(const Number& number, const Unit& unit, Dimension wanted) {
  const double value = (number.numerator * unit.top) / (number.denominator * unit.bottom);
  const bool as_weight = unit.dimension.s != wanted.s;
  return as_weight ? value * exact::g_n_top / exact::g_n_bottom : value;
}

/// A mass where a force is wanted gets its weight as advice, and the other way round.
std::string nearest_in_kind(const Number& number, const Unit& unit, const KindFacts& facts) {
  const double si = value_si(number, unit, unit.dimension);
  constexpr double g_n = exact::g_n_top / exact::g_n_bottom;
  if (facts.kind == Kind::force && unit.dimension == dimension::mass && std::isfinite(si * g_n)) {
    return print(si * g_n, Kind::force, unit.in_pounds ? UnitSystem::imperial : UnitSystem::metric);
  }
  if (facts.kind == Kind::mass && unit.dimension == dimension::force && std::isfinite(si)) {
    return print(si / g_n, Kind::mass);
  }
  return std::string(facts.example);
}

/// Proposes the usual unit; `1 in 80` for a slope that came as a fraction.
tl::unexpected<TextFault> no_unit(std::string_view text, std::size_t begin, const Number& number,
                                  const KindFacts& facts) {
  const std::string_view written = text.substr(begin, number.end - begin);
  const std::string what = quoted(written) + " has no unit";
  if (facts.kind == Kind::slope) {
    return fault_at(begin, written.size(), what,
                    print(number.numerator / number.denominator, Kind::slope));
  }
  return fault_at(begin, written.size(), what,
                  replaced(text, number.end, 0, " " + std::string(facts.usual_unit)));
}

/// In SI: what is smaller is finite in every unit that it may be shown in.
constexpr double largest = 1e300;

Parsed<Figure> read_figure(std::string_view text, std::size_t begin, const KindFacts& facts) {
  const Parsed<Number> number = read_number(text, begin);
  if (!number) return tl::unexpected<TextFault>(number.error());
  const Parsed<Unit> read = read_unit(text, skip_spaces(text, number->end), facts.dimension);
  if (!read) return tl::unexpected<TextFault>(read.error());
  Unit unit = *read;
  if (unit.end == skip_spaces(text, number->end)) {
    if (facts.kind != Kind::ratio) return no_unit(text, begin, *number, facts);
    unit.end = number->end;
  }
  const std::string_view written = text.substr(begin, unit.end - begin);
  if (!fits(facts, unit)) {
    return fault_at(begin, written.size(),
                    quoted(written) + " is " + std::string(noun_of(unit.dimension)) + "; " +
                        std::string(facts.noun) + " is wanted",
                    nearest_in_kind(*number, unit, facts));
  }
  const double value = value_si(*number, unit, facts.dimension);
  if (!(std::abs(value) < largest)) {
    return fault_at(begin, written.size(), quoted(written) + " is too large");
  }
  return Figure{value, unit, unit.end};
}

bool may_add_up(Kind kind) {
  return kind == Kind::length || kind == Kind::mass || kind == Kind::time;
}

/// What a further bare number most likely counts: the 2 of `6 ft 2` is in inches.
std::string_view next_smaller(const Unit& unit, const KindFacts& facts) {
  const bool in_feet = unit.top == 12 * exact::in_top && unit.bottom == exact::in_bottom;
  if (in_feet) return "in";
  if (unit.in_pounds) return "oz";
  return facts.usual_unit;
}

/// `6 ft 2 in`: each further figure has no sign and a smaller unit than the one before.
Parsed<double> read_sum(std::string_view text, std::size_t begin, const KindFacts& facts) {
  Parsed<Figure> figure = read_figure(text, begin, facts);
  if (!figure) return tl::unexpected<TextFault>(figure.error());
  const bool negative = text[begin] == '-';
  double sum = figure->value_si;
  std::size_t end = figure->end;
  for (std::size_t next = skip_spaces(text, end); next < text.size();
       next = skip_spaces(text, end)) {
    if (!may_add_up(facts.kind) || !is_digit(text[next])) return left_over(text, end, next);
    const double unit_before = figure->unit.top / figure->unit.bottom;
    KindFacts smaller = facts;
    smaller.usual_unit = next_smaller(figure->unit, facts);
    figure = read_figure(text, next, smaller);
    if (!figure) return tl::unexpected<TextFault>(figure.error());
    if (figure->unit.top / figure->unit.bottom >= unit_before) return left_over(text, end, next);
    sum += negative ? -figure->value_si : figure->value_si;
    end = figure->end;
  }
  if (std::abs(sum) < largest) return sum;
  return fault_at(begin, end - begin, quoted(text.substr(begin, end - begin)) + " is too large");
}

/// `1 in 80` or `1:80`; nothing when the text is written otherwise.
std::optional<Parsed<double>> read_rise_and_run(std::string_view text, std::size_t begin) {
  const Parsed<Number> rise = read_number(text, begin);
  if (!rise) return std::nullopt;
  std::size_t at = skip_spaces(text, rise->end);
  const bool colon = text.substr(at, 1) == ":";
  const bool in = text.substr(at, 2) == "in" && at + 2 < text.size() &&
                  (is_space(text[at + 2]) || is_digit(text[at + 2]));
  if (!colon && !in) return std::nullopt;
  at = skip_spaces(text, at + (colon ? 1 : 2));
  if (at >= text.size()) return std::nullopt;  // "5 in" is a length
  const Parsed<Number> run = read_number(text, at);
  if (!run) return tl::unexpected<TextFault>(run.error());
  const std::string_view written = text.substr(begin, run->end - begin);
  if (run->numerator == 0.0) {
    return fault_at(begin, written.size(), quoted(written) + " divides by zero");
  }
  const std::size_t rest = skip_spaces(text, run->end);
  if (rest < text.size()) return left_over(text, run->end, rest);
  const double slope = (rise->numerator * run->denominator) / (rise->denominator * run->numerator);
  if (std::isfinite(slope)) return slope;
  return fault_at(begin, written.size(), quoted(written) + " is too large");
}

/// `text` has no spaces at its end.
Parsed<double> parse_once(std::string_view text, const KindFacts& facts) {
  const std::size_t begin = skip_spaces(text, 0);
  if (begin >= text.size()) return fault_at(0, 0, "there is no value");
  if (facts.kind == Kind::slope) {
    if (const auto slope = read_rise_and_run(text, begin)) return *slope;
  }
  return read_sum(text, begin, facts);
}

/// A text may hold several slips (`12 KN/M`): puts them right one after the other, so that what is
/// proposed can be read; the example when that leads nowhere.
std::string readable(std::string proposal, const KindFacts& facts) {
  for (int slips = 0; slips < 6 && !proposal.empty(); ++slips) {
    const Parsed<double> again = parse_once(proposal, facts);
    if (again) return proposal;
    proposal = again.error().instead;
  }
  return std::string(facts.example);
}

}  // namespace

Parsed<double> parse_si(std::string_view text, Kind kind) {
  const KindFacts& facts = facts_of(kind);
  Parsed<double> value = parse_once(without_trailing_spaces(text), facts);
  if (!value) value.error().instead = readable(value.error().instead, facts);
  return value;
}

}  // namespace standtrue::quantity
