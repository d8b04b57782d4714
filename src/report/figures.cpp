#include "report/figures.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>
#include <utility>

#include "report/governing.hpp"
#include "standtrue/contract.hpp"

namespace standtrue::report {

using check::Finding;
using check::Group;
using quantity::Kind;
using quantity::UnitSystem;

namespace {

/// Two figures below ten, whole numbers above; no zeros at the end.
std::string two_figures(double value) {
  const double magnitude = std::abs(value);
  if (magnitude == 0.0) return "0";
  const int decimals =
      magnitude >= 9.95 ? 0 : 1 - static_cast<int>(std::floor(std::log10(magnitude)));
  if (decimals > 4) return fmt::format("{:.1e}", value);
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') == std::string::npos) return text;
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

/// "2.94 mm" to "2.94" and " mm"; "57 1/16 in" to "57 1/16" and " in"; "1 in 80" and "".
std::pair<std::string, std::string> split_unit(const std::string& text, Kind kind) {
  const std::size_t blank = text.rfind(' ');
  if (blank == std::string::npos || kind == Kind::slope) return {text, ""};
  return {text.substr(0, blank), text.substr(blank)};
}

/// A range in one unit, "2.2 to 2.9 mm"; one number if both ends read alike.
std::string joined(const std::string& least, const std::string& greatest, Kind kind) {
  if (least == greatest) return least;
  const auto [number, unit] = split_unit(least, kind);
  const bool same_unit = unit == split_unit(greatest, kind).second;
  return (same_unit ? number : least) + " to " + greatest;
}

std::string_view what_bears(const Finding& f) {
  if (f.id.rfind("sheet-tips/", 0) == 0) return "what holds it down";
  switch (f.group) {
    case Group::carry:
    case Group::sheet:
      return "its strength";
    case Group::joints:
      return "the joint's strength";
    case Group::sag:
      return "the sag allowed";
    case Group::sway:
      return "the sway allowed";
    case Group::twist:
    case Group::hum:
    case Group::tip:
    case Group::slide:
    case Group::feet:
      break;
  }
  return "the limit";
}

/// What a builder can picture as a number; the rest is told as a share of the limit.
bool is_pictured(const Finding& f) {
  if (f.group == Group::carry || f.group == Group::joints || f.group == Group::sheet) return false;
  switch (f.unit) {
    case Kind::length:
    case Kind::mass:
    case Kind::force:
    case Kind::linear_stiffness:
    case Kind::slope:
    case Kind::speed:
      return std::isfinite(f.limit) && demands(f) && std::isfinite(demands(f)->greatest) &&
             demands(f)->least > 0.0;
    default:
      return false;
  }
}

/// Demand and limit as they are shown: a force as the mass that weighs as much, a sway stiffness as
/// the movement under a hand pull.
struct Shown {
  Kind kind = Kind::length;
  Range demand;
  double limit = 0.0;
  std::string under;  ///< " at 10 kg"
};

Shown shown(const Finding& f, UnitSystem units) {
  Shown s{f.unit, *demands(f), f.limit, ""};
  if (f.unit == Kind::force) {
    const double g = quantity::in_si(quantity::standard_gravity());
    s = {Kind::mass, {s.demand.least / g, s.demand.greatest / g}, f.limit / g, ""};
  } else if (f.unit == Kind::linear_stiffness && f.limit_is_least) {
    const HandPull hand = hand_pull(units);
    s = {Kind::length,
         {hand.force / s.demand.greatest, hand.force / s.demand.least},
         hand.force / f.limit,
         " at " + hand.pull};
  }
  return s;
}

std::string pictured(const Finding& f, UnitSystem units) {
  const Shown s = shown(f, units);
  const auto text_with = [&](auto number) {
    const std::string least = number(s.demand.least), greatest = number(s.demand.greatest);
    const std::string limit = number(s.limit);
    const auto [figure, unit] = split_unit(limit, s.kind);
    const bool same_unit = unit == split_unit(greatest, s.kind).second;
    const bool wants_more = f.limit_is_least && s.under.empty();
    return std::make_pair(
        fmt::format("{}{}, {} {}", joined(least, greatest, s.kind), s.under,
                    same_unit ? figure : limit, wants_more ? "wanted" : "allowed"),
        least == limit || greatest == limit);
  };
  const auto [coarse, reads_as_equal] =
      text_with([&](double si) { return rough(si, s.kind, units); });
  // Two figures may hide on which side of the limit an answer lies.
  if (!reads_as_equal) return coarse;
  const bool wants_more = f.limit_is_least && s.under.empty();
  const std::string limit = quantity::print(s.limit, s.kind, units);
  return text_with([&](double si) {
           const std::string text = quantity::print(si, s.kind, units);
           const bool is_missed = wants_more ? si < s.limit : si > s.limit;
           if (!is_missed || text != limit) return text;
           return (wants_more ? "just under " : "just over ") + text;
         })
      .first;
}

struct Fraction {
  double value;
  std::string_view text;
};
constexpr std::array fractions = {
    Fraction{0.05, "1/20"},   Fraction{0.1, "1/10"}, Fraction{0.2, "1/5"}, Fraction{0.25, "1/4"},
    Fraction{1.0 / 3, "1/3"}, Fraction{0.4, "2/5"},  Fraction{0.5, "1/2"}, Fraction{0.6, "3/5"},
    Fraction{2.0 / 3, "2/3"}, Fraction{0.75, "3/4"}, Fraction{0.8, "4/5"}, Fraction{0.9, "9/10"}};

}  // namespace

std::string share(double least, double greatest) {
  expects(least >= 0.0 && greatest >= least, "share: the range must be in order and not negative");
  for (const Fraction& fraction : fractions) {
    if (greatest <= fraction.value + 0.005) return "at most " + std::string(fraction.text) + " of";
  }
  if (greatest <= 1.0) return "nearly all of";
  // Never round an answer onto the other side of the limit.
  const auto times = [](double ratio) {
    if (ratio < 0.95 || ratio >= 1.05) return two_figures(ratio);
    const std::string text = fmt::format("{:.2f}", ratio);
    if (text != "1.00") return text;
    return std::string(ratio <= 1.0 ? "1" : "just over 1");
  };
  if (greatest > 20.0 && least > 20.0) return "more than 20 times";
  if (greatest > 20.0) return times(least) + " to over 20 times";
  const std::string from = times(least), to = times(greatest);
  return (from == to ? to : from + " to " + to) + " times";
}

std::string rough(double si, Kind kind, UnitSystem units) {
  const double inch = *quantity::parse_si("1 in", Kind::length);
  // Fractions of an inch do not sit well beside decimals in a range.
  if (kind == Kind::length && units == UnitSystem::imperial && std::abs(si) < inch) {
    return two_figures(si / inch) + " in";
  }
  const std::string exact = quantity::print(si, kind, units);
  const auto [figure, unit] = split_unit(exact, kind);
  const quantity::Parsed<double> number = quantity::parse_number(figure);
  const bool is_plain = number && figure.find_first_of("/e") == std::string::npos;
  return is_plain && kind != Kind::slope ? two_figures(*number) + unit : exact;
}

HandPull hand_pull(UnitSystem units) {
  const double g = quantity::in_si(quantity::standard_gravity());
  if (units == UnitSystem::metric) return {"10 kg", 10.0 * g};
  return {"20 lb", *quantity::parse_si("20 lb", Kind::mass) * g};
}

std::string amount(const Finding& f, UnitSystem units) {
  if (is_pictured(f)) return pictured(f, units);
  const Range range = *ratios(f);
  if (std::isinf(range.least)) return "nothing holds it";
  return fmt::format("{} {}", share(range.least, range.greatest), what_bears(f));
}

}  // namespace standtrue::report
